package org.steamwright.house;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Which module may use which, as docs/decisions/0007-modules-and-directions.md lays down. */
class ModuleDirectionTest {

    /** A module, the modules below it that it may use, and the libraries that are its own technology. */
    enum Module {
        ASSESSMENT("assessment", List.of(), List.of()),
        CRITERIA_SETS("criteriasets", List.of("assessment"), List.of("org.snakeyaml.engine..")),
        SIMULATOR("simulator", List.of("assessment"), List.of()),
        VISIT("visit", List.of("assessment"), List.of()),
        RECORDS(
                "records",
                List.of("visit", "assessment"),
                List.of("com.fasterxml.jackson..", "org.erdtman.jcs..", "org.flywaydb..", "org.bouncycastle..")),
        INTAKE("intake", List.of("visit", "assessment"), List.of("de.siegmar.fastcsv..", "org.snakeyaml.engine..")),
        REPORT(
                "report",
                List.of("visit", "assessment"),
                List.of(
                        "com.fasterxml.jackson.core..",
                        "com.openhtmltopdf..",
                        "org.apache.pdfbox..",
                        "org.apache.fontbox..",
                        "org.apache.xmpbox..",
                        "org.apache.batik..")),
        FILING(
                "filing",
                List.of("records", "report", "intake", "criteriasets", "visit", "assessment"),
                List.of("com.fasterxml.jackson.databind..")),
        COMMAND(
                "command",
                List.of("filing", "records", "report", "intake", "criteriasets", "simulator", "visit", "assessment"),
                List.of("picocli..")),
        DESK(
                "desk",
                List.of("filing", "records", "report", "intake", "criteriasets", "simulator", "visit", "assessment"),
                List.of(
                        "jakarta.servlet..",
                        "org.eclipse.jetty..",
                        "org.pac4j..",
                        "com.nimbusds..",
                        "io.github.bucket4j..",
                        "gg.jte..",
                        "picocli..",
                        "org.bouncycastle.crypto..",
                        "com.eatthepath.otp..",
                        "com.nulabinc.zxcvbn..",
                        "io.nayuki.qrcodegen..",
                        "de.siegmar.fastcsv..",
                        "com.fasterxml.jackson.databind.."));

        private final String name;
        private final List<String> below;
        private final List<String> libraries;

        Module(String name, List<String> below, List<String> libraries) {
            this.name = name;
            this.below = below;
            this.libraries = libraries;
        }

        private String packages() {
            return packages(name);
        }

        private static String packages(String name) {
            return "org.steamwright." + name + "..";
        }

        private String[] allowed() {
            List<String> allowed = new ArrayList<>(libraries);
            allowed.add(packages());
            below.forEach(module -> allowed.add(packages(module)));
            allowed.addAll(List.of("java..", "javax..", "org.jspecify..", "org.w3c.dom..", "org.xml.sax.."));
            return allowed.toArray(String[]::new);
        }
    }

    @ParameterizedTest
    @EnumSource
    void a_module_uses_only_what_stands_below_it_and_its_own_technology(Module module) {
        classes()
                .that(resideInAPackage(module.packages()))
                .should()
                .onlyDependOnClassesThat(resideInAnyPackage(module.allowed()))
                .because("docs/decisions/0007 says so")
                .check(Program.CLASSES);
    }

    @ParameterizedTest
    @EnumSource
    void every_named_module_holds_classes(Module module) {
        assertThat(Program.CLASSES.stream()
                        .filter(c -> c.getPackageName().startsWith("org.steamwright." + module.name)))
                .as("a rule about an empty package holds nothing")
                .isNotEmpty();
    }

    @Test
    void every_class_belongs_to_a_named_module() {
        classes()
                .should()
                .resideInAnyPackage(
                        Arrays.stream(Module.values()).map(Module::packages).toArray(String[]::new))
                .check(Program.CLASSES);
    }

    @Test
    void assessment_needs_the_jdk_and_annotations_alone() {
        classes()
                .that(resideInAPackage("org.steamwright.assessment.."))
                .should()
                .onlyDependOnClassesThat(resideInAnyPackage("org.steamwright.assessment..", "java..", "org.jspecify.."))
                .check(Program.CLASSES);
    }

