package org.steamwright.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class IntakeMessageTest {

    static final Path PAGES = Path.of(System.getProperty("steamwright.root"), "docs", "messages");
    static final Path READERS = Path.of("src/main/java/org/steamwright/intake");

    @Test
    void every_message_has_one_page_and_every_page_one_message() throws IOException {
        List<String> ids = Stream.of(IntakeMessage.values())
                .map(IntakeMessage::id)
                .sorted()
                .toList();
        assertThat(ids).doesNotHaveDuplicates();
        try (Stream<Path> pages = Files.list(PAGES)) {
            List<String> named = pages.map(page -> page.getFileName().toString())
                    .filter(name -> name.matches("INTAKE-0\\d\\d\\.md"))
                    .map(name -> name.substring(0, name.length() - 3))
                    .sorted()
                    .toList();
            assertThat(named).isEqualTo(ids);
        }
    }

    @ParameterizedTest
    @EnumSource
    void each_page_says_what_it_means_why_it_matters_and_what_to_do(IntakeMessage message) throws IOException {
        String page = Files.readString(PAGES.resolve(message.id() + ".md"));
        assertThat(page)
                .startsWith("# " + message.id() + ": ")
                .contains("**What it means.** ", "**Why it matters.** ", "**What to do.** ");
    }

    @Test
    void every_message_is_said_by_a_reader() throws IOException {
        StringBuilder code = new StringBuilder();
        try (Stream<Path> files = Files.walk(READERS)) {
            for (Path reader : files.filter(Files::isRegularFile).sorted().toList()) {
                code.append(Files.readString(reader));
            }
        }
        List<IntakeMessage> unsaid = new ArrayList<>();
        for (IntakeMessage message : IntakeMessage.values()) {
            if (!Pattern.compile("IntakeMessage\\." + message.name() + "\\b")
                    .matcher(code)
                    .find()) {
                unsaid.add(message);
            }
        }
        assertThat(unsaid).isEmpty();
    }
}
