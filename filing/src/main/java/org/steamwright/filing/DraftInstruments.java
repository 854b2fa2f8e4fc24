package org.steamwright.filing;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.alignment.ClockCheck;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.intake.folder.VisitInstruments;
import org.steamwright.visit.InstrumentDay;

/**
 * The reference instruments of a visit that is being written: what each measured by now, how it stands on the day, how it was
 * checked. Known while other parts of the visit can't be read yet.
 *
 * @param read instruments and clocks as the visit states them
 * @param set the criteria set that is chosen; empty if it can't be read
 * @param day of the visit; empty if none is stated
 * @param used runs and columns by the id that was named there, also of an instrument that the visit does not have
 */
public record DraftInstruments(
        VisitInstruments read,
        Optional<CriteriaSet> set,
        Optional<LocalDate> day,
        Map<String, Map<Integer, List<String>>> used) {

    private static final String CHECKS = "instrument-checks";

    public DraftInstruments {
        used = new TreeMap<>(used);
    }

    static Optional<LocalDate> day(FactTree tree) {
        return day(tree.find(FactPath.of("date")).map(String::valueOf).orElse(""));
    }

    /** The day of a visit; empty while none is stated that can be read. */
    public static Optional<LocalDate> day(Draft draft) {
        return day(draft.text(FactPath.of("date")));
    }

    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeParseException noDay) {
            return Optional.empty();
        }
    }

    /** Runs and columns by the instrument that was named. */
    static Map<String, Map<Integer, List<String>>> used(FactTree tree) {
        Map<String, Map<Integer, List<String>>> used = new TreeMap<>();
        if (!(tree.root().get("runs") instanceof List<?> runs)) {
            return used;
        }
        for (int i = 0; i < runs.size(); i++) {
            if (!(runs.get(i) instanceof Map<?, ?> run) || !(run.get("channels") instanceof Map<?, ?> channels)) {
                continue;
            }
            for (Map.Entry<?, ?> channel : channels.entrySet()) {
                if (channel.getValue() instanceof Map<?, ?> said
                        && said.get("instrument") instanceof String id
                        && !id.isBlank()) {
                    String column = String.valueOf(channel.getKey());
                    used.computeIfAbsent(id.strip(), unused -> new TreeMap<>())
                            .computeIfAbsent(i + 1, unused -> new ArrayList<>())
                            .add(column.substring(column.lastIndexOf('/') + 1));
                }
            }
        }
        return used;
    }

    /** The instrument of that id, with its certificate of the day. */
    public Optional<ReferenceInstrument> find(String id) {
        return Optional.ofNullable(read.instruments().get(id))
                .map(known -> day.map(known::on).orElse(known));
    }

    /** How its clock was compared with the reference clock. */
    public Optional<ClockCheck> clock(String id) {
        return Optional.ofNullable(read.clocks().get(id));
    }

    /** Its checks of one moment that count for the day, judged; before the runs only those of the day itself. */
    public List<InstrumentDay.Judged> checks(String id, FieldCheck.Moment moment) {
        Optional<ReferenceInstrument> found = find(id);
        if (found.isEmpty() || day.isEmpty()) {
            return List.of();
        }
        ReferenceInstrument instrument = found.get();
        List<FieldCheck> checks = moment == FieldCheck.Moment.AFTER
                ? instrument.history().checksAfter(day.get())
                : instrument.history().checksBefore(day.get()).stream()
                        .filter(check -> check.day().equals(day.get()))
                        .toList();
        return checks.stream()
                .map(check -> InstrumentDay.Judged.of(instrument, check, limit(instrument)))
                .toList();
    }

    /** What the criteria set allows at most for it, in kelvin or kilopascal. */
    public Optional<Double> limit(ReferenceInstrument instrument) {
        return set.flatMap(chosen -> InstrumentDay.limit(chosen, instrument));
    }

    /** Ids of instruments that measured and were not checked since. */
    public List<String> unchecked() {
        return used.keySet().stream()
                .filter(id ->
                        day.isPresent() && checks(id, FieldCheck.Moment.AFTER).isEmpty())
                .toList();
    }

    /** Ids of instruments that columns name and the visit does not have. */
    public List<String> unknown() {
        return used.keySet().stream()
                .filter(id -> !read.instruments().containsKey(id))
                .toList();
    }

    /** Where what was done with an instrument stands; the next free place of the list if nothing does yet. */
    public static FactPath entry(Draft draft, String id) {
        int entries = draft.count(FactPath.of(CHECKS));
        for (int i = 1; i <= entries; i++) {
            if (draft.text(FactPath.of(CHECKS, i, "instrument")).equals(id)) {
                return FactPath.of(CHECKS, i);
            }
        }
        return FactPath.of(CHECKS, entries + 1);
    }
}
