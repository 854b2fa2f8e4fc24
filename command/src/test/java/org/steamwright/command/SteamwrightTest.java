package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.report.result.ResultJson;

class SteamwrightTest {
    @TempDir
    static Path folder;

    static Session session;
    static Session.Said demo;
    static Session.Said quiet;

    @BeforeAll
    static void make_the_demo_once() throws IOException {
        session = new Session(folder);
        demo = session.run("demo");
        quiet = session.run("assess", "demo", "--quiet", "--no-report");
        Files.writeString(folder.resolve("run.csv"), Cycle.good());
    }

    @Test
    void the_demo_shows_a_failing_run_with_its_reason_and_where_the_report_lies() {
        assertThat(demo.err()).isEmpty();
        assertThat(demo.status()).isEqualTo(ExitStatus.PASS);
        assertThat(demo.out())
                .startsWith("SIMULATED")
                .contains("FAIL  Run 13")
                .contains("180 s are required")
                .endsWith(
                        "The report lies in demo/report.pdf, beside it a certificate of one page for each steriliser.\n");
        assertThat(folder.resolve("demo/report.pdf")).isNotEmptyFile();
        assertThat(folder.resolve("demo/certificate-EX-1001.pdf")).isNotEmptyFile();
    }

    @Test
    void a_report_and_its_certificates_come_in_the_languages_that_are_asked_for() throws IOException {
        Session.Said said = session.run(
                "assess", "demo", "--quiet", "--certificates", "--language", "en,de", "--out", "two-languages");
        assertThat(said.err()).isEmpty();
        try (Stream<Path> files = Files.list(folder.resolve("two-languages"))) {
            assertThat(files.map(file -> file.getFileName().toString()))
                    .containsExactlyInAnyOrder(
                            "result.json",
                            "report.pdf",
                            "report.de.pdf",
                            "certificate-EX-1001.pdf",
                            "certificate-EX-1001.de.pdf",
                            "certificate-EX-2002.pdf",
                            "certificate-EX-2002.de.pdf");
        }
        assertThat(folder.resolve("two-languages/report.pdf"))
                .as("the English report is the same whatever else is asked for")
                .hasSameBinaryContentAs(folder.resolve("demo/report.pdf"));
    }

    @Test
    void a_language_in_which_there_are_no_documents_is_refused_with_those_there_are() {
        Session.Said said = session.run("assess", "demo", "--language", "de,it");
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(said.err()).contains("found 'it'", "en (English), de (Deutsch), fr (français)", "--language en,de");
    }

    @Test
    void the_demo_can_be_repeated_and_changes_nothing() throws IOException {
        TreeMap<String, String> once = session.files();
        Session.Said again = session.run("demo", "--no-report");
        assertThat(again.status()).isEqualTo(ExitStatus.PASS);
        assertThat(again.out()).contains("Already there, unchanged: demo/result.json");
        assertThat(session.files()).isEqualTo(once);
    }

    @Test
    void the_demo_leaves_a_foreign_folder_alone() throws IOException {
        Session own = new Session(Files.createDirectory(folder.resolve("foreign")));
        own.write("letter.txt", "mine");
        Session.Said said = own.run("demo", "--out", ".");
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(own.files()).isEqualTo(Map.of("letter.txt", "mine"));
    }

    @Test
    void a_visit_with_a_failing_run_ends_with_the_status_of_a_fail() {
        assertThat(quiet.status()).isEqualTo(ExitStatus.FAIL);
    }

    @Test
    void json_goes_to_standard_output_alone_and_follows_the_published_schema() throws IOException {
        TreeMap<String, String> before = session.files();
        Session.Said said = session.run("assess", "demo", "--json");
        assertThat(said.err()).isEmpty();
        assertThat(session.files()).isEqualTo(before);
        try (InputStream schema = ResultJson.class.getResourceAsStream(ResultJson.SCHEMA)) {
            assertThat(JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                            .getSchema(schema)
                            .validate(new ObjectMapper().readTree(said.out())))
                    .isEmpty();
        }
        assertThat(said.out()).isEqualTo(Files.readString(folder.resolve("demo/result.json")));
    }

