package org.steamwright.house;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.type;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import java.nio.charset.Charset;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.TimeZone;
import java.util.UUID;
import java.util.concurrent.ThreadLocalRandom;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The same facts give the same bytes on every machine and in every year. */
class PurityTest {

    private static final Set<String> CLOCKS = Set.of(
            Instant.class.getName(),
            LocalDate.class.getName(),
            LocalDateTime.class.getName(),
            LocalTime.class.getName(),
            OffsetDateTime.class.getName(),
            ZonedDateTime.class.getName());

    /** Functions of Math whose last bit a Java machine may choose; StrictMath fixes it. sqrt, rint and abs are exact. */
    private static final Set<String> INEXACT = Set.of(
            "pow", "exp", "expm1", "log", "log10", "log1p", "sin", "cos", "tan", "asin", "acos", "atan", "atan2",
            "sinh", "cosh", "tanh", "hypot", "cbrt");

    @ParameterizedTest
    @ValueSource(
            strings = {"assessment", "visit", "criteriasets", "simulator", "intake", "report", "records", "filing.fleet"
            })
    void asks_no_clock_no_locale_no_charset_and_no_chance_of_the_machine(String module) {
        noClasses()
                .that(resideInAPackage("org.steamwright." + module + ".."))
                .should()
                .callMethodWhere(describe("the machine is asked", PurityTest::asksTheMachine))
                .orShould()
                .callConstructorWhere(describe(
                        "random numbers without a seed",
                        call -> call.getTargetOwner().isEquivalentTo(Random.class)
                                && call.getTarget().getRawParameterTypes().isEmpty()))
                .orShould()
                .dependOnClassesThat(type(ThreadLocalRandom.class))
                .check(Program.CLASSES);
    }

    private static boolean asksTheMachine(JavaCall<?> call) {
        JavaClass owner = call.getTargetOwner();
        String name = call.getName();
        boolean isNow = CLOCKS.contains(owner.getName())
                && name.equals("now")
                && call.getTarget().getRawParameterTypes().isEmpty();
        boolean isSystem = owner.isEquivalentTo(System.class)
                && Set.of("currentTimeMillis", "nanoTime", "getenv", "getProperty")
                        .contains(name);
        return isNow
                || isSystem
                || (owner.isEquivalentTo(Clock.class) && name.startsWith("system"))
                || (owner.isEquivalentTo(Locale.class) && name.equals("getDefault"))
                || (owner.isEquivalentTo(ZoneId.class) && name.equals("systemDefault"))
                || (owner.isEquivalentTo(TimeZone.class) && name.equals("getDefault"))
                || (owner.isEquivalentTo(Charset.class) && name.equals("defaultCharset"))
                || (owner.isEquivalentTo(UUID.class) && name.equals("randomUUID"))
                || (owner.isEquivalentTo(Math.class) && name.equals("random"));
    }

    @Test
    void assessment_computes_with_strict_math() {
        noClasses()
                .that(resideInAPackage("org.steamwright.assessment.."))
                .should()
                .callMethodWhere(describe(
                        "a function whose last bit the machine may choose",
                        call -> call.getTargetOwner().isEquivalentTo(Math.class) && INEXACT.contains(call.getName())))
                .because("verdicts must not depend on the machine; use StrictMath")
                .check(Program.CLASSES);
    }

    @Test
    void nobody_but_a_start_speaks_to_the_console_or_ends_the_program() {
        noClasses()
                .that(resideInAPackage("org.steamwright..")
                        .and(DescribedPredicate.not(
                                resideInAnyPackage("org.steamwright.command..", "org.steamwright.desk"))))
                .should()
                .accessFieldWhere(new DescribedPredicate<JavaAccess<?>>("System.out or System.err") {
                    @Override
                    public boolean test(JavaAccess<?> access) {
                        return access.getTargetOwner().isEquivalentTo(System.class)
                                && Set.of("out", "err").contains(access.getName());
                    }
                })
                .orShould()
                .callMethod(System.class, "exit", int.class)
                .check(Program.CLASSES);
    }

    private static final Pattern NUMBER_FORMAT =
            Pattern.compile("\"(?:[^\"\\\\\\n]|\\\\.)*?%[-#+ 0,(]*\\d*(?:\\.\\d+)?[dfeg](?:[^\"\\\\\\n]|\\\\.)*\"");

    /** '%d' and '%.1f' write other digits and marks in other locales; '%s' of a whole number does not. */
    @ParameterizedTest
    @ValueSource(strings = {"assessment", "visit", "report"})
    void numbers_are_formatted_for_no_locale_but_the_root(String module) {
        List<String> offences = Checkout.mainSources().stream()
                .filter(file -> Checkout.relative(file).startsWith(module + "/"))
                .flatMap(file -> {
                    String text = Checkout.text(file);
                    return NUMBER_FORMAT
                            .matcher(text)
                            .results()
                            .filter(found -> !isForRoot(text, found.start()))
                            .map(found -> Checkout.relative(file) + ": " + found.group());
                })
                .toList();
        assertThat(offences).isEmpty();
    }

    private static boolean isForRoot(String text, int start) {
        int from = Math.max(text.lastIndexOf(';', start), Math.max(text.lastIndexOf('{', start), 0));
        return text.substring(from, start).contains("Locale.ROOT");
    }

    /** Conversions and constants that would go wrong unseen if they were typed twice. */
    private static final Pattern NAKED = Pattern.compile(
            "(?<![\\w.])(273\\.15|273\\.16|6\\.894757\\w*|101\\.325|1013\\.25|101_?325|0\\.1333224\\w*|3\\.386389\\w*|98\\.0665|14\\.50377\\w*)(?![\\w])");

    private static final List<String> MAY_NAME_THEM = List.of(
            // where conversions live
            "assessment/src/main/java/org/steamwright/assessment/quantity/",
            // 273.15 K is the lower end of the formulation's range, not a conversion
            "assessment/src/main/java/org/steamwright/assessment/steam/",
            // 101.325 kPa is the sea-level constant of the standard atmosphere, not a conversion
            "assessment/src/main/java/org/steamwright/assessment/verdict/Ambient.java");

    @Test
    void conversion_factors_are_written_in_one_place() {
        List<String> offences = Checkout.mainSources().stream()
                .filter(file -> MAY_NAME_THEM.stream().noneMatch(Checkout.relative(file)::startsWith))
                .flatMap(file -> NAKED.matcher(withoutComments(Checkout.text(file)))
                        .results()
                        .map(found -> Checkout.relative(file) + ": " + found.group()))
                .toList();
        assertThat(offences)
                .as("use a unit of org.steamwright.assessment.quantity")
                .isEmpty();
    }

    private static String withoutComments(String text) {
        Matcher comments =
                Pattern.compile("/\\*.*?\\*/|//[^\\n]*", Pattern.DOTALL).matcher(text);
        return comments.replaceAll("");
    }

    private static DescribedPredicate<JavaCall<?>> describe(
            String what, java.util.function.Predicate<JavaCall<?>> predicate) {
        return new DescribedPredicate<>(what) {
            @Override
            public boolean test(JavaCall<?> call) {
                return predicate.test(call);
            }
        };
    }
}
