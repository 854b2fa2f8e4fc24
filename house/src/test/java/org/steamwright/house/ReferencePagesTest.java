package org.steamwright.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaModifier;
import java.io.IOException;
import java.lang.reflect.Method;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.CriterionId;

/** Every criterion and every message has its page, and no page is about something that is gone. */
class ReferencePagesTest {

    @Test
    void every_criterion_has_its_page_and_every_page_its_criterion() {
        Set<String> pages = names("docs/criteria");
        Set<String> criteria = Arrays.stream(CriterionId.values())
                .map(CriterionId::word)
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(pages).isEqualTo(criteria);
    }

    @Test
    void every_message_has_its_page_and_every_page_its_message() throws ReflectiveOperationException {
        Pattern id = Pattern.compile("(?m)^#{1,4} +`?([A-Z]{4,}-\\d{3})\\b");
        Set<String> explained = new TreeSet<>();
        Checkout.pages().stream()
                .filter(page -> Checkout.relative(page).startsWith("docs/messages/"))
                .forEach(page -> id.matcher(Checkout.text(page))
                        .results()
                        .map(found -> found.group(1))
                        .forEach(explained::add));
        assertThat(explained).isEqualTo(idsInCode());
    }

    @Test
    void every_public_word_of_the_science_and_the_visit_stands_in_the_glossary() {
        String glossary = Checkout.text(Checkout.ROOT.resolve("docs/glossary.md"));
        assertThat(Program.CLASSES.stream()
                        .filter(c -> c.getPackageName().matches("org\\.steamwright\\.(assessment|visit)(\\..*)?"))
                        .filter(c -> c.isTopLevelClass() && c.getModifiers().contains(JavaModifier.PUBLIC))
                        .map(JavaClass::getSimpleName)
                        .filter(name -> !glossary.contains("`" + name + "`")))
                .isEmpty();
    }

    private static final Path INDEX = Checkout.ROOT.resolve("docs/messages/README.md");

    /** The index is made from the titles of the pages; {@code -Ddocs.write=true} writes it anew. */
    @Test
    void the_index_of_messages_names_every_page() throws IOException {
        StringBuilder index = new StringBuilder("""
                # Messages

                A message has an id that never changes its meaning, says where it was seen, what was found, what was
                expected and what to do. Its page says more. Messages about a recording stay with the run and are printed in
                the report; those of rank *doubt* have to be answered before anybody signs.

                """);
        Pattern title = Pattern.compile("(?m)\\A# `?([A-Z]+-\\d{3})`?:? *(.*)$");
        for (Path page : Checkout.pages()) {
            if (Checkout.relative(page).startsWith("docs/messages/") && !page.equals(INDEX)) {
                Matcher found = title.matcher(Checkout.text(page));
                assertThat(found.find())
                        .as("%s begins with its id and what it says", page)
                        .isTrue();
                index.append("- [%s](%s): %s\n".formatted(found.group(1), page.getFileName(), found.group(2)));
            }
        }
        if (Boolean.getBoolean("docs.write")) {
            Files.writeString(INDEX, index);
        }
        assertThat(Checkout.text(INDEX)).isEqualTo(index.toString());
    }

    /** Ids are made by enums called …Message with a method id(), or stand in the code as they are. */
    private static Set<String> idsInCode() throws ReflectiveOperationException {
        Set<String> ids = new TreeSet<>();
        for (JavaClass message : Program.CLASSES) {
            if (message.isEnum() && message.getSimpleName().endsWith("Message")) {
                Class<?> loaded = Class.forName(message.getName());
                Method id = loaded.getDeclaredMethod("id");
                id.setAccessible(true);
                for (Object constant : loaded.getEnumConstants()) {
                    ids.add((String) id.invoke(constant));
                }
            }
        }
        Pattern literal = Pattern.compile("\"([A-Z]{4,}-\\d{3})[\" ]");
        for (Path source : Checkout.mainSources()) {
            literal.matcher(Checkout.text(source))
                    .results()
                    .map((MatchResult found) -> found.group(1))
                    .forEach(ids::add);
        }
        return ids;
    }

    private static Set<String> names(String folder) {
        return Checkout.pages().stream()
                .map(Checkout::relative)
                .filter(path -> path.startsWith(folder + "/") && !path.endsWith("/README.md"))
                .map(path -> path.substring(path.lastIndexOf('/') + 1, path.length() - ".md".length()))
                .collect(Collectors.toCollection(TreeSet::new));
    }
}
