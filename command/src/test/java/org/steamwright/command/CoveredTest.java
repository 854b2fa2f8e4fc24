package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Today's load, asked of a folder and of a record; and what a correction and a withdrawal do to the answer. */
class CoveredTest {

    private static final String LINE =
            "steamwright covered %s --sterilizer EX-1001 --cycle '134 wrapped' --on 2026-03-05 --item '%s'";
    private static final String SMALL = "4 cassettes, solid, pouch";
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    Path folder;

    Session session;
    String by;

    @BeforeEach
    void make_the_demo() throws IOException {
        session = new Session(folder);
        assertThat(session.run("demo", "--no-report", "--quiet").status()).isEqualTo(ExitStatus.PASS);
        DemoRecord.makeReal(folder.resolve("demo"));
        by = DemoRecord.technician(folder.resolve("demo"));
    }

    private Session.Said said(ExitStatus status, Session.Said said) {
        assertThat(said.status()).as(said.err() + said.out()).isEqualTo(status);
        return said;
    }

    private Session.Said ask(ExitStatus status, String place, String item, String more) {
        String mass = more.contains("--mass") ? "" : " --mass '2 kg'";
        String tests = more.contains("--tests-passed") ? "" : " --tests-passed yes";
        return said(status, session.line(LINE.formatted(place, item) + mass + tests + more));
    }

    @Test
    void a_folder_answers_for_itself_with_every_reason() {
        assertThat(ask(ExitStatus.PASS, "demo", SMALL, "").out())
                .startsWith(
                        "COVERED\n  Steriliser EX-1001, cycle 134 wrapped, 2026-03-05\n  4 × cassettes, solid, pouch\n")
                .contains("Tested load: three trays")
                .contains("A folder answers for itself");
        assertThat(ask(ExitStatus.FAIL, "demo", "900 cassettes, solid, crate of oak", " --mass '40 kg'")
                        .out())
                .startsWith("NOT COVERED\n")
                .contains("- The load weighs more than the one that was tested.")
                .contains("- Nothing as hard as ‘cassettes’ (solid, crate of oak) was in the tested load.")
                .doesNotContain("Tested load: ");
        assertThat(session.line("steamwright covered demo --sterilizer B --cycle '134 wrapped' --on 2026-03-05 --item '"
                                + SMALL + "'")
                        .out())
                .as("steriliser B left air in its pack")
                .startsWith("NOT COVERED\n");
    }

    @Test
    void what_is_not_stated_is_not_covered() {
        assertThat(said(ExitStatus.FAIL, session.line(LINE.formatted("demo", SMALL) + " --mass '2 kg'"))
                        .out())
                .startsWith("NOT YET: TEST FIRST\n");
        assertThat(said(ExitStatus.FAIL, session.line(LINE.formatted("demo", SMALL) + " --tests-passed yes"))
                        .out())
                .startsWith("NOT COVERED\n")
                .contains("- The tested load was weighed and today's load was not. State its mass.");
    }

    @Test
    void the_answer_as_json_follows_its_schema() throws IOException {
        String schema = session.run("schema", "covered").out();
        for (String item : new String[] {SMALL, "900 cassettes, porous, crate"}) {
            JsonNode json = JSON.readTree(session.line(
                            LINE.formatted("demo", item) + " --json --tests-passed yes --drying '1 s' --cycle-number 7")
                    .out());
            assertThat(JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                            .getSchema(schema)
                            .validate(json))
                    .isEmpty();
            assertThat(json.get("covered").asBoolean()).isFalse();
            assertThat(json.get("reasons").get(0).asText())
                    .isEqualTo("The drying is set shorter than what was tested.");
            assertThat(json.get("cycleNumber").asInt()).isEqualTo(7);
        }
        JsonNode covered =
                JSON.readTree(ask(ExitStatus.PASS, "demo", SMALL, " --json").out());
        assertThat(JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                        .getSchema(schema)
                        .validate(covered))
                .isEmpty();
        assertThat(covered.at("/evidence/reportNumber").asText()).isEqualTo("DEMO-2026-001");
    }

    @Test
    void a_file_and_what_is_typed_are_taken_together() throws IOException {
        Files.writeString(folder.resolve("load.yaml"), """
                steamwright-load: 1
                sterilizer: EX-1001
                cycle: 134 wrapped
                on: 2027-04-01
                items: [{name: mirror, count: 2, family: solid, packaging: pouch}]
                mass: 0.4 kg
                tests-passed: yes
                """);
        assertThat(said(ExitStatus.FAIL, session.run("covered", "demo", "--load", "load.yaml"))
                        .out())
                .contains("It ended with 2027-03-02.");
        assertThat(said(ExitStatus.PASS, session.run("covered", "demo", "--load", "load.yaml", "--on", "2026-04-01"))
                        .out())
                .contains("2 × mirror");
    }

