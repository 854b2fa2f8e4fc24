package org.steamwright.visit.validity;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.FitCycle;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.QualifiedLoads;
import org.steamwright.visit.Visit;
import org.steamwright.visit.job.EndingEvent;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Sterilizer;

/**
 * What one visit shows about one steriliser: the verdict of the visit.
 *
 * <p>It ends with its day or its cycle number, whichever comes first, both themselves good, or earlier with an event of
 * {@link EndingEvent}. A condition that is not met by its end takes its cycles with it, and nobody has to do anything
 * for that.
 *
 * @param sterilizer key
 * @param serial number on the plate
 * @param reportNumber of the visit; may be blank
 * @param from day of the visit; empty if not known
 * @param until last day; empty if nothing says one
 * @param untilCount last cycle number; empty if no number ends it
 * @param cycles all that the steriliser has, qualified or not
 * @param conditions that have to be put right
 * @param events that happened after the visit
 * @param isSimulated whether it rests on simulated recordings; then it covers nothing
 * @param uncounted cycles after the visit that end it, where nobody read the counter from which they are counted; empty otherwise
 */
public record ValidatedState(
        String sterilizer,
        String serial,
        String reportNumber,
        Optional<LocalDate> from,
        Optional<LocalDate> until,
        OptionalInt untilCount,
        List<QualifiedCycle> cycles,
        List<PassCondition> conditions,
        List<JobSheet.Event> events,
        boolean isSimulated,
        OptionalInt uncounted) {

    /** A state of which no cycles are left uncounted. */
    public ValidatedState(
            String sterilizer,
            String serial,
            String reportNumber,
            Optional<LocalDate> from,
            Optional<LocalDate> until,
            OptionalInt untilCount,
            List<QualifiedCycle> cycles,
            List<PassCondition> conditions,
            List<JobSheet.Event> events,
            boolean isSimulated) {
        this(
                sterilizer,
                serial,
                reportNumber,
                from,
                until,
                untilCount,
                cycles,
                conditions,
                events,
                isSimulated,
                OptionalInt.empty());
    }

    public ValidatedState {
        cycles = List.copyOf(cycles);
        conditions = List.copyOf(conditions);
        events = List.copyOf(events);
    }

    /** The states that a visit leaves, one for each of its sterilisers. */
    public static List<ValidatedState> of(AssessedVisit assessed) {
        return assessed.visit().sterilizers().stream()
                .map(sterilizer -> of(assessed, sterilizer))
                .toList();
    }

    private static ValidatedState of(AssessedVisit assessed, Sterilizer sterilizer) {
        Visit visit = assessed.visit();
        List<QualifiedCycle> cycles = FitCycle.of(assessed, sterilizer.key()).stream()
                .map(one -> cycle(assessed, sterilizer, one))
                .toList();
        boolean isAnyQualified = cycles.stream().anyMatch(cycle -> cycle.status() == QualifiedCycle.Status.QUALIFIED);
        OptionalInt departure = sterilizer.counterAtDeparture();
        OptionalInt more = visit.job().cyclesUntilDue();
        OptionalInt untilCount = isAnyQualified && departure.isPresent() && more.isPresent()
                ? OptionalInt.of(Math.addExact(departure.getAsInt(), more.getAsInt()))
                : OptionalInt.empty();
        return new ValidatedState(
                sterilizer.key(),
                sterilizer.serial(),
                visit.reportNumber(),
                visit.date(),
                isAnyQualified ? assessed.validUntil() : Optional.empty(),
                untilCount,
                cycles,
                visit.job().conditions().stream()
                        .filter(condition -> condition.sterilizer().equals(sterilizer.key()))
                        .toList(),
                visit.job().events().stream()
                        .filter(event -> event.sterilizer().equals(sterilizer.key()))
                        .toList(),
                visit.isSimulated(),
                isAnyQualified && departure.isEmpty() ? more : OptionalInt.empty());
    }

    private static QualifiedCycle cycle(AssessedVisit assessed, Sterilizer sterilizer, FitCycle fit) {
        Qualification performance = fit.performance();
        Optional<CycleDefinition> definition = sterilizer.findCycle(performance.cycle());
        CycleType type = definition.map(CycleDefinition::type).orElse(CycleType.S);
        if (!fit.isFit()) {
            return new QualifiedCycle(
                    performance.cycle(),
                    type,
                    fit.isAwaited() ? QualifiedCycle.Status.AWAITED : QualifiedCycle.Status.NOT_QUALIFIED,
                    List.of(),
                    Optional.empty(),
                    fit.against());
        }
        QualifiedLoads qualified = QualifiedLoads.of(assessed, sterilizer.key(), performance.cycle());
        return new QualifiedCycle(
                performance.cycle(),
                type,
                QualifiedCycle.Status.QUALIFIED,
                qualified.loads(),
                qualified
                        .leastDryingSeconds()
                        .or(() -> definition
                                .flatMap(CycleDefinition::dryingTime)
                                .map(drying -> drying.toMillis() / 1000.0)),
                List.of());
    }

    /** The same where everything is invented anyway, and simulated recordings stand for real ones. */
    public ValidatedState amongInvented() {
        return new ValidatedState(
                sterilizer,
                serial,
                reportNumber,
                from,
                until,
                untilCount,
                cycles,
                conditions,
                events,
                false,
                uncounted);
    }

    /** The same with an end that is no later than a day, such as the last one of an interim report. One without any end stays so. */
    public ValidatedState endingBy(LocalDate last) {
        return isEndless()
                ? this
                : new ValidatedState(
                        sterilizer,
                        serial,
                        reportNumber,
                        from,
                        Optional.of(until.filter(last::isAfter).orElse(last)),
                        untilCount,
                        cycles,
                        conditions,
                        events,
                        isSimulated,
                        uncounted);
    }

    /** Whether a cycle is qualified, be it that nothing says until when. */
    public boolean isAnyQualified() {
        return cycles.stream().anyMatch(cycle -> cycle.status() == QualifiedCycle.Status.QUALIFIED);
    }

    /** Whether nothing says until when it stands; then it covers no load. */
    public boolean isEndless() {
        return until.isEmpty() && untilCount.isEmpty();
    }

    /** The cycle of that name, case, blanks and hyphens apart. */
    public Optional<QualifiedCycle> findCycle(String name) {
        return cycles.stream()
                .filter(cycle -> key(cycle.name()).equals(key(name)))
                .findFirst();
    }

    /**
     * Everything that keeps a cycle from being run on a day; empty if it may be run with a load that is covered.
     *
     * @param cycle name
     * @param day at the site
     * @param count cycle number of the steriliser on that day; empty if nobody read it
     */
    public List<String> reasonsAgainst(String cycle, LocalDate day, OptionalInt count) {
        List<String> reasons = new ArrayList<>();
        if (isSimulated) {
            reasons.add("The recordings behind it are simulated; they say nothing about a real steriliser.");
        }
        Optional<QualifiedCycle> found = findCycle(cycle);
        if (found.isEmpty()) {
            reasons.add("The cycle ‘%s’ was not tested.".formatted(cycle.strip()));
        } else {
            reasons.addAll(found.get().reasons());
        }
        if (found.isPresent() && found.get().status() == QualifiedCycle.Status.QUALIFIED) {
            time(day, count, reasons);
        }
        for (PassCondition condition : conditionsOf(cycle)) {
            if (condition.isLapsed(day, count)) {
                reasons.add(lapsed(condition.text(), condition.owner()));
            } else if (condition.isOpen(day) && condition.untilCount().isPresent() && count.isEmpty()) {
                reasons.add(uncounted(condition.untilCount().getAsInt(), condition.text()));
            }
        }
        for (JobSheet.Event event : events) {
            if (event.kind().endsAll() && !event.on().isAfter(day)) {
                reasons.add("On %s: %s%s. That ended it."
                        .formatted(
                                event.on(),
                                event.kind().words(),
                                event.note().isBlank()
                                        ? ""
                                        : " (" + event.note().strip() + ")"));
            }
        }
        return List.copyOf(reasons);
    }

    /** Conditions that concern a cycle: its own, and those of all cycles. */
    List<PassCondition> conditionsOf(String cycle) {
        return conditions.stream()
                .filter(condition ->
                        condition.cycle().isBlank() || key(condition.cycle()).equals(key(cycle)))
                .toList();
    }

    static String lapsed(String condition, String owner) {
        return "A condition lapsed, so it is not qualified any more: %s Owner: %s."
                .formatted(sentence(condition), owner.strip());
    }

    static String uncounted(long end, String condition) {
        return "A condition ends at cycle %s, and the counter was not read: %s".formatted(end, sentence(condition));
    }

    private void time(LocalDate day, OptionalInt count, List<String> reasons) {
        if (from.isEmpty()) {
            reasons.add("The day of the visit is not known, so nobody can say until when it stands.");
        } else if (day.isBefore(from.get())) {
            reasons.add("It begins on %s, and %s lies before it.".formatted(from.get(), day));
        }
        if (isEndless() && from.isPresent()) {
            reasons.add("Nothing says until when it stands: neither the criteria set nor the visit names an end.");
        }
        if (until.filter(day::isAfter).isPresent()) {
            reasons.add("It ended with %s.".formatted(until.get()));
        }
        if (uncounted.isPresent()) {
            reasons.add("It ends %s cycles after the visit, and the counter was not read at its end."
                    .formatted(uncounted.getAsInt()));
        }
        if (untilCount.isPresent()) {
            if (count.isEmpty()) {
                reasons.add("It ends at cycle %s, and the counter was not read.".formatted(untilCount.getAsInt()));
            } else if (count.getAsInt() > untilCount.getAsInt()) {
                reasons.add(
                        "It ended with cycle %s; this is cycle %s.".formatted(untilCount.getAsInt(), count.getAsInt()));
            }
        }
    }

    static String key(String text) {
        return text.strip().replaceAll("[\\s-]+", " ").toLowerCase(Locale.ROOT);
    }

    static String sentence(String text) {
        String stripped = text.strip();
        return stripped.endsWith(".") ? stripped : stripped + ".";
    }
}
