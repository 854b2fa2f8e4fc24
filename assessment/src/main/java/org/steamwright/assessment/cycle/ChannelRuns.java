package org.steamwright.assessment.cycle;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Plateau.StretchEnd;
import org.steamwright.assessment.cycle.Plateau.StretchEnd.Reason;

/**
 * The unbroken runs of samples inside a band: of one channel by its own samples, of several by their common time.
 *
 * <p>Each channel answers for itself with its own sampling moments, so loggers that sample at different moments need no
 * interpolation. A missing value and a gap both break a run.
 */
final class ChannelRuns {

    /** A stretch and what ended it. */
    record Ended(Stretch stretch, StretchEnd end) {}

    private ChannelRuns() {}

    static List<Ended> of(CorrectedChannel channel, Band band) {
        return of(channel, band, false);
    }

    private static List<Ended> of(CorrectedChannel channel, Band band, boolean isUnknownInside) {
        List<Ended> runs = new ArrayList<>();
        int size = channel.size();
        int from = -1;
        for (int i = 0; i < size; i++) {
            boolean isInside = band.contains(channel.at(i)) || (isUnknownInside && Double.isNaN(channel.at(i)));
            if (from >= 0 && !isUnknownInside && channel.axis().isGapBefore(i)) {
                runs.add(ended(channel, from, i - 1, Reason.GAP, i));
                from = -1;
            }
            if (isInside && from < 0) {
                from = i;
            } else if (!isInside && from >= 0) {
                runs.add(ended(channel, from, i - 1, reason(channel.at(i), band), i));
                from = -1;
            }
        }
        if (from >= 0) {
            runs.add(ended(channel, from, size - 1, Reason.END_OF_RECORDING, size - 1));
        }
        return runs;
    }

    /** Stretches in which every channel is inside: the intersection of their runs, in order of time. */
    static List<Ended> together(List<CorrectedChannel> channels, Band band) {
        return together(channels, band, false);
    }

    /** The same as if every missing value and every gap had been inside. */
    static List<Ended> togetherIfUnknownWereInside(List<CorrectedChannel> channels, Band band) {
        return together(channels, band, true);
    }

    private static List<Ended> together(List<CorrectedChannel> channels, Band band, boolean isUnknownInside) {
        List<Ended> common = of(channels.get(0), band, isUnknownInside);
        for (CorrectedChannel channel : channels.subList(1, channels.size())) {
            common = intersection(common, of(channel, band, isUnknownInside));
        }
        return common;
    }

    private static List<Ended> intersection(List<Ended> a, List<Ended> b) {
        List<Ended> common = new ArrayList<>();
        int i = 0;
        int j = 0;
        while (i < a.size() && j < b.size()) {
            Stretch left = a.get(i).stretch();
            Stretch right = b.get(j).stretch();
            double from = Math.max(left.fromSeconds(), right.fromSeconds());
            double to = Math.min(left.toSeconds(), right.toSeconds());
            if (from <= to) {
                common.add(new Ended(new Stretch(from, to), earlierEnd(a.get(i), b.get(j))));
            }
            if (left.toSeconds() < right.toSeconds()) {
                i++;
            } else {
                j++;
            }
        }
        return common;
    }

    private static StretchEnd earlierEnd(Ended a, Ended b) {
        int order = Double.compare(a.stretch().toSeconds(), b.stretch().toSeconds());
        if (order == 0) {
            // both left at the same sample: a measured departure says more than a missing value
            return isMeasured(a.end()) || !isMeasured(b.end()) ? a.end() : b.end();
        }
        return order < 0 ? a.end() : b.end();
    }

    private static boolean isMeasured(StretchEnd end) {
        return end.reason() == Reason.BELOW || end.reason() == Reason.ABOVE;
    }

    private static Reason reason(double value, Band band) {
        if (Double.isNaN(value)) {
            return Reason.MISSING;
        }
        return value < band.lowCelsius() ? Reason.BELOW : Reason.ABOVE;
    }

    private static Ended ended(CorrectedChannel channel, int from, int to, Reason reason, int outside) {
        return new Ended(
                new Stretch(channel.axis().at(from), channel.axis().at(to)),
                new StretchEnd(reason, channel.name(), channel.axis().at(outside)));
    }
}
