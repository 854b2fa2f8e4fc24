package org.steamwright.assessment.criteria;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.criteria.CriteriaSet.CycleLimits;
import org.steamwright.assessment.cycle.Band;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.Plateau;
import org.steamwright.assessment.cycle.Stretch;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.TimeAxis;

/**
 * What a thermometric run offers to its criteria.
 *
 * @param cycle as declared
 * @param limits of the criteria set for this sterilization temperature; empty if it has none
 * @param corrected the corrected trace
 * @param judged points that have to stand in the band; at least one
 * @param reference where the plateau begins; one of {@code judged}
 * @param isReferenceDeclared whether a channel was declared at the reference measurement point; otherwise the first
 *     chamber channel stands in and no time that counts from the reference point is judged
 * @param band sterilization temperature band
 * @param asRead plateau of the corrected readings
 * @param lowered plateau with every point lowered by its expanded uncertainty
 * @param raised plateau with every point raised by it
 * @param loweredLowest lowest temperature of the lowered points while they stood together, in °C; NaN if they never did
 * @param phases of the cycle
 * @param ambientKilopascal ambient pressure of the day
 * @param ambientHalfWidthKilopascal half-width within which it is known
 * @param ambientWords where it comes from
 * @param clocks that stamped the recordings
 */
public record RunEvidence(
        CycleDefinition cycle,
        Optional<CycleLimits> limits,
        CorrectedTrace corrected,
        List<CorrectedChannel> judged,
        CorrectedChannel reference,
        boolean isReferenceDeclared,
        Band band,
        Optional<Plateau> asRead,
        Optional<Plateau> lowered,
        Optional<Plateau> raised,
        double loweredLowest,
        Phases phases,
        double ambientKilopascal,
        double ambientHalfWidthKilopascal,
        String ambientWords,
        Clocks clocks) {

    public RunEvidence {
        judged = List.copyOf(judged);
    }

    /** Judged points that were measured: without the theoretical temperature. */
    public List<CorrectedChannel> measured() {
        return judged.stream()
                .filter(channel -> channel.role() != ChannelRole.THEORETICAL)
                .toList();
    }

    /** What was measured in this run and bears on it: the measured points, and the pressure if there is one. */
    public List<CorrectedChannel> measuredAndPressure() {
        List<CorrectedChannel> channels = new ArrayList<>(measured());
        corrected.pressure().ifPresent(channels::add);
        return List.copyOf(channels);
    }

    /** Moments at which points are compared with one another: every sample of every judged point inside a stretch. */
    public double[] instants(Stretch stretch) {
        TimeAxis common = reference.axis();
        if (judged.stream().allMatch(channel -> channel.axis() == common)) {
            return moments(common, stretch);
        }
        TreeSet<Double> moments = new TreeSet<>();
        for (CorrectedChannel channel : judged) {
            for (double moment : moments(channel.axis(), stretch)) {
                moments.add(moment);
            }
        }
        return moments.stream().mapToDouble(Double::doubleValue).toArray();
    }

    private static double[] moments(TimeAxis axis, Stretch stretch) {
        int from = axis.indexAtOrAfter(stretch.fromSeconds());
        int to = axis.indexAtOrBefore(stretch.toSeconds());
        double[] moments = new double[Math.max(0, to - from + 1)];
        for (int i = 0; i < moments.length; i++) {
            moments[i] = axis.at(from + i);
        }
        return moments;
    }

    /** The unbroken holding stretch of the readings, if there is one. */
    public Optional<Stretch> holding() {
        return asRead.flatMap(Plateau::holding);
    }

    /**
     * Half-width in seconds that the clocks leave to the time between two channels: 0 on one clock, infinite if the clocks
     * were never compared.
     */
    public double clockHalfWidth(CorrectedChannel channel, CorrectedChannel other) {
        return clocks.halfWidthBetween(stamped(channel), stamped(other));
    }

    /** The largest such half-width between the reference point and any of some channels. */
    public double clockHalfWidth(List<CorrectedChannel> channels) {
        double largest = 0;
        for (CorrectedChannel channel : channels) {
            largest = Math.max(largest, clockHalfWidth(reference, channel));
        }
        return largest;
    }

    /** Name of the channel whose stamps count: those of the pressure for the theoretical temperature. */
    private String stamped(CorrectedChannel channel) {
        return channel.role() == ChannelRole.THEORETICAL
                ? corrected.pressure().map(CorrectedChannel::name).orElse(channel.name())
                : channel.name();
    }

    /** Names of all judged points. */
    public List<String> judgedNames() {
        return judged.stream().map(CorrectedChannel::name).toList();
    }

    /** Longest usual step of any judged point, in seconds; NaN with a single sample. */
    public double longestInterval() {
        double longest = 0;
        for (CorrectedChannel channel : judged) {
            longest = Math.max(longest, channel.axis().interval());
        }
        return longest;
    }
}
