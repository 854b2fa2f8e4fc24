package org.steamwright.intake.csv;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.ByteSource;
import org.steamwright.intake.table.FileKind;
import org.steamwright.intake.table.Opening;
import org.steamwright.intake.table.OrdinaryFile;
import org.steamwright.intake.table.Sentence;
import org.steamwright.intake.table.TableRecordings;

/**
 * Reads recordings of loggers from delimited text files.
 *
 * <p>Delimiter, decimal mark, encoding, header, units and the form of time stamps are found in the file and explained line
 * by line in {@link Recording#explanation()}. What the file leaves open is not guessed: the exception carries the
 * questions. What is odd but readable becomes a remark; no row or reading is dropped without one. Files are only ever
 * read.
 *
 * <p>Rows stream: beside the readings that are kept (see {@link TableRecordings#MOST_VALUES}), the memory needed does not
 * depend on the size of the file.
 */
public final class CsvRecordings {

    private static final int HEAD_CHARS = 32_768;

    private CsvRecordings() {}

    /**
     * Reads one file.
     *
     * @param path an ordinary file of any size
     * @param choices what a person has said about this file; the zone at least
     * @return at least two samples and one column; columns in the order of the file, values in °C and kPa as counted in
     *     the file
     * @throws UnreadableFileException if the file gives no recording, or not before its questions are answered
     * @throws IOException if the disk fails
     */
    public static Recording read(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        return read(OrdinaryFile.of(path), choices);
    }

    /**
     * By what files like this one are known again.
     *
     * @param choices of which at most the delimiter and the charset should be told
     * @throws UnreadableFileException if there is no table in it, or not before its delimiter is told
     * @throws IOException if the disk fails
     */
    public static FileKind kind(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        OrdinaryFile file = OrdinaryFile.of(path);
        Encoding encoding = Encoding.of(file, choices);
        try {
            Delimiters.Found delimiter = Delimiters.find(file.name(), head(file, encoding), choices);
            return TableRecordings.kind(new TextTable(file, encoding, delimiter.mark()), choices);
        } catch (TextReader.NotThatEncodingException notThat) {
            throw encoding.refusal(file.name());
        }
    }

    /**
     * The cells of one row as they stand in the file, taken from its bytes once more: what was written beside what was
     * read.
     *
     * @param row line of the file, counted from 1, as messages tell it
     * @return without outer blanks; empty if the row is blank or not there
     * @throws UnreadableFileException if the file can't be taken apart
     * @throws IOException if the disk fails
     */
    public static List<String> cells(Path path, ReadingChoices choices, int row)
            throws IOException, UnreadableFileException {
        OrdinaryFile file = OrdinaryFile.of(path);
        Encoding encoding = Encoding.of(file, choices);
        try {
            return cells(file, encoding, choices, row);
        } catch (TextReader.NotThatEncodingException notThat) {
            if (encoding.how() != Encoding.How.SUPPOSED) {
                throw encoding.refusal(file.name());
            }
            return cells(file, encoding.fallback(), choices, row);
        }
    }

    private static List<String> cells(ByteSource file, Encoding encoding, ReadingChoices choices, int row)
            throws IOException, UnreadableFileException {
        Delimiters.Found delimiter = Delimiters.find(file.name(), head(file, encoding), choices);
        List<String> cells = new ArrayList<>();
        new TextTable(file, encoding, delimiter.mark()).each(found -> {
            if (found.number() == row) {
                cells.addAll(List.of(found.texts()));
            }
            return found.number() < row;
        });
        return cells;
    }

    static Recording read(ByteSource file, ReadingChoices choices) throws IOException, UnreadableFileException {
        Encoding encoding = Encoding.of(file, choices);
        try {
            return read(file, encoding, choices);
        } catch (TextReader.NotThatEncodingException notThat) {
            if (encoding.how() != Encoding.How.SUPPOSED) {
                throw encoding.refusal(file.name());
            }
            return read(file, encoding.fallback(), choices);
        }
    }

    private static Recording read(ByteSource file, Encoding encoding, ReadingChoices choices)
            throws IOException, UnreadableFileException {
        String head = head(file, encoding);
        Delimiters.Found delimiter = Delimiters.find(file.name(), head, choices);
        Opening opening = new Opening(
                head.startsWith(TableRecordings.SIMULATED_MARK),
                List.of(delimiter.explanation()),
                encoding.how() == Encoding.How.FALLBACK ? List.of(oldEncoding(file.name())) : List.of());
        TextTable table = new TextTable(file, encoding, delimiter.mark());
        Recording recording = TableRecordings.read(table, opening, choices);
        List<String> explanation = new ArrayList<>(recording.explanation());
        explanation.add(0, encoding.explanation(table.isAscii()));
        List<Remark> remarks = new ArrayList<>(recording.remarks());
        long now = file.sizeNow();
        if (now > file.size()) {
            remarks.add(grown(file, now));
        }
        return new Recording(
                recording.fileName(),
                recording.bytes(),
                recording.sha256(),
                recording.start(),
                recording.zone(),
                recording.axis(),
                recording.columns(),
                remarks,
                explanation,
                recording.isSimulated());
    }

    /** The first characters, from the first line that says anything. */
    private static String head(ByteSource file, Encoding encoding) throws IOException, UnreadableFileException {
        StringBuilder head = new StringBuilder();
        try (TextReader text = new TextReader(file, encoding)) {
            char[] chunk = new char[8192];
            int got;
            while (head.length() < HEAD_CHARS && (got = text.read(chunk, 0, chunk.length)) > 0) {
                head.append(chunk, 0, got);
                if (head.length() >= HEAD_CHARS && head.toString().isBlank()) {
                    head.setLength(0);
                }
            }
        } catch (TextReader.RefusedException refused) {
            throw refused.refusal();
        }
        if (head.toString().isBlank()) {
            throw new UnreadableFileException(
                    IntakeMessage.FILE_EMPTY,
                    file.name(),
                    "",
                    Sentence.of(
                            "the file has %s bytes and nothing but blanks. Export the recording again.", file.size()));
        }
        head.setLength(Math.min(head.length(), HEAD_CHARS));
        return head.toString();
    }

    private static Remark oldEncoding(String file) {
        return new Remark(
                IntakeMessage.OLD_ENCODING.id(),
                Rank.NOTE,
                file,
                "The bytes are not UTF-8 and were read as windows-1252. If names or units look wrong, choose the"
                        + " charset.");
    }

    private static Remark grown(ByteSource file, long now) {
        return new Remark(
                IntakeMessage.FILE_GREW.id(),
                Rank.DOUBT,
                file.name(),
                Sentence.of(
                        "The file grew while it was being read, from %s to %s bytes: something still writes to it. The"
                                + " recording is read up to byte %s, and its fingerprint is that of these bytes. Read the"
                                + " file again once the logger has finished.",
                        file.size(), now, file.size()));
    }
}