    @Test
    void every_schema_is_printed_as_json() throws IOException {
        for (String format :
                new String[] {"visit", "result", "criteria", "register", "load", "due", "plan", "covered"}) {
            Session.Said said = session.run("schema", format);
            assertThat(new ObjectMapper().readTree(said.out()).get("$schema").textValue())
                    .as(format)
                    .isEqualTo("https://json-schema.org/draft/2020-12/schema");
        }
        assertThat(session.run("schema", "else").status()).isEqualTo(ExitStatus.USAGE);
    }

    @Test
    void plain_output_is_one_fact_a_line() {
        Session.Said said = session.run("assess", "demo", "--plain", "--no-report");
        assertThat(said.out().lines())
                .contains("visit\tstanding\tfail", "run\t13\tverdict\tfail", "run\t3\tverdict\tpass")
                .allMatch(line -> line.split("\t", -1).length >= 3);
    }

    @Test
    void quiet_output_is_none() {
        assertThat(quiet.out()).isEmpty();
        assertThat(quiet.err()).isEmpty();
    }

    @Test
    void all_that_is_open_about_a_recording_is_told_with_the_option_that_answers_it() {
        Session.Said said = session.run("assess", "run.csv");
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(said.err()).contains("--criteria: ").contains("--kind: ").contains("eu-en13060");
        Session.Said next = session.run("assess", "run.csv", "--criteria", "eu-en13060", "--kind", "empty-chamber");
        assertThat(next.err()).contains("--type: B or N or S").contains("--at: ");
    }

    @Test
    void somebody_at_the_terminal_is_asked_only_for_what_the_file_cannot_tell() {
        Session.Said said =
                session.answered("eu-en13060\n1\nN\n121 °C\n", "assess", "run.csv", "--hold", "15 min", "--json");
        assertThat(said.err())
                .contains("By which limits")
                .contains("What was tested?")
                .contains("Of which type")
                .doesNotContain("absolute or gauge")
                .doesNotContain("time zone");
        assertThat(said.out()).startsWith("{");
    }

    @Test
    void nobody_is_asked_with_no_input() {
        Session.Said said = session.answered("eu-en13060\n1\nN\n121 °C\n", "assess", "run.csv", "--no-input");
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
    }

    @Test
    void an_empty_answer_ends_the_questions() {
        assertThat(session.answered("", "assess", "run.csv").status()).isEqualTo(ExitStatus.USAGE);
    }

    @Test
    void an_option_for_recordings_is_refused_for_a_visit() {
        Session.Said said = session.run("assess", "demo", "--at", "121 °C");
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(said.err()).contains("--at").contains("visit.yaml");
    }

    @Test
    void reading_shows_columns_clock_gaps_and_a_plot() {
        Session.Said said = session.run("read", "run.csv");
        assertThat(said.status()).isEqualTo(ExitStatus.PASS);
        assertThat(said.out())
                .contains("Interval  1 s (median)")
                .contains("Gaps      none")
                .contains("elapsed time only")
                .contains("T1")
                .contains("a T1")
                .contains("aaaa");
    }

    @Test
    void a_terminal_without_unicode_gets_plain_letters() {
        Session.Said said =
                session.run(new Surroundings.Terminal(false, true, false, false, false), "", "read", "run.csv");
        assertThat(said.out().chars().allMatch(sign -> sign < 0x80)).isTrue();
        assertThat(said.out()).contains("degC");
    }

    @Test
    void nothing_is_styled_unless_somebody_looks() {
        assertThat(demo.out()).doesNotContain("\u001b");
        Session.Said styled = session.run(
                new Surroundings.Terminal(false, true, false, true, true), "", "assess", "demo", "--no-report");
        assertThat(styled.out()).contains("\u001b[1;7m FAIL \u001b[0m");
    }

