package org.steamwright.assessment.alignment;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.steamwright.assessment.alignment.ClockOffset.Method;
import org.steamwright.assessment.alignment.EventSignal.Kind;

/**
 * The offset between two clocks from the evacuations that both loggers saw.
 *
 * <p>Works on the moments at which the signals turned during the air removal and on nothing else; see {@link Turns}. It
 * would rather find nothing than something wrong: too few turns, turns that do not agree, or evacuations so alike that
 * the recordings would fit nearly as well one evacuation apart are refused with the reason.
 *
 * @param offset what to add to the other recording's stamps; empty if no event was good enough
 * @param reason what was used, or why nothing could be
 */
public record CommonEvent(Optional<ClockOffset> offset, String reason) {

    /** Fewest turns that have to agree. Own choice: two could do so by chance. */
    private static final int FEWEST_TURNS = 3;

    /** How many more turns the best offset has to explain than any other. Own choice. */
    private static final int CLEAR_LEAD = 2;

    /** Share of the turns of the signal that has more of them which has to agree. Own choice. */
    private static final double LEAST_SHARE = 0.6;

    /** What two pressure sensors may differ in quickness, in seconds. Own choice. */
    private static final double PRESSURE_LAG_SECONDS = 0.3;

    /** What sensors of which one measures temperature may differ in quickness, in seconds. Own choice. */
    private static final double STEAM_LAG_SECONDS = 1.5;

    private record Fit(double seconds, int turns, double scatter, double width) {}

    /**
     * Looks for the offset.
     *
     * @param base signals of the recording with the reference measurement point
     * @param other signals of the recording that is to be put on its clock
     * @param author who asked for it and answers for it
     */
    public static CommonEvent find(List<EventSignal> base, List<EventSignal> other, String author) {
        if (base.isEmpty() || other.isEmpty()) {
            return none("one of the recordings has neither a pressure nor a sensor in free steam; the delay of a sensor"
                    + " in the load or in a pack is what the test wants to know and may not be taken away");
        }
        List<String> reasons = new ArrayList<>();
        for (boolean isAlike : new boolean[] {true, false}) {
            for (Kind kind : Kind.values()) {
                for (EventSignal one : base) {
                    for (EventSignal two : other) {
                        if (one.kind() == kind && (one.kind() == two.kind()) == isAlike) {
                            CommonEvent event = find(one, two, author);
                            if (event.offset().isPresent()) {
                                return event;
                            }
                            reasons.add(event.reason());
                        }
                    }
                }
            }
        }
        return new CommonEvent(Optional.empty(), reasons.get(0));
    }

    private static CommonEvent find(EventSignal base, EventSignal other, String author) {
        List<Turn> these = Turns.of(base);
        List<Turn> those = Turns.of(other);
        String pair = base.kind().words() + " " + base.channel() + " and "
                + other.kind().words() + " " + other.channel();
        int fewer = Math.min(these.size(), those.size());
        if (fewer < FEWEST_TURNS) {
            return none("%s show only %s turning moments of the air removal before its last evacuation, %s are needed"
                    .formatted(pair, fewer, FEWEST_TURNS));
        }
        double lag = base.kind() == Kind.PRESSURE && other.kind() == Kind.PRESSURE
                ? PRESSURE_LAG_SECONDS
                : STEAM_LAG_SECONDS;
        List<Fit> fits = fits(these, those, lag);
        Fit best = fits.get(0);
        for (Fit fit : fits) {
            if (fit.turns() > best.turns() || (fit.turns() == best.turns() && fit.scatter() < best.scatter())) {
                best = fit;
            }
        }
        if (best.turns() < FEWEST_TURNS
                || best.turns() < LEAST_SHARE * Math.max(these.size(), those.size())
                || best.scatter() > best.width() + lag) {
            return none("the turning moments of %s agree in %s of %s and %s only"
                    .formatted(pair, best.turns(), these.size(), those.size()));
        }
        for (Fit fit : fits) {
            boolean isApart = Math.abs(fit.seconds() - best.seconds()) > 2 * (best.width() + lag);
            if (isApart && fit.turns() > best.turns() - CLEAR_LEAD) {
                return none(String.format(
                        Locale.ROOT,
                        "the evacuations in %s resemble one another: %+.0f s would fit nearly as well as %+.0f s",
                        pair,
                        fit.seconds(),
                        best.seconds()));
            }
        }
        String words = String.format(
                Locale.ROOT,
                "%s turned together at %d moments of the air removal; they agree within %.1f s.",
                capital(pair),
                best.turns(),
                best.scatter());
        return new CommonEvent(
                Optional.of(new ClockOffset(
                        best.seconds(),
                        best.seconds(),
                        best.width() + lag,
                        Method.COMMON_EVENT,
                        author,
                        Optional.empty(),
                        words)),
                words);
    }

    /** What every pairing of two turns of one kind would explain. */
    private static List<Fit> fits(List<Turn> these, List<Turn> those, double lag) {
        List<Fit> fits = new ArrayList<>();
        fits.add(new Fit(0, 0, Double.POSITIVE_INFINITY, 0));
        for (Turn one : these) {
            for (Turn two : those) {
                if (one.isRise() == two.isRise()) {
                    Fit rough = fit(these, those, one.seconds() - two.seconds(), lag);
                    fits.add(fit(these, those, rough.seconds(), lag));
                }
            }
        }
        return fits;
    }

    private static Fit fit(List<Turn> these, List<Turn> those, double offset, double lag) {
        double[] differences = new double[these.size()];
        int count = 0;
        double width = 0;
        for (Turn one : these) {
            @Nullable Turn nearest = null;
            for (Turn two : those) {
                if (one.isRise() == two.isRise()
                        && (nearest == null || distance(one, two, offset) < distance(one, nearest, offset))) {
                    nearest = two;
                }
            }
            if (nearest != null) {
                double own = (one.width() + nearest.width()) / 2;
                if (distance(one, nearest, offset) <= own + lag) {
                    differences[count++] = one.seconds() - nearest.seconds();
                    width = Math.max(width, own);
                }
            }
        }
        if (count == 0) {
            return new Fit(offset, 0, Double.POSITIVE_INFINITY, 0);
        }
        double[] sorted = Arrays.copyOf(differences, count);
        Arrays.sort(sorted);
        double middle = (sorted[(count - 1) / 2] + sorted[count / 2]) / 2;
        double scatter = Math.max(sorted[count - 1] - middle, middle - sorted[0]);
        return new Fit(middle, count, scatter, width);
    }

    private static double distance(Turn one, Turn two, double offset) {
        return Math.abs(one.seconds() - two.seconds() - offset);
    }

    private static CommonEvent none(String reason) {
        return new CommonEvent(Optional.empty(), capital(reason) + ".");
    }

    private static String capital(String sentence) {
        return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1);
    }
}
