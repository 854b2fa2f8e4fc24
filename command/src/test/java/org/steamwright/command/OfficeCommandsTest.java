package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.visit.plan.AfterChange;

class OfficeCommandsTest {

    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    private Session session;

    @BeforeEach
    void open() throws IOException {
        session = new Session(folder);
        session.office();
    }

    @Test
    void lists_what_is_due_with_reasons_and_sources() {
        Session.Said said = session.line("steamwright due office --on 2026-03-02");
        assertThat(said.status()).as(said.err()).isEqualTo(ExitStatus.PASS);
        assertThat(said.out())
                .startsWith("ST-03  Electrical safety test: due now, never recorded as done\n")
                .contains("ST-01  Validation: overdue since 2026-01-16 (46 days)\n")
                .contains("    > date: 6 months after 2025-07-15, for a use of about 1598 cycles a year (from 1500)")
                .contains("common practice, no source]")
                .endsWith("3 no evidence, 3 overdue, 9 ahead.\n");
    }

    @Test
    void shows_what_may_fall_due_up_to_a_day() {
        assertThat(session.line("steamwright due office --on 2026-03-02 --until 2026-03-10")
                        .out())
                .contains("ST-01  Electrical safety test")
                .doesNotContain("Condition of the pass")
                .endsWith("3 no evidence, 3 overdue, 2 ahead; 7 later ones not shown.\n");
    }

    @Test
    void gives_the_same_due_list_as_json() throws IOException {
        JsonNode due = JSON.readTree(
                session.line("steamwright due office --on 2026-03-02 --json").out());
        assertThat(due.get("format").asText()).isEqualTo("steamwright-due");
        assertThat(due.get("due")).hasSize(15);
        JsonNode service = null;
        for (JsonNode one : due.get("due")) {
            if (one.get("id").asText().equals("ST-01")
                    && one.get("title").asText().equals("Service")) {
                service = one;
            }
        }
        assertThat(service).isNotNull();
        assertThat(service.get("day").asText()).isEqualTo("2026-03-03");
        JsonNode forecast = service.get("reasons").get(1).get("forecast");
        assertThat(forecast.get("earliest").asText())
                .isLessThan(forecast.get("expected").asText());
        assertThat(forecast.get("latest").asText())
                .isGreaterThan(forecast.get("expected").asText());
    }

