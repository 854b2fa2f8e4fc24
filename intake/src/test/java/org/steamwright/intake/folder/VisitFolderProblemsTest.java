package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.steamwright.intake.folder.VisitFixture.elapsed;
import static org.steamwright.intake.folder.VisitFixture.stamped;
import static org.steamwright.intake.folder.VisitFixture.tenLines;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.UnrecordedRun;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;

class VisitFolderProblemsTest {

    @TempDir
    Path folder;

    // ---- the folder and the file

    @Test
    void says_that_there_is_nothing() {
        assertThatThrownBy(() -> VisitFolder.read(folder.resolve("elsewhere"), VisitFixture.SETS))
                .isInstanceOf(VisitFolderException.class)
                .hasMessage(
                        "VISIT-001 elsewhere: found neither folder nor file of this name, expected a visit folder or its"
                                + " visit.yaml. Check the path.");
    }

    @Test
    void says_that_the_folder_has_no_visit_file() throws IOException {
        Path empty = Files.createDirectory(folder.resolve("empty"));
        assertThatThrownBy(() -> VisitFolder.read(empty, VisitFixture.SETS))
                .hasMessage(
                        "VISIT-001 empty: found no visit.yaml in this folder, expected one beside the recordings. Write it after"
                                + " the ten-line example in docs/reference/visit-folder.md, or assess a single recording.");
        Files.writeString(empty.resolve("visit.yml"), "steamwright-visit: 1");
        assertThatThrownBy(() -> VisitFolder.read(empty, VisitFixture.SETS))
                .hasMessage("VISIT-001 empty: found visit.yml, expected visit.yaml. Rename it.");
    }

    @Test
    void refuses_a_file_beyond_one_megabyte() {
        VisitFixture fixture = new VisitFixture(folder).yaml("# " + "x".repeat(1_000_000));
        assertThat(fixture.problems())
                .containsExactly(
                        "VISIT-002 visit.yaml: found 1000002 bytes, expected at most 1000000. This file holds facts only;"
                                + " name recordings and documents by their file names.");
    }

    @Test
    void tells_the_line_of_a_tab() {
        assertThat(new VisitFixture(folder)
                        .yaml("steamwright-visit: 1\nclinic:\n\tname: X\n")
                        .problems())
                .containsExactly(
                        "VISIT-003 visit.yaml, line 3: found a tab, expected blanks. YAML indents with blanks only;"
                                + " replace the tab by two blanks.");
    }

    @Test
    void tells_the_line_of_a_colon_in_plain_text() {
        assertThat(new VisitFixture(folder)
                        .yaml("steamwright-visit: 1\nnext-due: validation: 2027\n")
                        .problems())
                .containsExactly(
                        "VISIT-003 visit.yaml, line 2: found a second \": \" in this place, expected one key and its value."
                                + " Put text that contains a colon between quotation marks, and check the indentation.");
    }

    @Test
    void a_sign_of_two_halves_may_stand_anywhere() {
        for (int before = 1000; before < 1050; before++) {
            assertThat(new VisitFixture(folder)
                            .yaml("# " + "x".repeat(before) + "\uD83D\uDE00\nruns: [\n")
                            .problems())
                    .as("the sign begins at character " + (before + 2))
                    .singleElement()
                    .asString()
                    .startsWith("VISIT-003 visit.yaml, line 3");
        }
    }

