package org.steamwright.assessment.criteria;

import java.util.List;

/** Where criteria sets come from. */
public interface CriteriaSets {

    /** Names of the presets, in a fixed order. */
    List<String> names();

    /**
     * The preset of that name.
     *
     * @throws IllegalArgumentException if there is none; the message lists those there are
     */
    CriteriaSet get(String name);

    /**
     * A set from the bytes of a user's own file.
     *
     * @param bytes the file, whose SHA-256 becomes part of the set's identity
     * @param fileName for messages
     * @throws IllegalArgumentException if the file is not a criteria set; the message names file, line and remedy
     */
    CriteriaSet read(byte[] bytes, String fileName);
}
