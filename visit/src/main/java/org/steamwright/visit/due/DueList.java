package org.steamwright.visit.due;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.SterilizerRecord.PressurePaper;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;
import org.steamwright.visit.register.Week;

/**
 * What is due in a register: for each machine and duty, for each instrument and for each competence one line with all its reasons.
 *
 * <p>The earliest reason decides. A foretold day stands for itself in that comparison; its interval is told beside it. A
 * duty that nothing shows as done is due at once. Machines that are stored or disposed of have nothing due.
 */
public final class DueList {

    /** The most pressing first; equal ones by day, subject and title. */
    public static final Comparator<Due> ORDER = Comparator.comparing(Due::urgency)
            .thenComparing(due -> due.day().orElse(LocalDate.MAX))
            .thenComparing(due -> due.subject().id())
            .thenComparing(Due::title);

    private static final Source ON_PAPER = new Source(
            "the paper itself", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "The day that it states.");

    private final DueRules rules;
    private final Today today;
    private final Map<String, Register.Place> places;

    private DueList(Register register, DueRules rules, Today today) {
        this.rules = rules;
        this.today = today;
        this.places = register.places();
    }

    /**
     * All that is due, the most pressing first; equal ones by subject and title.
     *
     * @param today the day at each place; sites begin theirs by their own zone, instruments and people by that of the office
     * @param office zone of the office
     * @throws IllegalArgumentException if a site names a set of rules that is not there
     */
    public static List<Due> of(Register register, DueRules rules, Today today, ZoneId office) {
        DueList list = new DueList(register, rules, today);
        List<Due> all = new ArrayList<>();
        for (SterilizerRecord sterilizer : register.sterilizers()) {
            list.addSterilizer(sterilizer, office, all);
        }
        for (ReferenceInstrument instrument : register.instruments()) {
            instrument(instrument, today.at(office)).ifPresent(all::add);
        }
        for (Tester tester : register.testers()) {
            all.add(tester(tester, today.at(office)));
        }
        for (Technician technician : register.technicians()) {
            addCompetences(technician, today.at(office), all);
        }
        all.sort(ORDER);
        return all;
    }

    /** The same with the office in the zone of Greenwich, for a day that is the same everywhere. */
    public static List<Due> of(Register register, DueRules rules, LocalDate day) {
        return of(register, rules, Today.on(day), ZoneOffset.UTC);
    }

    private void addSterilizer(SterilizerRecord machine, ZoneId office, List<Due> all) {
        if (machine.status() == SterilizerRecord.Status.STORED
                || machine.status() == SterilizerRecord.Status.DISPOSED) {
            return;
        }
        Optional<Register.Place> place = Optional.ofNullable(places.get(machine.room()));
        LocalDate day = today.at(place.map(found -> found.site().zone()).orElse(office));
        Week week = place.map(found -> found.site().week()).orElse(Week.USUAL);
        String set = place.map(found -> found.site().rules()).orElse("");
        List<DueRule> known = rules.find(set)
                .orElseThrow(() -> new IllegalArgumentException(
                        "no set of due rules is called " + set + "; there are " + String.join(", ", rules.names())));
        MachineDue due = new MachineDue(machine, new CounterForecast(machine.counter(), week), day);
        Map<Duty, List<Candidate>> byDuty = new EnumMap<>(Duty.class);
        for (Duty duty : Duty.values()) {
            List<Candidate> reasons = due.reasons(duty, known);
            if (!reasons.isEmpty()) {
                byDuty.put(duty, reasons);
            }
        }
        addPapers(machine, byDuty);
        Due.Subject subject = new Due.Subject(
                Due.Subject.Kind.STERILIZER,
                machine.id(),
                machine.title(),
                place.map(Register.Place::title).orElse(""));
        byDuty.forEach((duty, reasons) -> all.add(new Due(subject, duty.title(), day, first(reasons, day), reasons)));
        for (SterilizerRecord.PassCondition condition : machine.conditions()) {
            if (condition.metOn().isEmpty()) {
                List<Candidate> reasons = due.condition(condition);
                all.add(new Due(
                        subject, "Condition of the pass: " + condition.what(), day, first(reasons, day), reasons));
            }
        }
    }

