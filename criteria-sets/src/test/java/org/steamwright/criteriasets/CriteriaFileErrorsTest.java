package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every way in which a file can be refused, with the whole sentence. */
class CriteriaFileErrorsTest {

    /**
     * One refused file.
     *
     * @param why in a few words
     * @param file its text
     * @param isSeenBySchema whether the published schema refuses it as well
     * @param message the whole sentence
     */
    record Refused(String why, String file, boolean isSeenBySchema, String message) {
        @Override
        public String toString() {
            return why;
        }
    }

    private static final String SOURCE = "{document: Quality manual, provenance: user, confidence: high}";

    private static final List<Refused> CASES = List.of(
            new Refused(
                    "a slip of the pen",
                    Examples.with("title: High", "titel: High"),
                    false,
                    "CRITERIA-006 clinic.yaml, line 4, titel: found 'titel', expected one of steamwright-criteria-set, name, version, title, based-on, notes, formula, theoretical-temperature-in-band, decision-rule, revalidation, consecutive-runs, cycles, criteria. Nearest is 'title'."),
            new Refused(
                    "no name",
                    Examples.with("name: high-street\n", ""),
                    true,
                    "CRITERIA-007 clinic.yaml, line 1: found no 'name', expected 'name:' with a text. Add the line; docs/reference/criteria-sets.md shows where."),
            new Refused(
                    "another file",
                    Examples.with("steamwright-criteria-set: 1\n", ""),
                    true,
                    "CRITERIA-004 clinic.yaml, line 1: found no 'steamwright-criteria-set', expected 'steamwright-criteria-set: 1' at the top. Add that line if this is meant to be a criteria set; otherwise another file was named."),
            new Refused(
                    "a newer format",
                    Examples.with("steamwright-criteria-set: 1", "steamwright-criteria-set: 2"),
                    true,
                    "CRITERIA-005 clinic.yaml, line 1, steamwright-criteria-set: found '2', expected '1'. The file was written for another version of the program; a newer program may read it."),
            new Refused(
                    "a tab",
                    Examples.with("  use: iapws-r7-97", "\tuse: iapws-r7-97"),
                    false,
                    "CRITERIA-003 clinic.yaml, line 6: found text that breaks the rules of YAML (found character '\\t(TAB)' that cannot start any token. (Do not use \\t(TAB) for indentation)), expected one YAML document. Look at this line and the one above it: indent by two blanks, never by a tab; put a blank after each colon; put text with a colon in it between quotes."),
            new Refused(
                    "an open bracket",
                    "steamwright-criteria-set: [1",
                    false,
                    "CRITERIA-003 clinic.yaml, line 1: found text that breaks the rules of YAML (expected ',' or ']', but got <stream end>), expected one YAML document. Look at this line and the one above it: indent by two blanks, never by a tab; put a blank after each colon; put text with a colon in it between quotes."),
            new Refused(
                    "two documents in one file",
                    "steamwright-criteria-set: 1\n---\nname: x\n",
                    false,
                    "CRITERIA-003 clinic.yaml, line 2: found text that breaks the rules of YAML (but found another document), expected one YAML document. Look at this line and the one above it: indent by two blanks, never by a tab; put a blank after each colon; put text with a colon in it between quotes."),
            new Refused(
                    "comments only",
                    "# nothing here\n",
                    false,
                    "CRITERIA-002 clinic.yaml: found no key at all, expected a criteria set. A file of comments only says nothing; start from the example in docs/reference/criteria-sets.md."),
            new Refused(
                    "a list at the top",
                    "- one\n- two\n",
                    true,
                    "CRITERIA-008 clinic.yaml, line 1: found a list, expected keys with values below it. Check the indentation against the example in docs/reference/criteria-sets.md."),
            new Refused(
                    "prose",
                    "dear reader\n",
                    true,
                    "CRITERIA-008 clinic.yaml, line 1: found the text 'dear reader', expected keys with values below it. Check the indentation against the example in docs/reference/criteria-sets.md."),
            new Refused(
                    "the same key twice",
                    Examples.with("version: 7\n", "version: 7\nversion: 8\n"),
                    false,
                    "CRITERIA-017 clinic.yaml, line 4, version: found 'version' a second time (first in line 3), expected every key once. Keep the one that is meant and take the other out."),
            new Refused(
                    "nothing after the colon",
                    Examples.with("version: 7\n", "version:\n"),
                    true,
                    "CRITERIA-009 clinic.yaml, line 3, version: found nothing after the colon, expected a text. Write it, or take the line out."),
            new Refused(
                    "keys where a text belongs",
                    Examples.with("version: 7\n", "version:\n  major: 7\n"),
                    true,
                    "CRITERIA-008 clinic.yaml, line 3, version: found keys with values below them, expected a text on the same line. Check the indentation against the example in docs/reference/criteria-sets.md."),
            new Refused(
                    "a text where keys belong",
                    Examples.with("revalidation:\n  after: 6 months\n  source: " + SOURCE, "revalidation: 6 months"),
                    true,
                    "CRITERIA-008 clinic.yaml, line 10, revalidation: found the text '6 months', expected keys with values below it. Check the indentation against the example in docs/reference/criteria-sets.md."),
            new Refused(
                    "a text where a list belongs",
                    "steamwright-criteria-set: 1\nname: a\nversion: 1\ntitle: b\ncycles: 134 °C\n",
                    true,
                    "CRITERIA-008 clinic.yaml, line 5, cycles: found the text '134 °C', expected a list, each entry with a dash in front. Check the indentation against the example in docs/reference/criteria-sets.md."),
            new Refused(
                    "a list in front of the colon",
                    "steamwright-criteria-set: 1\n[a, b]: c\n",
                    false,
                    "CRITERIA-008 clinic.yaml, line 2, ?: found a list, expected a word in front of the colon. Check the indentation against the example in docs/reference/criteria-sets.md."),
            new Refused(
                    "a name with blanks",
                    Examples.with("name: high-street", "name: High Street"),
                    true,
                    "CRITERIA-020 clinic.yaml, line 2, name: found 'High Street', expected a word of small letters, digits and single hyphens. Write, for example, 'high-street-clinic'; the title may say it in full."),
            new Refused(
                    "the name of a preset",
                    Examples.with("name: high-street", "name: uk-htm"),
                    false,
                    "CRITERIA-020 clinic.yaml, line 2, name: found 'uk-htm', the name of a preset, expected a name of its own. Two sets under one name can't be told apart on a report; write, for example, 'my-uk-htm', with 'based-on: uk-htm'."),
            new Refused(
                    "a formula nobody knows",
                    Examples.with("use: iapws-r7-97", "use: iapws-97"),
                    true,
                    "CRITERIA-010 clinic.yaml, line 6, formula.use: found 'iapws-97', expected one of iapws-r7-97, short-formula. Nearest is 'iapws-r7-97'."),
            new Refused(
                    "yes instead of true",
                    Examples.with("theoretical-temperature-in-band: true", "theoretical-temperature-in-band: yes"),
                    true,
                    "CRITERIA-010 clinic.yaml, line 8, theoretical-temperature-in-band: found 'yes', expected one of true, false. Nearest is 'true'."),
            new Refused(
                    "a rule nobody knows",
                    Examples.with("decision-rule: simple", "decision-rule: guard"),
                    true,
                    "CRITERIA-010 clinic.yaml, line 9, decision-rule: found 'guard', expected one of simple, guarded, four-words. Nearest is 'guarded'."),
            new Refused(
                    "years",
                    Examples.with("after: 6 months", "after: 1 year"),
                    true,
                    "CRITERIA-011 clinic.yaml, line 11, revalidation.after: found '1 year', expected a whole number of months, or 'not stated'. Write it as, for example, '12 months'."),
            new Refused(
                    "no time at all",
                    Examples.with("after: 6 months", "after: 0 months"),
                    false,
                    "CRITERIA-013 clinic.yaml, line 11, revalidation.after: found '0 months', expected 1 to 120 months. Check the number; write 'not stated' if the set names no period."),
            new Refused(
                    "longer than ten years",
                    Examples.with("after: 6 months", "after: 200 months"),
                    false,
                    "CRITERIA-013 clinic.yaml, line 11, revalidation.after: found '200 months', expected 1 to 120 months. Check the number; write 'not stated' if the set names no period."),
            new Refused(
                    "half a run",
                    Examples.with("count: 2", "count: 2.5"),
                    true,
                    "CRITERIA-011 clinic.yaml, line 14, consecutive-runs.count: found '2.5', expected a whole number without a unit. Write it as, for example, '3'."),
            new Refused(
                    "no run",
                    Examples.with("count: 2", "count: 0"),
                    true,
                    "CRITERIA-013 clinic.yaml, line 14, consecutive-runs.count: found '0', expected more than 0 and at most 20. Check the number and its unit."),
            new Refused(
                    "runs with a unit",
                    Examples.with("count: 2", "count: 2 runs"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 14, consecutive-runs.count: found '2 runs' in 'runs', expected a whole number without a unit. Write it as, for example, '3'."),
            new Refused(
                    "a decimal comma",
                    Examples.with("at-least: 3.5 min", "at-least: 3,5 min"),
                    true,
                    "CRITERIA-011 clinic.yaml, line 19, cycles[1].holding-time.at-least: found '3,5 min', expected a number with a decimal point and its unit. Write the decimal mark as a point and leave out marks between thousands, as in '180 s'."),
            new Refused(
                    "words",
                    Examples.with("at-least: 3.5 min", "at-least: three minutes"),
                    true,
                    "CRITERIA-011 clinic.yaml, line 19, cycles[1].holding-time.at-least: found 'three minutes', expected a number with a decimal point and its unit. Write it as, for example, '180 s'."),
            new Refused(
                    "a number without its unit",
                    Examples.with("at-most: 1.5 K", "at-most: 1.5"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 50, criteria.temperature-spread.at-most: found '1.5' without a unit, expected a difference of temperatures in K. Write it as, for example, '2 K'."),
            new Refused(
                    "a time where a difference belongs",
                    Examples.with("at-most: 1.5 K", "at-most: 1.5 s"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 50, criteria.temperature-spread.at-most: found '1.5 s' in 's', expected a difference of temperatures in K. Write it as, for example, '2 K'."),
            new Refused(
                    "degree Celsius for a difference",
                    Examples.with("at-most: 1.5 K", "at-most: 1.5 °C"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 50, criteria.temperature-spread.at-most: found '1.5 °C' in '°C', expected a difference of temperatures in K. Write it as, for example, '2 K'. A difference of temperatures is stated in K."),
            new Refused(
                    "hours",
                    Examples.with("at-least: 3.5 min", "at-least: 0.1 h"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 19, cycles[1].holding-time.at-least: found '0.1 h' in 'h', expected a time in s or min. Write it as, for example, '180 s'."),
            new Refused(
                    "a temperature without its unit",
                    Examples.with("sterilizing-temperature: 134 °C", "sterilizing-temperature: 134"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 17, cycles[1].sterilizing-temperature: found '134' without a unit, expected a temperature in °C. Write it as, for example, '134 °C'."),
            new Refused(
                    "a share without its sign",
                    Examples.with("at-most: 0.2 %", "at-most: 0.2"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 58, criteria.load-dryness.at-most: found '0.2' without a unit, expected a share in %. Write it as, for example, '0.2 %'."),
            new Refused(
                    "a pressure where a rate belongs",
                    Examples.with("at-most: 0.8 mbar/min", "at-most: 0.8 mbar"),
                    true,
                    "CRITERIA-012 clinic.yaml, line 54, criteria.leak-rate.at-most: found '0.8 mbar' in 'mbar', expected a rate in kPa/min or mbar/min. Write it as, for example, '0.13 kPa/min'."),
            new Refused(
                    "1.3 kPa/min is the other unit",
                    Examples.with("at-most: 0.8 mbar/min", "at-most: 1.3 kPa/min"),
                    false,
                    "CRITERIA-013 clinic.yaml, line 54, criteria.leak-rate.at-most: found '1.3 kPa/min', expected more than 0 and at most 1 kPa/min. Check the number and its unit. 1.3 mbar/min is 0.13 kPa/min."),
            new Refused(
                    "below nothing",
                    Examples.with("at-most: 1.5 K", "at-most: -1.5 K"),
                    true,
                    "CRITERIA-013 clinic.yaml, line 50, criteria.temperature-spread.at-most: found '-1.5 K', expected more than 0 and at most 10 K. Check the number and its unit."),
            new Refused(
                    "too cold for steam",
                    Examples.with("sterilizing-temperature: 134 °C", "sterilizing-temperature: 34 °C"),
                    false,
                    "CRITERIA-013 clinic.yaml, line 17, cycles[1].sterilizing-temperature: found '34 °C', expected 100 to 150 °C. Steam sterilization is done between these temperatures; check the number."),
            new Refused(
                    "too hot for a benchtop",
                    Examples.with("sterilizing-temperature: 134 °C", "sterilizing-temperature: 273 °C"),
                    false,
                    "CRITERIA-013 clinic.yaml, line 17, cycles[1].sterilizing-temperature: found '273 °C', expected 100 to 150 °C. Steam sterilization is done between these temperatures; check the number."),
            new Refused(
                    "the wrong side",
                    Examples.with("at-most: 1.5 K", "at-least: 1.5 K"),
                    true,
                    "CRITERIA-014 clinic.yaml, line 50, criteria.temperature-spread.at-least: found 'at-least', expected 'at-most'. The good side of a limit belongs to the criterion and can't be turned round."),
            new Refused(
                    "the wrong side of a holding time",
                    Examples.with("at-least: 3.5 min", "at-most: 3.5 min"),
                    true,
                    "CRITERIA-014 clinic.yaml, line 19, cycles[1].holding-time.at-most: found 'at-most', expected 'at-least'. The good side of a limit belongs to the criterion and can't be turned round."),
            new Refused(
                    "a deciding criterion without its limit",
                    Examples.with("    use: advises\n    at-most: 1.5 K\n", "    use: advises\n"),
                    true,
                    "CRITERIA-015 clinic.yaml, line 48, criteria.temperature-spread: found no 'at-most', expected 'at-most:' with a limit where the use is 'decides' or 'advises'. State the limit, or write 'use: reports' to print the figure without a judgement."),
            new Refused(
                    "porous loads forgotten",
                    Examples.with("    porous-at-most: 0.9 %\n", ""),
                    true,
                    "CRITERIA-015 clinic.yaml, line 56, criteria.load-dryness: found no 'porous-at-most', expected 'porous-at-most:' with a limit where the use is 'decides' or 'advises'. State the limit, or write 'use: reports' to print the figure without a judgement."),
            new Refused(
                    "a limit that belongs to the cycle",
                    Examples.with("    rule: four-words\n", "    at-least: 180 s\n"),
                    true,
                    "CRITERIA-016 clinic.yaml, line 46, criteria.minimum-holding-time.at-least: found 'at-least', expected no limit in this entry. It comes from the set's list of cycles; state it there and take the line out."),
            new Refused(
                    "a limit on a question of yes or no",
                    Examples.with(
                            "  sensors-alive:\n    use: decides\n",
                            "  sensors-alive:\n    use: decides\n    at-most: 3\n"),
                    true,
                    "CRITERIA-016 clinic.yaml, line 34, criteria.sensors-alive.at-most: found 'at-most', expected no limit in this entry. This criterion is answered by yes or no; take the line out."),
            new Refused(
                    "a limit without a source",
                    Examples.with("    at-most: 1.5 K\n    source: " + SOURCE, "    at-most: 1.5 K"),
                    true,
                    "CRITERIA-018 clinic.yaml, line 48, criteria.temperature-spread: found no 'source', expected 'source:' with document, provenance and confidence. Say where the demand comes from; for a rule of your own name the paper it stands in and write 'provenance: user'."),
            new Refused(
                    "a limit without a source though it is off",
                    Examples.with(
                            "    use: advises\n    at-most: 1.5 K\n    source: " + SOURCE,
                            "    use: off\n    at-most: 1.5 K"),
                    true,
                    "CRITERIA-018 clinic.yaml, line 48, criteria.temperature-spread: found no 'source', expected 'source:' with document, provenance and confidence. Say where the demand comes from; for a rule of your own name the paper it stands in and write 'provenance: user'."),
            new Refused(
                    "a formula without a source",
                    Examples.with("  use: iapws-r7-97\n  source: " + SOURCE, "  use: iapws-r7-97"),
                    true,
                    "CRITERIA-018 clinic.yaml, line 5, formula: found no 'source', expected 'source:' with document, provenance and confidence. Say where the demand comes from; for a rule of your own name the paper it stands in and write 'provenance: user'."),
            new Refused(
                    "a provenance nobody knows",
                    Examples.with("provenance: user", "provenance: memory"),
                    true,
                    "CRITERIA-010 clinic.yaml, line 7, formula.source.provenance: found 'memory', expected one of seen, secondary, computed, from-memory, common-practice, user. Nearest is 'seen'."),
            new Refused(
                    "a confidence nobody knows",
                    Examples.with("confidence: high", "confidence: sure"),
                    true,
                    "CRITERIA-010 clinic.yaml, line 7, formula.source.confidence: found 'sure', expected one of high, medium, low. Nearest is 'high'."),
            new Refused(
                    "a source without a document",
                    Examples.with("{document: Quality manual, provenance: user", "{provenance: user"),
                    true,
                    "CRITERIA-007 clinic.yaml, line 7, formula.source: found no 'document', expected 'document:' with a text. Add the line; docs/reference/criteria-sets.md shows where."),
            new Refused(
                    "a criterion nobody knows",
                    Examples.with("  leak-rate:", "  leakage-rate:"),
                    true,
                    "CRITERIA-006 clinic.yaml, line 52, criteria.leakage-rate: found 'leakage-rate', expected one of recording-complete, sampling-interval, sensors-alive, calibration-valid, calibration-range, field-check-after, pressure-kind, air-removal-pulses, minimum-holding-time, lowest-temperature, highest-temperature, equilibration-time, penetration-time, temperature-spread, temperature-fluctuation, saturation-difference, free-chamber-excess, pressure-change-rate, drying-time, leak-rate, leak-start-pressure, leak-settling, leak-period, load-dryness, biological-indicators. Nearest is 'leak-rate'."),
            new Refused(
                    "a use nobody knows",
                    Examples.with("use: advises", "use: advice"),
                    true,
                    "CRITERIA-010 clinic.yaml, line 49, criteria.temperature-spread.use: found 'advice', expected one of decides, advises, reports, off. Nearest is 'advises'."),
            new Refused(
                    "a key that belongs elsewhere",
                    Examples.with("    porous-at-most: 0.9 %", "    textile-at-most: 0.9 %"),
                    true,
                    "CRITERIA-006 clinic.yaml, line 59, criteria.load-dryness.textile-at-most: found 'textile-at-most', expected one of use, rule, at-most, porous-at-most, source. Nearest is 'porous-at-most'."),
            new Refused(
                    "a temperature twice",
                    Examples.BASED.replace("sterilizing-temperature: 115 °C", "sterilizing-temperature: 134.0 °C"),
                    false,
                    "CRITERIA-021 clinic.yaml, line 11, cycles[2].sterilizing-temperature: found '134.0 °C' a second time, expected every sterilizing temperature once. A set holds one minimum for a temperature; put the other practice into a set of its own."),
            new Refused(
                    "evidence that only advises",
                    Examples.with("  calibration-valid:\n    use: decides", "  calibration-valid:\n    use: advises"),
                    true,
                    "CRITERIA-022 clinic.yaml, line 36, criteria.calibration-valid.use: found 'use: advises', expected 'use: decides'. Whether the recording and the instruments can carry a verdict counts in every set; without that a pass says nothing."),
            new Refused(
                    "evidence that is not asked for",
                    Examples.with("  calibration-valid:\n    use: decides\n    source: " + SOURCE + "\n", ""),
                    true,
                    "CRITERIA-022 clinic.yaml, line 1, criteria.calibration-valid: found no entry, expected 'use: decides'. Whether the recording and the instruments can carry a verdict counts in every set; without that a pass says nothing."),
            new Refused(
                    "a set of its own without a formula",
                    Examples.with("formula:\n  use: iapws-r7-97\n  source: " + SOURCE + "\n", ""),
                    true,
                    "CRITERIA-007 clinic.yaml, line 1: found no 'formula', expected 'formula:' in a set that is not based on another. Add it, or write 'based-on:' with the name of a preset to take the rest from there."),
            new Refused(
                    "a set of its own without a rule",
                    Examples.with("decision-rule: simple\n", ""),
                    true,
                    "CRITERIA-007 clinic.yaml, line 1: found no 'decision-rule', expected 'decision-rule:' in a set that is not based on another. Add it, or write 'based-on:' with the name of a preset to take the rest from there."),
            new Refused(
                    "no cycles",
                    "steamwright-criteria-set: 1\nname: a\nversion: 1\ntitle: b\nformula:\n  use: short-formula\n  source: &s {document: Quality manual, provenance: user, confidence: high}\ntheoretical-temperature-in-band: true\ndecision-rule: simple\nrevalidation:\n  after: not stated\n  source: *s\nconsecutive-runs:\n  count: 3\n  source: *s\n",
                    true,
                    "CRITERIA-007 clinic.yaml, line 1: found no 'cycles', expected 'cycles:' in a set that is not based on another. Add it, or write 'based-on:' with the name of a preset to take the rest from there."),
            new Refused(
                    "a file that nests itself",
                    "a: &a {k: 1}\nb: [" + "*a, ".repeat(300) + "*a]\n",
                    false,
                    "CRITERIA-003 clinic.yaml, line 1: found text that breaks the rules of YAML (Number of aliases for non-scalar nodes exceeds the specified max=200), expected one YAML document. Look at this line and the one above it: indent by two blanks, never by a tab; put a blank after each colon; put text with a colon in it between quotes."),
            new Refused(
                    "brackets without end",
                    "a: " + "[".repeat(5000) + "\n",
                    false,
                    "CRITERIA-003 clinic.yaml, line 1: found text that breaks the rules of YAML (more than 1000 opening brackets), expected one YAML document. Look at this line and the one above it: indent by two blanks, never by a tab; put a blank after each colon; put text with a colon in it between quotes."),
            new Refused(
                    "an endless indentation",
                    "a:\n" + " ".repeat(500) + "b: c\n",
                    false,
                    "CRITERIA-003 clinic.yaml, line 2: found text that breaks the rules of YAML (a line indented by more than 400), expected one YAML document. Look at this line and the one above it: indent by two blanks, never by a tab; put a blank after each colon; put text with a colon in it between quotes."),
            new Refused(
                    "a base nobody knows",
                    Examples.BASED.replace("based-on: eu-en13060", "based-on: eu-13060"),
                    false,
                    "CRITERIA-019 clinic.yaml, line 5, based-on: found 'eu-13060', expected one of eu-en13060, au-as5369, uk-htm, us-cdc, de-dgkh, ch-practice. A set can be based on a preset, not on another file."),
            new Refused(
                    "a cycle without its holding time",
                    Examples.with(
                            "    holding-time:\n      at-least: 3.5 min\n      source: {document: Quality manual, clause: '4.2', provenance: user, confidence: high}\n",
                            ""),
                    true,
                    "CRITERIA-007 clinic.yaml, line 17, cycles[1]: found no 'holding-time', expected 'holding-time:' with keys below it. Add the lines; docs/reference/criteria-sets.md shows where."));

    static List<Refused> cases() {
        return CASES;
    }

    static Stream<Arguments> seenBySchemaToo() {
        return CASES.stream().filter(Refused::isSeenBySchema).map(one -> Arguments.of(one.why(), one.file()));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cases")
    void says_where_and_what_and_how_to_mend_it(Refused refused) {
        CriteriaFileException problem =
                catchThrowableOfType(CriteriaFileException.class, () -> Examples.read(refused.file()));
        assertThat(problem).as(refused.why()).hasMessage(refused.message());
        assertThat(problem.getMessage()).startsWith(problem.kind().id() + " clinic.yaml");
        assertThat(problem.fileName()).isEqualTo("clinic.yaml");
        problem.line().ifPresent(line -> assertThat(problem.getMessage()).contains("clinic.yaml, line " + line));
        assertThat(problem.getMessage()).contains(problem.path());
    }

    @Test
    void an_empty_file_is_refused() {
        assertThat(refusal(new byte[0]))
                .hasMessage(
                        "CRITERIA-002 clinic.yaml: found an empty file, expected a criteria set. Was the copy cut short? Start from the example in docs/reference/criteria-sets.md.");
    }

    @Test
    void a_huge_file_is_refused_before_it_is_parsed() {
        assertThat(refusal(new byte[1_000_001]))
                .hasMessage(
                        "CRITERIA-002 clinic.yaml: found 1000001 bytes, expected at most 1000000 bytes. A criteria set is a page or two of text; was another file named by mistake?");
    }

    @Test
    void bytes_in_another_encoding_are_refused() {
        byte[] latin = "title: 134 \u00b0C\n".getBytes(StandardCharsets.ISO_8859_1);
        assertThat(refusal(latin))
                .hasMessage(
                        "CRITERIA-002 clinic.yaml: found bytes that are not UTF-8 text, expected UTF-8 text. Save the file as UTF-8 in the editor; signs such as ° and ≤ are what usually breaks.");
    }

    @Test
    void an_unknown_preset_is_answered_with_the_nearest_first() {
        CriteriaFileException problem =
                catchThrowableOfType(CriteriaFileException.class, () -> new Presets().get("en13060"));
        assertThat(problem)
                .hasMessage(
                        "CRITERIA-001 criteria set: found 'en13060', expected one of eu-en13060, uk-htm, us-cdc, de-dgkh, au-as5369, ch-practice. Write one of these names, or the path of a file of your own.");
        assertThat(problem.kind()).isEqualTo(CriteriaMessage.UNKNOWN_PRESET);
        assertThat(problem.line()).isEmpty();
        assertThat(problem.path()).isEmpty();
    }

    @Test
    void a_changed_preset_is_refused() {
        assertThat(catchThrowableOfType(
                        IllegalStateException.class, () -> Presets.checkReleased("uk-htm", "1", "aa", "bb")))
                .hasMessage(
                        "CRITERIA-023 uk-htm.yaml, version 1: found SHA-256 aa, expected bb. The program's own file is not the released one; install the program again, and put limits of your own into a file of your own.");
    }

    @Test
    void no_message_is_left_untested() {
        Set<String> tested = CASES.stream()
                .map(one -> one.message().substring(0, one.message().indexOf(' ')))
                .collect(Collectors.toSet());
        Set<CriteriaMessage> elsewhere = EnumSet.of(CriteriaMessage.UNKNOWN_PRESET, CriteriaMessage.PRESET_CHANGED);
        assertThat(tested)
                .containsExactlyInAnyOrderElementsOf(Arrays.stream(CriteriaMessage.values())
                        .filter(kind -> !elsewhere.contains(kind))
                        .map(CriteriaMessage::id)
                        .toList());
    }

    private static CriteriaFileException refusal(byte[] bytes) {
        return catchThrowableOfType(CriteriaFileException.class, () -> new Presets().read(bytes, "clinic.yaml"));
    }
}
