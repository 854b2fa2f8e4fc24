package org.steamwright.visit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.Figures;

/**
 * A reference load beside the maker's maximum, what the clinic owns, and last year's load.
 *
 * <p>A load above the maximum qualifies nothing, however well its runs look. A small one qualifies little, and that is
 * said; it is the clinic's choice.
 *
 * @source RACGP infection prevention guidelines, loading (seen): a load must not be larger or harder than the one tested;
 *     what counts as smaller than last year is common practice, no source
 */
public final class LoadComparison {

    /** Mass below last year's, as a share of it, from which a load is called smaller. Own choice, no source. */
    public static final double SMALLER_BY = 0.05;

    /**
     * Something about a load that has to be said.
     *
     * @param kind of remark
     * @param sentence for people
     */
    public record LoadRemark(Kind kind, String sentence) {}

    /** Kinds of remarks about a load. Only the first keeps it from qualifying anything. */
    public enum Kind {
        ABOVE_MAXIMUM,
        LACKS_OWNED_ITEMS,
        SMALLER_THAN_LAST,
        SAME_WORDS_AS_LAST,
        MASSES_DISAGREE,
        PLACE_WITHOUT_REASON,
        NOT_WEIGHED
    }

    private LoadComparison() {}

    /** Everything that has to be said about a load, worst first. */
    public static List<LoadRemark> of(ReferenceLoad load, Optional<LoadFrame> known) {
        List<LoadRemark> remarks = new ArrayList<>();
        known.ifPresent(frame -> maximum(load, frame, remarks));
        known.ifPresent(frame -> owned(load, frame, remarks));
        known.flatMap(LoadFrame::last).ifPresent(last -> last(load, last, known.get(), remarks));
        masses(load, remarks);
        if (!load.challengePack().isBlank()
                && load.slowest() == ReferenceLoad.Slowest.NOT_STATED
                && known.isPresent()) {
            remarks.add(new LoadRemark(
                    Kind.PLACE_WITHOUT_REASON,
                    "Nobody says on what it rests that the place of the challenge pack is the slowest."));
        }
        return List.copyOf(remarks);
    }

    private static void maximum(ReferenceLoad load, LoadFrame frame, List<LoadRemark> remarks) {
        if (frame.maximumKilogram().isEmpty()) {
            return;
        }
        double maximum = frame.maximumKilogram().get();
        Optional<Double> mass = load.totalKilogram();
        if (mass.isEmpty()) {
            remarks.add(new LoadRemark(
                    Kind.NOT_WEIGHED,
                    "The load was not weighed, so nobody knows whether it keeps to the maker's maximum of %s kg."
                            .formatted(Figures.nearest(maximum, 2))));
        } else if (mass.get() > maximum) {
            remarks.add(new LoadRemark(
                    Kind.ABOVE_MAXIMUM,
                    "The load of %s kg is above the maker's maximum of %s kg%s. A pass with it qualifies nothing; test a load within the maximum."
                            .formatted(
                                    Figures.highSide(mass.get(), 2),
                                    Figures.nearest(maximum, 2),
                                    frame.maximumSource().isBlank() ? "" : " (" + frame.maximumSource() + ")")));
        }
    }

    private static void owned(ReferenceLoad load, LoadFrame frame, List<LoadRemark> remarks) {
        List<String> missing = frame.owned().stream()
                .filter(family -> !stands(load, Words.key(family)))
                .toList();
        if (!missing.isEmpty()) {
            remarks.add(new LoadRemark(
                    Kind.LACKS_OWNED_ITEMS,
                    "The clinic owns items that this load lacks (%s), so they are not covered.%s"
                            .formatted(
                                    Words.list(missing),
                                    frame.tooLittleAccepted().isBlank()
                                            ? ""
                                            : " The clinic did not want them tested: "
                                                    + Words.sentence(frame.tooLittleAccepted()))));
        }
    }

    /** A long narrow lumen stands for a short wide one as well; solid items are in every load that has anything. */
    private static boolean stands(ReferenceLoad load, String family) {
        return switch (family) {
            case "solid" -> load.things() > 0;
            case "hollow b" -> load.has("hollow B") || load.has("hollow A");
            default -> load.has(family);
        };
    }

    private static void last(ReferenceLoad load, ReferenceLoad last, LoadFrame frame, List<LoadRemark> remarks) {
        Optional<Double> now = load.totalKilogram();
        Optional<Double> then = last.totalKilogram();
        List<String> less = new ArrayList<>();
        if (now.isPresent() && then.isPresent() && now.get() < then.get() * (1 - SMALLER_BY)) {
            less.add("%s kg and not %s kg".formatted(Figures.nearest(now.get(), 2), Figures.nearest(then.get(), 2)));
        }
        if (load.things() < last.things()) {
            less.add("%s things and not %s".formatted(load.things(), last.things()));
        }
        for (String family : List.of("hollow A", "hollow B", "porous")) {
            if (last.has(family) && !stands(load, Words.key(family))) {
                less.add("nothing " + family);
            }
        }
        if (!less.isEmpty()) {
            remarks.add(new LoadRemark(
                    Kind.SMALLER_THAN_LAST,
                    "The load is smaller than the one before%s: %s. What was covered until now may not be any more.%s"
                            .formatted(
                                    frame.lastReport().isBlank() ? "" : " (report " + frame.lastReport() + ")",
                                    Words.list(less),
                                    frame.tooLittleAccepted().isBlank()
                                            ? ""
                                            : " The clinic wanted it so: "
                                                    + Words.sentence(frame.tooLittleAccepted()))));
        }
        boolean isCopied = load.items().equals(last.items())
                && load.description().equals(last.description())
                && load.massKilogram().isPresent()
                && load.massKilogram().equals(last.massKilogram());
        if (isCopied) {
            remarks.add(
                    new LoadRemark(
                            Kind.SAME_WORDS_AS_LAST,
                            "The load is described and weighed word for word and gram for gram like the one before. Was it looked at and weighed again?"));
        }
    }

    private static void masses(ReferenceLoad load, List<LoadRemark> remarks) {
        if (load.massKilogram().isEmpty() || load.itemKilogram().isEmpty()) {
            return;
        }
        double weighed = load.massKilogram().get();
        double summed = load.itemKilogram().get();
        // packaging and trays may weigh something, so only a sum above the whole is impossible beyond the rounding
        if (summed > weighed * (1 + SMALLER_BY)) {
            remarks.add(new LoadRemark(
                    Kind.MASSES_DISAGREE,
                    "The items add up to %s kg, more than the %s kg of the whole load. One of the two is wrong."
                            .formatted(Figures.nearest(summed, 2), Figures.nearest(weighed, 2))));
        }
    }
}