    @Test
    void what_is_missing_or_mistyped_is_said() {
        assertThat(said(ExitStatus.USAGE, session.run("covered", "demo")).err()).contains("which cycle is to be run");
        assertThat(said(ExitStatus.USAGE, session.run("covered", "demo", "--cycle", "134 wrapped"))
                        .err())
                .contains("nothing is said to be in the load");
        assertThat(said(ExitStatus.USAGE, session.line("steamwright covered demo --cycle x --item '" + SMALL + "'"))
                        .err())
                .contains("several sterilisers, and none is named")
                .contains("A (EX-1001)");
        assertThat(ask(ExitStatus.USAGE, "demo", "many cassettes", "").err()).contains("VISIT-009 --item");
        assertThat(ask(ExitStatus.USAGE, "demo", SMALL, " --cycle-number many").err())
                .contains("expected a whole number");
        assertThat(ask(ExitStatus.UNREADABLE, "demo", SMALL, " --load none.yaml")
                        .err())
                .contains("VISIT-022");
        assertThat(ask(ExitStatus.UNREADABLE, "nowhere", SMALL, "").err()).contains("VISIT-001");
    }

    @Test
    void in_a_record_only_the_issue_in_force_answers() throws IOException {
        said(ExitStatus.PASS, session.run("record", "office", "demo", "--by", by));
        DemoRecord.key(session, "office", by);
        assertThat(ask(ExitStatus.FAIL, "office", SMALL, "").out()).contains("Visit DEMO-2026-001 is open.");
        assertThat(said(
                                ExitStatus.PASS,
                                session.answered(DemoRecord.SECRET, "sign", "office", "DEMO-2026-001", "--by", by))
                        .out())
                .contains("It is issued, issue 1");
        assertThat(ask(ExitStatus.PASS, "office", SMALL, "").out())
                .contains("visit DEMO-2026-001 of 2026-03-02, issued, issue 1, valid until");

        String[] amend = {
            "amend", "office", "DEMO-2026-001", "--by", by, "--reason", "place misread", "--out", "corrected"
        };
        assertThat(said(ExitStatus.PASS, session.run(amend)).out())
                .contains("Begun: correction of DEMO-2026-001, which is issued, issue 1")
                .contains("Written: corrected");
        assertThat(said(ExitStatus.UNREADABLE, session.run(amend)).err()).contains("nothing is overwritten");
        Path yaml = folder.resolve("corrected/visit.yaml");
        Files.writeString(yaml, Files.readString(yaml).replace("bench by the window", "bench by the door"));
        said(ExitStatus.PASS, session.run("record", "office", "corrected", "--by", by, "--why", "misread"));
        assertThat(ask(ExitStatus.PASS, "office", SMALL, "").out())
                .contains("issued, issue 1")
                .contains("A correction of DEMO-2026-001 is being worked on: place misread");
        said(ExitStatus.PASS, session.answered(DemoRecord.SECRET, "sign", "office", "DEMO-2026-001", "--by", by));
        assertThat(ask(ExitStatus.PASS, "office", SMALL, "").out()).contains("issued, issue 2");
        assertThat(session.run("find", "office", "DEMO-2026-001").out())
                .contains("replaced, issue 1: place misread")
                .contains("issued, issue 2: place misread")
                .contains("issue 1, replaced");
        said(ExitStatus.PASS, session.run("export", "office", "now", "--visit", "DEMO-2026-001"));
        said(ExitStatus.PASS, session.run("export", "office", "then", "--visit", "DEMO-2026-001", "--issue", "1"));
        assertThat(folder.resolve("now/visit.yaml")).content().contains("bench by the door");
        assertThat(folder.resolve("then/visit.yaml")).content().contains("bench by the window");
        said(ExitStatus.USAGE, session.run("export", "office", "other", "--issue", "1"));

        said(ExitStatus.USAGE, session.run("withdraw", "office", "DEMO-2026-001", "--by", by));
        assertThat(said(
                                ExitStatus.PASS,
                                session.answered(
                                        DemoRecord.SECRET,
                                        "withdraw",
                                        "office",
                                        "DEMO-2026-001",
                                        "--by",
                                        by,
                                        "--reason",
                                        "indicator grew"))
                        .out())
                .contains("Withdrawn: DEMO-2026-001, issue 2");
        assertThat(ask(ExitStatus.FAIL, "office", SMALL, "").out())
                .contains("Visit DEMO-2026-001 is withdrawn, issue 2: indicator grew.")
                .contains("Visit DEMO-2026-001 is replaced, issue 1: place misread.");
        assertThat(said(ExitStatus.PASS, session.run("verify", "office")).out())
                .contains("Visits           1 replaced, 1 withdrawn")
                .contains("Everything is as it was kept.");
    }

    @Test
    void a_visit_that_nobody_signed_is_given_up_without_a_secret() {
        said(ExitStatus.PASS, session.run("record", "office", "demo", "--by", by));
        assertThat(said(
                                ExitStatus.UNREADABLE,
                                session.run("amend", "office", "DEMO-2026-001", "--by", by, "--reason", "x"))
                        .err())
                .contains("A visit that is open can't become replaced");
        assertThat(said(
                                ExitStatus.PASS,
                                session.run("withdraw", "office", "DEMO-2026-001", "--by", by, "--reason", "training"))
                        .out())
                .contains("Broken off: DEMO-2026-001");
        assertThat(session.run("find", "office", "DEMO-2026-001").out()).contains("broken off: training");
        assertThat(said(
                                ExitStatus.UNREADABLE,
                                session.answered(DemoRecord.SECRET, "sign", "office", "DEMO-2026-001", "--by", by))
                        .err())
                .contains("broken off: training, so there is nothing to sign");
    }
}
