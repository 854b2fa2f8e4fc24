package org.steamwright.intake.register;

import static org.steamwright.intake.register.RegisterFile.both;
import static org.steamwright.intake.register.RegisterFile.checked;
import static org.steamwright.intake.register.RegisterFile.list;

import java.time.LocalDate;
import java.time.Period;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.steamwright.intake.folder.ChamberFacts;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Fields;
import org.steamwright.intake.folder.Measure;
import org.steamwright.intake.folder.OtherYaml;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.SterilizerRecord;

/** Machines with their histories. */
final class SterilizerFacts {

    private SterilizerFacts() {}

    static Optional<SterilizerRecord> sterilizer(Fields fields) {
        Optional<String> id = fields.needText("id", "ST-01");
        Optional<SterilizerRecord.Identity> identity = identity(fields);
        SterilizerRecord.Status status = fields.find("status")
                .flatMap(entry -> entry.word(RegisterWords.STATUS))
                .orElse(SterilizerRecord.Status.IN_USE);
        boolean isLoaner = fields.find("loaner").flatMap(Entry::yesOrNo).orElse(false);
        String room = fields.text("room");
        List<SterilizerRecord.RegisteredCycle> cycles =
                list(fields, "cycles", RegisterShape.CYCLE, SterilizerFacts::cycle);
        List<SterilizerRecord.Firmware> firmware =
                list(fields, "firmware", RegisterShape.FIRMWARE, SterilizerFacts::firmware);
        Counter counter = fields.find("counter")
                .flatMap(entry -> entry.fields(RegisterShape.COUNTER))
                .flatMap(SterilizerFacts::counter)
                .orElse(Counter.UNREAD);
        List<SterilizerRecord.Movement> movements =
                list(fields, "movements", RegisterShape.MOVEMENT, SterilizerFacts::movement);
        List<SterilizerRecord.PressurePaper> papers =
                list(fields, "pressure-papers", RegisterShape.PRESSURE_PAPER, SterilizerFacts::paper);
        List<SterilizerRecord.OwnInterval> intervals =
                list(fields, "intervals", RegisterShape.INTERVAL, SterilizerFacts::interval);
        List<SterilizerRecord.Done> done = list(fields, "done", RegisterShape.DONE, SterilizerFacts::done);
        List<SterilizerRecord.ChangeMade> changes =
                list(fields, "changes", RegisterShape.CHANGE, SterilizerFacts::change);
        List<SterilizerRecord.PassCondition> conditions =
                list(fields, "conditions", RegisterShape.CONDITION, SterilizerFacts::condition);
        return id.isEmpty() || identity.isEmpty()
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new SterilizerRecord(
                                id.get(),
                                identity.get(),
                                status,
                                isLoaner,
                                room,
                                cycles,
                                firmware,
                                counter,
                                movements,
                                papers,
                                intervals,
                                done,
                                changes,
                                conditions));
    }

    private static Optional<SterilizerRecord.Identity> identity(Fields fields) {
        String maker = fields.text("maker");
        String model = fields.text("model");
        String family = fields.text("family");
        Optional<String> serial = fields.needText("serial", "SN-0417");
        String year = fields.text("year");
        Optional<Double> litres = fields.quantity("chamber", Measure.VOLUME);
        Optional<ChamberSize> size = ChamberFacts.size(fields);
        OptionalInt levels = ChamberFacts.levels(fields);
        return serial.map(
                number -> new SterilizerRecord.Identity(maker, model, family, number, year, litres, size, levels));
    }

    private static Optional<SterilizerRecord.RegisteredCycle> cycle(Fields fields) {
        boolean isInUse = fields.find("in-use").flatMap(Entry::yesOrNo).orElse(true);
        return OtherYaml.cycle(fields).map(cycle -> new SterilizerRecord.RegisteredCycle(cycle, isInUse));
    }

    private static Optional<SterilizerRecord.Firmware> firmware(Fields fields) {
        String note = fields.text("note");
        return both(
                fields.needText("version", "\"2.10\""),
                fields.need("since", "2026-03-02").flatMap(Entry::date),
                (version, since) -> new SterilizerRecord.Firmware(version, since, note));
    }

    private static Optional<Counter> counter(Fields fields) {
        List<Counter.Reading> readings =
                list(fields, "readings", RegisterShape.COUNTER_READING, SterilizerFacts::reading);
        List<Counter.Reset> resets = list(fields, "resets", RegisterShape.COUNTER_RESET, SterilizerFacts::reset);
        return checked(fields.entry(), RegisterMessage.COUNTER, () -> new Counter(readings, resets));
    }

    private static Optional<Counter.Reading> reading(Fields fields) {
        String evidence = fields.text("evidence");
        return both(
                fields.need("on", "2026-03-02").flatMap(Entry::date),
                needCount(fields, "shows", "4311"),
                (on, shown) -> new Counter.Reading(on, shown, evidence));
    }

    private static Optional<Counter.Reset> reset(Fields fields) {
        Optional<LocalDate> on = fields.need("on", "2026-03-02").flatMap(Entry::date);
        Optional<Integer> before = needCount(fields, "before", "4320");
        Optional<Integer> after = needCount(fields, "after", "0");
        Optional<String> evidence = fields.needText("evidence", "board exchanged, report R-2026-014");
        return on.isEmpty() || before.isEmpty() || after.isEmpty() || evidence.isEmpty()
                ? Optional.empty()
                : checked(fields.entry(), () -> new Counter.Reset(on.get(), before.get(), after.get(), evidence.get()));
    }

    private static Optional<Integer> needCount(Fields fields, String key, String example) {
        return fields.need(key, example).flatMap(entry -> boxed(entry.count()));
    }

    private static Optional<Integer> boxed(OptionalInt count) {
        return count.isPresent() ? Optional.of(count.getAsInt()) : Optional.empty();
    }

    private static OptionalLong count(Fields fields, String key) {
        OptionalInt count = fields.count(key);
        return count.isPresent() ? OptionalLong.of(count.getAsInt()) : OptionalLong.empty();
    }

    private static Optional<SterilizerRecord.Movement> movement(Fields fields) {
        String from = fields.text("from");
        String to = fields.text("to");
        String reason = fields.text("reason");
        return fields.need("on", "2026-03-02")
                .flatMap(Entry::date)
                .map(on -> new SterilizerRecord.Movement(on, from, to, reason));
    }

    private static Optional<SterilizerRecord.PressurePaper> paper(Fields fields) {
        Optional<LocalDate> next = fields.date("next-by");
        String by = fields.text("by");
        return both(
                fields.needText("document", "PV-2026-31"),
                fields.need("examined-on", "2026-03-02").flatMap(Entry::date),
                (document, examined) -> new SterilizerRecord.PressurePaper(document, examined, next, by));
    }

    private static Optional<Duty> duty(Fields fields) {
        return fields.need("duty", "validation").flatMap(entry -> entry.word(RegisterWords.DUTY));
    }

    private static Optional<SterilizerRecord.OwnInterval> interval(Fields fields) {
        Optional<Duty> duty = duty(fields);
        Optional<Period> every = fields.find("every").flatMap(Periods::read);
        OptionalLong cycles = count(fields, "cycles");
        Optional<String> because = fields.needText("because", "contract 12");
        boolean isUnreadable = fields.find("every").isPresent() && every.isEmpty();
        return duty.isEmpty() || because.isEmpty() || isUnreadable
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new SterilizerRecord.OwnInterval(duty.get(), every, cycles, because.get()));
    }

    private static Optional<SterilizerRecord.Done> done(Fields fields) {
        String evidence = fields.text("evidence");
        return both(
                duty(fields),
                fields.need("on", "2026-03-02").flatMap(Entry::date),
                (duty, on) -> new SterilizerRecord.Done(duty, on, evidence));
    }

    private static Optional<SterilizerRecord.ChangeMade> change(Fields fields) {
        Optional<LocalDate> settled = fields.date("settled-on");
        Optional<LocalDate> on = fields.need("on", "2026-03-02").flatMap(Entry::date);
        Optional<String> reason = fields.needText("reason", "heater-generator");
        Optional<String> what = fields.needText("what", "steam generator exchanged");
        return on.isEmpty() || reason.isEmpty() || what.isEmpty()
                ? Optional.empty()
                : Optional.of(new SterilizerRecord.ChangeMade(on.get(), reason.get(), what.get(), settled));
    }

    private static Optional<SterilizerRecord.PassCondition> condition(Fields fields) {
        Optional<String> what = fields.needText("what", "second challenge pack to be bought");
        Optional<String> owner = fields.needText("owner", "practice manager");
        Optional<LocalDate> until = fields.need("until", "2026-04-30").flatMap(Entry::date);
        OptionalLong atCycles = count(fields, "at-cycles");
        Optional<LocalDate> met = fields.date("met-on");
        return what.isEmpty() || owner.isEmpty() || until.isEmpty()
                ? Optional.empty()
                : Optional.of(new SterilizerRecord.PassCondition(what.get(), owner.get(), until.get(), atCycles, met));
    }
}
