package org.steamwright.filing.fleet;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;

/**
 * What one visit found of one figure of one steriliser: the worst of its runs that prove anything.
 *
 * @param sterilizer by its key in the visit, or by what whoever reads over many visits knows it
 * @param cycle name; blank for a leak test
 * @param figure which
 * @param day of the visit
 * @param run number of the run with the worst figure
 * @param value in the unit of the limit
 * @param limit that it was held against
 */
public record FigureReading(
        String sterilizer, String cycle, CriterionId figure, LocalDate day, int run, double value, Limit limit) {

    private static final String WITH_SENSORS = "with sensors";

    /**
     * All figures of a visit that have a limit; none if the day of the visit is not known. A leak test with sensors is left
     * out: it tells about the feed-through too.
     */
    public static List<FigureReading> of(AssessedVisit assessed) {
        Optional<LocalDate> day = assessed.visit().date();
        Map<String, FigureReading> worst = new LinkedHashMap<>();
        if (day.isPresent()) {
            for (AssessedRun run : assessed.runs()) {
                boolean isLeak = run.run().test().kind() == TestKind.LEAK;
                if (isLeak && run.run().stage().toLowerCase(Locale.ROOT).contains(WITH_SENSORS)) {
                    continue;
                }
                for (Finding finding : run.evaluation().findings()) {
                    reading(run, isLeak, finding, day.get())
                            .ifPresent(one -> worst.merge(one.key(), one, FigureReading::worse));
                }
            }
        }
        return new ArrayList<>(worst.values());
    }

    private static Optional<FigureReading> reading(AssessedRun run, boolean isLeak, Finding finding, LocalDate day) {
        boolean isOfTheMachine =
                finding.id().group() == CriterionId.Group.RUN || finding.id().group() == CriterionId.Group.LEAK;
        Optional<Figure> measured = finding.measured();
        Optional<Limit> limit = finding.limit();
        if (!isOfTheMachine
                || finding.outcome() == Outcome.INVALID
                || measured.isEmpty()
                || limit.isEmpty()
                || !Double.isFinite(measured.get().value())) {
            return Optional.empty();
        }
        return Optional.of(new FigureReading(
                run.run().sterilizer(),
                isLeak ? "" : run.run().test().cycle().name(),
                finding.id(),
                day,
                run.run().number(),
                measured.get().value(),
                limit.get()));
    }

    private String key() {
        return sterilizer + "\n" + cycle + "\n" + figure.word() + "\n" + limit.comparison();
    }

    private FigureReading worse(FigureReading other) {
        return other.limit.margin(other.value) < limit.margin(value) ? other : this;
    }

    /** Whether it lies outside its limit. */
    public boolean isOver() {
        return !limit.isMetBy(value);
    }

    /** Whether larger figures are the worse ones. */
    public boolean isWorseAbove() {
        return limit.comparison() == Comparison.AT_MOST;
    }
}
