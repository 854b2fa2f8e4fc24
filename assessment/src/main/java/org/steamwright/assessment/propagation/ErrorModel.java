package org.steamwright.assessment.propagation;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;

/**
 * The errors for a whole run of some points together, drawn line by line from their budgets: what is shared is drawn once
 * for its group.
 *
 * @source JCGM 101:2008, 6.4 for the distributions of the lines
 */
final class ErrorModel {

    private record Line(int point, Contribution contribution, int group) {}

    private final List<Line> lines = new ArrayList<>();
    private final List<Contribution> groups = new ArrayList<>();
    private final int points;
    private final double[] shared;

    /**
     * @param budgets one for each point
     */
    ErrorModel(List<Budget> budgets) {
        points = budgets.size();
        Map<String, Integer> numbers = new LinkedHashMap<>();
        for (int point = 0; point < points; point++) {
            for (Contribution line : budgets.get(point).contributions()) {
                if (line.isPerReading() || line.stated() == 0) {
                    continue;
                }
                int group = -1;
                if (!line.correlation().group().isEmpty()) {
                    group = numbers.computeIfAbsent(line.correlation().group(), name -> {
                        groups.add(line);
                        return groups.size() - 1;
                    });
                }
                lines.add(new Line(point, line, group));
            }
        }
        shared = new double[groups.size()];
    }

    /** By how much each point reads too high in one draw. */
    double[] draw(Draws draws) {
        for (int group = 0; group < shared.length; group++) {
            shared[group] = standardized(groups.get(group), draws);
        }
        double[] errors = new double[points];
        for (Line line : lines) {
            Contribution contribution = line.contribution();
            double factor = contribution.sensitivity() * contribution.stated() / contribution.divisor();
            double common = contribution.correlation().coefficient();
            double error = line.group() < 0 ? 0 : Math.sqrt(common) * shared[line.group()];
            if (common < 1) {
                error += Math.sqrt(1 - common) * standardized(contribution, draws);
            }
            errors[line.point()] += factor * error;
        }
        return errors;
    }

    /** A draw that times the standard uncertainty is one of the contribution. */
    static double standardized(Contribution contribution, Draws draws) {
        return switch (contribution.distribution()) {
            case NORMAL, STANDARD -> draws.student(contribution.degreesOfFreedom());
            case RECTANGULAR -> Math.sqrt(3) * (2 * draws.uniform() - 1);
            case TRIANGULAR -> {
                double first = draws.uniform();
                yield Math.sqrt(6) * (first - draws.uniform());
            }
            case ARCSINE -> Math.sqrt(2) * StrictMath.sin(2 * Math.PI * draws.uniform());
        };
    }
}
