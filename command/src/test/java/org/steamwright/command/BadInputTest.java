package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whatever is wrong with a recording: a clear message, no pass, and every file as it was. */
class BadInputTest {
    @TempDir
    Path folder;

    Session session;

    @BeforeEach
    void open() {
        session = new Session(folder);
    }

    @Test
    void an_empty_file_is_unreadable() throws IOException {
        refused("", ExitStatus.UNREADABLE, "run.csv", "INTAKE-004");
    }

    @Test
    void one_row_is_no_recording() throws IOException {
        refused("Time [s],T1 [°C]\n0,20.0\n", ExitStatus.UNREADABLE, "run.csv", "INTAKE-011");
    }

    @Test
    void text_among_numbers_is_named_with_row_and_column() throws IOException {
        String text = Cycle.good();
        String[] lines = text.split("\n", -1);
        for (int i = 400; i < 900; i++) {
            lines[i] = lines[i].substring(0, lines[i].indexOf(',')) + ",error,101.3";
        }
        Session.Said said = refusedOrNoPass(String.join("\n", lines));
        assertThat(said.out() + said.err()).contains("T1").contains("error");
    }

    @Test
    void a_channel_that_is_not_in_the_file_is_named_with_those_that_are() throws IOException {
        session.write("run.csv", Cycle.good());
        Session.Said said = assess("--channel", "T9=reference-point");
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(said.err()).contains("T9").contains("T1");
    }

    @Test
    void an_unknown_unit_is_refused_or_asked_never_guessed() throws IOException {
        session.write("run.csv", Cycle.good().replace("[°C]", "[furlong]"));
        Session.Said said = assess();
        assertThat(said.status()).isIn(ExitStatus.USAGE, ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("T1").contains("furlong");
    }

    @Test
    void an_unknown_unit_on_the_command_line_is_refused() throws IOException {
        session.write("run.csv", Cycle.good());
        Session.Said said = assess("--unit", "T1=furlong");
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(said.err()).contains("furlong").contains("°C");
    }

    @Test
    void a_wrong_delimiter_gives_no_pass() throws IOException {
        session.write("run.csv", Cycle.good());
        Map<String, String> before = session.files();
        Session.Said said = assess("--delimiter", "semicolon");
        assertThat(said.status()).isIn(ExitStatus.USAGE, ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("run.csv");
        assertThat(session.files()).isEqualTo(before);
    }

    @Test
    void a_last_line_that_was_cut_is_remarked_and_the_rest_is_used() throws IOException {
        String text = Cycle.good();
        session.write("run.csv", text.substring(0, text.length() - 4));
        Session.Said said = session.run("read", "run.csv");
        assertThat(said.status()).isEqualTo(ExitStatus.PASS);
        assertThat(said.out()).contains("1599 samples").contains("INTAKE-033");
    }

    @Test
    void a_binary_file_is_unreadable() throws IOException {
        byte[] noise = new byte[4000];
        for (int i = 0; i < noise.length; i++) {
            noise[i] = (byte) (i * 31 % 256);
        }
        Files.write(folder.resolve("run.csv"), noise);
        Session.Said said = assess();
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("run.csv").contains("INTAKE-0");
    }

    @Test
    void two_gigabytes_are_refused_at_once() throws IOException {
        try (RandomAccessFile file =
                new RandomAccessFile(folder.resolve("run.csv").toFile(), "rw")) {
            file.setLength(2L << 30);
        }
        Session.Said said = assess();
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("run.csv").contains("INTAKE-006");
    }

    @Test
    void the_same_visit_passes_when_nothing_is_wrong_with_its_recording() throws IOException {
        Session.Said said = assessVisit(Cycle.good());
        assertThat(said.status()).as(said.out() + said.err()).isEqualTo(ExitStatus.PASS);
        assertThat(said.out()).startsWith("PASS");
    }

    @Test
    void a_cycle_without_a_plateau_does_not_pass() throws IOException {
        Session.Said said = assessVisit(Cycle.peakingAt(115));
        assertThat(said.status()).isIn(ExitStatus.FAIL, ExitStatus.OPEN);
        assertThat(said.out()).contains("121 °C").contains("Holding time");
    }

    @Test
    void a_recording_that_ends_in_the_hold_does_not_pass() throws IOException {
        Session.Said said = assessVisit(Cycle.cutAfter(Cycle.HEAT + 950));
        assertThat(said.status()).isIn(ExitStatus.FAIL, ExitStatus.OPEN);
        assertThat(said.out()).contains("ends");
    }

    @Test
    void a_gap_inside_the_hold_does_not_pass() throws IOException {
        Session.Said said = assessVisit(Cycle.withGap(200));
        assertThat(said.status()).isIn(ExitStatus.FAIL, ExitStatus.OPEN);
        assertThat(said.out()).contains("has no sample between");
    }

    @Test
    void a_file_that_is_not_there_is_named() {
        Session.Said said = session.run("assess", "nowhere.csv");
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("nowhere.csv: there is no such file or folder.");
    }

    @Test
    void a_folder_without_a_visit_says_what_to_write() {
        Session.Said said = session.run("assess", ".");
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("visit.yaml");
    }

    private Session.Said assessVisit(String recording) throws IOException {
        session.write("visit.yaml", Cycle.visit());
        session.write("run.csv", recording);
        Session.Said said = session.run("assess", ".", "--no-report");
        assertThat(folder.resolve("run.csv")).hasContent(recording);
        assertThat(folder.resolve("visit.yaml")).hasContent(Cycle.visit());
        return said;
    }

    private void refused(String text, ExitStatus status, String... words) throws IOException {
        session.write("run.csv", text);
        Map<String, String> before = session.files();
        Session.Said said = assess();
        assertThat(said.status()).isEqualTo(status);
        assertThat(said.err()).contains(words);
        assertThat(said.out()).isEmpty();
        assertThat(session.files()).isEqualTo(before);
    }

    private Session.Said refusedOrNoPass(String text) throws IOException {
        session.write("run.csv", text);
        Session.Said said = assess();
        assertThat(said.status()).isNotEqualTo(ExitStatus.PASS).isNotEqualTo(ExitStatus.FAULT);
        assertThat(said.out() + said.err()).isNotBlank();
        assertThat(Files.readString(folder.resolve("run.csv"))).isEqualTo(text);
        return said;
    }

    private Session.Said assess(String... more) {
        String[] usual = {
            "assess",
            "run.csv",
            "--kind",
            "empty-chamber",
            "--type",
            "N",
            "--at",
            "121 °C",
            "--hold",
            "15 min",
            "--criteria",
            "eu-en13060",
            "--no-report"
        };
        String[] all = new String[usual.length + more.length];
        System.arraycopy(usual, 0, all, 0, usual.length);
        System.arraycopy(more, 0, all, usual.length, more.length);
        return session.run(all);
    }
}
