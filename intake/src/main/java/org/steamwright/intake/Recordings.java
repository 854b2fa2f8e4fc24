package org.steamwright.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.csv.CsvRecordings;
import org.steamwright.intake.spreadsheet.SpreadsheetRecordings;
import org.steamwright.intake.table.FileKind;

/** Reads a recording whatever the format of its file; the first bytes decide, not the name. */
public final class Recordings {

    /** More samples than this are no run: at one a second more than four days. Own choice, no source. */
    static final int MOST_SAMPLES = 400_000;

    private static final String FORM = " (such as 2026-03-02T09:00:00 or 09:00:00)?";
    private static final double SECONDS_PER_HOUR = 3_600;

    private static final int BEGIN = 4;

    private Recordings() {}

    /**
     * Reads one file: a workbook, or delimited text.
     *
     * @param path an ordinary file
     * @param choices what a person has said about this file; the zone at least
     * @return at least two samples and one column; values in °C and kPa as counted in the file
     * @throws UnreadableFileException if the file gives no recording, or not before its questions are answered
     * @throws IOException if the disk fails
     */
    public static Recording read(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        return isSpreadsheet(path) ? SpreadsheetRecordings.read(path, choices) : CsvRecordings.read(path, choices);
    }

    /**
     * Reads a recording of one run. One that is far longer than a run is asked for the stretch that is wanted, before anybody
     * spends minutes on days of an idle chamber; with both ends said it is taken as it is.
     *
     * @throws UnreadableFileException if it can't be read, or is longer than a run and the stretch was not said
     * @throws IOException if the disk fails
     */
    public static Recording readRun(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        Recording recording = read(path, choices);
        List<Question> questions = new ArrayList<>();
        if (recording.axis().size() > MOST_SAMPLES) {
            double hours = (recording.axis().last() - recording.axis().first()) / SECONDS_PER_HOUR;
            String evidence = String.format(
                    Locale.ROOT,
                    "The file holds %d samples over %.1f h, a run is assessed with %d at most.",
                    recording.axis().size(),
                    hours,
                    MOST_SAMPLES);
            if (choices.from().isEmpty()) {
                questions.add(new Question("from", "From what time on is it wanted" + FORM, evidence, List.of()));
            }
            if (choices.to().isEmpty()) {
                questions.add(new Question("to", "Up to what time is it wanted" + FORM, evidence, List.of()));
            }
        }
        if (!questions.isEmpty()) {
            throw new UnreadableFileException(
                    IntakeMessage.QUESTIONS_OPEN,
                    String.valueOf(path.getFileName()),
                    "",
                    "found " + recording.axis().size()
                            + " samples, expected those of one run. Say from what time and up to what time it is wanted.",
                    questions);
        }
        return recording;
    }

    /**
     * The kind of a file, by which a reading profile finds its like again.
     *
     * @throws UnreadableFileException if the file can't be taken apart
     * @throws IOException if the disk fails
     */
    public static FileKind kind(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        return isSpreadsheet(path) ? SpreadsheetRecordings.kind(path, choices) : CsvRecordings.kind(path, choices);
    }

    /**
     * The cells of one row as they stand in the file; of a workbook, as they are handed on to be read.
     *
     * @param row line of the file or row of the sheet, counted from 1
     * @return without outer blanks; empty if the row is blank or not there
     * @throws UnreadableFileException if the file can't be taken apart
     * @throws IOException if the disk fails
     */
    public static List<String> cells(Path path, ReadingChoices choices, int row)
            throws IOException, UnreadableFileException {
        return isSpreadsheet(path)
                ? SpreadsheetRecordings.cells(path, choices, row)
                : CsvRecordings.cells(path, choices, row);
    }

    private static boolean isSpreadsheet(Path path) throws IOException {
        if (!Files.isRegularFile(path) || !Files.isReadable(path)) {
            return false;
        }
        try (var bytes = Files.newInputStream(path)) {
            return SpreadsheetRecordings.isSpreadsheet(bytes.readNBytes(BEGIN));
        }
    }
}
