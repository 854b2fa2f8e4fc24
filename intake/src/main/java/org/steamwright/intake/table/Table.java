package org.steamwright.intake.table;

import java.io.IOException;
import java.util.Optional;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.UnreadableFileException;

/**
 * A file that holds one table, whatever its format. The rows are given from the first on as often as they are asked for,
 * so that none of them has to be kept.
 */
public interface Table {

    /** File name without folder. */
    String fileName();

    /** What stands between the cells where a row is quoted; a tab if the format has no such mark. */
    char delimiter();

    /** The mark in numbers if the format itself fixes it; empty if the cells have to show it. */
    Optional<DecimalMark> decimalMark();

    /**
     * About how many characters all rows have together, delimiters included, so that room is made once; 0 if nobody
     * knows.
     */
    default long charactersExpected() {
        return 0;
    }

    /**
     * Gives every row that is not blank, in the order of the file, until the taker has enough.
     *
     * @return how it ended
     * @throws IOException if the disk fails
     * @throws UnreadableFileException if the file can't be taken apart, or the taker refuses it
     */
    Ending each(RowTaker taker) throws IOException, UnreadableFileException;

    /**
     * The bytes from which the last pass of {@link #each} that came to the end took its rows.
     *
     * @throws IllegalStateException if no pass has come to the end yet
     */
    Fingerprint fingerprint();

    /** How a pass over the rows ended. */
    enum Ending {
        /** The taker had enough. */
        STOPPED,
        /** The last row is as the writer meant it. */
        COMPLETE,
        /** The last row may be cut: the file ends without the mark that ends a row. */
        OPEN
    }

    /**
     * Bytes of a file.
     *
     * @param bytes how many
     * @param sha256 64 lower-case hexadecimal digits
     */
    record Fingerprint(long bytes, String sha256) {}
}
