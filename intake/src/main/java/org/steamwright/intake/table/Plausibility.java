package org.steamwright.intake.table;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.quantity.TemperatureUnit;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.IntakeMessage;

/**
 * Looks whether the readings of a column can be those of a steriliser at all. The bounds are common practice, no source:
 * wide enough that no steam steriliser and no sensor that works comes near them.
 */
final class Plausibility {

    private static final double LOWEST_CELSIUS = -100;
    private static final double HIGHEST_CELSIUS = 400;
    private static final double LOWEST_KILOPASCAL = -150;
    private static final double HIGHEST_KILOPASCAL = 5000;

    /** Beyond that share of its readings it is not the sensor that is wrong, it is the unit. */
    private static final double SHARE_OF_A_UNIT = 0.2;

    private static final double SHORT_CIRCUIT = -200;
    private static final double OPEN_CIRCUIT = 800;
    private static final double OPEN_RESISTANCE_SENSOR = 850;
    private static final int SHOWN = 5;

    /** Samples that a reading stays exactly the same at the top before the end of a range is supposed. */
    private static final int FLAT_SAMPLES = 20;

    /** How many steps of the resolution a curve is away just before and just behind such a top. */
    private static final int FLAT_EDGE_STEPS = 5;

    /** What 16-bit counters show at their ends, whatever the decimal places. */
    private static final long[] COUNTER_ENDS = {32_767, 32_768, 65_535, 65_536};

    private final String file;
    private final Layout.Reading reading;
    private final double[] values;
    private final int rows;
    private final TimeCells time;
    private final int decimals;
    private final List<Remark> remarks = new ArrayList<>();
    private double lowest = Double.POSITIVE_INFINITY;
    private double highest = Double.NEGATIVE_INFINITY;
    private int numbers;
    private int outside;
    private int unexplained;

    private Plausibility(String file, Layout.Reading reading, double[] values, int rows, TimeCells time, int decimals) {
        this.file = file;
        this.reading = reading;
        this.values = values;
        this.rows = rows;
        this.time = time;
        this.decimals = decimals;
    }

    /**
     * Takes readings that no sensor gives out of a column and tells what is odd.
     *
     * @param values in the program's unit; a reading that can't be one becomes NaN
     * @param rows of which so many are used
     * @param decimals digits behind the decimal mark as written
     */
    static List<Remark> look(
            String file, Layout.Reading reading, double[] values, int rows, TimeCells time, int decimals) {
        Plausibility looked = new Plausibility(file, reading, values, rows, time, decimals);
        looked.look();
        return looked.remarks;
    }

    private void look() {
        boolean isTemperature = reading.unit().quantity() == Quantity.TEMPERATURE;
        double low = isTemperature ? LOWEST_CELSIUS : LOWEST_KILOPASCAL;
        double high = isTemperature ? HIGHEST_CELSIUS : HIGHEST_KILOPASCAL;
        for (int i = 0; i < rows; i++) {
            double value = values[i];
            if (value < low || value > high) {
                outside++;
                unexplained += isCode(value) ? 0 : 1;
                numbers++;
            } else if (value >= low) {
                numbers++;
                lowest = value < lowest ? value : lowest;
                highest = value > highest ? value : highest;
            }
        }
        if (unexplained > numbers * SHARE_OF_A_UNIT) {
            lowest = Double.POSITIVE_INFINITY;
            highest = Double.NEGATIVE_INFINITY;
            for (int i = 0; i < rows; i++) {
                lowest = values[i] < lowest ? values[i] : lowest;
                highest = values[i] > highest ? values[i] : highest;
            }
        } else if (outside > 0) {
            takeOut(low, high);
        }
        if (numbers > 0) {
            doubtUnit(isTemperature);
            findFlatTop();
        }
    }

    private void takeOut(double low, double high) {
        List<String> shown = new ArrayList<>();
        boolean isCounter = false;
        for (int i = 0; i < rows; i++) {
            if (values[i] < low || values[i] > high) {
                String why = meaning(values[i]);
                isCounter |= why.contains("counter");
                if (shown.size() < SHOWN) {
                    shown.add(number(inFile(values[i])) + " in row " + time.line(i) + why);
                }
                values[i] = Double.NaN;
            }
        }
        remark(
                isCounter ? IntakeMessage.COUNTER_AT_ITS_END : IntakeMessage.READING_IMPOSSIBLE,
                Sentence.of(
                        "%s reading%s can't be one in %s: %s%s. Taken as no reading; nothing was filled in, and a"
                                + " finding that needs %s is not made. Look at the sensor, its plug and its cable.",
                        outside,
                        outside == 1 ? "" : "s",
                        reading.unit().symbol(),
                        String.join(", ", shown),
                        outside > SHOWN ? ", …" : "",
                        outside == 1 ? "it" : "them"));
    }

