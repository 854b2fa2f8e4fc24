package org.steamwright.intake.spreadsheet;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.intake.table.FileKind;
import org.steamwright.intake.table.Opening;
import org.steamwright.intake.table.Sentence;
import org.steamwright.intake.table.TableRecordings;

/**
 * Reads recordings from workbooks.
 *
 * <p>The archive is checked before anything of it is unpacked ({@link ZipParts}), its XML comes through the one hardened
 * door, and nothing but the sheet, its texts and its formats is looked at: no link is followed, no formula computed, no
 * macro run, nothing written. The cells become rows of text and go the way of delimited text from there.
 */
public final class SpreadsheetRecordings {

    /** The largest workbook that is read, in bytes as it lies on the disk; it is held in memory while it is read. */
    public static final long LARGEST_FILE_BYTES = 50_000_000L;

    /** What tells that a sheet holds no recording at all, in contrast to one with trouble in it. */
    private static final Set<IntakeMessage> NO_RECORDING =
            Set.of(IntakeMessage.TOO_FEW_ROWS, IntakeMessage.NO_TIME_COLUMN, IntakeMessage.NO_MEASURING_COLUMN);

    private static final int SHEETS_SHOWN = 8;
    private static final long MOST_PLACES = 30_000_000L;

    private SpreadsheetRecordings() {}

    /** Whether the first bytes are those of a zip archive or of an old workbook; the name of a file says nothing. */
    public static boolean isSpreadsheet(byte[] begin) {
        return isZip(begin) || isOld(begin);
    }

    private static boolean isZip(byte[] begin) {
        return begin.length >= 4
                && begin[0] == 'P'
                && begin[1] == 'K'
                && ((begin[2] == 3 && begin[3] == 4)
                        || (begin[2] == 5 && begin[3] == 6)
                        || (begin[2] == 7 && begin[3] == 8));
    }

    private static boolean isOld(byte[] begin) {
        return begin.length >= 4
                && (begin[0] & 0xFF) == 0xD0
                && (begin[1] & 0xFF) == 0xCF
                && (begin[2] & 0xFF) == 0x11
                && (begin[3] & 0xFF) == 0xE0;
    }

    /**
     * Reads one workbook.
     *
     * @param path an ordinary file of at most {@link #LARGEST_FILE_BYTES}
     * @param choices what a person has said about this file; the zone at least
     * @return at least two samples and one column; values in °C and kPa as counted in the file
     * @throws UnreadableFileException if the file gives no recording, or not before its questions are answered
     * @throws IOException if the disk fails
     */
    public static Recording read(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        return read(FileBytes.read(path, LARGEST_FILE_BYTES), choices);
    }

    /**
     * Reads a workbook that is in memory.
     *
     * @throws UnreadableFileException as {@link #read(Path, ReadingChoices)}
     * @throws IOException never, unless the disk fails while something is looked up
     */
    public static Recording read(FileBytes file, ReadingChoices choices) throws IOException, UnreadableFileException {
        if (isOld(file.raw())) {
            throw old(file);
        }
        Workbook workbook = Workbook.of(file.name(), ZipParts.of(file.name(), file.raw()));
        if (choices.sheet().isPresent()) {
            Workbook.Sheet chosen = find(file.name(), workbook, choices.sheet().get());
            return read(file, workbook, chosen, "as chosen", load(file, workbook, chosen), choices);
        }
        if (workbook.sheets().size() == 1) {
            Workbook.Sheet only = workbook.sheets().get(0);
            return read(file, workbook, only, "the only one", load(file, workbook, only), choices);
        }
        return readTheOne(file, workbook, choices);
    }

    /**
     * The kind of the table in a workbook, by which a reading profile finds its like again: of the chosen sheet, or of the
     * first that has one.
     *
     * @throws UnreadableFileException if no sheet is a table
     * @throws IOException if the disk fails
     */
    public static FileKind kind(Path path, ReadingChoices choices) throws IOException, UnreadableFileException {
        FileBytes file = FileBytes.read(path, LARGEST_FILE_BYTES);
        return firstOf(file, choices, table -> TableRecordings.kind(table, choices));
    }

