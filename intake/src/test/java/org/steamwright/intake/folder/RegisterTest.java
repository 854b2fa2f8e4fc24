package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.visit.Visit;

/** The register of instruments in a file of its own, and what is said when something is wrong with it. */
class RegisterTest {

    @TempDir
    Path folder;

    private static final String CERTIFICATE =
            "{number: K-1, laboratory: Lab (invented), calibrated-on: %s, due-on: 2027-02-10, U: 0.06 K, k: 2, points: [[134 °C, 134.1 °C]]%s}";

    private VisitFixture visit(String register) {
        return VisitFixture.tenLines(folder)
                .replace("criteria-set:", "register: instruments.yaml\ncriteria-set:")
                .file("instruments.yaml", register);
    }

    private static String certificate(String day, String more) {
        return CERTIFICATE.formatted(day, more);
    }

    @Test
    void instruments_come_from_the_register() throws IOException, VisitFolderException {
        Visit visit = visit("steamwright-instruments: 1\ninstruments:\n  - {id: TL-1, measures: temperature}\n")
                .replace("T1: reference-point", "T1: {role: reference-point, instrument: TL-1}")
                .read();
        assertThat(visit.instruments()).containsOnlyKeys("TL-1");
        assertThat(visit.runs().get(0).test().instruments()).containsOnlyKeys("TL-1");
        assertThat(visit.instruments().get("TL-1").history()).isEqualTo(InstrumentHistory.NONE);
    }

    @Test
    void a_single_certificate_is_no_history_but_two_are() throws IOException, VisitFolderException {
        ReferenceInstrument one = visit("steamwright-instruments: 1\ninstruments:\n"
                        + "  - {id: TL-1, measures: temperature, certificate: " + certificate("2026-02-10", "") + "}\n")
                .read()
                .instruments()
                .get("TL-1");
        assertThat(one.history()).isEqualTo(InstrumentHistory.NONE);
        assertThat(one.certificate().orElseThrow().number()).isEqualTo("K-1");
        ReferenceInstrument two = visit("steamwright-instruments: 1\ninstruments:\n"
                        + "  - {id: TL-1, measures: temperature, certificates: [" + certificate("2026-02-10", "") + ", "
                        + certificate("2025-02-10", "") + "]}\n")
                .read()
                .instruments()
                .get("TL-1");
        assertThat(two.history().calibrations()).hasSize(2);
        assertThat(two.certificate().orElseThrow().calibratedOn()).isEqualTo("2026-02-10");
    }

    @Test
    void what_is_wrong_in_the_register_is_told_with_its_name_and_line() {
        assertThat(visit("steamwright-instruments: 1\ninstruments:\n  - {id: TL-1}\n")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-008 instruments.yaml, line 3, instruments[1]: found no \"measures\"");
        assertThat(visit("steamwright-instruments: 2\ninstruments: []\n").problems())
                .singleElement()
                .asString()
                .contains("VISIT-005 instruments.yaml, line 1")
                .contains("found version \"2\", expected the version of the format of a register");
        assertThat(visit("instruments: []\n").problems())
                .singleElement()
                .asString()
                .contains("found no \"steamwright-instruments\"")
                .endsWith("Begin the file with: steamwright-instruments: 1");
        assertThat(visit("steamwright-instruments: 1\n").problems())
                .singleElement()
                .asString()
                .contains("found no \"instruments\", expected it here.");
        assertThat(visit("steamwright-instruments: 1\ninstrument: []\n").problems())
                .hasSize(2)
                .last()
                .asString()
                .contains("found the unknown key \"instrument\"");
        assertThat(visit("- a\n").problems()).singleElement().asString().contains("instruments.yaml");
    }

