package org.steamwright.visit;

/**
 * One thing that is missing, awaited, doubtful or unexplained at the end of a visit.
 *
 * @param sort whether something else says it too
 * @param where it is mended
 * @param sentence what it is, with what to do
 */
public record OpenPoint(Sort sort, Where where, String sentence) {

    /** What a door that shows problems by themselves has to know of it. */
    public enum Sort {
        /** A {@link Doubt}, which knows better where it belongs. */
        DOUBT,
        /** A run whose recording has problems of its own. */
        LEFT_OUT,
        /** An instrument that nobody checked after the runs. */
        UNCHECKED,
        OTHER
    }

    /** Something that nothing else says. */
    public static OpenPoint of(Where where, String sentence) {
        return new OpenPoint(Sort.OTHER, where, sentence);
    }
}
