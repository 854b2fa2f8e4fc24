package org.steamwright.assessment.propagation;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.cycle.Band;
import org.steamwright.assessment.cycle.Crossing;
import org.steamwright.assessment.cycle.Plateau;

/**
 * The boundaries of a plateau where straight lines between the samples cross the band.
 *
 * @param from last arrival of a point before the holding time; empty without one
 * @param to first departure after it
 * @param reached arrival of the reference measurement point
 * @param arrivals of every judged point at temperature; empty if not every one came
 * @param packs arrivals of the challenge packs; empty without a pack or if one never came
 */
record Boundaries(Optional<Edge> from, Optional<Edge> to, Edge reached, List<Edge> arrivals, List<Edge> packs) {

    /** The boundaries of a plateau in the channels in which it was found. */
    static Boundaries of(Plateau plateau, List<CorrectedChannel> points, Readings readings) {
        Band open = readings.band().open();
        List<Edge> begins = new ArrayList<>();
        List<Edge> ends = new ArrayList<>();
        List<Edge> arrivals = new ArrayList<>();
        for (int i = 0; i < readings.judged(); i++) {
            CorrectedChannel point = points.get(i);
            if (plateau.holding().isPresent()) {
                begins.add(Edge.arrival(
                        i, point, readings.band(), plateau.holding().get().fromSeconds()));
                ends.add(Edge.departure(
                        i, point, readings.band(), plateau.holding().get().toSeconds()));
            }
            if (plateau.equilibratedSeconds().isPresent()) {
                arrivals.add(Edge.arrival(
                        i, point, open, plateau.equilibratedSeconds().get()));
            }
        }
        List<Edge> packs = new ArrayList<>();
        for (int pack : readings.packs()) {
            Optional<Crossing> crossing = plateau.findCrossing(points.get(pack).name());
            crossing.ifPresent(found -> packs.add(Edge.arrival(pack, points.get(pack), open, found.sampleSeconds())));
        }
        Comparator<Edge> byTime = Comparator.comparingDouble(Edge::seconds);
        return new Boundaries(
                begins.stream().max(byTime),
                ends.stream().min(byTime),
                Edge.arrival(readings.reference(), points.get(readings.reference()), open, plateau.reachedSeconds()),
                arrivals,
                packs.size() == readings.packs().size() ? packs : List.of());
    }
}
