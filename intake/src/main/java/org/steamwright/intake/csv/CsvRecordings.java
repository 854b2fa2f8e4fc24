package org.steamwright.intake.csv;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.intake.table.Opening;
import org.steamwright.intake.table.Sentence;
import org.steamwright.intake.table.TableRecordings;

/**
 * Reads recordings of loggers from delimited text files.
 *
 * <p>Delimiter, decimal mark, encoding, header, units and the form of time stamps are found in the file and explained line
 * by line in {@link Recording#explanation()}. What the file leaves open is not guessed: the exception carries the
 * questions. What is odd but readable becomes a remark; no row or reading is dropped without one. Files are only ever
 * read.
 */
public final class CsvRecordings {

    /** The largest file that is read, in bytes. Files are read whole for now; beyond that a laptop would run out of memory. */
    public static final long LARGEST_FILE_BYTES = 200_000_000L;

    private static final int HEAD_CHARS = 32_768;

    private CsvRecordings() {}

    /**
     * Reads one file.
     *
     * @param path an ordinary file of at most {@link #LARGEST_FILE_BYTES}
     * @param choices what a person has said about this file; the zone at least
     * @return at least two samples and one column; columns in the order of the file, values in °C and kPa as counted in
     *     the file
     * @throws UnreadableFileException if the file gives no recording, or not before its questions are answered
     * @throws IOException if the disk fails
     */
    public static Recording read(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        FileBytes file = FileBytes.read(path, LARGEST_FILE_BYTES);
        Decoded decoded = Decoded.of(file, choices);
        String text = decoded.text();
        if (text.isBlank()) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_EMPTY,
                    file.name(),
                    "",
                    Sentence.of(
                            "the file has %s bytes and nothing but blanks. Export the recording again.", file.size()));
        }
        Delimiters.Found delimiter =
                Delimiters.find(file.name(), text.substring(0, Math.min(text.length(), HEAD_CHARS)), choices);
        Opening opening = new Opening(
                text.startsWith(TableRecordings.SIMULATED_MARK),
                List.of(decoded.explanation(), delimiter.explanation()),
                decoded.isFallback() ? List.of(oldEncoding(file.name())) : List.of());
        return TableRecordings.read(new TextTable(file, text, delimiter.mark()), opening, choices);
    }

    private static Remark oldEncoding(String file) {
        return new Remark(
                IntakeMessage.OLD_ENCODING.id(),
                Rank.NOTE,
                file,
                "The bytes are not UTF-8 and were read as windows-1252. If names or units look wrong, choose the charset.");
    }
}
