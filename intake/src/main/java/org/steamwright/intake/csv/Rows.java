package org.steamwright.intake.csv;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;

/** Takes delimited text apart into rows of cells, through the grammar of the CSV library. */
final class Rows {

    private Rows() {}

    /** Gets every row in turn. The row is reused: take what you need. */
    interface Taker {
        /** Returns false to stop. */
        boolean take(Row row) throws UnreadableFileException;
    }

    /** One row; its cells lie side by side in one array, without outer blanks. */
    static final class Row {
        char[] chars = new char[256];
        int[] from = new int[16];
        int[] to = new int[16];
        int count;
        /** Line of the file, counted from 1, on which the row starts. */
        int line;

        private int used;

        private void begin(long startingLine) {
            count = 0;
            used = 0;
            line = (int) startingLine;
        }

        private void add(char[] source, int offset, int length) {
            int start = offset;
            int end = offset + length;
            while (start < end && isBlank(source[start])) {
                start++;
            }
            while (end > start && isBlank(source[end - 1])) {
                end--;
            }
            int size = end - start;
            if (used + size > chars.length) {
                chars = Arrays.copyOf(chars, Math.max(chars.length * 2, used + size));
            }
            if (count == from.length) {
                from = Arrays.copyOf(from, count * 2);
                to = Arrays.copyOf(to, count * 2);
            }
            System.arraycopy(source, start, chars, used, size);
            from[count] = used;
            used += size;
            to[count] = used;
            count++;
        }

        private static boolean isBlank(char c) {
            return c == ' ' || c == '\t' || c == '\u00a0' || c == '\r';
        }

        boolean isEmpty(int cell) {
            return cell >= count || from[cell] == to[cell];
        }

        String text(int cell) {
            return cell >= count ? "" : new String(chars, from[cell], to[cell] - from[cell]);
        }

        /** Whether no cell holds anything. */
        boolean isBlank() {
            return used == 0;
        }

        String[] texts() {
            String[] texts = new String[count];
            for (int i = 0; i < count; i++) {
                texts[i] = text(i);
            }
            return texts;
        }

        /** The row as somebody would quote it in a message, cut after 60 characters. */
        String quoted() {
            String joined = String.join(" | ", texts());
            return "\"" + (joined.length() > 60 ? joined.substring(0, 60) + "…" : joined) + "\"";
        }
    }

    private static final class Handler extends AbstractBaseCsvCallbackHandler<Row> {
        private final Row row = new Row();

        @Override
        protected void handleBegin(long startingLineNumber) {
            row.begin(startingLineNumber);
        }

        @Override
        protected void handleField(int index, char[] buffer, int offset, int length, boolean isQuoted) {
            row.add(buffer, offset, length);
        }

        @Override
        protected @Nullable Row buildRecord() {
            return row;
        }
    }

    /** All rows that are not blank. */
    static void each(String fileName, String text, char delimiter, Taker taker) throws UnreadableFileException {
        CsvReader<Row> reader = CsvReader.builder()
                .fieldSeparator(delimiter)
                .allowUnclosedQuote(false)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .build(new Handler(), text);
        try {
            for (Row row : reader) {
                if (!row.isBlank() && !taker.take(row)) {
                    return;
                }
            }
        } catch (CsvParseException broken) {
            throw new UnreadableFileException(
                    IntakeMessage.QUOTE_NOT_CLOSED,
                    fileName,
                    "",
                    Sentence.of(
                            "a quotation mark is not closed where its cell ends (%s). Mend the quotation mark in a copy of the file, or export it again.",
                            String.valueOf(broken.getMessage())));
        }
    }

    /**
     * A row of the head, kept.
     *
     * @param line line of the file, from 1
     * @param cells without outer blanks
     */
    record Kept(int line, List<String> cells) {
        Kept {
            cells = List.copyOf(cells);
        }

        String cell(int index) {
            return index < cells.size() ? cells.get(index) : "";
        }
    }

    /** The first rows; a quote left open by the cut is not minded. */
    static List<Kept> head(String fileName, String text, char delimiter, int atMost) throws UnreadableFileException {
        HeadTaker taker = new HeadTaker(atMost);
        each(fileName, text, delimiter, taker);
        return taker.kept;
    }

    /** A class of its own: the first lambda of a program costs a short command more than reading the file. */
    private static final class HeadTaker implements Taker {
        private final List<Kept> kept = new ArrayList<>();
        private final int atMost;

        private HeadTaker(int atMost) {
            this.atMost = atMost;
        }

        @Override
        public boolean take(Row row) {
            kept.add(new Kept(row.line, Arrays.asList(row.texts())));
            return kept.size() < atMost;
        }
    }
}
