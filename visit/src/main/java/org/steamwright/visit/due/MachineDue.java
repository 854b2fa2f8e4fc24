package org.steamwright.visit.due;

import java.time.LocalDate;
import java.time.Period;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.LastDay;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.SterilizerRecord;

/** The reasons for which the duties of one machine are due. */
final class MachineDue {

    private static final Source CHANGED = new Source(
            "After-change rule",
            "",
            "",
            Source.Provenance.COMMON_PRACTICE,
            Source.Confidence.MEDIUM,
            "A change that may touch the result ends the validated state until the tests it asks for are passed.");

    private static final int DAYS_PER_WEEK = 7;

    private final SterilizerRecord machine;
    private final CounterForecast forecast;
    private final LocalDate today;

    MachineDue(SterilizerRecord machine, CounterForecast forecast, LocalDate today) {
        this.machine = machine;
        this.forecast = forecast;
        this.today = today;
    }

    /** All reasons for one duty, in the order of the rules; none if no rule is about it. */
    List<Candidate> reasons(Duty duty, List<DueRule> rules) {
        List<Candidate> reasons = new ArrayList<>();
        List<SterilizerRecord.OwnInterval> own =
                machine.intervals().stream().filter(one -> one.duty() == duty).toList();
        Optional<LocalDate> last = lastDay(duty);
        if (own.isEmpty()) {
            for (DueRule rule : rules) {
                if (rule.duty() == duty && isAbout(rule, last)) {
                    add(rule, last, reasons);
                }
            }
        } else {
            for (SterilizerRecord.OwnInterval one : own) {
                add(rule(one), last, reasons);
            }
        }
        if (duty == Duty.VALIDATION) {
            addEvents(last, reasons);
        }
        return reasons;
    }

    /** An agreed interval as a rule of its own. */
    private static DueRule rule(SterilizerRecord.OwnInterval own) {
        return new DueRule(
                "own",
                own.duty(),
                own.every(),
                own.cycles(),
                OptionalLong.empty(),
                Period.ZERO,
                false,
                false,
                new Source(own.because(), "", "", Source.Provenance.USER, Source.Confidence.HIGH, ""));
    }

    private boolean isAbout(DueRule rule, Optional<LocalDate> last) {
        return (!rule.isOnlyIfRecorded() || last.isPresent())
                && (!rule.isOnlyForVacuum()
                        || machine.cyclesInUse().stream().anyMatch(SterilizerRecord.RegisteredCycle::drawsVacuum));
    }

    /** A certificate of the pressure vessel is the evidence of its examination. */
    private Optional<LocalDate> lastDay(Duty duty) {
        Optional<LocalDate> done = machine.lastDone(duty).map(SterilizerRecord.Done::on);
        if (duty != Duty.PRESSURE_EXAMINATION || machine.papers().isEmpty()) {
            return done;
        }
        LocalDate paper = machine.papers().get(machine.papers().size() - 1).examinedOn();
        return Optional.of(done.filter(day -> day.isAfter(paper)).orElse(paper));
    }

    private void add(DueRule rule, Optional<LocalDate> last, List<Candidate> reasons) {
        if (rule.fromCyclesPerYear().isPresent()) {
            OptionalDouble use = forecast.cyclesPerYear();
            if (use.isEmpty() || use.getAsDouble() < rule.fromCyclesPerYear().getAsLong()) {
                return;
            }
        }
        if (last.isEmpty()) {
            // several rules may ask for it; that nothing shows it is said once
            if (reasons.isEmpty()) {
                reasons.add(Candidate.withoutDay(
                        Candidate.Cause.NO_EVIDENCE,
                        "the register holds no evidence that it was ever done",
                        rule.source()));
            }
            return;
        }
        rule.every().ifPresent(every -> {
            LocalDate day = LastDay.after(last.get(), every);
            reasons.add(new Candidate(
                    Candidate.Cause.DATE,
                    Optional.of(day),
                    Optional.of(day.plus(rule.tolerance())),
                    Optional.empty(),
                    words(every) + " after " + last.get() + use(rule),
                    rule.source()));
        });
        if (rule.cycles().isPresent()) {
            reasons.add(count(rule, last.get()));
        }
    }

    private String use(DueRule rule) {
        return rule.fromCyclesPerYear().isEmpty()
                ? ""
                : ", for a use of about " + Math.round(forecast.cyclesPerYear().orElse(0)) + " cycles a year (from "
                        + rule.fromCyclesPerYear().getAsLong() + ")";
    }

