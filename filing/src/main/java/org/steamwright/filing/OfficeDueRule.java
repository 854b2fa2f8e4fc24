package org.steamwright.filing;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueRule;
import org.steamwright.records.Subject;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.register.Register;

/**
 * From which day on a machine has to be looked at, by its facts and those of its clinic alone: what the record keeps an index
 * of. The day is never later than the one on which the due list begins to name it, and may be earlier.
 *
 * <p>The due rules of the program are part of the index: when they change, the number of the index has to change too.
 */
final class OfficeDueRule implements DueRule {

    /** Of what is due at once, or has no day. */
    static final LocalDate AT_ONCE = LocalDate.of(1, 1, 1);

    /** It looks at the machine and its clinic alone: what a visit settled stands there once it is signed. */
    @Override
    public boolean isOfVisits() {
        return false;
    }

    @Override
    public List<DueDate> due(Subject sterilizer, List<Subject> visits) {
        return due(sterilizer, visits, List.of());
    }

    @Override
    public List<DueDate> due(Subject sterilizer, List<Subject> visits, List<Subject> clinics) {
        if (RegisterReading.statedEntry(sterilizer).isEmpty()) {
            return List.of();
        }
        Map<String, DueDate> dates = new LinkedHashMap<>();
        try {
            Register register = RegisterReading.register(List.of(sterilizer), clinics);
            // of things that happen later than today the list speaks once they have happened
            for (Due due : DueList.of(register, Shipped.RULES, LocalDate.MAX)) {
                DueDate date = date(sterilizer, due);
                dates.merge(date.reason(), date, (one, other) -> one.day().isAfter(other.day()) ? other : one);
            }
        } catch (RegisterException | IllegalArgumentException unreadable) {
            // whoever asks for the list is told why; the record keeps what it was given
            return List.of(new DueDate(sterilizer.id(), AT_ONCE, "Entry of the register", "not readable", ""));
        }
        return List.copyOf(dates.values());
    }

    @Override
    public Optional<Instant> awaits(Subject visit) {
        return ReadOut.of(visit).stream().findFirst().map(ReadOut::due);
    }

    @Override
    public Optional<LocalDate> lapses(Subject subject) {
        return Lapse.of(subject).stream().findFirst().map(lapse -> lapse.day().orElse(AT_ONCE));
    }

    private static DueDate date(Subject sterilizer, Due due) {
        List<Candidate> lasting = due.reasons().stream()
                .filter(reason -> reason.cause() != Candidate.Cause.EVENT)
                .toList();
        boolean isDayless = !lasting.isEmpty()
                && lasting.stream().noneMatch(reason -> reason.day().isPresent());
        boolean isAtOnce =
                isDayless || lasting.stream().anyMatch(reason -> reason.cause() == Candidate.Cause.NO_EVIDENCE);
        List<LocalDate> days = new ArrayList<>();
        for (Candidate reason : due.reasons()) {
            Stream.of(reason.day(), reason.forecast().map(expected -> expected.earliest()))
                    .flatMap(Optional::stream)
                    .forEach(days::add);
        }
        LocalDate day =
                isAtOnce ? AT_ONCE : days.stream().min(LocalDate::compareTo).orElse(AT_ONCE);
        boolean isForetold =
                due.reasons().stream().anyMatch(reason -> reason.forecast().isPresent());
        return new DueDate(
                sterilizer.id(),
                day,
                due.title(),
                isAtOnce ? "at once" : isForetold ? "forecast" : "fixed",
                "",
                lateFrom(due));
    }

    /** As {@link Due#urgency} says it: by the reason that is late first; what has no evidence is late on every day. */
    private static Optional<LocalDate> lateFrom(Due due) {
        return due.first().cause() == Candidate.Cause.NO_EVIDENCE
                ? Optional.of(AT_ONCE)
                : due.reasons().stream()
                        .flatMap(reason -> reason.toleratedUntil().stream())
                        .min(LocalDate::compareTo)
                        .map(day -> day.plusDays(1));
    }

    /** Read once, when the first machine is looked at. */
    private static final class Shipped {
        private static final DueRules RULES = DataFiles.dueRules();
    }
}
