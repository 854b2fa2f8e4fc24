package org.steamwright.records;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import org.steamwright.records.proof.Hash;

/**
 * What follows from a visit, as far as lists over many visits need it. It is no record of anything: it can be made again from
 * the visit, and is kept only so that a list need not.
 *
 * @param visit of the record
 * @param madeFrom a word for all that it follows from, such as a hash; the same word means the same result; blank if the visit
 *     could not be read, so that it follows from nothing and is tried again
 * @param state {@link #OPEN}, {@link #OUT} or {@link #GONE}
 * @param day of the visit, as stated; may be blank
 * @param standing in a word; blank if the visit can't be assessed
 * @param why it can't be assessed; nothing if it was, and of a visit that is gone
 * @param hasAsFound whether anything was tested before the service
 * @param hasAsFoundFailure whether that failed
 * @param isCorrection whether it corrects an earlier issue
 * @param turnAround minutes from the begin of the day of the visit to the first signature; empty while there is none, and if the
 *     day comes after it
 * @param exceptions what a reviewer has to look at, how many
 * @param figures that it found; none of a visit that is gone
 */
public record VisitResult(
        SubjectId visit,
        String madeFrom,
        String state,
        String day,
        String standing,
        Reason why,
        boolean hasAsFound,
        boolean hasAsFoundFailure,
        boolean isCorrection,
        OptionalLong turnAround,
        int exceptions,
        List<Figure> figures) {

    /** State of a visit that is not signed yet. */
    public static final String OPEN = "open";

    /** State of a visit whose report is out and stands. */
    public static final String OUT = "out";

    /** State of a visit that was broken off, or whose report was replaced or withdrawn. */
    public static final String GONE = "gone";

    public VisitResult {
        figures = List.copyOf(figures);
    }

    /**
     * Why a visit can't be assessed.
     *
     * @param place where the cause stands; may be blank
     * @param text what was found; blank if there is nothing to say
     */
    public record Reason(String place, String text) {

        /** Of a visit that was assessed. */
        public static final Reason NONE = new Reason("", "");
    }

    /**
     * One figure of one steriliser.
     *
     * @param figure its word
     * @param machine that the visit means: its id in the record, or words where the record does not know it
     * @param serial number, as the visit states it
     * @param cycle name; blank where it belongs to none
     * @param comparison word of the comparison with the limit
     * @param day of the visit
     * @param run number
     * @param value in the unit
     * @param limit in the unit
     * @param unit word
     */
    public record Figure(
            String figure,
            String machine,
            String serial,
            String cycle,
            String comparison,
            String day,
            int run,
            double value,
            double limit,
            String unit) {}

    /** One figure of one machine over its visits. */
    public record Line(String figure, String machine, String cycle) {}

    /**
     * Where a line stands.
     *
     * @param line which
     * @param serial number of the machine, as its last visit states it
     * @param family of the machine; blank if it is not known
     * @param last figure
     * @param pressing orders lines, the most pressing first
     */
    public record LineStanding(Line line, String serial, String family, double last, String pressing) {

        /** Hash over all of it, by which a changed byte is found. */
        public String sha256() {
            return hash(List.of(line.figure, line.machine, line.cycle, serial, family, String.valueOf(last), pressing));
        }
    }

    /**
     * Counts of a month.
     *
     * @param month year and month
     * @param visits all
     * @param asFound those with anything tested before the service
     * @param asFoundFailed those of them in which that failed
     * @param assessed those that are signed, could be assessed and await nothing
     * @param passed those of them that passed and correct nothing
     */
    public record Month(String month, long visits, long asFound, long asFoundFailed, long assessed, long passed) {}

    /** How a line of figures stands; the domain's rule. */
    @FunctionalInterface
    public interface LineRule {

        /**
         * The last figure and how pressing the line is.
         *
         * @param figures of the line, at least one
         */
        LineStanding of(Line line, String family, List<Figure> figures);
    }

    /** Hash over all of it, by which a changed byte is found. */
    public String sha256() {
        List<String> words = new ArrayList<>(List.of(
                visit.toString(),
                madeFrom,
                state,
                day,
                standing,
                hasAsFound + " " + hasAsFoundFailure + " " + isCorrection,
                String.valueOf(turnAround.orElse(-1)),
                String.valueOf(exceptions)));
        if (!why.equals(Reason.NONE)) {
            words.add(why.toString());
        }
        figures.stream().map(Figure::toString).sorted().forEach(words::add);
        return hash(words);
    }

    static String hash(List<String> words) {
        return Hash.ofContent(String.join("\n", words).getBytes(StandardCharsets.UTF_8))
                .hex();
    }
}