    /** A paper that states its next day speaks beside the rules, and where no rule is known in their place. */
    private static void addPapers(SterilizerRecord machine, Map<Duty, List<Candidate>> byDuty) {
        if (machine.papers().isEmpty()) {
            return;
        }
        PressurePaper last = machine.papers().get(machine.papers().size() - 1);
        last.nextBy()
                .ifPresent(next -> byDuty.computeIfAbsent(Duty.PRESSURE_EXAMINATION, duty -> new ArrayList<>())
                        .add(Candidate.on(
                                Candidate.Cause.CERTIFICATE,
                                next,
                                "certificate " + last.document() + " of " + last.examinedOn()
                                        + " asks for the next examination by " + next,
                                ON_PAPER)));
    }

    /**
     * The reason that decides: none of evidence before all, then one that is past its tolerance, then the earliest day, then the
     * first without one. The tolerance of one rule is no tolerance for another.
     */
    static Candidate first(List<Candidate> reasons, LocalDate today) {
        return reasons.stream()
                .min(Comparator.comparing((Candidate reason) -> reason.cause() != Candidate.Cause.NO_EVIDENCE)
                        .thenComparing(reason ->
                                reason.toleratedUntil().filter(today::isAfter).isEmpty())
                        .thenComparing(reason -> reason.day().orElse(LocalDate.MAX)))
                .orElseThrow();
    }

    private static Optional<Due> instrument(ReferenceInstrument instrument, LocalDate day) {
        if (instrument.history().quarantineOn(day).isPresent()) {
            return Optional.empty();
        }
        Due.Subject subject =
                new Due.Subject(Due.Subject.Kind.INSTRUMENT, instrument.id(), instrument.description(), "");
        Optional<CalibrationCertificate> certificate = instrument.on(day).certificate();
        Candidate reason = certificate
                .map(paper -> Candidate.on(
                        Candidate.Cause.CERTIFICATE,
                        paper.dueOn(),
                        "certificate " + paper.number() + " of " + paper.calibratedOn() + " may be relied on until "
                                + paper.dueOn() + ", that day included",
                        ON_PAPER))
                .orElseGet(
                        () -> Candidate.withoutDay(Candidate.Cause.NO_EVIDENCE, "there is no certificate", ON_PAPER));
        return Optional.of(new Due(subject, "Calibration", day, reason, List.of(reason)));
    }

    private static Due tester(Tester tester, LocalDate day) {
        Due.Subject subject = new Due.Subject(Due.Subject.Kind.INSTRUMENT, tester.id(), tester.description(), "");
        Candidate reason = tester.certificateOn(day)
                .map(paper -> Candidate.on(
                        Candidate.Cause.CERTIFICATE,
                        paper.dueOn(),
                        "certificate " + paper.number() + " of " + paper.calibratedOn() + " may be relied on until "
                                + paper.dueOn() + ", that day included",
                        ON_PAPER))
                .orElseGet(
                        () -> Candidate.withoutDay(Candidate.Cause.NO_EVIDENCE, "there is no certificate", ON_PAPER));
        return new Due(subject, "Calibration", day, reason, List.of(reason));
    }

    private static void addCompetences(Technician technician, LocalDate day, List<Due> all) {
        for (Technician.Competence competence : technician.competences()) {
            if (competence.until().isEmpty()
                    || isRenewed(technician, competence, competence.until().get())) {
                continue;
            }
            LocalDate until = competence.until().get();
            String duties = String.join(
                    ", ", competence.duties().stream().map(Duty::word).toList());
            String machines =
                    competence.families().isEmpty() ? "every model" : String.join(", ", competence.families());
            Candidate reason = Candidate.on(
                    Candidate.Cause.CERTIFICATE,
                    until,
                    (competence.document().isBlank() ? "the competence" : competence.document()) + " for " + duties
                            + " on " + machines + " ends on " + until,
                    ON_PAPER);
            all.add(new Due(
                    new Due.Subject(Due.Subject.Kind.TECHNICIAN, technician.id(), technician.name(), ""),
                    "Competence for " + duties,
                    day,
                    reason,
                    List.of(reason)));
        }
    }

    /** By another one that is about as much, ends later and leaves no day between. */
    private static boolean isRenewed(Technician technician, Technician.Competence old, LocalDate until) {
        return technician.competences().stream()
                .anyMatch(other -> other.duties().containsAll(old.duties())
                        && (other.families().isEmpty()
                                || (!old.families().isEmpty()
                                        && other.families().containsAll(old.families())))
                        && !other.from().isAfter(until.plusDays(1))
                        && other.until().filter(end -> !end.isAfter(until)).isEmpty());
    }
}
