package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;

/** The office's instruments are offered to a visit as they stand on its day, and taken over one by one. */
class RegisterInstrumentsTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");

    @TempDir
    Path folder;

    private static String instrument(String id, String calibrated, String due, String more) {
        return """
                  - id: %s
                    description: logger (invented)
                    measures: temperature
                    range: {from: 0 °C, to: 150 °C}
                %s    certificate:
                      number: K-%s
                      laboratory: Example Calibration (invented)
                      calibrated-on: %s
                      due-on: %s
                      U: 0.06 K
                      k: 2
                      points: [[121.00 °C, 121.02 °C], [134.00 °C, 134.03 °C]]
                """.formatted(id, more, id, calibrated, due);
    }

    private void register(OpenDesk desk) throws Exception {
        Files.writeString(folder.resolve("register.yaml"), "steamwright-register: 1\ninstruments: instruments.yaml\n");
        Files.writeString(
                folder.resolve("instruments.yaml"),
                "steamwright-instruments: 1\ninstruments:\n"
                        + instrument("TL-1", "2026-03-01", "2027-03-01", "")
                        + instrument(
                                "TL-2",
                                "2026-03-01",
                                "2027-03-01",
                                "    quarantine: [{from: 2026-07-01, reason: fell down}]\n")
                        + instrument("TL-3", "2025-02-01", "2026-02-01", "")
                        + instrument("TL-4", "2026-08-04", "2027-08-04", "")
                        + instrument("TL-5", "2025-08-01", "2026-08-03", ""));
        new RegisterFiling(desk.records()).take(folder.resolve("register.yaml"), KIM, "");
    }

    private static Map<String, Map<String, String>> offers(String page) {
        Map<String, Map<String, String>> offers = new LinkedHashMap<>();
        Matcher form = Pattern.compile("<form [^>]*action=\"[^\"]+/offers\".*?</form>", Pattern.DOTALL)
                .matcher(page);
        while (form.find()) {
            Map<String, String> sent = new HashMap<>();
            Matcher value = Pattern.compile("name=\"(list|mark|stage)\" value=\"([^\"]*)\"")
                    .matcher(form.group());
            while (value.find()) {
                sent.put(value.group(1), value.group(2));
            }
            Matcher words = Pattern.compile("<button[^>]*>([^<]+)<").matcher(form.group());
            assertThat(words.find()).isTrue();
            offers.put(words.group(1), sent);
        }
        return offers;
    }

    @Test
    void those_in_date_are_offered_and_of_the_others_the_reason_is_told() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            register(desk);
            Draft draft = new Drafts(desk.records())
                    .open(
                            KIM,
                            "R-1",
                            Map.of(
                                    "date",
                                    "2026-08-03",
                                    "zone",
                                    "UTC",
                                    "clinic",
                                    Map.of("name", "Example Clinic (invented)")));
            String identity = "/visits/" + draft.id() + "/instruments";
            String page = desk.get(identity).body();
            Map<String, Map<String, String>> offers = offers(page);
            String first = "From the register: TL-1, logger (invented), certificate K-TL-1 until 1 Mar 2027";
            assertThat(offers)
                    .containsOnlyKeys(
                            first, "From the register: TL-5, logger (invented), certificate K-TL-5 until 3 Aug 2026");
            assertThat(page)
                    .contains("Not offered: TL-2 is in quarantine (fell down).")
                    .contains("Not offered: the calibration of TL-3 was good until 1 Feb 2026.")
                    .contains("Not offered: TL-4 was calibrated only on 4 Aug 2026.");

            String address = "/visits/" + draft.id() + "/offers";
            assertThat(desk.post(address, offers.getOrDefault(first, Map.of())).statusCode())
                    .isEqualTo(303);
            assertThat(draft.now().find(FactPath.parse("instruments")).orElseThrow())
                    .as("one alone")
                    .asInstanceOf(org.assertj.core.api.InstanceOfAssertFactories.LIST)
                    .hasSize(1);
            assertThat(draft.now().text(FactPath.parse("instruments/1/certificate/number")))
                    .isEqualTo("K-TL-1");
            assertThat(draft.now().glance())
                    .as("the entry is one that a visit can have")
                    .noneMatch(problem -> problem.path()
                            .filter(path -> path.toString().startsWith("instruments"))
                            .isPresent());
            assertThat(desk.post(address, offers.getOrDefault(first, Map.of())).statusCode())
                    .as("already there")
                    .isEqualTo(409);
            assertThat(offers(desk.get(identity).body()))
                    .doesNotContainKey(first)
                    .hasSize(1);

            draft.now().set(FactPath.of("date"), Optional.of("2026-08-04"), KIM, "");
            assertThat(offers(desk.get(identity).body()))
                    .as("on the next day one more is calibrated and another one out")
                    .containsOnlyKeys(
                            "From the register: TL-4, logger (invented), certificate K-TL-4 until 4 Aug 2027");
        }
    }

    @Test
    void an_instrument_of_the_last_visit_that_is_in_quarantine_now_is_not_offered_from_there() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            register(desk);
            Drafts drafts = new Drafts(desk.records());
            Map<String, Object> start = new HashMap<>(Map.of(
                    "date",
                    "2025-08-03",
                    "zone",
                    "UTC",
                    "clinic",
                    Map.of("name", "Example Clinic (invented)"),
                    "sterilizers",
                    List.of(Map.of("key", "A", "serial", "SN-1")),
                    "instruments",
                    List.of(
                            Map.of("id", "TL-2", "measures", "temperature"),
                            Map.of("id", "OWN-1", "measures", "temperature"))));
            drafts.open(KIM, "R-2025", start).settle(KIM);
            start.put("date", "2026-08-03");
            start.remove("instruments");
            Draft draft = drafts.open(KIM, "R-2026", start);
            assertThat(offers(desk.get("/visits/" + draft.id() + "/instruments").body()))
                    .containsKey("Take over from last time: OWN-1")
                    .allSatisfy((words, sent) -> assertThat(words).doesNotContain("TL-2"));
        }
    }

    @Test
    void what_the_register_says_by_now_is_taken_over_with_a_reason_and_can_be_taken_back() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            register(desk);
            Map<String, Object> older = Map.of(
                    "id",
                    "TL-1",
                    "description",
                    "logger (invented)",
                    "measures",
                    "temperature",
                    "clock",
                    Map.of("before", Map.of("logger", "08:30:02", "reference", "08:30:00"), "by", "Kim"),
                    "certificate",
                    Map.of(
                            "number",
                            "K-OLD",
                            "laboratory",
                            "Example Calibration (invented)",
                            "calibrated-on",
                            "2025-09-01",
                            "due-on",
                            "2026-09-01",
                            "U",
                            "0.06 K",
                            "k",
                            "2",
                            "points",
                            List.of(List.of("121.00 °C", "121.05 °C"))));
            Draft draft = new Drafts(desk.records())
                    .open(KIM, "R-1", Map.of("date", "2026-08-03", "zone", "UTC", "instruments", List.of(older)));
            String address = "/visits/" + draft.id();
            assertThat(desk.get(address + "/instruments").body())
                    .contains("The office’s register has certificate K-TL-1 for that day; the visit holds another one.")
                    .contains("/instrument-renewals\"", "It stays in the journal of the visit.");

            Map<String, String> sent = Map.of("id", "TL-1", "stage", "instruments", "text", "calibrated anew in March");
            assertThat(desk.post(address + "/instrument-renewals", Map.of("id", "TL-1", "text", " "))
                            .statusCode())
                    .as("no reason")
                    .isEqualTo(422);
            assertThat(draft.now().text(FactPath.parse("instruments/1/certificate/number")))
                    .isEqualTo("K-OLD");
            assertThat(desk.post(address + "/instrument-renewals", sent).statusCode())
                    .isEqualTo(303);
            assertThat(draft.now().text(FactPath.parse("instruments/1/certificate/number")))
                    .isEqualTo("K-TL-1");
            assertThat(draft.now().find(FactPath.parse("instruments/1/clock")))
                    .as("the clock is of the visit")
                    .contains(Map.of("before", Map.of("logger", "08:30:02", "reference", "08:30:00"), "by", "Kim"));
            Draft.Step step = draft.now().lastChange().orElseThrow();
            assertThat(step.why()).as("in the journal").isEqualTo("calibrated anew in March");
            assertThat(desk.get(address + "/instruments").body())
                    .doesNotContain("/instrument-renewals\"", "the visit holds another one");
            assertThat(desk.post(address + "/instrument-renewals", sent).statusCode())
                    .as("there is nothing newer any more")
                    .isEqualTo(409);

            desk.post(address + "/undo", Map.of("change", step.id().toString(), "stage", "instruments"));
            assertThat(draft.now().find(FactPath.parse("instruments/1")))
                    .as("taken back whole")
                    .contains(older);
        }
    }
}