    private Candidate count(DueRule rule, LocalDate last) {
        long cycles = rule.cycles().orElseThrow();
        Optional<Counter.Total> then = machine.counter().upTo(last);
        if (then.isEmpty()) {
            return Candidate.withoutDay(
                    Candidate.Cause.COUNT,
                    cycles + " cycles after " + last + ": no counter reading of that day or before is known",
                    rule.source());
        }
        String from = then.get().on().equals(last)
                ? ""
                : ", counted from the reading of " + then.get().on() + ", the last before it";
        return reach(
                then.get().cycles() + cycles,
                cycles + " cycles after " + last + from,
                Candidate.Cause.COUNT,
                rule.source());
    }

    private Candidate reach(long total, String words, Candidate.Cause cause, Source source) {
        Forecast answer = forecast.reach(total);
        if (answer instanceof Forecast.Reached reached) {
            return Candidate.on(
                    cause, reached.seenOn(), words + ": reached by the reading of " + reached.seenOn(), source);
        }
        if (answer instanceof Forecast.Expected expected) {
            return new Candidate(
                    cause,
                    Optional.of(expected.day()),
                    Optional.of(expected.day()),
                    Optional.of(expected),
                    words + ": expected on " + expected.day() + ", between " + expected.earliest() + " and "
                            + expected.latest().map(LocalDate::toString).orElse("a day that is not known") + ", by "
                            + expected.readings() + " readings up to " + expected.lastReading(),
                    source);
        }
        return Candidate.withoutDay(
                cause, words + ": the day is not known, " + ((Forecast.NotKnown) answer).why(), source);
    }

    /** What happened since the last validation; on the day of a validation it is held to have come before. */
    private void addEvents(Optional<LocalDate> last, List<Candidate> reasons) {
        for (SterilizerRecord.ChangeMade change : machine.changes()) {
            if (change.settledOn().isEmpty() && isSince(change.on(), last)) {
                reasons.add(event(change.on(), "changed on " + change.on() + ": " + change.what()));
            }
        }
        for (SterilizerRecord.Movement movement : machine.movements()) {
            if (!movement.to().isBlank() && isSince(movement.on(), last)) {
                reasons.add(event(
                        movement.on(),
                        "moved on " + movement.on() + (movement.reason().isBlank() ? "" : ": " + movement.reason())));
            }
        }
        for (int i = 1; i < machine.firmware().size(); i++) {
            SterilizerRecord.Firmware now = machine.firmware().get(i);
            if (isSince(now.since(), last)) {
                reasons.add(event(
                        now.since(),
                        "firmware " + now.version() + " in place of "
                                + machine.firmware().get(i - 1).version() + " since " + now.since()));
            }
        }
    }

    private boolean isSince(LocalDate day, Optional<LocalDate> last) {
        return !day.isAfter(today) && last.map(day::isAfter).orElse(true);
    }

    private static Candidate event(LocalDate day, String words) {
        return Candidate.on(Candidate.Cause.EVENT, day, words + ", not validated since", CHANGED);
    }

    /** A condition lapses on its day or at its count, whichever comes first. */
    List<Candidate> condition(SterilizerRecord.PassCondition condition) {
        Source source = new Source("condition of the pass", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "");
        List<Candidate> reasons = new ArrayList<>();
        reasons.add(Candidate.on(
                Candidate.Cause.CONDITION,
                condition.until(),
                "to be met by " + condition.owner() + " until " + condition.until() + ", then the pass lapses",
                source));
        if (condition.atCycles().isPresent()) {
            reasons.add(reach(
                    condition.atCycles().getAsLong(),
                    "the pass lapses at " + condition.atCycles().getAsLong() + " cycles",
                    Candidate.Cause.CONDITION,
                    source));
        }
        return reasons;
    }

    /** A period for people, such as '14 months'. */
    static String words(Period period) {
        long months = period.toTotalMonths();
        long days = period.get(ChronoUnit.DAYS);
        String inMonths = months + (months == 1 ? " month" : " months");
        if (days == 0) {
            return inMonths;
        }
        boolean isWeeks = days % DAYS_PER_WEEK == 0;
        long number = isWeeks ? days / DAYS_PER_WEEK : days;
        String inDays = number + (isWeeks ? " week" : " day") + (number == 1 ? "" : "s");
        return months == 0 ? inDays : inMonths + " and " + inDays;
    }
}
