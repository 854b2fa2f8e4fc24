package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;

/** Asks the reader which keys it misses in an empty mapping of each shape. */
final class RequiredKeys {

    private RequiredKeys() {}

    static Set<String> of(Shape shape, Path folder) {
        Problems problems = new Problems("visit.yaml");
        // an instrument's figures need to know what it measures, a point its certificate; all else starts from nothing
        String yaml = switch (shape) {
            case VISIT -> "purpose: x";
            case CERTIFICATE -> "[{id: a, measures: temperature, certificate: {}}]";
            case CERTIFICATE_FILE -> "[{id: a, measures: temperature, certificate: {item: x}}]";
            case RANGE -> "[{id: a, measures: temperature, range: {}}]";
            case POINT ->
                "[{id: a, measures: temperature, certificate: {number: a, laboratory: b, calibrated-on: 2026-01-01,"
                        + " due-on: 2026-01-02, U: 1 K, k: 2, points: [{}]}}]";
            case CONTRIBUTION -> "[{id: a, measures: temperature, contributions: [{}]}]";
            case CLOCK -> "[{id: a, measures: temperature, clock: {}}]";
            case CLOCK_READING -> "[{id: a, measures: temperature, clock: {before: {}}}]";
            case FIELD_CHECK -> "[{id: a, measures: temperature, checks: [{}]}]";
            case INSTRUMENT_CHECK -> "[{}]";
            case VISIT_CHECK -> "[{instrument: a, checks: [{}]}]";
            case QUARANTINE -> "[{id: a, measures: temperature, quarantine: [{}]}]";
            case CYCLE -> "[{serial: a, cycles: [{}]}]";
            case CHECK_ITEM -> "[{section: safety, items: [{}]}]";
            case LOAD_ITEM -> "{description: a, items: [{}]}";
            case CLINIC,
                    CONDITIONS,
                    NAME_PLATE,
                    SET_ASIDE,
                    AFTER_RUN,
                    LOAD,
                    LEAK_PERIODS,
                    STATED_BORDER,
                    LETHALITY,
                    READING,
                    RUN,
                    RECORDING,
                    CHANNEL -> "{}";
            case STERILIZER,
                    SET_CHANGE,
                    TAKEN_AWAY,
                    PERSON,
                    INSTRUMENT,
                    CHECKLIST,
                    INDICATOR,
                    CHEMICAL_INDICATOR,
                    WEIGHING -> "[{}]";
            case STATED_VALUE -> "[{id: a, type: 5, result: reached, stated-values: [{}]}]";
            case JOB_SHEET -> "{}";
            case SCOPE -> "{scope: {}}";
            case OTHER_CYCLES -> "{other-cycles: [{}]}";
            case CHANGES -> "{changes: [{}]}";
            case TASKS -> "{tasks: [{}]}";
            case TASK_ENTRY -> "{tasks: [{list: bench-safety, entries: [{}]}]}";
            case PART -> "{tasks: [{list: bench-safety, entries: [{task: earth, outcome: done, part: {}}]}]}";
            case INDICATION -> "{indications: [{temperature: 134 °C}]}";
            case PENETRATION -> "{penetration: [{}]}";
            case LOAD_FRAME -> "{loads: [{}]}";
            case CONDITION -> "{conditions: [{}]}";
            case RENEWAL -> "{conditions: [{text: a, owner: b, until: 2026-01-01, renewal: {}}]}";
            case EVIDENCE -> "{evidence: [{}]}";
            case FAILURE -> "{failures: [{}]}";
            case ENDING_EVENT -> "{events: [{}]}";
        };
        Optional<Entry> parsed = YamlSource.parse(yaml.getBytes(StandardCharsets.UTF_8), problems);
        Entry entry = parsed.orElseThrow();
        switch (shape) {
            case VISIT -> {
                return whole("purpose: x\n", folder);
            }
            case RUN -> {
                return whole(VisitFixture.TEN_LINES.replaceAll("(?s)runs:.*", "runs: [{}]\n"), folder);
            }
            case RECORDING -> {
                return whole(VisitFixture.TEN_LINES.replace("run-1.csv", "{}"), folder);
            }
            case READING -> {
                return whole(VisitFixture.TEN_LINES.replace("recording:", "reading: {}\n    recording:"), folder);
            }
            case CHANNEL -> {
                return whole(VisitFixture.TEN_LINES.replace("T2: free-chamber", "T2: {}"), folder);
            }
            case STATED_BORDER -> {
                return whole(
                        VisitFixture.TEN_LINES.replace("recording:", "stated-borders: [{}]\n    recording:"), folder);
            }
            case LEAK_PERIODS -> {
                return whole(
                        VisitFixture.TEN_LINES
                                .replace("recording:", "leak-periods: {}\n    recording:")
                                .replace("empty-chamber", "air-leakage"),
                        folder);
            }
            case LETHALITY -> {
                return whole(VisitFixture.TEN_LINES.replace("recording:", "lethality: {}\n    recording:"), folder);
            }
            case SET_ASIDE -> Facts.setAside(entry);
            case AFTER_RUN -> Facts.afterRun(entry);
            case TAKEN_AWAY -> Facts.takenAway(entry.list());
            case SET_CHANGE -> Facts.setChanges(entry.list());
            case NAME_PLATE -> PhotoFiles.plate(entry, new FolderFiles(folder, List.of()), new ArrayList<>());
            case CLINIC -> Facts.clinic(entry);
            case CONDITIONS -> Facts.conditions(entry);
            case STERILIZER, CYCLE -> Facts.sterilizers(entry);
            case PERSON -> Facts.people(entry);
            case INSTRUMENT,
                    RANGE,
                    CERTIFICATE,
                    CERTIFICATE_FILE,
                    POINT,
                    CONTRIBUTION,
                    CLOCK,
                    CLOCK_READING,
                    FIELD_CHECK,
                    QUARANTINE -> Facts.instruments(entry, certificates(folder));
            case INSTRUMENT_CHECK, VISIT_CHECK ->
                InstrumentChecks.read(
                        entry.list(),
                        Map.of(
                                "a",
                                new ReferenceInstrument(
                                        "a", "", Quantity.TEMPERATURE, 0, 1, Optional.empty(), List.of())),
                        Set.of(),
                        new HashMap<>(),
                        Optional.of(LocalDate.of(2026, 3, 2)));
            case CHECKLIST, CHECK_ITEM -> Facts.checklists(entry, List.of());
            case LOAD, LOAD_ITEM -> Facts.load(entry);
            case INDICATOR -> Facts.indicators(entry.list());
            case CHEMICAL_INDICATOR, STATED_VALUE -> Indicators.chemicals(entry);
            case WEIGHING -> Facts.weighings(entry.list());
            case JOB_SHEET,
                    SCOPE,
                    OTHER_CYCLES,
                    CHANGES,
                    TASKS,
                    TASK_ENTRY,
                    PART,
                    INDICATION,
                    PENETRATION,
                    LOAD_FRAME,
                    CONDITION,
                    RENEWAL,
                    EVIDENCE,
                    FAILURE,
                    ENDING_EVENT ->
                new JobFacts(new FolderFiles(folder, List.of()), List.of(), 2, Optional.empty(), Optional.empty())
                        .read(entry);
        }
        try {
            problems.throwIfAny();
            return Set.of();
        } catch (VisitFolderException e) {
            return missing(e);
        }
    }

    private static CertificateFiles certificates(Path folder) {
        try {
            return new CertificateFiles(new FolderFiles(folder, List.of()), Optional.empty(), new ArrayList<>());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Set<String> whole(String yaml, Path folder) {
        try {
            VisitFixture.tenLines(folder).yaml(yaml).read();
            return Set.of();
        } catch (VisitFolderException e) {
            return missing(e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Set<String> missing(VisitFolderException e) {
        Set<String> keys = new TreeSet<>();
        for (Problem problem : e.problems()) {
            if (problem.flaw().sort() == Flaw.Sort.MISSING) {
                keys.add(problem.flaw().about());
            }
        }
        return keys;
    }
}
