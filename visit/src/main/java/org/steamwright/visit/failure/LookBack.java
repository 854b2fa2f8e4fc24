package org.steamwright.visit.failure;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.visit.job.EarlierEvidence;

/**
 * The loads that a failure puts in question: those after the last good evidence of that kind, up to the visit.
 *
 * @param kind of evidence that failed
 * @param lastGood where it begins; empty if none is known, then it has no beginning
 * @param to day on which the failure was seen, itself meant; empty if not known
 * @param toCycle last cycle number before the visit, itself meant; empty if not read
 * @param others last good evidence of every other kind that is known, each kind once
 */
public record LookBack(
        EarlierEvidence.Kind kind,
        Optional<EarlierEvidence> lastGood,
        Optional<LocalDate> to,
        OptionalInt toCycle,
        List<EarlierEvidence> others) {

    public LookBack {
        others = List.copyOf(others);
    }

    /**
     * From the evidence that is known.
     *
     * @param kind that failed
     * @param earlier good evidence of that steriliser, in any order
     * @param to day on which the failure was seen
     * @param toCycle last cycle number before the visit
     */
    public static LookBack of(
            EarlierEvidence.Kind kind, List<EarlierEvidence> earlier, Optional<LocalDate> to, OptionalInt toCycle) {
        List<EarlierEvidence> usable = earlier.stream()
                .filter(evidence -> to.filter(day -> evidence.on().isAfter(day)).isEmpty())
                .toList();
        List<EarlierEvidence> others = Arrays.stream(EarlierEvidence.Kind.values())
                .filter(other -> other != kind)
                .map(other -> last(other, usable))
                .flatMap(Optional::stream)
                .toList();
        return new LookBack(kind, last(kind, usable), to, toCycle, others);
    }

    private static Optional<EarlierEvidence> last(EarlierEvidence.Kind kind, List<EarlierEvidence> earlier) {
        return earlier.stream()
                .filter(evidence -> evidence.kind() == kind)
                .max(Comparator.comparing(EarlierEvidence::on)
                        .thenComparing(evidence -> evidence.cycle().orElse(-1)));
    }

    /** First cycle number in question; empty if the last good evidence has no number. */
    public OptionalInt fromCycle() {
        OptionalInt good = lastGood.map(EarlierEvidence::cycle).orElse(OptionalInt.empty());
        return good.isPresent() ? OptionalInt.of(good.getAsInt() + 1) : OptionalInt.empty();
    }

    /** How many cycles are in question; empty if either end has no number. A counter that went back gives none. */
    public OptionalInt cycles() {
        OptionalInt from = fromCycle();
        if (from.isEmpty() || toCycle.isEmpty() || toCycle.getAsInt() < from.getAsInt() - 1) {
            return OptionalInt.empty();
        }
        return OptionalInt.of(toCycle.getAsInt() - from.getAsInt() + 1);
    }

    /** The interval in words, in days and cycle numbers. */
    public String words() {
        String end = to.map(day -> " up to " + Days.words(day)).orElse(" up to this visit");
        if (lastGood.isEmpty()) {
            return "No good evidence of the kind ‘%s’ is named, so nobody can say where it begins: every load%s since the steriliser was put to use is in question until somebody finds that evidence."
                    .formatted(kind.words(), end);
        }
        EarlierEvidence good = lastGood.get();
        String text = "Loads after %s (last good evidence of the kind ‘%s’: %s)%s"
                .formatted(Days.words(good.on()), kind.words(), good.reference().strip(), end);
        if (fromCycle().isPresent() && toCycle.isPresent()) {
            text += toCycle.getAsInt() < fromCycle().getAsInt() - 1
                    ? "; the cycle numbers went back from %s to %s in between, so count by the log book"
                            .formatted(fromCycle().getAsInt() - 1, toCycle.getAsInt())
                    : toCycle.getAsInt() < fromCycle().getAsInt()
                            ? "; no cycle lies between"
                            : "; cycles %s to %s".formatted(fromCycle().getAsInt(), toCycle.getAsInt());
        } else {
            text += "; the cycle numbers are not known, so count by the log book";
        }
        return text + ".";
    }
}