    @ParameterizedTest
    @ValueSource(strings = {"assessment", "visit"})
    void what_computes_touches_no_file_no_network_and_no_page(String module) {
        noClasses()
                .that(resideInAPackage(Module.packages(module)))
                .should()
                .dependOnClassesThat(resideInAnyPackage(
                        "java.io..", "java.nio.file..", "java.net..", "java.sql..", "java.awt..", "javax.."))
                .because("results are pure functions of facts and recordings")
                .check(Program.CLASSES);
    }

    @Test
    void whoever_checks_a_proof_needs_the_jdk_alone() {
        classes()
                .that(resideInAPackage("org.steamwright.records.proof.."))
                .should()
                .onlyDependOnClassesThat(
                        resideInAnyPackage("org.steamwright.records.proof..", "java..", "org.jspecify.."))
                .andShould()
                .onlyDependOnClassesThat(not(resideInAnyPackage("java.sql..", "java.nio.file..")))
                .because("a head printed on a report can be checked without the store")
                .check(Program.CLASSES);
    }

    @Test
    void files_are_opened_only_at_the_doors() {
        noClasses()
                .that(resideInAnyPackage("org.steamwright..")
                        .and(not(resideInAnyPackage(
                                "org.steamwright.intake..",
                                "org.steamwright.command..",
                                "org.steamwright.desk..",
                                "org.steamwright.simulator..",
                                "org.steamwright.criteriasets..",
                                "org.steamwright.records..",
                                "org.steamwright.filing.."))))
                .should()
                .dependOnClassesThat(resideInAPackage("java.nio.file.."))
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.io.File")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.io.FileInputStream")
                .orShould()
                .dependOnClassesThat()
                .haveFullyQualifiedName("java.io.FileOutputStream")
                .check(Program.CLASSES);
    }

    /**
     * In this order; each may use those before it. A package that needs one after it does not belong there: move the class,
     * not the line.
     */
    static final List<String> ASSESSMENT_IN_ORDER = List.of(
            "quantity",
            "remark",
            "trace",
            "uncertainty",
            "steam",
            "calibration",
            "alignment",
            "cycle",
            "lethality",
            "leakage",
            "dryness",
            "indicator",
            "plausibility",
            "criteria",
            "verdict",
            "propagation");

    @Test
    void packages_of_assessment_use_only_those_before_them() {
        for (int i = 0; i < ASSESSMENT_IN_ORDER.size(); i++) {
            String here = "org.steamwright.assessment." + ASSESSMENT_IN_ORDER.get(i) + "..";
            String[] later = ASSESSMENT_IN_ORDER.subList(i + 1, ASSESSMENT_IN_ORDER.size()).stream()
                    .map(name -> "org.steamwright.assessment." + name + "..")
                    .toArray(String[]::new);
            if (later.length > 0) {
                noClasses()
                        .that(resideInAPackage(here))
                        .should()
                        .dependOnClassesThat(resideInAnyPackage(later))
                        .because("the order is " + ASSESSMENT_IN_ORDER)
                        .check(Program.CLASSES);
            }
        }
    }

    @Test
    void every_package_of_assessment_stands_in_the_order_and_holds_classes() {
        Map<String, Long> held = Program.CLASSES.stream()
                .filter(c -> c.getPackageName().startsWith("org.steamwright.assessment"))
                .filter(c -> !c.getSimpleName().equals("package-info"))
                .collect(java.util.stream.Collectors.groupingBy(
                        c -> c.getPackageName().replaceFirst("org\\.steamwright\\.assessment\\.?", ""),
                        java.util.stream.Collectors.counting()));
        assertThat(held.keySet()).containsExactlyInAnyOrderElementsOf(ASSESSMENT_IN_ORDER);
    }

    @ParameterizedTest
    @EnumSource
    void packages_inside_a_module_form_no_cycle(Module module) {
        slices().matching("org.steamwright." + module.name + ".(**)")
                .should()
                .beFreeOfCycles()
                .allowEmptyShould(true)
                .check(Program.CLASSES);
    }
}
