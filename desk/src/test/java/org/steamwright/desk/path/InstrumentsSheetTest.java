package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;

/** What was done with the instruments at a visit: typed at the desk, told at once, missing until it is done. */
class InstrumentsSheetTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");

    @TempDir
    Path folder;

    private OpenDesk desk;
    private Draft draft;

    private static String certificate(String number, String calibrated, String due) {
        return "{number: %s, laboratory: Example Calibration (invented), calibrated-on: %s, due-on: %s, U: 0.06 K, k: 2, points: [[0.00 °C, 0.10 °C], [134.00 °C, 134.10 °C]]}"
                .formatted(number, calibrated, due);
    }

    @BeforeEach
    void open() throws Exception {
        desk = OpenDesk.empty(folder);
        Files.writeString(folder.resolve("register.yaml"), """
                steamwright-register: 1
                instruments: instruments.yaml
                lots:
                  - {id: lot-1, kind: biological, product: spore strip, number: L-226, expires: 2026-12-31, incubation: 24 h}
                  - {id: lot-2, kind: biological, product: spore strip, number: L-100, expires: 2026-07-31, incubation: 24 h}
                  - {id: lot-3, kind: biological, product: spore strip, number: L-101, expires: 2026-08-03, incubation: 24 h}
                  - {id: lot-4, kind: chemical, product: emulating strip, number: C-7, expires: 2027-01-31}
                  - {id: lot-5, kind: penetration-device, product: long lumen, number: P-3, expires: 2027-01-31}
                """);
        Files.writeString(
                folder.resolve("instruments.yaml"),
                "steamwright-instruments: 1\ninstruments:\n"
                        + "  - {id: TL-1, measures: temperature, description: logger (invented), certificate: "
                        + certificate("K-1", "2026-03-01", "2027-03-01") + "}\n"
                        + "  - {id: TL-2, measures: temperature, certificate: "
                        + certificate("K-2", "2025-02-01", "2026-02-01") + "}\n"
                        + "  - {id: TL-3, measures: temperature, certificate: "
                        + certificate("K-3", "2026-03-01", "2027-03-01")
                        + ", quarantine: [{from: 2026-07-01, reason: fell down}]}\n");
        new RegisterFiling(desk.records()).take(folder.resolve("register.yaml"), KIM, "");
        draft = begun("R-2026", "2026-08-03");
    }

    @AfterEach
    void close() throws Exception {
        desk.close();
    }

    private Draft begun(String number, String day) throws Exception {
        Map<String, Object> start = new HashMap<>(Map.of(
                "date",
                day,
                "zone",
                "UTC",
                "criteria-set",
                "eu-en13060",
                "clinic",
                Map.of("name", "Example Clinic (invented)"),
                "sterilizers",
                List.of(Map.of("key", "A", "serial", "SN-1")),
                "instruments",
                List.of(Map.of("id", "OWN-1", "measures", "temperature"))));
        start.put(
                "runs",
                List.of(
                        Map.of("kind", "reference-load", "channels", Map.of("T1", Map.of("instrument", "TL-1"))),
                        Map.of(
                                "kind",
                                "reference-load",
                                "channels",
                                Map.of(
                                        "a.csv/T1",
                                        Map.of("instrument", "TL-1"),
                                        "a.csv/T2",
                                        Map.of("instrument", "OWN-1")))));
        return new Drafts(desk.records()).open(KIM, number, start);
    }

    private String page() throws Exception {
        return desk.get("/visits/" + draft.id() + "/instruments").body();
    }

    private String text(String path) {
        return draft.now().text(FactPath.parse(path));
    }

    /** Saves a field as the page does it with a script, and gives what it shows then. */
    private String save(String path, String value) throws Exception {
        HttpRequest.Builder form = desk.form(
                "/visits/" + draft.id() + "/facts",
                Map.of(
                        "stage",
                        "instruments",
                        "path",
                        path,
                        "value",
                        value,
                        "seen",
                        KeyedPath.parse(path).text(draft.now())));
        HttpResponse<String> answer =
                desk.send(form.header("X-Token", desk.token()).header("HX-Request", "true"));
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
        return answer.body();
    }

    /** Presses a button that a page shows, as it stands there. */
    private void press(String stage, String words) throws Exception {
        String page = desk.get("/visits/" + draft.id() + "/" + stage).body();
        Matcher form = Pattern.compile(
                        "<form class=\"deed[^\"]*\" method=\"post\" action=\"([^\"]+)\"[^>]*>((?:(?!</form>).)*)</form>",
                        Pattern.DOTALL)
                .matcher(page);
        while (form.find()) {
            if (form.group(2).contains(">" + words)) {
                Map<String, String> sent = new LinkedHashMap<>();
                Matcher hidden =
                        Pattern.compile("name=\"([^\"]+)\" value=\"([^\"]*)\"").matcher(form.group(2));
                while (hidden.find()) {
                    sent.put(hidden.group(1), hidden.group(2));
                }
                sent.remove("token");
                HttpResponse<String> answer = desk.post(form.group(1), sent);
                assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
                return;
            }
        }
        throw new AssertionError("no button '" + words + "': " + page);
    }

    private void bring() throws Exception {
        press("instruments", "Take TL-1 from the register");
    }

    @Test
    void each_instrument_says_in_words_whether_it_may_be_relied_on_and_where_it_measured() throws Exception {
        assertThat(page())
                .contains("TL-1 is named by a column and is none of the visit’s instruments")
                .contains("No certificate: every run that it measures is invalid.")
                .contains("Measured in run 1: T1; run 2: T1.");
        bring();
        assertThat(page())
                .contains(
                        "In date: certificate K-1 of Example Calibration (invented), calibrated on 1 Mar 2026, good up to and including 1 Mar 2027.")
                .contains("Points: 2, from 0.1 °C to 134.1 °C; expanded uncertainty up to 0.06 K.")
                .contains("Not offered: the calibration of TL-2 was good until 1 Feb 2026.")
                .contains("Not offered: TL-3 is in quarantine (fell down).");
        draft.now().set(FactPath.of("date"), Optional.of("2027-03-02"), KIM, "");
        assertThat(page()).contains("Out of date: certificate K-1 was good until 1 Mar 2027.");
        draft.now().set(FactPath.of("date"), Optional.of("2027-03-01"), KIM, "");
        assertThat(page()).as("the last day is good").contains("In date: certificate K-1");
        draft.now().set(FactPath.of("date"), Optional.of("2026-02-28"), KIM, "");
        assertThat(page()).contains("Not in date yet: certificate K-1 is of 1 Mar 2026");
    }

    @Test
    void an_instrument_comes_from_the_register_with_its_certificate_and_the_visit_needs_the_register_no_more()
            throws Exception {
        bring();
        assertThat(text("instruments/2/certificate/number")).isEqualTo("K-1");
        assertThat(draft.now().instruments().find("TL-1").orElseThrow().certificate())
                .isPresent();
        draft.now()
                .set(FactPath.parse("instruments/1/id"), Optional.of("TL-2"), KIM, "")
                .set(FactPath.parse("runs/2/channels/a.csv~1T2"), Optional.empty(), KIM, "");
        press("instruments", "Take its certificate from the register: K-2, until 1 Feb 2026");
        assertThat(text("instruments/1/certificate/number"))
                .as("one that was only named gets its certificate")
                .isEqualTo("K-2");
        assertThat(page()).contains("Out of date: certificate K-2 was good until 1 Feb 2026.");
    }

    @Test
    void a_check_is_judged_as_it_is_typed_and_missing_until_it_was_made() throws Exception {
        bring();
        String missing = "/instruments#" + Field.id(CheckFacts.check("OWN-1", Moment.AFTER, "indicated"))
                + "\">Instruments OWN-1, TL-1: no check after the runs.";
        String context = "/visits/" + draft.id() + "/context";
        assertThat(desk.get(context).body()).contains(missing);
        assertThat(desk.get("/visits/" + draft.id() + "/close").body())
                .contains("Before leaving", "Not checked since the runs: OWN-1, TL-1.");
        assertThat(desk.get("/visits/" + draft.id() + "/runs").body())
                .contains("Not checked since the runs: OWN-1, TL-1.");

        save(CheckFacts.check("TL-1", Moment.AFTER, "reference"), "0,00 °C");
        assertThat(desk.get(context).body())
                .as("half a check is none, and says what it lacks")
                .contains(missing)
                .contains("“Shown by the instrument” is not filled in");
        assertThat(save(CheckFacts.check("TL-1", Moment.AFTER, "indicated"), "0.25 °C"))
                .contains("Corrected, it read 0.150 °C at 0.000 °C. Nothing follows");
        assertThat(save(CheckFacts.check("TL-1", Moment.AFTER, "tolerance"), "±0.2 K"))
                .contains("Good: corrected, it read 0.150 °C at 0.000 °C; ±0.200 K is allowed.");
        assertThat(text("instrument-checks/1/checks/1/reference")).isEqualTo("0.00 °C");
        assertThat(text("instrument-checks/1/checks/1/by")).as("who typed it").isNotBlank();
        assertThat(desk.get(context).body()).doesNotContain(missing);
        assertThat(save(CheckFacts.check("TL-1", Moment.AFTER, "tolerance"), "±0.1 K"))
                .contains(
                        "Failed: corrected, it read 0.150 °C at 0.000 °C; ±0.100 K is allowed. Every run that it measured is invalid.");
        assertThat(save(CheckFacts.check("TL-1", Moment.BEFORE, "indicated"), "zero"))
                .contains("Not usable");

        press("instruments", "A further check after the runs");
        save("instrument-checks/1/checks/2/reference", "121 °C");
        save("instrument-checks/1/checks/2/indicated", "121.1 °C");
        assertThat(draft.now().instruments().checks("TL-1", Moment.AFTER)).hasSize(2);
    }

    @Test
    void a_reading_outside_the_points_of_the_certificate_is_told_as_such() throws Exception {
        bring();
        save(CheckFacts.check("TL-1", Moment.AFTER, "reference"), "0.00 °C");
        assertThat(save(CheckFacts.check("TL-1", Moment.AFTER, "indicated"), "0.10 °C"))
                .doesNotContain("no points around this reading");
        assertThat(save(CheckFacts.check("TL-1", Moment.AFTER, "indicated"), "0.05 °C"))
                .contains("The certificate has no points around this reading");
    }

    @Test
    void one_bath_is_typed_once_and_what_each_showed_is_typed_for_each() throws Exception {
        bring();
        save(CheckFacts.check("TL-1", Moment.BEFORE, "reference"), "0.00 °C");
        save(CheckFacts.check("TL-1", Moment.BEFORE, "indicated"), "0.11 °C");
        save(CheckFacts.check("TL-1", Moment.BEFORE, "tolerance"), "±0.2 K");
        press("instruments", "The same check for OWN-1: 0.00 °C, ±0.2 K");
        assertThat(draft.now().find(FactPath.parse("instrument-checks/2")).orElseThrow())
                .isEqualTo(Map.of(
                        "instrument",
                        "OWN-1",
                        "checks",
                        List.of(Map.of("when", "before", "reference", "0.00 °C", "tolerance", "±0.2 K"))));
        assertThat(page()).as("nobody is left").doesNotContain("The same check for");
    }

    @Test
    void what_is_taken_away_leaves_nothing_half_behind_and_a_step_back_brings_it_again() throws Exception {
        bring();
        save(CheckFacts.check("TL-1", Moment.AFTER, "reference"), "0 °C");
        save(CheckFacts.clock("TL-1", Moment.BEFORE, "logger"), "08:30:02");
        save(CheckFacts.clock("TL-1", Moment.BEFORE, "reference"), "08:30:00");
        save(CheckFacts.check("TL-1", Moment.AFTER, "reference"), "");
        assertThat(draft.now().count(FactPath.parse("instrument-checks/1/checks")))
                .isZero();
        save(CheckFacts.clock("TL-1", Moment.BEFORE, "logger"), "");
        save(CheckFacts.clock("TL-1", Moment.BEFORE, "reference"), "");
        assertThat(draft.now().find(FactPath.parse("instrument-checks/1/clock")))
                .isEmpty();
        desk.post("/visits/" + draft.id() + "/undo", Map.of("stage", "instruments"));
        assertThat(text("instrument-checks/1/clock/before/reference")).isEqualTo("08:30:00");
    }

    @Test
    void clocks_say_what_is_added_to_the_stamps_and_the_desk_gives_its_own_time() throws Exception {
        bring();
        press("instruments", "Read the clock now");
        assertThat(text("instrument-checks/1/clock/before/reference")).matches("\\d\\d:\\d\\d:\\d\\d");
        save(CheckFacts.clock("TL-1", Moment.BEFORE, "reference"), "08:30:00");
        assertThat(save(CheckFacts.clock("TL-1", Moment.BEFORE, "logger"), "08:30:02"))
                .contains("Clock: \u22122.0 s are added to its stamps, known to ±1.5 s while it was read.")
                .contains("run away by 1.8 s in each hour");
        save(CheckFacts.clock("TL-1", Moment.AFTER, "reference"), "15:10:00");
        assertThat(save(CheckFacts.clock("TL-1", Moment.AFTER, "logger"), "15:10:04"))
                .contains(
                        "Clock: \u22122.0 s before and \u22124.0 s after are added to its stamps, along a straight line between, known to ±2.5 s.");
    }

    @Test
    void how_it_was_checked_the_last_time_is_proposed_and_never_what_it_showed() throws Exception {
        Draft last = begun("R-2025", "2025-08-03");
        draft = last;
        bring();
        for (Map.Entry<String, String> typed : Map.of(
                        "reference", "0.00 °C", "indicated", "0.11 °C", "method", "melting ice", "tolerance", "±0.2 K")
                .entrySet()) {
            save(CheckFacts.check("TL-1", Moment.AFTER, typed.getKey()), typed.getValue());
        }
        last.now().settle(KIM);
        draft = begun("R-2027", "2026-08-03");
        draft.settle(KIM);
        bring();
        assertThat(page())
                .contains("name=\"take\" value=\"melting ice\"", "name=\"take\" value=\"±0.2 K\"")
                .doesNotContain("name=\"take\" value=\"0.11 °C\"", "name=\"take\" value=\"0.00 °C\"");
    }

    @Test
    void lots_of_the_store_are_one_touch_away_and_those_that_are_not_good_are_told() throws Exception {
        String page = desk.get("/visits/" + draft.id() + "/indicators").body();
        assertThat(page)
                .contains("Expired: lot L-100 (spore strip) was good until 31 Jul 2026. Not offered.")
                .contains(
                        "Too short: lot L-101 (spore strip) is good until 3 Aug 2026, and its incubation would end on 4 Aug 2026.")
                .doesNotContain("from the store: spore strip, lot L-100", "from the store: spore strip, lot L-101");
        press("indicators", "Exposed, from the store: spore strip, lot L-226, until 31 Dec 2026");
        press("indicators", "Control, from the store: spore strip, lot L-226, until 31 Dec 2026");
        press("indicators", "From the store: emulating strip, lot C-7, until 31 Jan 2027");
        press("runs", "From the store: long lumen, lot P-3, until 31 Jan 2027");
        assertThat(draft.now().find(FactPath.parse("runs/1/indicators/1")).orElseThrow())
                .isEqualTo(Map.of(
                        "id", "BI-1",
                        "product", "spore strip",
                        "lot", "L-226",
                        "expires", "2026-12-31",
                        "control", "no",
                        "result", "awaited",
                        "incubation", "24 h"));
        assertThat(text("runs/1/indicators/2/control")).isEqualTo("yes");
        assertThat(text("runs/1/chemical-indicators/1/lot")).isEqualTo("C-7");
        assertThat(text("job-sheet/penetration/1/device")).isEqualTo("long lumen");
        assertThat(desk.post(
                                "/visits/" + draft.id() + "/lots",
                                Map.of(
                                        "list",
                                        "runs/1/indicators",
                                        "lot",
                                        "lot-2",
                                        "control",
                                        "no",
                                        "stage",
                                        "indicators"))
                        .statusCode())
                .as("an expired lot is not taken by a forged page either")
                .isEqualTo(409);
    }
}
