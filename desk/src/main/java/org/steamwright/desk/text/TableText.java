package org.steamwright.desk.text;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.QuoteStrategies;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.function.Consumer;
import java.util.regex.Pattern;

/**
 * Rows as CSV for a spreadsheet. A text that a spreadsheet would take for a formula, also after a blank or in a later line of
 * the cell, gets an apostrophe before it, so that it stays a text; it is the only way in which a cell differs from the record.
 *
 * @source OWASP, "CSV Injection" (signs that begin a formula); OWASP ASVS 5.0, 1.2.10 (from memory) adds the zero character;
 *     RFC 4180 for the form
 */
public final class TableText {

    private static final Pattern FORMULA =
            Pattern.compile("(?m)^[\\h\\u00a0\\ufeff]*[=+\\-@\\t\\uff1d\\uff0b\\uff0d\\uff20]");
    private static final Pattern NUMBER = Pattern.compile("[+-]?\\d+(\\.\\d+)?");

    private TableText() {}

    /**
     * Heads and rows as text.
     *
     * @param heads of the columns
     * @param rows each as long as the heads
     */
    public static String of(List<String> heads, List<List<String>> rows) {
        return written(writer -> writer.writeRecord(heads)) + rows(rows);
    }

    /** More rows of the same table. */
    public static String rows(List<List<String>> rows) {
        return written(writer -> {
            for (List<String> row : rows) {
                writer.writeRecord(row.stream().map(TableText::harmless).toList());
            }
        });
    }

    private static String written(Consumer<CsvWriter> what) {
        StringWriter text = new StringWriter();
        try (CsvWriter writer =
                CsvWriter.builder().quoteStrategy(QuoteStrategies.ALWAYS).build(text)) {
            what.accept(writer);
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
        return text.toString();
    }

    /** A cell that no spreadsheet takes for a formula. */
    public static String harmless(String cell) {
        String plain = cell.replace("\u0000", "");
        return NUMBER.matcher(plain).matches()
                ? plain
                : FORMULA.matcher(plain.replace('\r', '\n')).replaceAll("'$0");
    }
}
