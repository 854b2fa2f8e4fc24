package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The reference pages of the command line are made here; -Dgolden=write writes them anew. */
class CommandPagesTest {
    @Test
    void the_page_of_the_commands_is_that_of_the_program() throws IOException {
        StringBuilder page = new StringBuilder("# Command line\n\n");
        page.append("What `--help` shows, written by a test. Exit statuses have [a page of their own](exit-statuses.md).\n");
        page.append("\n```\n")
                .append(Commands.overview(false).getUsageMessage().stripTrailing())
                .append("\n```\n");
        for (String word : Commands.words()) {
            page.append("\n## ").append(word).append("\n\n```\n");
            page.append(Commands.parser(Commands.get(word), word, false)
                    .getUsageMessage()
                    .stripTrailing());
            page.append("\n```\n");
        }
        holds("command-line.md", page.toString());
    }

    @Test
    void the_page_of_the_exit_statuses_is_that_of_the_program() throws IOException {
        StringBuilder page = new StringBuilder("# Exit statuses\n\n");
        page.append("What the program could not do and what the steriliser did not do never share a number.\n");
        page.append("Written by a test.\n\n| status | meaning |\n|---|---|\n");
        for (ExitStatus status : ExitStatus.values()) {
            page.append("| ").append(status.number()).append(" | ").append(status.meaning()).append(" |\n");
        }
        page.append("\nA visit ends with 0 only if every qualification in it passes. A run that failed and was made good by")
                .append("\nlater runs does not keep the visit from passing; the report lists it all the same. A single recording")
                .append("\nends with the status of its run. `demo` ends with 0 when it could show its verdicts, although one of its")
                .append("\nruns is meant to fail.\n");
        holds("exit-statuses.md", page.toString());
    }

    private static void holds(String name, String text) throws IOException {
        Path page = Path.of(System.getProperty("steamwright.root"), "docs", "reference", name);
        String wanted = text.replace("\r\n", "\n");
        if ("write".equals(System.getProperty("golden"))) {
            Files.createDirectories(page.getParent());
            Files.writeString(page, wanted);
        }
        assertThat(page).as("write it with -Dgolden=write").content().isEqualTo(wanted);
    }
}