    @Test
    void the_json_of_lists_and_plans_follows_its_schema() throws IOException {
        for (String line : List.of(
                "due office --on 2026-03-02 --json",
                "due office --json",
                "plan office ST-01 --reason yearly --json",
                "plan office ST-01 --reason new-load --json",
                "plan office ST-03 --reason moved-site --reason re-test --at 2026-03-02T09:00 --json",
                "plan office ST-01 --reason seal-filter-hose --at 2026-03-02T09:00 --technician KS --json")) {
            JsonNode json = JSON.readTree(session.line("steamwright " + line).out());
            String schema =
                    session.run("schema", line.substring(0, line.indexOf(' '))).out();
            JsonSchemaFactory factory = JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012);
            assertThat(factory.getSchema(schema).validate(json)).as(line).isEmpty();
            ((ObjectNode) json).put("colour", "blue");
            assertThat(factory.getSchema(schema).validate(json))
                    .as("a field that nobody knows")
                    .isNotEmpty();
        }
    }

    @Test
    void takes_today_where_no_day_is_given() {
        assertThat(session.line("steamwright due office").status()).isEqualTo(ExitStatus.PASS);
    }

    @Test
    void plans_a_visit_and_checks_whether_it_may_go() throws IOException {
        Session.Said plan = session.line("steamwright plan office SN-0417 --reason yearly");
        assertThat(plan.status()).as(plan.err()).isEqualTo(ExitStatus.PASS);
        assertThat(plan.out())
                .startsWith("Plan for ST-01, Example Works (invented) Small B18 SN-0417\n")
                .contains("meanwhile: ")
                .contains("121 rubber, run")
                .contains("- 19 × biological indicators of one lot")
                .doesNotContain("Go check");
        Session.Said go = session.line(
                "steamwright plan office ST-01 --reason seal-filter-hose --at 2026-03-02T09:00 --technician KS");
        assertThat(go.out()).contains("(Australia/Adelaide): GO\n");
        Session.Said blocked =
                session.line("steamwright plan office ST-01 --reason seal-filter-hose --at 2026-03-02T09:00"
                        + " --technician KS --take TL-12 --take PL-11");
        assertThat(blocked.status()).isEqualTo(ExitStatus.FAIL);
        assertThat(blocked.out())
                .contains("NO GO")
                .contains("TL-12: Certificate K-2025-0088 holds from 2025-02-10 until 2026-02-28, not on the day");
        JsonNode json = JSON.readTree(session.line("steamwright plan office ST-01 --reason yearly --at 2026-03-02T09:00"
                        + " --technician KS --json")
                .out());
        assertThat(json.get("goCheck").get("go").asBoolean()).isTrue();
        assertThat(json.get("steps").get(0).get("step").asText()).isEqualTo("arrival");
    }

    @Test
    void the_criteria_set_says_how_many_loaded_runs() {
        String own = session.line("steamwright plan office ST-03 --reason new-load --criteria au-as5369")
                .out()
                .replaceAll("\\s+", " ");
        assertThat(own)
                .contains("Loaded runs in a row for each cycle: 3, by au-as5369")
                .as("what loaded runs rest on, with whose rule it is")
                .contains("Added: Empty chamber, thermometric: ", "[Steamwright, decision 0082; program rule]")
                .contains("Loaded runs alone qualify no cycle");
        assertThat(session.line("steamwright plan office ST-01 --reason new-load")
                        .out()
                        .replaceAll("\\s+", " "))
                .contains("Added: Leak test without sensors, chamber dry and cool [Steamwright, decision 0082;");
    }

    /** Whoever does what a plan says is left with cycles that may be run, if all of it passes. */
    @Test
    void no_reason_makes_a_plan_of_loaded_runs_that_could_qualify_nothing() throws IOException {
        for (AfterChange.Row row : DataFiles.afterChange().rows()) {
            JsonNode plan =
                    JSON.readTree(session.line("steamwright plan office ST-01 --reason " + row.word() + " --json")
                            .out());
            Map<String, Set<String>> cycles = new TreeMap<>();
            plan.get("steps")
                    .forEach(step -> cycles.computeIfAbsent(step.get("step").asText(), unseen -> new TreeSet<>())
                            .add(step.path("cycle").asText()));
            Set<String> loaded = cycles.getOrDefault("loaded", Set.of());
            assertThat(cycles.getOrDefault("empty-chamber", Set.of()))
                    .as(row.word())
                    .containsAll(loaded);
            assertThat(loaded.isEmpty() || cycles.containsKey("leak-without-sensors"))
                    .as(row.word())
                    .isTrue();
            assertThat(plan.get("additions").isEmpty())
                    .as(row.word())
                    .isEqualTo(!Set.of("new-load", "new-cycle").contains(row.word()));
        }
    }

    @Test
    void says_which_reasons_machines_and_people_there_are() {
        assertThat(session.line("steamwright plan office ST-01").err())
                .contains("heater-generator")
                .contains("yearly");
        Session.Said unknown = session.line("steamwright plan office ST-1 --reason yearly");
        assertThat(unknown.status()).isEqualTo(ExitStatus.USAGE);
        assertThat(unknown.err()).contains("There are: ST-01, ST-02, ST-03.");
        assertThat(session.line("steamwright plan office ST-01 --reason year").err())
                .contains("no reason is called year; there are commissioning, yearly");
        assertThat(session.line("steamwright plan office ST-01 --reason yearly --at 2026-03-02T09:00 --technician XX")
                        .err())
                .contains("There are: KS.");
        assertThat(session.line("steamwright plan office ST-01 --reason yearly --at tomorrow")
                        .status())
                .isEqualTo(ExitStatus.USAGE);
        assertThat(session.line("steamwright plan office ST-01 --reason yearly --take TL-11")
                        .status())
                .isEqualTo(ExitStatus.USAGE);
        assertThat(session.line("steamwright due office --on 2.3.2026").status())
                .isEqualTo(ExitStatus.USAGE);
        assertThat(session.line("steamwright due nowhere").status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(session.line("steamwright due nowhere").err()).contains("REGISTER-001");
    }

    @Test
    void a_site_with_rules_that_are_not_there_is_refused() throws IOException {
        Path file = folder.resolve("office").resolve("register.yaml");
        Files.writeString(file, Files.readString(file).replace("rules: au", "rules: mars"));
        Session.Said said = session.line("steamwright due office --on 2026-03-02");
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("no set of due rules is called mars; there are common, au, uk, ie, de");
    }

    @Test
    void previews_a_table_and_writes_only_where_asked_and_never_over_a_file() throws IOException {
        TreeMap<String, String> before = session.files();
        Session.Said preview = session.line("steamwright register office --import office/machines.csv");
        assertThat(preview.status()).isEqualTo(ExitStatus.FAIL);
        assertThat(preview.out())
                .contains("Columns left out: Colour.")
                .contains("line 5  refused  ST-03: the reading of 2026-02-01 stands below that of 2026-01-12")
                .contains("1 added, 1 changed, 1 same, 1 refused.");
        assertThat(session.files()).isEqualTo(before);

        session.line("steamwright register office --import office/machines.csv --out office/next.yaml");
        Session.Said again = session.line("steamwright register office/next.yaml --import office/machines.csv");
        assertThat(again.out()).as("taken once, it changes nothing").contains("0 added, 0 changed, 3 same, 1 refused.");
        assertThat(session.line("steamwright register office --import office/machines.csv --out office/next.yaml")
                        .err())
                .contains("nothing is written over");

        session.line("steamwright register office --export all.csv");
        Session.Said exported = session.line("steamwright register office --import all.csv");
        assertThat(exported.out()).contains("0 added, 0 changed, 3 same, 0 refused.");
        assertThat(exported.status()).isEqualTo(ExitStatus.PASS);
    }
}
