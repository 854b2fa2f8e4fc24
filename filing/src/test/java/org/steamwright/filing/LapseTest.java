package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;

/** What of the office runs out, from the facts of one entry alone. */
class LapseTest {

    private static final SubjectId ID = SubjectId.parse("019a0ad3-20c0-7000-b5ff-762d1a3f031a");

    private static Subject entry(Kind kind, Map<String, ?> stated) {
        SortedMap<String, JsonText> facts = new TreeMap<>();
        stated.forEach((key, value) -> facts.put("stated/" + key, JsonText.of(value)));
        return new Subject(ID, kind, facts);
    }

    private static Map<String, String> certificate(String calibrated, String due) {
        return Map.of("number", "K-" + calibrated, "calibrated-on", calibrated, "due-on", due);
    }

    private static List<Lapse> logger(Map<String, ?> more) {
        Map<String, Object> stated = new HashMap<>(Map.of("id", "TL-01", "measures", "temperature"));
        stated.putAll(more);
        return Lapse.of(entry(Kind.INSTRUMENT, stated));
    }

    private static Lapse calibration(Optional<LocalDate> day) {
        return new Lapse(Lapse.Of.CALIBRATION, "TL-01", "Calibration", day);
    }

    @Test
    void the_certificate_that_was_made_last_says_until_when_an_instrument_is_good() {
        Map<String, String> old = certificate("2025-02-01", "2026-02-01");
        Map<String, String> fresh = certificate("2026-01-20", "2027-01-20");
        for (List<Map<String, String>> order : List.of(List.of(old, fresh), List.of(fresh, old))) {
            assertThat(logger(Map.of("certificates", order)))
                    .containsExactly(calibration(Optional.of(LocalDate.of(2027, 1, 20))));
        }
        assertThat(logger(Map.of("certificate", old)))
                .containsExactly(calibration(Optional.of(LocalDate.of(2026, 2, 1))));
    }

    @Test
    void an_instrument_without_a_last_day_is_told_as_one_and_one_in_quarantine_is_not_told() {
        assertThat(logger(Map.of())).containsExactly(calibration(Optional.empty()));
        assertThat(logger(Map.of("certificates", List.of(Map.of("file", "paper.xml")))))
                .as("the day stands in the paper")
                .containsExactly(calibration(Optional.empty()));
        Map<String, String> certificate = certificate("2025-02-01", "2026-02-01");
        assertThat(logger(Map.of(
                        "certificate",
                        certificate,
                        "quarantine",
                        List.of(Map.of("from", "2026-01-05", "reason", "fell")))))
                .isEmpty();
        assertThat(logger(Map.of(
                        "certificate",
                        certificate,
                        "quarantine",
                        List.of(Map.of("from", "2026-01-05", "until", "2026-01-09", "reason", "fell")))))
                .as("let out again")
                .hasSize(1);
    }

    @Test
    void lots_testers_and_competences_end_and_what_was_renewed_does_not() {
        assertThat(Lapse.of(entry(
                        Kind.LOT,
                        Map.of(
                                "id", "BI-3",
                                "kind", "biological",
                                "product", "strip (invented)",
                                "number", "LOT-3",
                                "expires", "2026-06",
                                "incubation", "168 h"))))
                .as("a month ends with its last day")
                .containsExactly(new Lapse(
                        Lapse.Of.LOT, "LOT-3", "biological indicators", Optional.of(LocalDate.of(2026, 6, 30))));
        assertThat(Lapse.of(entry(
                        Kind.INSTRUMENT,
                        Map.of("id", "ET-01", "certificates", List.of(certificate("2025-02-01", "2026-02-01"))))))
                .containsExactly(new Lapse(
                        Lapse.Of.CALIBRATION_OF_TESTER, "ET-01", "Calibration", Optional.of(LocalDate.of(2026, 2, 1))));
        Map<String, Object> old = Map.of(
                "families",
                List.of("small"),
                "duties",
                List.of("service"),
                "from",
                "2024-01-01",
                "until",
                "2026-01-01");
        Map<String, Object> other = Map.of(
                "families", List.of("tall"), "duties", List.of("service"), "from", "2025-01-01", "until", "2027-01-01");
        Map<String, Object> renewed = Map.of("duties", List.of("service"), "from", "2026-01-01", "until", "2028-01-01");
        assertThat(Lapse.of(person(List.of(other, old))))
                .extracting(Lapse::day)
                .as("the earliest first")
                .containsExactly(Optional.of(LocalDate.of(2026, 1, 1)), Optional.of(LocalDate.of(2027, 1, 1)));
        assertThat(Lapse.of(person(List.of(other, old, renewed))))
                .extracting(Lapse::day)
                .containsExactly(Optional.of(LocalDate.of(2028, 1, 1)));
        assertThat(Lapse.of(person(List.of()))).isEmpty();
    }

    private static Subject person(List<Map<String, Object>> competences) {
        return entry(Kind.TECHNICIAN, Map.of("id", "KS", "name", "Kim Sample (invented)", "competences", competences));
    }

    @Test
    void what_cannot_be_read_or_was_only_met_in_a_visit_ends_nothing() {
        assertThat(Lapse.of(entry(Kind.LOT, Map.of("id", "BI-3", "expires", "some day"))))
                .isEmpty();
        assertThat(Lapse.of(entry(Kind.LOT, Map.of()))).isEmpty();
        assertThat(Lapse.of(entry(Kind.STERILIZER, Map.of("id", "M-1")))).isEmpty();
    }
}
