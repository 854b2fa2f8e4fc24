package org.steamwright.records;

import java.util.Arrays;
import java.util.Locale;

/** What a subject of the record is. The words are kept in the journal and never change. */
public enum Kind {
    CLINIC,
    SITE,
    STERILIZER,
    TECHNICIAN,
    INSTRUMENT,
    LOT,
    PART,
    VISIT,
    ISSUE,
    NONCONFORMITY,
    BATCH;

    /** The word kept in the journal. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Kind of that word.
     *
     * @throws IllegalArgumentException if there is none
     */
    public static Kind ofWord(String word) {
        return Arrays.stream(values())
                .filter(kind -> kind.word().equals(word))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(
                        "no kind of subject is called '%s'; there are %s".formatted(word, Arrays.asList(values()))));
    }
}
