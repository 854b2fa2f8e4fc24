package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class MistakePagesTest {

    private static final Path MESSAGES = Examples.ROOT.resolve("docs/messages");

    @Test
    void every_id_has_a_page_and_every_page_an_id() throws IOException {
        List<String> ids =
                Arrays.stream(Mistake.values()).map(Mistake::id).sorted().toList();
        try (Stream<Path> pages = Files.list(MESSAGES)) {
            assertThat(pages.map(page -> page.getFileName().toString())
                            .filter(name -> name.startsWith("VISIT-"))
                            .map(name -> name.replace(".md", ""))
                            .sorted())
                    .isEqualTo(ids);
        }
        assertThat(ids).doesNotHaveDuplicates();
    }

    @ParameterizedTest
    @EnumSource(Mistake.class)
    void a_page_says_what_it_means_and_what_to_do(Mistake mistake) throws IOException {
        assertThat(Files.readString(MESSAGES.resolve(mistake.id() + ".md")))
                .startsWith("# " + mistake.id() + " ")
                .contains("\n## What it means\n", "\n## What to do\n");
    }
}
