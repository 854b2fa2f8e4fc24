package org.steamwright.crosscheck;

import java.util.List;
import java.util.Optional;

/**
 * One source of doubt of a reading in the slow evaluation.
 *
 * @param u standard uncertainty with the sign of its effect, in the unit of the reading
 * @param isPerReading whether it strikes every reading anew
 * @param group name of what is shared; empty for nothing
 * @param share of the variance that is shared
 */
record SlowLine(double u, boolean isPerReading, String group, double share) {

    static SlowLine own(double u, boolean isPerReading) {
        return new SlowLine(u, isPerReading, "", 0);
    }

    /** U of one reading, k = 2: root of the sum of squares. */
    static double expanded(List<SlowLine> lines) {
        return 2 * Math.sqrt(lines.stream().mapToDouble(line -> line.u * line.u).sum());
    }

    /** U of the difference of two readings: u² = ua² + ub² − 2·r·ua·ub, line by line, with r = √(ra·rb) in one group. */
    static double expandedDifference(List<SlowLine> a, List<SlowLine> b) {
        double variance = 0;
        for (SlowLine line : a) {
            variance += line.u * line.u;
        }
        for (SlowLine line : b) {
            variance += line.u * line.u;
        }
        for (SlowLine line : a) {
            Optional<SlowLine> other = b.stream()
                    .filter(one -> !one.group.isEmpty() && one.group.equals(line.group))
                    .findFirst();
            if (other.isPresent()) {
                variance -= 2 * Math.sqrt(line.share * other.get().share) * line.u * other.get().u;
            }
        }
        return 2 * Math.sqrt(Math.max(0, variance));
    }
}