    @Test
    void a_mistyped_command_or_option_is_met_with_the_right_word() {
        assertThat(session.run("asess", "demo").err()).contains("Did you mean 'assess'?");
        Session.Said option = session.run("assess", "demo", "--jsn");
        assertThat(option.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(option.err()).contains("Did you mean --json?");
    }

    @Test
    void no_word_at_all_shows_the_help_and_is_a_usage_error() {
        Session.Said said = session.run();
        assertThat(said.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(said.out()).contains("assess").contains("demo");
    }

    @Test
    void versions_are_told() {
        assertThat(session.run("--version").out())
                .startsWith("Steamwright " + ResultJson.PROGRAM_VERSION + "\n")
                .contains("rules and algorithms, version ")
                .contains("Java ");
    }

    @Test
    void criteria_are_listed_and_shown_with_their_sources() {
        assertThat(session.run("criteria").out()).contains("eu-en13060").contains("au-as5369");
        assertThat(session.run("criteria", "eu-en13060").out())
                .contains("EN 13060")
                .contains("Holding time")
                .contains("confidence");
        Session.Said unknown = session.run("criteria", "nowhere");
        assertThat(unknown.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(unknown.err()).contains("eu-en13060");
    }

    @Test
    void every_command_has_examples_and_every_example_works_where_the_demo_is() throws IOException {
        session.office();
        for (String word : Commands.words()) {
            assertThat(Commands.get(word).examples()).as(word).isNotEmpty();
            for (String example : Commands.get(word).examples()) {
                Session.Said said = session.line("some words to lock with\n", example);
                if (word.equals("sign") || word.equals("amend")) {
                    // only the demo is there, and what is invented is never signed
                    assertThat(said.status()).as(example).isEqualTo(ExitStatus.UNREADABLE);
                } else if (word.equals("desk")) {
                    // the launcher starts its own jar; here only the way there is told
                    assertThat(said.err()).as(example).contains("./steamwright desk");
                } else {
                    assertThat(said.status())
                            .as(example + "\n" + said.err())
                            .isIn(ExitStatus.PASS, ExitStatus.FAIL, ExitStatus.OPEN);
                }
            }
            Session.Said help = session.run(word, "--help");
            assertThat(help.status()).isEqualTo(ExitStatus.PASS);
            assertThat(help.out()).contains("Usage: steamwright " + word).contains("Examples:");
        }
    }

    @Test
    void a_fault_of_the_program_is_called_one() {
        BufferedReader broken = new BufferedReader(Reader.nullReader()) {
            @Override
            public String readLine() {
                throw new IllegalStateException("broken on purpose");
            }
        };
        ByteArrayOutputStream err = new ByteArrayOutputStream();
        ExitStatus status = Steamwright.run(
                new Surroundings(
                        folder,
                        broken,
                        OutputStream.nullOutputStream(),
                        err,
                        new Surroundings.Terminal(true, false, false, false, true)),
                "assess",
                "run.csv");
        assertThat(status).isEqualTo(ExitStatus.FAULT);
        assertThat(err.toString(StandardCharsets.UTF_8))
                .contains("this is a fault of the program")
                .contains("arguments: assess run.csv")
                .contains("broken on purpose");
    }

    @Test
    void a_full_disk_is_told_apart_from_a_verdict() {
        OutputStream full = new OutputStream() {
            @Override
            public void write(int octet) throws IOException {
                throw new IOException("no space left");
            }
        };
        assertThat(Steamwright.run(
                        new Surroundings(
                                folder,
                                new BufferedReader(Reader.nullReader()),
                                full,
                                OutputStream.nullOutputStream(),
                                Surroundings.Terminal.NONE),
                        "criteria"))
                .isEqualTo(ExitStatus.SURROUNDINGS);
    }

    @Test
    void a_name_that_no_file_can_have_is_a_usage_error() {
        assertThat(session.run("assess", "a\0b").status()).isEqualTo(ExitStatus.USAGE);
    }
}
