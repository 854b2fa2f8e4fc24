package org.steamwright.intake.folder;

import java.time.LocalDate;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;

/**
 * What was done with the instruments on the day of the visit: checks before and after the runs, clocks that were compared. It is
 * of the visit and not of the instrument, whose entry may lie in a register that many visits share.
 */
final class InstrumentChecks {

    private InstrumentChecks() {}

    /**
     * The instruments with these checks in their histories.
     *
     * @param entries as the visit states them
     * @param instruments of the visit and of its register
     * @param own ids whose entry stands in the visit itself
     * @param clocks by the id of the instrument, to which those stated here are added; one of the register is of another day and
     *     gives way
     * @param day of the visit, meant by a check that states none
     */
    static Map<String, ReferenceInstrument> read(
            List<Entry> entries,
            Map<String, ReferenceInstrument> instruments,
            Set<String> own,
            Map<String, ClockStatement> clocks,
            Optional<LocalDate> day) {
        Map<String, ReferenceInstrument> all = new LinkedHashMap<>(instruments);
        Set<String> seen = new HashSet<>();
        for (Entry entry : entries) {
            Optional<Fields> fields = entry.fields(Shape.INSTRUMENT_CHECK);
            Optional<Entry> named = fields.flatMap(opened -> opened.need("instrument", "TL-07"));
            Optional<String> id = named.flatMap(Entry::text);
            if (fields.isEmpty() || named.isEmpty() || id.isEmpty()) {
                continue;
            }
            Optional<ClockStatement> clock = fields.get().find("clock").flatMap(ClockFacts::read);
            ReferenceInstrument instrument = all.get(id.get());
            if (instrument == null) {
                fields.get().find("checks");
                named.get()
                        .problem(
                                Mistake.CHECK_OF_NOTHING,
                                Flaw.of(
                                        "found a check of \"" + id.get()
                                                + "\", expected an instrument of the visit or of its register.",
                                        instruments.isEmpty()
                                                ? "Add it to the instruments of the visit."
                                                : "They are " + String.join(", ", instruments.keySet()) + "."
                                                        + Nearest.didYouMean(id.get(), instruments.keySet())));
                continue;
            }
            if (!seen.add(id.get())) {
                named.get()
                        .problem(
                                Mistake.NAME_TWICE,
                                Flaw.found(
                                                Flaw.Sort.TWICE,
                                                "found %s a second time, expected each instrument once.",
                                                id.get())
                                        .with("Put its checks into one entry."));
            }
            boolean isTemperature = instrument.quantity() == Quantity.TEMPERATURE;
            List<FieldCheck> checks = Histories.checks(
                    fields.get().list("checks"),
                    isTemperature ? Measure.TEMPERATURE : Measure.PRESSURE,
                    isTemperature ? Measure.TEMPERATURE_DIFFERENCE : Measure.PRESSURE_DIFFERENCE,
                    day);
            if (!checks.isEmpty()) {
                all.put(
                        id.get(),
                        Facts.withHistory(instrument, known(instrument).withChecks(checks)));
            }
            boolean isTwice = own.contains(id.get()) && clocks.containsKey(id.get());
            clock.ifPresent(said -> clocks.put(id.get(), said));
            if (clock.isPresent() && isTwice) {
                fields.get()
                        .find("clock")
                        .ifPresent(spot -> spot.problem(
                                Mistake.CLOCK_TWICE,
                                Flaw.of(
                                        "found the clock of " + id.get()
                                                + " compared here and at the instrument, expected it once.",
                                        "Keep the one that was made at this visit.")));
            }
        }
        return all;
    }

    /** Its history, in which a single certificate stands too. */
    private static InstrumentHistory known(ReferenceInstrument instrument) {
        InstrumentHistory history = instrument.history();
        return history.calibrations().isEmpty() && instrument.certificate().isPresent()
                ? new InstrumentHistory(
                        List.of(CalibrationEvent.unadjusted(
                                instrument.certificate().get())),
                        history.checks(),
                        history.quarantines())
                : history;
    }
}
