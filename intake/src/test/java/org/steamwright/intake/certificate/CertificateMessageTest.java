package org.steamwright.intake.certificate;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class CertificateMessageTest {

    private static final Path ROOT = Path.of(System.getProperty("steamwright.root"));
    private static final Path PAGES = ROOT.resolve("docs/messages");
    private static final Path READERS = ROOT.resolve("intake/src/main/java/org/steamwright/intake/certificate");

    @Test
    void every_message_has_one_page_and_every_page_one_message() throws IOException {
        List<String> ids = Stream.of(CertificateMessage.values())
                .map(CertificateMessage::id)
                .sorted()
                .toList();
        assertThat(ids).doesNotHaveDuplicates();
        try (Stream<Path> pages = Files.list(PAGES)) {
            assertThat(pages.map(page -> page.getFileName().toString())
                            .filter(name -> name.startsWith("CERTIFICATE-"))
                            .map(name -> name.replace(".md", ""))
                            .sorted())
                    .isEqualTo(ids);
        }
    }

    @ParameterizedTest
    @EnumSource
    void each_page_says_what_it_means_why_it_matters_and_what_to_do(CertificateMessage message) throws IOException {
        assertThat(Files.readString(PAGES.resolve(message.id() + ".md")))
                .startsWith("# " + message.id() + ": ")
                .contains("**What it means.** ", "**Why it matters.** ", "**What to do.** ");
    }

    @ParameterizedTest
    @EnumSource
    void every_message_is_said_by_a_reader(CertificateMessage message) throws IOException {
        StringBuilder code = new StringBuilder();
        try (Stream<Path> files = Files.list(READERS)) {
            for (Path file : files.sorted().toList()) {
                code.append(Files.readString(file));
            }
        }
        assertThat(code).contains("CertificateMessage." + message.name());
    }
}
