package org.steamwright.assessment.plausibility;

import java.util.List;

/**
 * Something about a channel that a good recording does not show.
 *
 * @param kind what it looks like
 * @param channels it was seen in, at least one
 * @param fromSeconds where it begins, seconds from the start of the run
 * @param toSeconds where it ends
 * @param sentence what was seen, with figures
 */
public record Oddity(Kind kind, List<String> channels, double fromSeconds, double toSeconds, String sentence) {

    /** What became of the findings. */
    public enum Effect {
        /** Somebody has to look; the findings stand as they are. */
        DOUBT("to be looked at; the findings stand as they are"),
        /** The values are wrong: no finding that needs the channel passes. */
        SPOILS("not to be used: what needs the channel is invalid");

        private final String words;

        Effect(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    /** What it looks like. */
    public enum Kind {
        IMPOSSIBLE_VALUE("impossible value", Effect.DOUBT),
        INTEGER_WRAP("counter ran over", Effect.SPOILS),
        FLAT_TOP("flat top", Effect.DOUBT),
        SPIKE("spike", Effect.DOUBT),
        TEN_TIMES_OFF("unit ten times off", Effect.SPOILS),
        QUANTITIES_SWAPPED("pressure and temperature swapped", Effect.SPOILS),
        POINTS_SWAPPED("two points swapped", Effect.DOUBT),
        HOT_WALL("sensor on a hot wall", Effect.DOUBT),
        CONDENSATE("sensor in condensate", Effect.DOUBT),
        SLOW_BODY("sensor lags as a body", Effect.DOUBT);

        private final String words;
        private final Effect effect;

        Kind(String words, Effect effect) {
            this.words = words;
            this.effect = effect;
        }

        /** As printed. */
        public String words() {
            return words;
        }

        public Effect effect() {
            return effect;
        }
    }

    public Oddity {
        channels = List.copyOf(channels);
        if (channels.isEmpty() || sentence.isBlank()) {
            throw new IllegalArgumentException("an oddity names its channel and what was seen");
        }
    }

    /** Whether the values of its channels are wrong. */
    public boolean isSpoiling() {
        return kind.effect() == Effect.SPOILS;
    }
}
