package org.steamwright.visit;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/**
 * The facts of one visit.
 *
 * @param reportNumber of the report that will be made; blank if none was given
 * @param purpose commissioning, yearly, after repair, re-test, moved, …; may be blank
 * @param date day of the visit at the site; empty for a single recording without a date
 * @param zone zone of the site
 * @param company service company, address and accreditation in one line; may be blank
 * @param clinic empty for a single recording
 * @param sterilizers at least one
 * @param people technician first
 * @param conditions of the day
 * @param instruments reference instruments by id
 * @param checklists maintenance, IQ and so on
 * @param runs that have a recording, in order of their numbers
 * @param criteriaSet limits in force
 * @param deviations things that went wrong or were left out, in words
 * @param recommendations for the clinic, in words
 * @param nextDue what is due next and when, in words
 * @param notTested what was not tested and why, in words
 * @param remarks of reading the visit folder
 * @param job what was done, read and agreed beside the runs
 * @param setChanges other criteria sets that were chosen once recordings were there, in order
 * @param unrecorded runs that were begun or planned and have no recording yet
 */
public record Visit(
        String reportNumber,
        String purpose,
        Optional<LocalDate> date,
        ZoneId zone,
        String company,
        Optional<Clinic> clinic,
        List<Sterilizer> sterilizers,
        List<Person> people,
        Conditions conditions,
        Map<String, ReferenceInstrument> instruments,
        List<Checklist> checklists,
        List<VisitRun> runs,
        CriteriaSet criteriaSet,
        List<String> deviations,
        List<String> recommendations,
        List<String> nextDue,
        List<String> notTested,
        List<Remark> remarks,
        JobSheet job,
        List<SetChange> setChanges,
        List<UnrecordedRun> unrecorded) {

    /** A visit of which nothing beside the runs and the lists is known. */
    public Visit(
            String reportNumber,
            String purpose,
            Optional<LocalDate> date,
            ZoneId zone,
            String company,
            Optional<Clinic> clinic,
            List<Sterilizer> sterilizers,
            List<Person> people,
            Conditions conditions,
            Map<String, ReferenceInstrument> instruments,
            List<Checklist> checklists,
            List<VisitRun> runs,
            CriteriaSet criteriaSet,
            List<String> deviations,
            List<String> recommendations,
            List<String> nextDue,
            List<String> notTested,
            List<Remark> remarks) {
        this(
                reportNumber,
                purpose,
                date,
                zone,
                company,
                clinic,
                sterilizers,
                people,
                conditions,
                instruments,
                checklists,
                runs,
                criteriaSet,
                deviations,
                recommendations,
                nextDue,
                notTested,
                remarks,
                JobSheet.NONE,
                List.of(),
                List.of());
    }

    public Visit {
        sterilizers = List.copyOf(sterilizers);
        people = List.copyOf(people);
        instruments = Map.copyOf(instruments);
        checklists = List.copyOf(checklists);
        runs = List.copyOf(runs);
        deviations = List.copyOf(deviations);
        recommendations = List.copyOf(recommendations);
        nextDue = List.copyOf(nextDue);
        notTested = List.copyOf(notTested);
        remarks = List.copyOf(remarks);
        setChanges = List.copyOf(setChanges);
        unrecorded = List.copyOf(unrecorded);
        int place = 0;
        for (VisitRun run : runs) {
            place = next(place + 1, unrecorded);
            if (run.number() != place) {
                throw new IllegalArgumentException("runs are numbered from 1 without holes; run %s stands at place %s"
                        .formatted(run.number(), place));
            }
        }
    }

    private static int next(int place, List<UnrecordedRun> unrecorded) {
        int next = place;
        while (isUnrecorded(next, unrecorded)) {
            next++;
        }
        return next;
    }

    private static boolean isUnrecorded(int number, List<UnrecordedRun> unrecorded) {
        return unrecorded.stream().anyMatch(run -> run.number() == number);
    }

    /** The sterilizer of that key. */
    public Sterilizer getSterilizer(String key) {
        return sterilizers.stream()
                .filter(sterilizer -> sterilizer.key().equals(key))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no steriliser '" + key + "' in this visit"));
    }

    /** Whether any recording was simulated; then nothing of this visit can be signed. */
    public boolean isSimulated() {
        return runs.stream().anyMatch(run -> run.test().trace().isSimulated());
    }

    /** The same facts, judged by another set. */
    public Visit judgedBy(CriteriaSet set) {
        return copy(runs, set, job, remarks);
    }

    /** The same facts with other runs. */
    public Visit withRuns(List<VisitRun> newRuns) {
        return copy(newRuns, criteriaSet, job, remarks);
    }

    /** The same facts with another job sheet. */
    public Visit withJob(JobSheet newJob) {
        return copy(runs, criteriaSet, newJob, remarks);
    }

    /** The same facts with one more remark about reading them. */
    public Visit remarked(Remark remark) {
        List<Remark> more = new ArrayList<>(remarks);
        more.add(remark);
        return copy(runs, criteriaSet, job, more);
    }

    /** The same facts; of these runs it is said that they have a recording, which was left out. */
    public Visit leavingOut(Set<Integer> numbers) {
        return copy(
                runs,
                criteriaSet,
                job,
                remarks,
                unrecorded.stream()
                        .map(run -> numbers.contains(run.number()) ? run.leftOut() : run)
                        .toList());
    }

    private Visit copy(List<VisitRun> newRuns, CriteriaSet newSet, JobSheet newJob, List<Remark> newRemarks) {
        return copy(newRuns, newSet, newJob, newRemarks, unrecorded);
    }

    private Visit copy(
            List<VisitRun> newRuns,
            CriteriaSet newSet,
            JobSheet newJob,
            List<Remark> newRemarks,
            List<UnrecordedRun> newUnrecorded) {
        return new Visit(
                reportNumber,
                purpose,
                date,
                zone,
                company,
                clinic,
                sterilizers,
                people,
                conditions,
                instruments,
                checklists,
                newRuns,
                newSet,
                deviations,
                recommendations,
                nextDue,
                notTested,
                newRemarks,
                newJob,
                setChanges,
                newUnrecorded);
    }
}
