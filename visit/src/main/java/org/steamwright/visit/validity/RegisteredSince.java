package org.steamwright.visit.validity;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.SterilizerRecord;

/**
 * What the register says of a machine since a visit, and what of it keeps a cycle from being run.
 *
 * <p>What happened on the day of the visit is held to have come before it, as the due list holds it too. Where a cycle number ends
 * something, the highest reading that is known counts, whatever somebody types for today.
 */
public final class RegisteredSince {

    private final SterilizerRecord machine;
    private final LocalDate from;
    private final LocalDate day;
    private final List<String> reasons = new ArrayList<>();

    private RegisteredSince(SterilizerRecord machine, LocalDate from, LocalDate day) {
        this.machine = machine;
        this.from = from;
        this.day = day;
    }

    /**
     * Everything that speaks against a cycle; empty if nothing does.
     *
     * @param state that the visit left
     * @param cycle that is to be run
     * @param day at the site
     * @param count cycle number that it will be; empty if nobody read the counter
     */
    public static List<String> against(
            SterilizerRecord machine, ValidatedState state, String cycle, LocalDate day, OptionalInt count) {
        RegisteredSince since = new RegisteredSince(machine, state.from().orElse(LocalDate.MIN), day);
        if (machine.status() != SterilizerRecord.Status.IN_USE) {
            since.reasons.add(
                    "The register has it as %s.".formatted(machine.status().words()));
        }
        since.counted(state, cycle, count);
        since.happened();
        since.conditions(count);
        return List.copyOf(since.reasons);
    }

    private boolean isSince(LocalDate on) {
        return on.isAfter(from) && !on.isAfter(day);
    }

    private void happened() {
        for (SterilizerRecord.Movement movement : machine.movements()) {
            if (isSince(movement.on())) {
                reasons.add(
                        movement.reason().isBlank()
                                ? "On %s it was moved. That ended it.".formatted(movement.on())
                                : "On %s it was moved (%s). That ended it."
                                        .formatted(movement.on(), movement.reason()));
            }
        }
        for (SterilizerRecord.ChangeMade change : machine.changes()) {
            if (isSince(change.on()) && isOpen(change.settledOn())) {
                reasons.add("On %s: %s. The tests that this asks for are not recorded as passed."
                        .formatted(change.on(), change.what().isBlank() ? change.reason() : change.what()));
            }
        }
        // the first version that was seen changed nothing
        machine.firmware().stream()
                .skip(1)
                .filter(firmware -> isSince(firmware.since()))
                .forEach(firmware -> reasons.add(
                        "Since %s it has firmware %s. The tests that this asks for are not recorded as passed."
                                .formatted(firmware.since(), firmware.version())));
    }

    private boolean isOpen(Optional<LocalDate> ended) {
        return ended.filter(on -> !on.isAfter(day)).isEmpty();
    }

    /** By the counter: the end of the state, and conditions of the visit that end with a number. */
    private void counted(ValidatedState state, String cycle, OptionalInt count) {
        List<PassCondition> ending = state.conditionsOf(cycle).stream()
                .filter(condition ->
                        condition.isOpen(day) && condition.untilCount().isPresent())
                .toList();
        if (state.untilCount().isEmpty() && ending.isEmpty()) {
            return;
        }
        Optional<LocalDate> reset = machine.counter().resets().stream()
                .map(Counter.Reset::on)
                .filter(this::isSinceThatDay)
                .findFirst();
        if (reset.isPresent()) {
            state.untilCount()
                    .ifPresent(end -> reasons.add(
                            "It ends at cycle %s, and the counter was set back on %s, so nobody can say whether that number is reached."
                                    .formatted(end, reset.get())));
            ending.forEach(condition -> reasons.add(
                    "A condition ends at cycle %s, and the counter was set back on %s, so nobody can say whether that number is reached: %s"
                            .formatted(
                                    condition.untilCount().getAsInt(),
                                    reset.get(),
                                    ValidatedState.sentence(condition.text()))));
            return;
        }
        machine.counter().readings().stream()
                .filter(reading -> isSinceThatDay(reading.on()))
                .max(Comparator.comparing(Counter.Reading::shown))
                .ifPresent(reading -> read(reading, state, ending, count));
    }

    /** Readings are made on the day of a visit, after it too, and a counter that was set back on that day counts anew. */
    private boolean isSinceThatDay(LocalDate on) {
        return !on.isBefore(from) && !on.isAfter(day);
    }

    private void read(Counter.Reading reading, ValidatedState state, List<PassCondition> ending, OptionalInt count) {
        if (state.untilCount().isPresent()
                && reading.shown() > state.untilCount().getAsInt()) {
            reasons.add("It ended with cycle %s; the counter showed %s on %s."
                    .formatted(state.untilCount().getAsInt(), reading.shown(), reading.on()));
        } else if (count.isPresent() && count.getAsInt() < reading.shown()) {
            reasons.add("The counter showed %s on %s already, so today's cycle is not number %s."
                    .formatted(reading.shown(), reading.on(), count.getAsInt()));
        }
        ending.stream()
                .filter(condition -> reading.shown() > condition.untilCount().getAsInt())
                .forEach(condition -> reasons.add(ValidatedState.lapsed(condition.text(), condition.owner())));
    }

    /** Conditions of the register that did not end before the visit. */
    private void conditions(OptionalInt count) {
        for (SterilizerRecord.PassCondition condition : machine.conditions()) {
            if (!isOpen(condition.metOn()) || condition.until().isBefore(from)) {
                continue;
            }
            boolean isPastCount = condition.atCycles().isPresent()
                    && cycles(count) > condition.atCycles().getAsLong();
            if (day.isAfter(condition.until()) || isPastCount) {
                reasons.add(ValidatedState.lapsed(condition.what(), condition.owner()));
            } else if (condition.atCycles().isPresent() && count.isEmpty()) {
                reasons.add(ValidatedState.uncounted(condition.atCycles().getAsLong(), condition.what()));
            }
        }
    }

    /** Cycles through the resets: by the last reading or by what was typed for today, the higher. */
    private long cycles(OptionalInt count) {
        long read = machine.counter().upTo(day).map(Counter.Total::cycles).orElse(0L);
        long before = machine.counter().resets().stream()
                .filter(reset -> !reset.on().isAfter(day))
                .mapToLong(reset -> reset.before() - reset.after())
                .sum();
        return Math.max(read, count.isPresent() ? count.getAsInt() + before : 0);
    }
}
