package org.steamwright.visit.validity;

import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.CheckResult;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Whole;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Duty;

/** Which duties a visit shows as done for one of its sterilisers. What was not assessed, or failed, is not done. */
public final class Shown {

    private Shown() {}

    /**
     * The duties done.
     *
     * <p>A validation is done where the steriliser stands at pass as a whole and may be run with some load, and no indicator of the
     * visit is awaited: a report that is interim may end by itself, with everything that stands in it. A service is done
     * where its list was worked off to the end and nothing of it is bad, an electrical safety test where its list was.
     *
     * @param assessed a visit that is out
     * @param sterilizer key in the visit
     */
    public static Set<Duty> of(AssessedVisit assessed, String sterilizer) {
        Set<Duty> done = EnumSet.noneOf(Duty.class);
        boolean isFit = ValidatedState.of(assessed).stream()
                .anyMatch(state -> state.sterilizer().equals(sterilizer) && state.isAnyQualified());
        boolean isInterim = InterimStanding.of(assessed, LocalDate.MIN).standing() == InterimStanding.Standing.AWAITED;
        if (isFit && !isInterim && Whole.of(assessed, sterilizer) == Standing.PASS) {
            done.add(Duty.VALIDATION);
        }
        if (isWorkedOff(assessed, sterilizer, TaskList.Part.MAINTENANCE, Checklist.Section.MAINTENANCE)) {
            done.add(Duty.SERVICE);
        }
        if (isWorkedOff(assessed, sterilizer, TaskList.Part.SAFETY, Checklist.Section.SAFETY)) {
            done.add(Duty.ELECTRICAL_TEST);
        }
        return done;
    }

    private static boolean isWorkedOff(
            AssessedVisit assessed, String sterilizer, TaskList.Part part, Checklist.Section section) {
        List<TaskRecord.Standing> lines = assessed.visit().job().tasks().stream()
                .filter(tasks ->
                        tasks.sterilizer().equals(sterilizer) && tasks.list().part() == part)
                .flatMap(tasks -> tasks.lines().stream())
                .map(TaskRecord.Line::standing)
                .toList();
        List<CheckResult> items = assessed.visit().checklists().stream()
                .filter(list -> list.sterilizer().equals(sterilizer) && list.section() == section)
                .flatMap(list -> list.items().stream())
                .map(item -> CheckResult.of(section, item))
                .toList();
        boolean isAny = lines.contains(TaskRecord.Standing.GOOD) || items.contains(CheckResult.GOOD);
        return isAny
                && lines.stream()
                        .allMatch(line -> line == TaskRecord.Standing.GOOD || line == TaskRecord.Standing.LEFT_OUT)
                && items.stream().allMatch(item -> item == CheckResult.GOOD || item == CheckResult.LEFT_OUT);
    }
}