    /**
     * The cells of one row of the chosen sheet, or of the first that holds a table, as they are handed on to be read.
     *
     * @param row of the sheet, counted from 1
     * @return without outer blanks; empty if the row is blank or not there
     * @throws UnreadableFileException if no sheet is a table
     * @throws IOException if the disk fails
     */
    public static List<String> cells(Path path, ReadingChoices choices, int row)
            throws IOException, UnreadableFileException {
        FileBytes file = FileBytes.read(path, LARGEST_FILE_BYTES);
        return firstOf(file, choices, table -> {
            TableRecordings.kind(table, choices);
            List<String> cells = new ArrayList<>();
            table.each(found -> {
                if (found.number() == row) {
                    cells.addAll(List.of(found.texts()));
                }
                return found.number() < row;
            });
            return cells;
        });
    }

    private interface Look<T> {
        T at(SheetTable table) throws IOException, UnreadableFileException;
    }

    /** What a look finds at the chosen sheet, or at the first that it does not refuse. */
    private static <T> T firstOf(FileBytes file, ReadingChoices choices, Look<T> look)
            throws IOException, UnreadableFileException {
        if (isOld(file.raw())) {
            throw old(file);
        }
        Workbook workbook = Workbook.of(file.name(), ZipParts.of(file.name(), file.raw()));
        List<Workbook.Sheet> sheets = choices.sheet().isPresent()
                ? List.of(find(file.name(), workbook, choices.sheet().get()))
                : workbook.sheets();
        Optional<UnreadableFileException> first = Optional.empty();
        for (Workbook.Sheet sheet : sheets) {
            SheetReader.Found found = load(file, workbook, sheet);
            if (found.cells().rows() > 0) {
                try {
                    return look.at(new SheetTable(file, found, DayColumns.of(found.cells(), workbook.is1904())));
                } catch (UnreadableFileException refused) {
                    first = first.isPresent() ? first : Optional.of(refused);
                }
            }
        }
        throw first.isPresent() ? first.get() : blank(file.name(), "no sheet of the workbook holds anything");
    }

    /** What came of reading a sheet: a recording, or why there is none. */
    private record Tried(
            Workbook.Sheet sheet, int rows, Optional<Recording> recording, Optional<UnreadableFileException> refusal) {}

    /** Reads the sheet that holds the recording, by trying each; asks if there are several. */
    private static Recording readTheOne(FileBytes file, Workbook workbook, ReadingChoices choices)
            throws IOException, UnreadableFileException {
        List<Tried> shown = new ArrayList<>();
        List<Tried> hidden = new ArrayList<>();
        Optional<UnreadableFileException> first = Optional.empty();
        for (Workbook.Sheet sheet : workbook.sheets()) {
            SheetReader.Found found = load(file, workbook, sheet);
            if (found.cells().rows() == 0) {
                continue;
            }
            Optional<Recording> recording = Optional.empty();
            Optional<UnreadableFileException> refusal = Optional.empty();
            try {
                recording = Optional.of(read(file, workbook, sheet, "the only one with a recording", found, choices));
            } catch (UnreadableFileException refused) {
                refusal = Optional.of(refused);
                first = first.isPresent() ? first : refusal;
            }
            if (recording.isPresent()
                    || !NO_RECORDING.contains(refusal.orElseThrow().id())) {
                (sheet.isHidden() ? hidden : shown)
                        .add(new Tried(sheet, found.cells().rows(), recording, refusal));
            }
        }
        List<Tried> tried = shown.isEmpty() ? hidden : shown;
        if (tried.size() == 1) {
            if (tried.get(0).refusal().isPresent()) {
                throw tried.get(0).refusal().get();
            }
            return tried.get(0).recording().orElseThrow();
        }
        if (!tried.isEmpty()) {
            throw whichSheet(file.name(), tried);
        }
        if (first.isPresent()) {
            throw first.get();
        }
        throw blank(
                file.name(),
                Sentence.of(
                        "none of its %s sheets holds anything",
                        workbook.sheets().size()));
    }

    private static UnreadableFileException whichSheet(String file, List<Tried> tried) {
        List<String> names = new ArrayList<>();
        List<String> evidence = new ArrayList<>();
        for (Tried one : tried) {
            names.add(one.sheet().name());
            evidence.add(
                    Sentence.of("\"%s\" has %s rows", ZipParts.shown(one.sheet().name()), one.rows()));
        }
        return new UnreadableFileException(
                IntakeMessage.QUESTIONS_OPEN,
                file,
                "",
                Sentence.of("%s sheets of the workbook hold a recording. Say which one it is (sheet).", tried.size()),
                List.of(new Question(
                        "sheet",
                        "Which sheet holds the recording?",
                        String.join(", ", evidence.subList(0, Math.min(evidence.size(), SHEETS_SHOWN))) + ".",
                        names)));
    }

