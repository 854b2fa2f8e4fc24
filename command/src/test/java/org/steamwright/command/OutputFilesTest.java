package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class OutputFilesTest {
    static final String OURS =
            "{\"format\": \"steamwright-result\", \"inputs\": [{\"sha256\": \"aa\"}], \"version\": 1}";
    static final String OURS_LATER =
            "{\"format\": \"steamwright-result\", \"inputs\": [{\"sha256\": \"aa\"}], \"version\": 2}";
    static final String OF_ANOTHER_RECORDING =
            "{\"format\": \"steamwright-result\", \"inputs\": [{\"sha256\": \"bb\"}], \"version\": 1}";

    @TempDir
    Path folder;

    @Test
    void files_are_written_where_nothing_was() throws IOException {
        List<OutputFiles.Placed> placed = OutputFiles.place(folder.resolve("new"), pair(OURS), false);
        assertThat(placed)
                .extracting(OutputFiles.Placed::fate)
                .containsExactly(OutputFiles.Fate.WRITTEN, OutputFiles.Fate.WRITTEN);
        assertThat(folder.resolve("new/result.json")).hasContent(OURS);
    }

    @Test
    void the_same_bytes_are_left_as_they_are() throws IOException {
        OutputFiles.place(folder, pair(OURS), false);
        assertThat(OutputFiles.place(folder, pair(OURS), false))
                .extracting(OutputFiles.Placed::fate)
                .containsOnly(OutputFiles.Fate.UNCHANGED);
        assertThat(names()).containsExactlyInAnyOrder("result.json", "report.pdf");
    }

    @Test
    void a_later_result_gets_a_number_and_both_files_carry_it() throws IOException {
        OutputFiles.place(folder, pair(OURS), false);
        OutputFiles.place(folder, pair(OURS_LATER), false);
        assertThat(folder.resolve("result.json")).hasContent(OURS);
        assertThat(folder.resolve("result-2.json")).hasContent(OURS_LATER);
        assertThat(names()).contains("report-2.pdf");
    }

    @Test
    void an_earlier_result_of_the_same_recordings_gives_way_when_told_so() throws IOException {
        OutputFiles.place(folder, pair(OURS), false);
        assertThat(OutputFiles.place(folder, pair(OURS_LATER), true))
                .extracting(OutputFiles.Placed::fate)
                .containsExactly(OutputFiles.Fate.REPLACED, OutputFiles.Fate.REPLACED);
        assertThat(folder.resolve("result.json")).hasContent(OURS_LATER);
        assertThat(names()).containsExactlyInAnyOrder("result.json", "report.pdf");
    }

    @Test
    void a_result_of_other_recordings_never_gives_way() throws IOException {
        OutputFiles.place(folder, pair(OF_ANOTHER_RECORDING), false);
        OutputFiles.place(folder, pair(OURS), true);
        assertThat(folder.resolve("result.json")).hasContent(OF_ANOTHER_RECORDING);
        assertThat(folder.resolve("result-2.json")).hasContent(OURS);
    }

    @Test
    void a_file_that_somebody_else_made_never_gives_way() throws IOException {
        Files.writeString(folder.resolve("report.pdf"), "my own report");
        OutputFiles.place(folder, pair(OURS), true);
        assertThat(folder.resolve("report.pdf")).hasContent("my own report");
        assertThat(names()).containsExactlyInAnyOrder("report.pdf", "result-2.json", "report-2.pdf");
    }

    @Test
    void a_link_is_not_followed() throws IOException {
        Path elsewhere = Files.writeString(folder.resolve("elsewhere"), OURS);
        Files.createSymbolicLink(folder.resolve("result.json"), elsewhere);
        OutputFiles.place(folder, pair(OURS_LATER), true);
        assertThat(elsewhere).hasContent(OURS);
        assertThat(folder.resolve("result-2.json")).hasContent(OURS_LATER);
    }

    @Test
    void no_part_is_left_behind() throws IOException {
        OutputFiles.place(folder, pair(OURS), false);
        OutputFiles.place(folder, pair(OURS_LATER), false);
        assertThat(names()).noneMatch(name -> name.endsWith(".part"));
    }

    private List<String> names() throws IOException {
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(path -> path.getFileName().toString()).toList();
        }
    }

    private static Map<String, byte[]> pair(String json) {
        Map<String, byte[]> files = new LinkedHashMap<>();
        files.put("result.json", json.getBytes(StandardCharsets.UTF_8));
        files.put(
                "report.pdf",
                ("%PDF-1.7 Steamwright " + json.hashCode()).getBytes(StandardCharsets.UTF_8));
        return files;
    }
}