    @Test
    void tells_the_line_of_an_open_bracket() {
        assertThat(new VisitFixture(folder)
                        .yaml("steamwright-visit: 1\nruns: [\n")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-003 visit.yaml, line 3: found ")
                .endsWith(
                        "expected YAML. Check the indentation, quotation marks and brackets of this line and the one before.");
    }

    @Test
    void refuses_two_documents_and_loose_aliases() {
        assertThat(new VisitFixture(folder).yaml("a: 1\n---\nb: 2\n").problems())
                .containsExactly(
                        "VISIT-003 visit.yaml, line 2: found a second document after \"---\", expected one visit in each"
                                + " file. Make two folders of it.");
        assertThat(new VisitFixture(folder).yaml("purpose: *yearly\n").problems())
                .containsExactly(
                        "VISIT-003 visit.yaml, line 1: found an alias (*name) without its anchor, expected &name earlier in"
                                + " the file. Text that begins with * stands between quotation marks.");
    }

    @Test
    void tells_the_line_of_a_byte_that_is_not_utf8() {
        byte[] latin = "steamwright-visit: 1\npurpose: g\u00e4ngig\n".getBytes(StandardCharsets.ISO_8859_1);
        assertThat(new VisitFixture(folder).file("visit.yaml", latin).problems())
                .containsExactly(
                        "VISIT-003 visit.yaml, line 2: found a byte that is no UTF-8 text, expected UTF-8. Save the file with"
                                + " the encoding UTF-8.");
    }

    @Test
    void tells_the_line_of_a_control_character() {
        assertThat(new VisitFixture(folder)
                        .yaml("steamwright-visit: 1\npurpose: \u0007\n")
                        .problems())
                .containsExactly(
                        "VISIT-003 visit.yaml, line 2: found a control character (code 7), expected plain text. Save the"
                                + " file as UTF-8 text from a text editor.");
    }

    @Test
    void refuses_an_empty_file_and_a_bare_word() {
        assertThat(new VisitFixture(folder).yaml("# nothing yet\n").problems())
                .containsExactly(
                        "VISIT-003 visit.yaml: found an empty file, expected the keys of the visit file. The first line is:"
                                + " steamwright-visit: 1");
        assertThat(new VisitFixture(folder).yaml("hello\n").problems())
                .containsExactly(
                        "VISIT-009 visit.yaml, line 1: found \"hello\", expected keys with values. Compare with the example in"
                                + " docs/reference/visit-folder.md.");
    }

    @Test
    void stops_at_deep_nesting() {
        assertThat(new VisitFixture(folder).yaml("runs: " + "[".repeat(100_000)).problems())
                .containsExactly(
                        "VISIT-004 visit.yaml, line 1: found more than 20 levels inside each other, expected the few of a"
                                + " visit. Check the brackets and the indentation.");
    }

    @Test
    void stops_at_aliases_that_explode() {
        StringBuilder bomb = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 10; i++) {
            bomb.append("a").append(i).append(": &a").append(i).append(" [");
            bomb.append(("*a" + (i - 1) + ", ").repeat(9))
                    .append("*a")
                    .append(i - 1)
                    .append("]\n");
        }
        assertThat(new VisitFixture(folder).yaml(bomb.toString()).problems())
                .containsExactly(
                        "VISIT-004 visit.yaml: found aliases (*name) that grow to more than 200000 values, expected a visit."
                                + " Write the repeated parts out, or leave them away.");
    }