    private static Workbook.Sheet find(String file, Workbook workbook, String name) throws UnreadableFileException {
        List<String> names = new ArrayList<>();
        for (Workbook.Sheet sheet : workbook.sheets()) {
            if (ReadingChoices.key(sheet.name()).equals(ReadingChoices.key(name))) {
                return sheet;
            }
            names.add("\"" + ZipParts.shown(sheet.name()) + "\"");
        }
        throw new UnreadableFileException(
                IntakeMessage.NO_SUCH_SHEET,
                file,
                "",
                Sentence.of(
                        "sheet \"%s\" was chosen, which the workbook does not have. Its sheets are: %s.",
                        ZipParts.shown(name), String.join(", ", names)));
    }

    private static SheetReader.Found load(FileBytes file, Workbook workbook, Workbook.Sheet sheet)
            throws UnreadableFileException {
        SheetReader.Found found = SheetReader.read(file.name(), workbook, sheet);
        SheetCells cells = found.cells();
        if ((long) cells.rows() * cells.width() > MOST_PLACES) {
            throw new UnreadableFileException(
                    IntakeMessage.SPREADSHEET_TOO_LARGE,
                    file.name(),
                    "sheet \"" + sheet.name() + "\"",
                    Sentence.of(
                            "%s rows by %s columns are more than the %s million places that are read. Export only the time of the run, or export CSV.",
                            cells.rows(), cells.width(), MOST_PLACES / 1_000_000));
        }
        return found;
    }

    // ---- one sheet

    private static Recording read(
            FileBytes file,
            Workbook workbook,
            Workbook.Sheet sheet,
            String why,
            SheetReader.Found found,
            ReadingChoices choices)
            throws IOException, UnreadableFileException {
        SheetCells cells = found.cells();
        if (cells.rows() == 0) {
            throw blank(file.name(), "sheet \"" + ZipParts.shown(sheet.name()) + "\" holds nothing");
        }
        DayColumns days = DayColumns.of(cells, workbook.is1904());
        SheetTable table = new SheetTable(file, found, days);
        List<String> explanation = new ArrayList<>();
        explanation.add(Sentence.of(
                "workbook of %s bytes with %s sheet%s; read is sheet \"%s\", %s",
                file.size(),
                workbook.sheets().size(),
                workbook.sheets().size() == 1 ? "" : "s",
                ZipParts.shown(sheet.name()),
                why));
        explanation.addAll(days.explanation());
        if (found.formulas().number() > 0) {
            explanation.add(Sentence.of(
                    "%s cell%s of formulas: the values stored when the file was saved; nothing was computed",
                    found.formulas().number(), found.formulas().number() == 1 ? "" : "s"));
        }
        String first = cells.text(cells.from(0));
        boolean isSimulated =
                cells.kind(cells.from(0)) == SheetCells.Kind.TEXT && first.startsWith(TableRecordings.SIMULATED_MARK);
        Opening opening =
                new Opening(isSimulated, explanation, remarks(file.name(), workbook, sheet, found, table, days));
        return TableRecordings.read(table, opening, choices);
    }

