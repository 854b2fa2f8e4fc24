package org.steamwright.command;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Gap;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Recording;

/** How a recording was understood, as lines for a terminal. */
final class RecordingText {
    /** Gaps that are listed one by one. */
    private static final int GAPS_SHOWN = 10;

    private RecordingText() {}

    static List<String> of(Recording recording) {
        List<String> lines = new ArrayList<>();
        lines.add(recording.fileName() + ", " + recording.bytes() + " bytes, SHA-256 " + recording.sha256());
        if (recording.isSimulated()) {
            lines.add("SIMULATED: invented data, not a real cycle.");
        }
        lines.add("");
        for (String line : recording.explanation()) {
            VerdictText.broken("  ", line, lines);
        }
        lines.add("");
        time(recording, lines);
        lines.add("");
        columns(recording, lines);
        if (!recording.remarks().isEmpty()) {
            lines.add("");
            for (Remark remark : recording.remarks()) {
                VerdictText.broken(remark.rank().name().toLowerCase(Locale.ROOT) + " ", remark.toString(), lines);
            }
        }
        for (Quantity quantity : Quantity.values()) {
            List<String> plot = TextPlot.of(recording, quantity);
            if (!plot.isEmpty()) {
                lines.add("");
                lines.add((quantity == Quantity.TEMPERATURE ? "Temperature" : "Pressure") + " in " + quantity.unit());
                lines.addAll(plot);
            }
        }
        return lines;
    }

    private static void time(Recording recording, List<String> lines) {
        double seconds = recording.axis().last() - recording.axis().first();
        lines.add("  Samples   " + recording.axis().size() + " in " + Figures.nearest(seconds / 60, 1) + " min");
        lines.add("  Interval  " + number(recording.axis().interval()) + " s (median)");
        List<Gap> gaps = recording.axis().gaps();
        if (gaps.isEmpty()) {
            lines.add("  Gaps      none");
        }
        for (int i = 0; i < Math.min(gaps.size(), GAPS_SHOWN); i++) {
            Gap gap = gaps.get(i);
            lines.add("  Gap       " + number(gap.seconds()) + " s long, from " + number(gap.fromSeconds()) + " s to "
                    + number(gap.toSeconds()) + " s after the start");
        }
        if (gaps.size() > GAPS_SHOWN) {
            lines.add("            and " + (gaps.size() - GAPS_SHOWN) + " more");
        }
        ZoneId zone = recording.zone();
        if (recording.start().isPresent()) {
            Instant start = recording.start().get();
            Instant end = start.plusNanos(Math.round(seconds * 1e9));
            lines.add("  Clock     from " + local(start, zone) + " to " + local(end, zone));
            lines.add("  Zone      " + zone.getId());
        } else {
            lines.add("  Clock     elapsed time only, no date");
        }
    }

    private static String local(Instant moment, ZoneId zone) {
        ZonedDateTime there = moment.atZone(zone);
        return there.toLocalDate() + " " + there.toLocalTime() + " (UTC" + there.getOffset() + ")";
    }

    private static void columns(Recording recording, List<String> lines) {
        int width = 6;
        for (Column column : recording.columns()) {
            width = Math.max(width, column.name().length());
        }
        lines.add("  " + VerdictText.padded("Column", width) + "  unit in file   lowest   highest  resolution  empty");
        for (Column column : recording.columns()) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            int empty = 0;
            for (int i = 0; i < column.size(); i++) {
                double value = column.at(i);
                if (Double.isNaN(value)) {
                    empty++;
                } else {
                    low = Math.min(low, value);
                    high = Math.max(high, value);
                }
            }
            String unit = column.unitInFile()
                    + column.reference()
                            .map(reference -> reference == PressureReference.ABSOLUTE ? " absolute" : " gauge")
                            .orElse(column.quantity() == Quantity.PRESSURE ? " (kind not stated)" : "");
            lines.add("  " + VerdictText.padded(column.name(), width) + "  " + VerdictText.padded(unit, 12) + "  "
                    + VerdictText.leftPadded(Figures.nearest(low, 2), 8) + "  "
                    + VerdictText.leftPadded(Figures.nearest(high, 2), 8) + " "
                    + VerdictText.padded(column.quantity().unit(), 3) + " "
                    + VerdictText.leftPadded(
                            column.resolution() > 0 ? number(Figures.cleaned(column.resolution())) : "-", 7)
                    + "  " + VerdictText.leftPadded(Integer.toString(empty), 5));
        }
    }

    /** A number without needless decimals. */
    private static String number(double value) {
        if (Double.isNaN(value)) {
            return "-";
        }
        String text = Figures.nearest(value, 3);
        while (text.contains(".") && (text.endsWith("0") || text.endsWith("."))) {
            text = text.substring(0, text.length() - 1);
        }
        return text;
    }
}