    /** Whether a reading is one that instruments put where there is none, however often. */
    private boolean isCode(double value) {
        return isCounterEnd(value)
                || (reading.unit().quantity() == Quantity.TEMPERATURE
                        && (value <= SHORT_CIRCUIT || Math.abs(value - OPEN_RESISTANCE_SENSOR) < 1));
    }

    private boolean isCounterEnd(double value) {
        long digits = Math.round(Math.abs(inFile(value)) * StrictMath.pow(10, Math.max(0, decimals)));
        for (long end : COUNTER_ENDS) {
            if (digits == end) {
                return true;
            }
        }
        return false;
    }

    private String meaning(double value) {
        if (isCounterEnd(value)) {
            return " (the end of a 16-bit counter)";
        }
        if (reading.unit().quantity() == Quantity.TEMPERATURE) {
            if (value <= SHORT_CIRCUIT) {
                return " (as of a short circuit)";
            }
            if (value >= OPEN_CIRCUIT) {
                return " (as of an open circuit)";
            }
        }
        return "";
    }

    private void doubtUnit(boolean isTemperature) {
        String supposed = "";
        if (isTemperature) {
            if (lowest > 273 && highest > 350 && highest < 440) {
                supposed = "kelvin they would be " + span(TemperatureUnit.KELVIN::toCelsius) + " °C";
            } else if (highest > 200 && highest < 300 && lowest > 30) {
                supposed = "degrees Fahrenheit they would be " + span(TemperatureUnit.FAHRENHEIT::toCelsius) + " °C";
            } else if (highest > HIGHEST_CELSIUS && lowest > LOWEST_CELSIUS && highest < 1600) {
                supposed = "tenths of a degree they would be " + span(value -> value / 10) + " °C";
            }
        } else if (reading.reference().orElse(PressureReference.GAUGE) == PressureReference.ABSOLUTE
                && lowest >= 0
                && highest > 0.8
                && highest < 4.5
                && highest > 5 * lowest) {
            supposed = "bar they would be " + span(PressureUnit.BAR::toKilopascal) + " kPa";
        } else if (highest > 800 && highest < 4500 && lowest >= -150 && highest > 5 * lowest) {
            supposed = "millibar they would be " + span(value -> value / 10) + " kPa";
        }
        if (!supposed.isEmpty()) {
            remark(
                    IntakeMessage.UNIT_IN_DOUBT,
                    Sentence.of(
                            "Read in %s the column goes from %s to %s %s, which no steriliser does; in %s. Read as the"
                                    + " file says. Look at the unit, and tell it if the file is wrong (unit:…).",
                            reading.unit().symbol(),
                            number(lowest),
                            number(highest),
                            reading.unit().quantity().unit(),
                            supposed));
        }
    }

    private String span(DoubleUnaryOperator supposed) {
        return number(supposed.applyAsDouble(lowest)) + " to " + number(supposed.applyAsDouble(highest));
    }

    /** A top that is exactly flat and has sharp edges is the end of a range, not a plateau. */
    private void findFlatTop() {
        double step = reading.unit().differenceToInside(StrictMath.pow(10, -Math.max(0, decimals)));
        for (int i = 0; i < rows; i++) {
            if (values[i] == highest) {
                int start = i;
                while (i < rows && values[i] == highest) {
                    i++;
                }
                int length = i - start;
                if (length >= FLAT_SAMPLES && isEdge(start - 1, step) && isEdge(i, step)) {
                    remark(
                            IntakeMessage.TOP_IS_FLAT,
                            Sentence.of(
                                    "From row %s to row %s the reading stays exactly at %s, its highest, and rises to"
                                            + " it and falls from it in steps much larger than its resolution: as where a"
                                            + " range ends. What happened above is not known. Compare with the range of"
                                            + " the instrument.",
                                    time.line(start), time.line(i - 1), number(inFile(highest))));
                    return;
                }
            }
        }
    }

    private boolean isEdge(int row, double step) {
        return row >= 0 && row < rows && highest - values[row] >= FLAT_EDGE_STEPS * step;
    }

    private double inFile(double value) {
        double zero = reading.unit().toInside(0);
        return (value - zero) / reading.unit().differenceToInside(1);
    }

    private static String number(double value) {
        return java.math.BigDecimal.valueOf(value)
                .setScale(3, java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }

    private void remark(IntakeMessage id, String words) {
        remarks.add(new Remark(id.id(), Rank.DOUBT, file + ", " + reading.where(), words));
    }
}
