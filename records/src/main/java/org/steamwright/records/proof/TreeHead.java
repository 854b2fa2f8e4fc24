package org.steamwright.records.proof;

/**
 * State of the journal at one moment: how many entries, and one hash over all of them.
 *
 * @param size number of entries, 0 or more
 * @param root root of the Merkle tree over the entries
 * @source RFC 9162, section 2.1
 */
public record TreeHead(long size, Hash root) {

    /** Head of a journal without entries. */
    public static final TreeHead EMPTY = new TreeHead(0, Hash.ofNothing());

    private static final int SHORT_DIGITS = 20;

    public TreeHead {
        if (size < 0) {
            throw new IllegalArgumentException("a journal has no fewer than 0 entries, not " + size);
        }
    }

    /**
     * The form that is printed on documents: size, colon, 64 digits. {@link #parse} reads it.
     */
    public String text() {
        return size + ":" + root.hex();
    }

    /** Size and the first 20 digits, in groups of five: for reading aloud, not for proofs. */
    public String shortText() {
        String digits = root.hex().substring(0, SHORT_DIGITS);
        return size + ": " + digits.replaceAll("(.{5})(?=.)", "$1 ");
    }

    /**
     * Reads the printed form; blanks are skipped.
     *
     * @throws IllegalArgumentException if the text is no head
     */
    public static TreeHead parse(String text) {
        String dense = text.replaceAll("\\s", "");
        if (!dense.matches("\\d{1,18}:[0-9a-fA-F]{64}")) {
            throw new IllegalArgumentException(
                    "a head is written as number of entries, colon and 64 hexadecimal digits, not '%s'"
                            .formatted(text));
        }
        int colon = dense.indexOf(':');
        return new TreeHead(Long.parseLong(dense.substring(0, colon)), Hash.ofHex(dense.substring(colon + 1)));
    }
}