    @Test
    void stops_at_an_alias_inside_its_own_anchor() {
        assertThat(new VisitFixture(folder).yaml("runs: &r [*r]\n").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-004 visit.yaml: found aliases");
    }

    @Test
    void stops_at_too_many_aliases() {
        assertThat(new VisitFixture(folder)
                        .yaml("a: &a x\nb: [" + "*a, ".repeat(200) + "*a]\n")
                        .problems())
                .containsExactly(
                        "VISIT-004 visit.yaml, line 2: found more than 200 aliases (*name), expected fewer. Write the parts"
                                + " out.");
    }

    @Test
    void asks_for_the_version_of_the_format() {
        assertThat(tenLines(folder).replace("steamwright-visit: 1\n", "").problems())
                .containsExactly(
                        "VISIT-005 visit.yaml, line 1: found no \"steamwright-visit\", expected the version of the format."
                                + " Begin the file with: steamwright-visit: 1");
        assertThat(tenLines(folder).replace("visit: 1", "visit: 2").problems())
                .containsExactly(
                        "VISIT-005 visit.yaml, line 1, steamwright-visit: found version \"2\" of the format, expected 1. A"
                                + " newer program may be needed; otherwise write: steamwright-visit: 1");
    }

    // ---- keys and values

    @Test
    void suggests_the_nearest_key() {
        assertThat(tenLines(folder).replace("zone:", "purpos: yearly\nzone:").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-006 visit.yaml, line 2, purpos: found the unknown key \"purpos\", expected one of"
                        + " steamwright-visit, report-number, purpose, ")
                .endsWith(". Did you mean \"purpose\"?");
        assertThat(tenLines(folder).replace("zone:", "sauce: brown\nzone:").problems())
                .singleElement()
                .asString()
                .endsWith("next-due, not-tested, earlier, job-sheet. Remove it, or write it as a note.");
    }

    @Test
    void refuses_a_key_twice() {
        assertThat(tenLines(folder).replace("runs:", "zone: UTC\nruns:").problems())
                .containsExactly(
                        "VISIT-007 visit.yaml, line 7, zone: found the key \"zone\" again, expected it once; it stands in line"
                                + " 2 already. Remove one of the two.");
    }

    @Test
    void names_every_missing_key_at_once() {
        assertThat(new VisitFixture(folder).yaml("steamwright-visit: 1\n").problems())
                .containsExactly(
                        "VISIT-008 visit.yaml, line 1: found no \"zone\", expected it here. Add a line like: zone: Australia/Adelaide",
                        "VISIT-008 visit.yaml, line 1: found no \"sterilizers\", expected it here. Add a line like: sterilizers:"
                                + " [{serial: SN-0417, cycles: [{name: 134 wrapped, type: B, sterilizing-temperature: 134 °C}]}]",
                        "VISIT-008 visit.yaml, line 1: found no \"criteria-set\", expected the limits to judge by: one of au-as5369,"
                                + " eu-en13060, or a file in the folder. Add a line like: criteria-set: au-as5369",
                        "VISIT-008 visit.yaml, line 1: found no \"runs\", expected it here. Add a line like: runs: [{kind:"
                                + " empty-chamber, recording: run-1.csv}]");
    }

    @Test
    void collects_problems_from_all_parts_in_the_order_of_the_file() {
        VisitFixture fixture = tenLines(folder)
                .replace("zone: Australia/Adelaide", "zone: Australia/Adelade")
                .replace("134 °C", "134")
                .replace("T2: free-chamber", "T2: free chamber");
        assertThat(fixture.problems())
                .containsExactly(
                        "VISIT-015 visit.yaml, line 2, zone: found \"Australia/Adelade\", expected a time zone by its IANA name, which"
                                + " knows summer time. Write for example: Australia/Adelaide. Did you mean \"Australia/Adelaide\"?",
                        "VISIT-010 visit.yaml, line 6, sterilizers[1].cycles[1].sterilizing-temperature: found 134 without a unit,"
                                + " expected a temperature in °C, °F or K. Write for example: 134 °C",
                        "VISIT-016 visit.yaml, line 10, runs[1].channels.T2: found \"free chamber\", expected one of reference-point,"
                                + " free-chamber, load, challenge-pack, pressure, ambient. Did you mean \"free-chamber\"?");
    }

    @Test
    void refuses_a_key_without_a_value_and_values_of_another_shape() {
        assertThat(tenLines(folder)
                        .replace("zone:", "purpose:\nclinic: Riverside\npeople: {name: Kim}\ncompany: [a]\nzone:")
                        .problems())
                .containsExactly(
                        "VISIT-009 visit.yaml, line 2, purpose: found nothing, expected a value. Write one, or remove the key.",
                        "VISIT-009 visit.yaml, line 3, clinic: found \"Riverside\", expected keys with values. Compare with the example"
                                + " in docs/reference/visit-folder.md.",
                        "VISIT-009 visit.yaml, line 4, people: found keys with values, expected a list, each entry beginning with \"- \"."
                                + " Compare with the example in docs/reference/visit-folder.md.",
                        "VISIT-009 visit.yaml, line 5, company: found a list, expected one text. Compare with the example in"
                                + " docs/reference/visit-folder.md.");
    }

    @Test
    void refuses_tags_and_lists_as_keys() {
        assertThat(tenLines(folder)
                        .replace("zone:", "purpose: !!binary aGk=\n[a, b]: c\nzone:")
                        .problems())
                .containsExactly(
                        "VISIT-009 visit.yaml, line 2, purpose: found the tag tag:yaml.org,2002:binary, expected plain text. Remove the"
                                + " tag.",
                        "VISIT-009 visit.yaml, line 3: found a list or mapping as a key, expected a word. Put text with brackets between"
                                + " quotation marks.");
    }

    @Test
    void refuses_days_that_do_not_exist() {
        assertThat(tenLines(folder).replace("zone:", "date: 2026-02-30\nzone:").problems())
                .containsExactly(
                        "VISIT-014 visit.yaml, line 2, date: found \"2026-02-30\", expected a day that exists as"
                                + " year-month-day. Write for example: 2026-03-02");
        assertThat(tenLines(folder).replace("zone:", "date: 02.03.2026\nzone:").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-014 visit.yaml, line 2, date: found \"02.03.2026\"");
    }

    @ParameterizedTest
    @ValueSource(strings = {"EST", "+10:30", "GMT+10", "Adelaide"})
    void refuses_zones_that_do_not_know_summer_time(String zone) {
        assertThat(tenLines(folder)
                        .replace("zone: Australia/Adelaide", "zone: \"" + zone + "\"")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-015 visit.yaml, line 2, zone: found \"" + zone
                        + "\", expected a time zone by its IANA name");
    }

    @Test
    void refuses_conditions_that_no_place_has() {
        assertThat(tenLines(folder)
                        .replace(
                                "zone:",
                                "conditions: {barometer: 1.012 kPa, altitude: 45000 m, room-humidity: 145 %}\nzone:")
                        .problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 2, conditions.room-humidity: found more than 100 %, expected a relative humidity."
                                + " Check the reading.",
                        "VISIT-017 visit.yaml, line 2, conditions.barometer: found \"1.012 kPa\", expected a barometer reading from 50 to"
                                + " 110 kPa. Check the unit.",
                        "VISIT-017 visit.yaml, line 2, conditions.altitude: found \"45000 m\", expected an altitude from -500 to 5000 m."
                                + " Check the unit.");
    }

    // ---- sterilizers, cycles, instruments

    @Test
    void refuses_a_temperature_that_sterilizes_nothing() {
        assertThat(tenLines(folder).replace("134 °C", "34 °C").problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 6, sterilizers[1].cycles[1].sterilizing-temperature: found \"34 °C\", expected a"
                                + " sterilisation temperature from 100 to 150 °C. Check the unit.");
    }

    @Test
    void asks_whether_a_pulse_depth_is_absolute() {
        assertThat(tenLines(folder)
                        .replace("134 °C}", "134 °C, pulse-depth: 15 kPa}")
                        .problems())
                .containsExactly(
                        "VISIT-028 visit.yaml, line 6, sterilizers[1].cycles[1].pulse-depth: found \"15 kPa\", expected the word"
                                + " absolute after it, since a gauge shows about 101 kPa less. Write for example: 15 kPa absolute");
    }

    @Test
    void refuses_sides_of_a_chamber_that_it_would_have_to_guess() {
        assertThat(tenLines(folder)
                        .replace("    cycles:", "    chamber-size: 250 x 45\n    tray-levels: 40\n    cycles:")
                        .problems())
                .containsExactly(
                        "VISIT-011 visit.yaml, line 6, sterilizers[1].chamber-size: found \"250 x 45\", expected diameter and depth"
                                + " such as 250 x 450 mm, or width, height and depth such as 280 x 200 x 400 mm, each side from"
                                + " 50 mm to 2000 mm. Write one unit, mm or cm, at the end.",
                        "VISIT-017 visit.yaml, line 7, sterilizers[1].tray-levels: found 40, expected 1 to 12 levels. Count the"
                                + " trays that lie over one another, or remove the key.");
    }

    @Test
    void refuses_a_counter_that_runs_backwards() {
        assertThat(tenLines(folder)
                        .replace("    cycles:", "    counter-at-arrival: 12\n    counter-at-departure: 9\n    cycles:")
                        .problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 7, sterilizers[1].counter-at-departure: found 9, expected at least the 12 of"
                                + " counter-at-arrival. Check which of the two is right.");
    }

    @Test
    void refuses_names_twice() {
        assertThat(tenLines(folder)
                        .replace(
                                "criteria-set",
                                "instruments: [{id: TL-1, measures: temperature}, {id: TL-1, measures: pressure}]\ncriteria-set")
                        .problems())
                .containsExactly(
                        "VISIT-020 visit.yaml, line 3, instruments[2]: found \"TL-1\" again: two instruments have the id"
                                + " \"TL-1\", expected each once. Rename one of them.");
    }

    @Test
    void refuses_certificates_that_can_not_be_right() {
        assertThat(tenLines(folder).replace("criteria-set", """
                                instruments:
                                  - id: TL-1
                                    measures: temperature
                                    certificate:
                                      number: K-1
                                      laboratory: Lab (invented)
                                      calibrated-on: 2026-02-10
                                      due-on: 2025-02-10
                                      points: [{reference: 134 °C, indicated: 134.1 °C, U: 0.06 K, k: 2}]
                                  - id: TL-2
                                    measures: temperature
                                    certificate:
                                      number: K-2
                                      laboratory: Lab (invented)
                                      calibrated-on: 2026-02-10
                                      due-on: 2027-02-10
                                      points: [[134 °C, 134.1 °C], [121 °C]]
                                criteria-set""").problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 6, instruments[1].certificate: found values that exclude each other or lie outside"
                                + " what is possible: certificate K-1 is due on 2025-02-10, before its calibration on 2026-02-10. Check"
                                + " them against the document they were taken from.",
                        "VISIT-008 visit.yaml, line 19, instruments[2].certificate.points[1]: found no U and k, expected the expanded"
                                + " uncertainty U and its coverage factor k. Write them at the point or once at the certificate, for"
                                + " example: U: 0.06 K and k: 2",
                        "VISIT-009 visit.yaml, line 19, instruments[2].certificate.points[2]: found 1 values, expected two: [reference,"
                                + " indicated]. Write for example: [134 °C, 134 °C]");
    }

    @Test
    void holds_normal_contributions_to_their_coverage_factor() {
        assertThat(tenLines(folder).replace("criteria-set", """
                                instruments:
                                  - id: TL-1
                                    measures: temperature
                                    contributions:
                                      - {name: a, size: 0.1 K, distribution: normal}
                                      - {name: b, size: 0.1 K, distribution: rectangular, k: 2}
                                      - {name: c, size: 0.1 kPa, distribution: triangular}
                                      - {name: d, size: 0.1 K, distribution: normal, k: 0}
                                criteria-set""").problems())
                .containsExactly(
                        "VISIT-008 visit.yaml, line 7, instruments[1].contributions[1]: found no \"k\", expected the coverage factor of a"
                                + " normal contribution. Add a line like: k: 2",
                        "VISIT-017 visit.yaml, line 8, instruments[1].contributions[2].k: found a coverage factor at a rectangular"
                                + " contribution, expected it at a normal one only. Remove k, or write distribution: normal",
                        "VISIT-011 visit.yaml, line 9, instruments[1].contributions[3].size: found \"0.1 kPa\", expected a temperature"
                                + " difference that is not negative in K, mK, °C or °F. Write for example: ±0.15 K",
                        "VISIT-017 visit.yaml, line 10, instruments[1].contributions[4].k: found 0.0, expected a number above 0. Check it"
                                + " against the document it was taken from.");
    }

    @Test
    void names_the_cycles_there_are() {
        assertThat(tenLines(folder)
                        .replace("recording:", "cycle: 134 wraped\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-018 visit.yaml, line 9, runs[1].cycle: found the cycle \"134 wraped\", expected one of \"134"
                                + " wrapped\" (sterilizer A). Did you mean \"134 wrapped\"?");
    }

    @Test
    void asks_which_cycle_of_several() {
        VisitFixture fixture = tenLines(folder)
                .replace(
                        "134 °C}]",
                        "134 °C}]\n  - {serial: SN-2, cycles: [{name: 134 wrapped, type: N, sterilizing-temperature: 134 °C}]}");
        assertThat(fixture.problems())
                .containsExactly(
                        "VISIT-019 visit.yaml, line 9, runs[1]: found no \"cycle\" but several in this file, expected one of"
                                + " \"134 wrapped\" (sterilizer A), \"134 wrapped\" (sterilizer B). Add a line like: cycle: 134 wrapped");
        assertThat(fixture.replace("recording:", "cycle: 134 wrapped\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-019 visit.yaml, line 10, runs[1].cycle: found the cycle \"134 wrapped\" at more than one"
                                + " sterilizer, expected one of \"134 wrapped\" (sterilizer A), \"134 wrapped\" (sterilizer B). Add a line like:"
                                + " sterilizer: A");
        assertThat(fixture.replace("recording:", "sterilizer: C\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-018 visit.yaml, line 11, runs[1].sterilizer: found the sterilizer \"C\", expected the key of one"
                                + " in this file: A, B. Correct it, or add the sterilizer.");
    }

    // ---- files

    @ParameterizedTest
    @ValueSource(
            strings = {
                "../run-1.csv",
                "sub/../../run-1.csv",
                "sub/..",
                "./run-1.csv",
                "/etc/hostname",
                "//server/share/run.csv",
                "~/run-1.csv",
                "C:/run-1.csv",
                "C:run-1.csv",
                "C:\\\\run-1.csv",
                "..\\\\run-1.csv",
                "\\\\\\\\server\\\\share",
                "file:run-1.csv",
                "https://example.org/run-1.csv",
                "sub//run-1.csv",
                "run-1.csv\\0",
            })
    void refuses_names_that_lead_out_of_the_folder(String name) {
        assertThat(tenLines(folder)
                        .replace("recording: run-1.csv", "recording: \"" + name + "\"")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-021 visit.yaml, line 9, runs[1].recording: found \"")
                .endsWith(
                        ", expected a file inside the visit folder. Copy it there and write its name, with / between a subfolder"
                                + " and the file.");
    }

    @Test
    void refuses_a_link_that_leads_out_of_the_folder(@TempDir Path outside) throws IOException {
        Path secret = Files.writeString(outside.resolve("other.csv"), stamped("2026-03-02", 9, "T1 [°C]", 20));
        VisitFixture fixture = tenLines(folder).replace("run-1.csv", "link.csv");
        Files.createSymbolicLink(folder.resolve("link.csv"), secret);
        assertThat(fixture.problems())
                .containsExactly(
                        "VISIT-021 visit.yaml, line 9, runs[1].recording: found \"link.csv\", a link that leads out of the"
                                + " folder, expected a file inside the visit folder. Copy the file itself into the folder.");
        Files.createSymbolicLink(folder.resolve("sub"), outside);
        assertThat(fixture.replace("link.csv", "sub/other.csv").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-021");
    }

    @Test
    void suggests_the_file_that_was_meant() {
        assertThat(tenLines(folder).replace("run-1.csv", "run_1.csv").problems())
                .containsExactly(
                        "VISIT-022 visit.yaml, line 9, runs[1].recording: found no file \"run_1.csv\" in the visit folder,"
                                + " expected it there. Did you mean \"run-1.csv\"?");
        assertThat(new VisitFixture(folder)
                        .file("logs/x.csv", "")
                        .replace("run_1.csv", "logs")
                        .problems())
                .containsExactly(
                        "VISIT-022 visit.yaml, line 9, runs[1].recording: found the folder \"logs\", expected a file. Write the"
                                + " name of the file in it.");
    }

    @Test
    void a_run_that_is_still_to_be_recorded_is_no_problem_beside_one_that_is() throws Exception {
        VisitFixture fixture = tenLines(folder);
        Visit visit = fixture.replace(
                        "runs:\n",
                        "runs:\n  - {kind: reference-load, machine-cycle: 12}\n  - {kind: air-leakage, cycle: vacuum}\n")
                .read();
        assertThat(visit.runs()).extracting(VisitRun::number).containsExactly(3);
        assertThat(visit.unrecorded())
                .containsExactly(
                        new UnrecordedRun(1, "A", TestKind.LOADED, "", OptionalInt.of(12)),
                        new UnrecordedRun(2, "A", TestKind.LEAK, "vacuum", OptionalInt.empty()));
        assertThat(fixture.replace("kind: air-leakage", "kind: leakage").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-016 visit.yaml, line 9, runs[2].kind: found \"leakage\"");
    }

    @Test
    void a_run_alone_without_a_recording_is_a_problem() {
        assertThat(tenLines(folder).replace("    recording: run-1.csv\n", "").problems())
                .containsExactly(
                        "VISIT-008 visit.yaml, line 8, runs[1]: found no \"recording\", expected it here. Add a line like:"
                                + " recording: run-1.csv");
    }

    @Test
    void passes_on_what_the_reader_of_recordings_says() {
        assertThat(tenLines(folder).file("run-1.csv", "").problems())
                .singleElement()
                .asString()
                .startsWith(
                        "VISIT-023 visit.yaml, line 9, runs[1].recording: found run-1.csv but can't read it: INTAKE-");
    }

    @Test
    void says_where_to_answer_what_a_recording_leaves_open() {
        assertThat(tenLines(folder)
                        .file("run-1.csv", stamped("02/03/2026", 9, "T1 [°C],T2 [°C],P [kPa abs]", 134.2, 134.1, 310))
                        .problems())
                .singleElement()
                .asString()
                .startsWith(
                        "VISIT-023 visit.yaml, line 9, runs[1].recording: found run-1.csv but it leaves something open: ")
                .contains("Write under reading: date-order: ");
    }

    @Test
    void refuses_the_same_recording_in_two_runs() {
        String same = stamped("2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa abs]", 134.2, 134.1, 310.0);
        assertThat(tenLines(folder)
                        .file("copy.csv", same)
                        .replace(
                                "P: pressure}\n",
                                "P: pressure}\n  - {kind: empty-chamber, recording: copy.csv, channels: {T1: reference-point}}\n")
                        .problems())
                .containsExactly(
                        "VISIT-024 visit.yaml, line 11, runs[2].recording: found in copy.csv the same bytes as in run-1.csv in"
                                + " runs[1].recording (line 9), expected a recording of its own for each run. Was the wrong file copied or named?");
    }

    @Test
    void refuses_unknown_criteria_sets() {
        assertThat(tenLines(folder).replace("au-as5369", "au-as5396").problems())
                .containsExactly(
                        "VISIT-031 visit.yaml, line 3, criteria-set: found the criteria set \"au-as5396\", expected one of"
                                + " au-as5369, eu-en13060, or a file in the folder. Did you mean \"au-as5369\"?");
        assertThat(tenLines(folder)
                        .replace("au-as5369", "own.yaml")
                        .file("own.yaml", "nothing")
                        .problems())
                .containsExactly(
                        "VISIT-031 visit.yaml, line 3, criteria-set: found the file \"own.yaml\" but can't read it as a criteria"
                                + " set: own.yaml, line 1: found no limits. Write some.");
        assertThat(tenLines(folder).replace("au-as5369", "../own.yaml").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-021");
    }

    // ---- channels

    @Test
    void lists_the_columns_when_a_name_is_unknown() {
        assertThat(tenLines(folder)
                        .replace("T2: free-chamber", "T22: free-chamber")
                        .problems())
                .containsExactly(
                        "VISIT-025 visit.yaml, line 10, runs[1].channels.T22: found the column name \"T22\", expected one of the"
                                + " columns T1 (°C), T2 (°C), P (kPa). Did you mean \"T2\"?");
    }

    @Test
    void asks_for_channels_where_roles_are_not_obvious() {
        assertThat(tenLines(folder)
                        .replace("    channels: {T1: reference-point, T2: free-chamber, P: pressure}\n", "")
                        .problems())
                .containsExactly(
                        "VISIT-008 visit.yaml, line 8, runs[1]: found no \"channels\", expected what each column stands for; the"
                                + " columns are T1 (°C), T2 (°C), P (kPa). Add a line like: channels: {T1: reference-point, T2: free-chamber}");
    }

    @Test
    void asks_for_the_file_where_a_column_name_occurs_twice() {
        assertThat(tenLines(folder)
                        .file("run-2.csv", stamped("2026-03-02", 10, "T1 [°C]", 134))
                        .replace("recording: run-1.csv", "recording: [run-1.csv, run-2.csv]")
                        .problems())
                .containsExactly(
                        "VISIT-026 visit.yaml, line 10, runs[1].channels.T1: found \"T1\" in more than one place, expected one"
                                + " column out of run-1.csv/T1 (°C), run-1.csv/T2 (°C), run-1.csv/P (kPa), run-2.csv/T1 (°C). Write the file"
                                + " before it, for example: \"run-1.csv/T1\"");
    }

    @Test
    void refuses_a_pressure_kind_against_the_file() {
        assertThat(tenLines(folder)
                        .replace("P: pressure", "P: {role: pressure, reference: gauge}")
                        .problems())
                .containsExactly(
                        "VISIT-027 visit.yaml, line 10, runs[1].channels.P: found reference: gauge but the file says absolute for"
                                + " the column \"P\"; expected both to agree. With the door open an absolute pressure shows the barometer, about"
                                + " 101 kPa at sea level, and a gauge pressure about 0; this column begins with 310.0 kPa.");
    }

    @Test
    void asks_for_the_pressure_kind_that_nobody_stated() {
        assertThat(tenLines(folder)
                        .file("run-1.csv", stamped("2026-03-02", 9, "T1 [°C],T2 [°C],P [kPa]", 134.2, 134.1, 101.3))
                        .problems())
                .containsExactly(
                        "VISIT-028 visit.yaml, line 10, runs[1].channels.P: found neither in the file nor here whether \"P\" is"
                                + " absolute or gauge, expected one of the two. With the door open an absolute pressure shows the barometer, about"
                                + " 101 kPa at sea level, and a gauge pressure about 0; this column begins with 101.3 kPa. Write for example:"
                                + " {role: pressure, reference: absolute}");
    }

    @Test
    void refuses_roles_that_do_not_fit_the_column() {
        assertThat(tenLines(folder)
                        .replace("T2: free-chamber, P: pressure", "T2: pressure, P: ambient")
                        .problems())
                .containsExactly(
                        "VISIT-029 visit.yaml, line 10, runs[1].channels.T2: found the role pressure at the column \"T2\" in °C, expected"
                                + " a role for a temperature. Write another role, or name another column.",
                        "VISIT-029 visit.yaml, line 10, runs[1].channels.P: found the role ambient at the column \"P\" in kPa, expected"
                                + " pressure. Write role: pressure, or name another column.");
        assertThat(tenLines(folder)
                        .replace("T2: free-chamber", "T2: {role: load, reference: gauge}")
                        .problems())
                .containsExactly(
                        "VISIT-029 visit.yaml, line 10, runs[1].channels.T2: found a reference at the temperature \"T2\", expected"
                                + " it at a pressure only. Remove the reference.");
    }

    @Test
    void refuses_an_instrument_that_measures_something_else_or_is_not_there() {
        VisitFixture fixture = tenLines(folder)
                .replace("runs:", "instruments: [{id: PL-02, measures: pressure}]\nruns:")
                .replace("T2: free-chamber", "T2: {role: free-chamber, instrument: PL-02}");
        assertThat(fixture.problems())
                .containsExactly(
                        "VISIT-029 visit.yaml, line 11, runs[1].channels.T2: found the instrument \"PL-02\", which measures"
                                + " pressure, at the column \"T2\" in °C, expected an instrument for temperature. Name the instrument that this"
                                + " column came from.");
        assertThat(fixture.replace("instrument: PL-02", "instrument: PL-20").problems())
                .containsExactly(
                        "VISIT-018 visit.yaml, line 11, runs[1].channels.T2.instrument: found the instrument \"PL-20\", expected"
                                + " the id of one in this file: PL-02. Did you mean \"PL-02\"?");
    }

    @Test
    void needs_a_start_where_several_recordings_meet() {
        assertThat(tenLines(folder)
                        .file("run-2.csv", elapsed("T9 [°C]", 134))
                        .replace("recording: run-1.csv", "recording: [run-1.csv, run-2.csv]")
                        .problems())
                .containsExactly(
                        "VISIT-030 visit.yaml, line 9, runs[1].recording[2]: found elapsed time only in run-2.csv, expected a"
                                + " time stamp, since this run has several recordings. Write under its reading the moment of its beginning, for"
                                + " example: start: 2026-03-02T09:14:05");
    }

    @Test
    void needs_one_reference_point_or_one_pressure() {
        assertThat(tenLines(folder).replace("T1: reference-point, ", "").problems())
                .containsExactly(
                        "VISIT-032 visit.yaml, line 10, runs[1].channels: found 0 channels with the role reference-point and 1"
                                + " with the role pressure, expected one reference-point and at most one pressure. The reference point is the"
                                + " sensor beside the sterilizer's own; the columns are T1 (°C), T2 (°C), P (kPa).");
        assertThat(tenLines(folder)
                        .replace("empty-chamber", "air-leakage")
                        .replace(", P: pressure", "")
                        .problems())
                .containsExactly(
                        "VISIT-032 visit.yaml, line 10, runs[1].channels: found 0 channels with the role pressure in an air"
                                + " leakage test, expected one. Name the column of the chamber pressure; the columns are T1 (°C), T2 (°C), P"
                                + " (kPa).");
    }

    @Test
    void refuses_channels_with_the_same_name_and_columns_named_twice() {
        assertThat(tenLines(folder)
                        .replace("T2: free-chamber", "T2: {role: load, name: T1}")
                        .problems())
                .containsExactly(
                        "VISIT-020 visit.yaml, line 10, runs[1].channels.T2: found a second channel called \"T1\", expected a name"
                                + " of its own. Add a line like: name: T1-2");
        assertThat(tenLines(folder)
                        .replace("T2: free-chamber", "t1: free-chamber")
                        .problems())
                .containsExactly(
                        "VISIT-020 visit.yaml, line 10, runs[1].channels.t1: found the column \"T1\" again under another spelling,"
                                + " expected each column once. Remove one of the two.");
    }

    @Test
    void refuses_parts_that_belong_to_another_kind_of_run() {
        assertThat(tenLines(folder)
                        .replace(
                                "recording:",
                                "load: {description: five cassettes}\n    leak-periods: {isolation: 1 s, settled: 5 s, end: 3 s}\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 9, runs[1].load: found a load at a run of kind empty-chamber, expected it at a"
                                + " reference-load run only. Remove it, or write kind: reference-load",
                        "VISIT-017 visit.yaml, line 10, runs[1].leak-periods: found the moments 1.0 s, 5.0 s and 3.0 s, expected isolation"
                                + " before settled before end. All three count from the first sample.",
                        "VISIT-017 visit.yaml, line 10, runs[1].leak-periods: found leak-periods at a run of kind empty-chamber, expected"
                                + " them at an air-leakage run only. Remove them, or write kind: air-leakage");
    }

    @Test
    void refuses_levels_that_are_none_and_a_load_taken_out_of_an_empty_chamber() {
        assertThat(tenLines(folder)
                        .replace("recording:", "after-run: {packs: dry}\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 9, runs[1].after-run: found after-run at a run of kind empty-chamber, expected it"
                                + " at a reference-load run only. Remove it, or write kind: reference-load");
        assertThat(tenLines(folder)
                        .replace("kind: empty-chamber", "kind: reference-load")
                        .replace("recording:", "load: {description: five, on-levels: 1; 15}\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 9, runs[1].load.on-levels: found \"1; 15\", expected levels of trays counted from"
                                + " below, 1 to 12. Write for example: 1, 3");
    }

    @Test
    void refuses_a_lethality_without_a_z() {
        assertThat(tenLines(folder)
                        .replace("recording:", "lethality: {reference: 121 °C, z: 0 K}\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-017 visit.yaml, line 9, runs[1].lethality: found z: 0.0 K, expected more than nothing. Write it as z: 10 K");
        assertThat(tenLines(folder)
                        .replace("recording:", "lethality: {reference: 121 °C}\n    recording:")
                        .problems())
                .singleElement()
                .asString()
                .contains("lethality", "z", "10 K");
    }

    @Test
    void tells_what_a_reading_can_not_be() {
        assertThat(tenLines(folder)
                        .replace(
                                "recording:",
                                "reading: {date-order: YDM, zone: +9.5, start: yesterday}\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-015 visit.yaml, line 9, runs[1].reading.zone: found \"+9.5\", expected an offset of hours and minutes."
                                + " Write for example: +09:30",
                        "VISIT-016 visit.yaml, line 9, runs[1].reading.date-order: found \"YDM\", expected DMY, MDY or YMD. Write it as in"
                                + " the reference page.",
                        "VISIT-014 visit.yaml, line 9, runs[1].reading.start: found \"yesterday\", expected a moment as date and time."
                                + " Write for example: 2026-03-02T09:14:05 or 2026-03-02T09:14:05+10:30");
    }

    @Test
    void refuses_a_start_that_the_clocks_skipped_or_showed_twice() {
        assertThat(tenLines(folder)
                        .replace("recording:", "reading: {start: 2026-10-04T02:30:00}\n    recording:")
                        .problems())
                .containsExactly(
                        "VISIT-014 visit.yaml, line 9, runs[1].reading.start: found \"2026-10-04T02:30:00\", a time of day that"
                                + " the clocks in Australia/Adelaide skipped that day, expected one moment. Write its offset too, for example:"
                                + " 2026-10-04T02:30+00:00");
        assertThat(tenLines(folder)
                        .replace("recording:", "reading: {start: 2026-04-05T02:30:00}\n    recording:")
                        .problems())
                .singleElement()
                .asString()
                .contains("showed twice that day");
    }
}
