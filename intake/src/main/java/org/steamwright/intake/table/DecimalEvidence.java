package org.steamwright.intake.table;

import java.util.Optional;
import org.steamwright.intake.DecimalMark;

/** Collects from numbers as written which mark is the decimal one. */
final class DecimalEvidence {

    /** No reading of a steriliser's recording lies above it; common sense, no source. */
    static final double HIGHEST_CELSIUS = 1000;

    /** Likewise, 100 bar. */
    static final double HIGHEST_KILOPASCAL = 10_000;

    private int points;
    private int commas;
    private int doubtfulPoints;
    private int doubtfulCommas;
    private boolean isGroupingProven;
    private String point = "";
    private String comma = "";
    private String doubtful = "";

    /**
     * Takes one number into account.
     *
     * @param cell as written
     * @param line where
     * @param ceiling no reading of this column can be above it
     */
    void look(String cell, int line, double ceiling) {
        int lastPoint = -1;
        int lastComma = -1;
        int pointCount = 0;
        int commaCount = 0;
        int end = cell.length();
        for (int i = 0; i < cell.length(); i++) {
            char c = cell.charAt(i);
            if (c == '.') {
                lastPoint = i;
                pointCount++;
            } else if (c == ',') {
                lastComma = i;
                commaCount++;
            } else if ((c < '0' || c > '9') && i > 0 && !isBetweenDigits(cell, i)) {
                end = i;
                break;
            }
        }
        String shown = "\"" + cell + "\" in row " + line;
        if (pointCount > 0 && commaCount > 0) {
            isGroupingProven = true;
            prove(lastPoint > lastComma, shown);
        } else if (pointCount > 1 || commaCount > 1) {
            isGroupingProven = true;
            prove(commaCount > 1, shown);
        } else if (pointCount + commaCount == 1) {
            int at = Math.max(lastPoint, lastComma);
            int first = cell.charAt(0) == '-' || cell.charAt(0) == '+' ? 1 : 0;
            int before = at - first;
            boolean canGroup = end - at - 1 == 3 && before >= 1 && before <= 3 && cell.charAt(first) != '0';
            if (canGroup && thousands(cell, first, at, end) <= ceiling) {
                if (pointCount == 1) {
                    doubtfulPoints++;
                } else {
                    doubtfulCommas++;
                }
                doubtful = shown;
            } else {
                prove(pointCount == 1, shown);
            }
        }
    }

    /** Whether a blank or apostrophe stands between thousands. */
    private static boolean isBetweenDigits(String cell, int i) {
        char c = cell.charAt(i);
        return (c == ' ' || c == '\'' || c == '\u2019' || c == '\u00a0' || c == '\u202f')
                && i + 1 < cell.length()
                && Character.isDigit(cell.charAt(i + 1));
    }

    private static double thousands(String cell, int first, int at, int end) {
        return Double.parseDouble(cell.substring(first, at) + cell.substring(at + 1, end));
    }

    private void prove(boolean isPoint, String shown) {
        if (isPoint) {
            points++;
            point = point.isEmpty() ? shown : point;
        } else {
            commas++;
            comma = comma.isEmpty() ? shown : comma;
        }
    }

    /** Whether a number was seen that can be read in one way only. */
    boolean isDecided() {
        return points + commas > 0;
    }

    /** Whether numbers were seen that have one mark between thousands. */
    boolean isGroupingProven() {
        return isGroupingProven && (points == 0 || commas == 0);
    }

    /** The decimal mark; empty if both are proven, or neither while a mark was seen. */
    Optional<DecimalMark> mark(char delimiter) {
        if (points > 0 && commas > 0) {
            return Optional.empty();
        }
        if (points + commas > 0) {
            return Optional.of(points > 0 ? DecimalMark.POINT : DecimalMark.COMMA);
        }
        if (doubtfulPoints + doubtfulCommas == 0) {
            return Optional.of(DecimalMark.POINT);
        }
        return delimiter == ',' && doubtfulCommas == 0 ? Optional.of(DecimalMark.POINT) : Optional.empty();
    }

    /** What was seen, in words. */
    String shown() {
        if (points > 0 && commas > 0) {
            return "Both occur: " + point + ", " + comma + ".";
        }
        if (points + commas > 0) {
            return "as in " + (points > 0 ? point : comma);
        }
        return doubtful.isEmpty()
                ? "all numbers are whole"
                : "Every number with a mark has three digits behind it, as " + doubtful
                        + ", so that the mark could also stand between thousands.";
    }
}
