package org.steamwright.visit.job;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Something that has to be put right for a pass to last. It has an owner and an end; past the end it lapses by itself and
 * what it belongs to is not qualified.
 *
 * @param sterilizer key
 * @param cycle name of the cycle it belongs to; blank for all of them
 * @param text what has to be put right
 * @param owner who answers for it; never blank
 * @param until last day; empty if a cycle count ends it
 * @param untilCount last cycle number; empty if a day ends it
 * @param metOn day on which it was put right; empty while it is not
 * @param renewal of a condition that stood at an earlier visit already
 */
public record PassCondition(
        String sterilizer,
        String cycle,
        String text,
        String owner,
        Optional<LocalDate> until,
        OptionalInt untilCount,
        Optional<LocalDate> metOn,
        Optional<Renewal> renewal) {

    /**
     * Why a condition goes on. Nothing is renewed in silence.
     *
     * @param of report in which it stood
     * @param reason why it was not met
     * @param reviewer who agreed, another person than the owner
     */
    public record Renewal(String of, String reason, String reviewer) {

        public Renewal {
            if (of.isBlank() || reason.isBlank() || reviewer.isBlank()) {
                throw new IllegalArgumentException(
                        "a condition is renewed with the report it stood in, a reason and a reviewer");
            }
        }
    }

    public PassCondition {
        if (text.isBlank() || owner.isBlank()) {
            throw new IllegalArgumentException("a condition says what has to be put right, and who answers for it");
        }
        if (until.isEmpty() && untilCount.isEmpty()) {
            throw new IllegalArgumentException("a condition has an end, a day or a cycle number");
        }
        if (renewal.isPresent() && letters(renewal.get().reviewer()).equals(letters(owner))) {
            throw new IllegalArgumentException("a condition is renewed by another person than its owner");
        }
    }

    /** A name without what two people, or one on two days, write in another way. */
    private static String letters(String name) {
        return name.replaceAll("[^\\p{L}]+", "").toLowerCase(Locale.ROOT);
    }

    /**
     * Whether it has lapsed: not met, and past its day or its count, whichever comes first. Both are themselves good.
     *
     * @param day on which it is asked
     * @param count cycle number on that day; empty if not known, then only the day ends it
     */
    public boolean isLapsed(LocalDate day, OptionalInt count) {
        boolean isMet = metOn.filter(met -> !met.isAfter(day)).isPresent();
        boolean isPastDay = until.filter(day::isAfter).isPresent();
        boolean isPastCount = untilCount.isPresent() && count.isPresent() && count.getAsInt() > untilCount.getAsInt();
        return !isMet && (isPastDay || isPastCount);
    }

    /** Whether it still has to be put right on that day. */
    public boolean isOpen(LocalDate day) {
        return metOn.filter(met -> !met.isAfter(day)).isEmpty();
    }
}