    private static List<Remark> remarks(
            String file,
            Workbook workbook,
            Workbook.Sheet sheet,
            SheetReader.Found found,
            SheetTable table,
            DayColumns days) {
        List<Remark> remarks = new ArrayList<>();
        List<String> others = new ArrayList<>();
        for (Workbook.Sheet other : workbook.sheets()) {
            if (!other.equals(sheet)) {
                others.add("\"" + ZipParts.shown(other.name()) + "\"" + (other.isHidden() ? " (hidden)" : ""));
            }
        }
        if (!others.isEmpty() || sheet.isHidden()) {
            int count = others.size();
            remarks.add(new Remark(
                    IntakeMessage.SHEETS_NOT_READ.id(),
                    sheet.isHidden() ? Rank.DOUBT : Rank.NOTE,
                    file,
                    Sentence.of(
                            "Sheet \"%s\"%s was read%s%s.",
                            ZipParts.shown(sheet.name()),
                            sheet.isHidden() ? ", which is hidden," : "",
                            count == 0 ? "" : "; not read: ",
                            String.join(", ", others.subList(0, Math.min(count, SHEETS_SHOWN)))
                                    + (count > SHEETS_SHOWN ? ", …" : ""))));
        }
        SheetReader.Count formulas = found.formulas();
        if (formulas.number() > 0) {
            remarks.add(new Remark(
                    IntakeMessage.FORMULA_VALUES.id(),
                    Rank.NOTE,
                    file + ", row " + formulas.firstRow(),
                    Sentence.of(
                            "%s cell%s of the sheet %s a formula, the first in row %s. The value stored beside it when the file was saved is taken; the program computes no formula.",
                            formulas.number(),
                            formulas.number() == 1 ? "" : "s",
                            formulas.number() == 1 ? "holds" : "hold",
                            formulas.firstRow())));
        }
        SheetReader.Count empty = found.formulasEmpty();
        if (empty.number() > 0) {
            remarks.add(new Remark(
                    IntakeMessage.FORMULA_WITHOUT_VALUE.id(),
                    Rank.DOUBT,
                    file + ", row " + empty.firstRow(),
                    Sentence.of(
                            "%s cell%s with a formula %s no stored value and %s read as empty, the first in row %s. Open the file with a spreadsheet program, save it, and read it again.",
                            empty.number(),
                            empty.number() == 1 ? "" : "s",
                            empty.number() == 1 ? "has" : "have",
                            empty.number() == 1 ? "is" : "are",
                            empty.firstRow())));
        }
        remarkHidden(file, found, remarks);
        for (int column : table.columnsWithNumbersAsText()) {
            remarks.add(new Remark(
                    IntakeMessage.NUMBERS_AS_TEXT.id(),
                    Rank.NOTE,
                    file + ", column " + (column + 1),
                    "This column keeps numbers as text. They are read like the numbers of a text file."));
        }
        for (DayColumns.Rounded rounded : days.rounded()) {
            remarks.add(new Remark(
                    IntakeMessage.TIME_ROUNDED.id(),
                    Rank.DOUBT,
                    file + ", column " + (rounded.column() + 1),
                    rounded.text()));
        }
        if (table.filled() > 0) {
            remarks.add(new Remark(
                    IntakeMessage.CELLS_MERGED.id(),
                    Rank.NOTE,
                    file,
                    Sentence.of(
                            "%s place%s of merged cells %s read with the text or day that the merged cell shows. Numbers are not repeated.",
                            table.filled(), table.filled() == 1 ? "" : "s", table.filled() == 1 ? "was" : "were")));
        }
        return remarks;
    }

    private static void remarkHidden(String file, SheetReader.Found found, List<Remark> remarks) {
        SheetReader.Count rows = found.hiddenRows();
        int columns = 0;
        int firstColumn = 0;
        for (SheetReader.Range range : found.hiddenColumns()) {
            int last = Math.min(range.lastColumn(), found.cells().width() - 1);
            if (last >= range.firstColumn()) {
                firstColumn = columns == 0 ? range.firstColumn() + 1 : firstColumn;
                columns += last - range.firstColumn() + 1;
            }
        }
        if (rows.number() == 0 && columns == 0) {
            return;
        }
        List<String> hidden = new ArrayList<>();
        if (rows.number() > 0) {
            hidden.add(Sentence.of(
                    "%s row%s (the first is row %s)", rows.number(), rows.number() == 1 ? "" : "s", rows.firstRow()));
        }
        if (columns > 0) {
            hidden.add(
                    Sentence.of("%s column%s (the first is column %s)", columns, columns == 1 ? "" : "s", firstColumn));
        }
        remarks.add(new Remark(
                IntakeMessage.ROWS_HIDDEN.id(),
                Rank.DOUBT,
                file,
                Sentence.of(
                        "The sheet hides %s. What is hidden was recorded all the same and is read like the rest. Who hid it, and why?",
                        String.join(" and ", hidden))));
    }

    // ---- refusals

    private static UnreadableFileException blank(String file, String what) {
        return new UnreadableFileException(
                IntakeMessage.SHEETS_BLANK,
                file,
                "",
                what + ": expected a recording. Was another sheet exported, or the file saved too early?");
    }

    private static UnreadableFileException old(FileBytes file) {
        String text = new String(file.raw(), StandardCharsets.UTF_16LE);
        if (text.contains("EncryptedPackage")) {
            return new UnreadableFileException(
                    IntakeMessage.SPREADSHEET_LOCKED,
                    file.name(),
                    "",
                    "this workbook is locked with a password. Open it, save it without a password, and read that file.");
        }
        boolean isWorkbook = text.contains("Workbook") || text.contains("Book");
        return new UnreadableFileException(
                IntakeMessage.OTHER_SPREADSHEET,
                file.name(),
                "",
                isWorkbook
                        ? "this is a workbook in the old binary form (.xls). Open it with a spreadsheet program and save it as .xlsx or CSV."
                        : "this is a document of an office program in the old binary form, not a recording. Expected .xlsx or CSV.");
    }
}