    @Test
    void a_register_lies_in_the_folder_and_names_no_instrument_of_the_visit_again() {
        assertThat(VisitFixture.tenLines(folder)
                        .replace("criteria-set:", "register: ../instruments.yaml\ncriteria-set:")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-021 visit.yaml, line 3");
        assertThat(visit("steamwright-instruments: 1\ninstruments:\n  - {id: TL-1, measures: temperature}\n")
                        .replace(
                                "criteria-set:",
                                "instruments: [{id: TL-1, measures: temperature, certificate: "
                                        + certificate("2026-02-10", "") + "}]\ncriteria-set:")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-020 visit.yaml, line 3, register: found TL-1 in the register and in this file");
    }

    @Test
    void an_instrument_that_the_visit_names_without_a_certificate_has_that_of_the_register() throws Exception {
        String register = "steamwright-instruments: 1\ninstruments:\n"
                + "  - {id: TL-1, measures: temperature, description: of the register, drift: ±0.1 K, quarantine: [{from: 2025-01-01, until: 2025-02-01, reason: fell}], certificate: "
                + certificate("2026-02-10", "") + "}\n";
        ReferenceInstrument one = visit(register)
                .replace("criteria-set:", "instruments: [{id: TL-1, measures: temperature}]\ncriteria-set:")
                .read()
                .instruments()
                .get("TL-1");
        assertThat(one.certificate().orElseThrow().number()).isEqualTo("K-1");
        assertThat(one.description()).isEqualTo("of the register");
        assertThat(one.contributions()).hasSize(1);
        assertThat(one.history().quarantines()).hasSize(1);
        assertThat(visit(register)
                        .replace("criteria-set:", "instruments: [{id: TL-1, measures: pressure}]\ncriteria-set:")
                        .problems())
                .singleElement()
                .asString()
                .startsWith(
                        "VISIT-122 visit.yaml, line 3, register: found TL-1 as an instrument for temperature in the register and for pressure in this file");
    }

    @Test
    void a_register_that_is_too_large_is_not_read() {
        assertThat(visit("# " + "x".repeat(YamlSource.MAX_BYTES)).problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-002 visit.yaml");
    }

    private String wrong(String keys) {
        return String.join(
                "\n",
                VisitFixture.tenLines(folder)
                        .replace(
                                "criteria-set:",
                                "instruments: [{id: TL-1, measures: temperature, " + keys + "}]\ncriteria-set:")
                        .problems());
    }

    @Test
    void what_is_wrong_with_a_history_is_told() {
        assertThat(wrong("certificate: " + certificate("2026-02-10", "") + ", certificates: []"))
                .contains("found certificates beside a certificate, expected one of the two keys.");
        assertThat(wrong(
                        "certificates: [" + certificate("2026-02-10", "") + ", " + certificate("2026-02-10", "") + "]"))
                .contains("two calibrations on 2026-02-10: K-1 and K-1");
        assertThat(wrong("certificates: [" + certificate("2026-02-10", ", as-found: [[134 °C]]") + "]"))
                .contains("found 1 values, expected two: [reference, indicated]");
        String check = "checks: [{on: 2026-03-02, when: %s, tolerance: 0.2 K, readings: %s}]";
        assertThat(wrong(check.formatted("during", "[[0 °C, 0 °C]]")))
                .contains("found \"during\", expected one of before, after.");
        assertThat(wrong(check.formatted("after", "[]")))
                .contains("expected at least one pair of reference and indicated value");
        assertThat(wrong(check.formatted("after", "[[0 °C]]"))).contains("found 1 values, expected two");
        assertThat(wrong(check.formatted("after", "[0 °C]"))).contains("expected a list");
        assertThat(wrong("quarantine: [{from: 2026-03-02, until: 2026-03-01, reason: wet}]"))
                .contains("a quarantine from 2026-03-02 until 2026-03-01");
        String line = "contributions: [{name: a, size: 0.1 K, distribution: standard, %s}]";
        assertThat(wrong(line.formatted("correlation: 0.5"))).contains("found a correlation without \"common\"");
        assertThat(wrong(line.formatted("common: x, correlation: 1.5"))).contains("between 0 and 1, found 1.5");
        assertThat(wrong(line.formatted("per-reading: perhaps")))
                .contains("found \"perhaps\", expected one of yes, no");
    }
}
