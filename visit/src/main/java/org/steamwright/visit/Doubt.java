package org.steamwright.visit;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;

/**
 * A remark that has to be answered before anybody signs.
 *
 * @param run number of the run whose recordings it is about; empty if it is about the visit
 * @param remark what is odd
 */
public record Doubt(OptionalInt run, Remark remark) {

    /** What has to be done with every one of them. */
    public static final String TO_BE_ANSWERED = "To be answered before anybody signs.";

    /** Those of a visit, in order. */
    static List<Doubt> of(Visit visit, List<AssessedRun> runs) {
        List<Doubt> doubts = new ArrayList<>();
        visit.remarks().forEach(remark -> doubts.add(new Doubt(OptionalInt.empty(), remark)));
        for (AssessedRun run : runs) {
            OptionalInt number = OptionalInt.of(run.run().number());
            run.run().test().trace().remarks().forEach(remark -> doubts.add(new Doubt(number, remark)));
        }
        doubts.removeIf(doubt -> doubt.remark.rank() == Rank.NOTE);
        return doubts;
    }

    /** The open point that it is. */
    public String sentence() {
        String place = run.isPresent() ? "Run %s, ".formatted(run.getAsInt()) : "";
        return place + Words.sentence(remark.toString()) + " " + TO_BE_ANSWERED;
    }
}
