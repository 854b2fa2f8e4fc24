package org.steamwright.intake.register;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.folder.Way;
import org.steamwright.visit.register.MachineRow;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.RegisterComparison;

/**
 * A table of machines in a CSV file, one row each.
 *
 * <p>Headings are understood by their words or by a mapping; a column that nothing is known of is named and left out. A cell that
 * can't be understood refuses its row, with line, column and reason. Reading changes nothing.
 *
 * @param rows that could be read
 * @param refused rows that could not, each with its reason
 * @param columns heading to column, in the order of the file
 * @param leftOut headings of which nothing is known
 */
public record RegisterTable(
        List<MachineRow> rows,
        List<RegisterComparison.Row> refused,
        Map<String, RegisterColumn> columns,
        List<String> leftOut) {

    /** Largest file in bytes: some hundred thousand machines. */
    static final int MAX_BYTES = 50_000_000;

    private static final char[] SEPARATORS = {',', ';', '\t'};
    private static final int BYTE_ORDER_MARK = 0xFEFF;

    public RegisterTable {
        rows = List.copyOf(rows);
        refused = List.copyOf(refused);
        leftOut = List.copyOf(leftOut);
    }

    /** What the table would do to a register. */
    public RegisterComparison compare(Register register) {
        return RegisterComparison.of(register, rows, refused);
    }

    /**
     * Reads the table in a file.
     *
     * @throws RegisterException if it is no table or none of machines
     * @throws IOException if the disk fails
     */
    public static RegisterTable read(Path file, TableMapping mapping) throws IOException, RegisterException {
        String name = String.valueOf(file.getFileName());
        if (!Files.isRegularFile(file)) {
            throw refusal(
                    RegisterMessage.NO_REGISTER, name, 0, "found no such file, expected a table.", "Check the path.");
        }
        try (var in = Files.newInputStream(file)) {
            return read(in.readNBytes(MAX_BYTES + 1), name, mapping);
        }
    }

    /** Reads the table in these bytes; the name is for messages. */
    public static RegisterTable read(byte[] bytes, String name, TableMapping mapping) throws RegisterException {
        if (bytes.length > MAX_BYTES) {
            throw refusal(
                    RegisterMessage.NOT_A_TABLE,
                    name,
                    0,
                    "found more than " + MAX_BYTES + " bytes, expected a table of machines.",
                    "Cut it into several files.");
        }
        String text = text(bytes, name);
        List<CsvRecord> records = new ArrayList<>();
        try (CsvReader<CsvRecord> reader = CsvReader.builder()
                .fieldSeparator(separator(text))
                .skipEmptyLines(true)
                .allowUnclosedQuote(false)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .ofCsvRecord(text)) {
            reader.forEach(records::add);
        } catch (CsvParseException broken) {
            throw refusal(
                    RegisterMessage.NOT_A_TABLE,
                    name,
                    0,
                    "found a quotation mark that is never closed, or a cell without end, expected a table of cells parted by"
                            + " commas, semicolons or tabulators.",
                    "Save it anew as CSV.");
        } catch (IOException impossible) {
            throw new IllegalStateException("a text in memory can't fail to be read", impossible);
        }
        if (records.isEmpty()) {
            throw refusal(
                    RegisterMessage.NOT_A_TABLE,
                    name,
                    0,
                    "found an empty file, expected a line of headings and a row for each machine.",
                    "");
        }
        return table(records, name, mapping);
    }

    private static RegisterTable table(List<CsvRecord> records, String name, TableMapping mapping)
            throws RegisterException {
        List<String> headings =
                records.get(0).getFields().stream().map(CellText::read).toList();
        Map<String, RegisterColumn> columns = new LinkedHashMap<>();
        List<Optional<RegisterColumn>> places = new ArrayList<>();
        List<String> leftOut = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        for (String heading : headings) {
            Optional<RegisterColumn> column =
                    Optional.ofNullable(mapping.columns().get(heading)).or(() -> RegisterColumn.ofHeading(heading));
            places.add(column);
            if (column.isEmpty()) {
                leftOut.add(heading);
            } else if (columns.containsValue(column.get())) {
                problems.add(new Problem(
                        RegisterMessage.COLUMN_TWICE.id(),
                        name,
                        1,
                        Way.of(heading),
                        Flaw.of(
                                "found a second column for \"" + column.get().word() + "\", expected one.",
                                "Rename the heading that means something else, or map it.")));
            } else {
                columns.put(heading, column.get());
            }
        }
        for (String mapped : mapping.columns().keySet()) {
            if (!headings.contains(mapped)) {
                problems.add(new Problem(
                        RegisterMessage.UNKNOWN_COLUMN.id(),
                        name,
                        1,
                        Way.of(mapped),
                        Flaw.of(
                                "found no such heading, but the mapping names it.",
                                "There are: " + String.join(", ", headings) + ".")));
            }
        }
        if (!columns.containsValue(RegisterColumn.ID) && !columns.containsValue(RegisterColumn.SERIAL)) {
            problems.add(Problem.ofFile(
                    RegisterMessage.NO_COLUMN,
                    name,
                    1,
                    "found no column of ids or serial numbers, expected one to tell the machines apart.",
                    "The headings are: " + String.join(", ", headings) + ". Write a mapping for the one that it is."));
        }
        if (!problems.isEmpty()) {
            throw new RegisterException(problems);
        }
        return rows(records, places, columns, leftOut, mapping);
    }

    private static RegisterTable rows(
            List<CsvRecord> records,
            List<Optional<RegisterColumn>> places,
            Map<String, RegisterColumn> columns,
            List<String> leftOut,
            TableMapping mapping) {
        List<MachineRow> rows = new ArrayList<>();
        List<RegisterComparison.Row> refused = new ArrayList<>();
        for (CsvRecord record : records.subList(1, records.size())) {
            int line = Math.toIntExact(record.getStartingLineNumber());
            Map<RegisterColumn, String> cells = new LinkedHashMap<>();
            for (int i = 0; i < Math.min(places.size(), record.getFieldCount()); i++) {
                String cell = CellText.read(record.getField(i));
                places.get(i).filter(column -> !cell.isBlank()).ifPresent(column -> cells.put(column, cell));
            }
            String id = cells.getOrDefault(RegisterColumn.ID, "");
            if (record.getFieldCount() != places.size()) {
                refused.add(refusal(
                        line,
                        id,
                        RegisterMessage.CELL_COUNT,
                        "found " + record.getFieldCount() + " cells, expected " + places.size()
                                + " as in the headings; is a cell with a comma in it without quotation marks?"));
                continue;
            }
            RowCells reading = new RowCells(line, cells, mapping);
            try {
                rows.add(reading.row());
            } catch (RowCells.NotUnderstood cell) {
                refused.add(refusal(line, id, RegisterMessage.CELL, String.valueOf(cell.getMessage())));
            }
        }
        return new RegisterTable(rows, refused, columns, leftOut);
    }

    private static RegisterComparison.Row refusal(int line, String id, RegisterMessage message, String reason) {
        return new RegisterComparison.Row(
                line, id, RegisterComparison.Answer.REFUSED, List.of(), message.id() + " " + reason);
    }

    private static RegisterException refusal(
            RegisterMessage message, String name, int line, String sentence, String remedy) {
        return new RegisterException(List.of(Problem.ofFile(message, name, line, sentence, remedy)));
    }

    private static String text(byte[] bytes, String name) throws RegisterException {
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .onUnmappableCharacter(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
        } catch (CharacterCodingException other) {
            throw refusal(
                    RegisterMessage.NOT_A_TABLE,
                    name,
                    0,
                    "found bytes that are no UTF-8 text, expected a table in UTF-8.",
                    "Save it as \"CSV UTF-8\".");
        }
    }

    /** The sign that most often stands outside quotation marks in the first line. */
    private static char separator(String text) {
        int[] counts = new int[SEPARATORS.length];
        boolean isQuoted = false;
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            if (sign == '"') {
                isQuoted = !isQuoted;
            } else if (!isQuoted && (sign == '\n' || sign == '\r')) {
                break;
            }
            for (int j = 0; j < SEPARATORS.length && !isQuoted; j++) {
                counts[j] += sign == SEPARATORS[j] ? 1 : 0;
            }
        }
        int best = 0;
        for (int j = 1; j < counts.length; j++) {
            best = counts[j] > counts[best] ? j : best;
        }
        return SEPARATORS[best];
    }
}
