package org.steamwright.intake.csv;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.CharArrayReader;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.ByteSource;
import org.steamwright.intake.table.Row;
import org.steamwright.intake.table.RowTaker;
import org.steamwright.intake.table.Sentence;
import org.steamwright.intake.table.Table;

/**
 * Takes delimited text apart into rows of cells; keeps one row at a time. Plain lines are taken as they stand; from the first
 * line on that is not plain (doubled or unclosed quotation marks, a line end within them, a line longer than the buffer) the
 * CSV library's grammar reads the rest.
 */
final class TextTable implements Table {

    /** Characters that one cell may have; more is a quotation mark that nobody closed. */
    private static final int LONGEST_CELL = 1_048_576;

    /** Cells and characters of one row; no logger comes near. */
    private static final int MOST_CELLS = 16_384;

    private static final int LONGEST_ROW = 4_194_304;

    /** Characters looked at at once; a longer line is left to the library. */
    private static final int BUFFER = 32_768;

    private final ByteSource file;
    private final Encoding encoding;
    private final char delimiter;
    private Optional<Fingerprint> fingerprint = Optional.empty();
    private boolean isAscii;

    TextTable(ByteSource file, Encoding encoding, char delimiter) {
        this.file = file;
        this.encoding = encoding;
        this.delimiter = delimiter;
    }

    @Override
    public String fileName() {
        return file.name();
    }

    @Override
    public char delimiter() {
        return delimiter;
    }

    @Override
    public Optional<DecimalMark> decimalMark() {
        return Optional.empty();
    }

    @Override
    public Fingerprint fingerprint() {
        return fingerprint.orElseThrow(() -> new IllegalStateException("no pass has come to the end yet"));
    }

    @Override
    public long charactersExpected() {
        return file.size() / encoding.bytesPerCharacter();
    }

    /** Whether the last full pass met no byte above 127. */
    boolean isAscii() {
        return isAscii;
    }

    @Override
    public Ending each(RowTaker taker) throws IOException, UnreadableFileException {
        try (TextReader text = new TextReader(file, encoding)) {
            Plain plain = new Plain(text, taker);
            boolean isWanted = Row.isPlainDelimiter(delimiter) ? plain.take() : true;
            if (isWanted && !plain.isAtEnd) {
                isWanted = takeByGrammar(plain.rest(), taker);
            }
            if (!isWanted) {
                return Ending.STOPPED;
            }
            fingerprint = Optional.of(text.fingerprint());
            isAscii = text.isAscii();
            return text.isAtLineStart() ? Ending.COMPLETE : Ending.OPEN;
        } catch (TextReader.RefusedException refused) {
            throw refused.refusal();
        }
    }

    /** Lines without anything that needs a grammar: nearly all lines that loggers write. */
    private final class Plain {
        private final TextReader text;
        private final RowTaker taker;
        private final char mark;
        private final char[] chars = new char[BUFFER];
        private int from;
        private int limit;
        private int lines;
        private boolean isLast;
        boolean isAtEnd;

        Plain(TextReader text, RowTaker taker) {
            this.text = text;
            this.taker = taker;
            this.mark = taker.decimalMark();
        }

        /** Whether more rows are wanted, at the end or at the first line that needs the grammar. */
        boolean take() throws IOException, UnreadableFileException {
            Row row = new Row();
            while (true) {
                while (from < limit) {
                    int next = row.takeLine(chars, from, limit, delimiter, mark, isLast, lines + 1L);
                    if (next == Row.NOT_PLAIN) {
                        return true;
                    }
                    if (next == Row.MORE) {
                        break;
                    }
                    from = next;
                    lines++;
                    if (!row.isBlank() && !taker.take(row)) {
                        return false;
                    }
                }
                if (isLast) {
                    isAtEnd = true;
                    return true;
                }
                if (from == 0 && limit == chars.length) {
                    return true;
                }
                fill();
            }
        }

        private void fill() throws IOException {
            System.arraycopy(chars, from, chars, 0, limit - from);
            limit -= from;
            from = 0;
            int read = text.read(chars, limit, chars.length - limit);
            isLast = read < 0;
            limit += Math.max(read, 0);
        }

        /** What is left, with a blank line for each that was taken, so that lines are counted on. */
        Reader rest() {
            return new Rest(lines, new CharArrayReader(chars, from, limit - from), text);
        }
    }

    private static final class Rest extends Reader {
        private int lines;
        private final Reader first;
        private final Reader then;

        Rest(int lines, Reader first, Reader then) {
            this.lines = lines;
            this.first = first;
            this.then = then;
        }

        @Override
        public int read(char[] target, int offset, int length) throws IOException {
            if (lines > 0) {
                int blank = Math.min(lines, length);
                Arrays.fill(target, offset, offset + blank, '\n');
                lines -= blank;
                return blank;
            }
            int read = first.read(target, offset, length);
            return read > 0 ? read : then.read(target, offset, length);
        }

        @Override
        public void close() throws IOException {
            then.close();
        }
    }

    private boolean takeByGrammar(Reader text, RowTaker taker) throws IOException, UnreadableFileException {
        Handler handler = new Handler();
        try (CsvReader<Row> rows = CsvReader.builder()
                .fieldSeparator(delimiter)
                .allowUnclosedQuote(false)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .maxBufferSize(LONGEST_CELL)
                .build(handler, text)) {
            for (Row row : rows) {
                if (handler.isTooLong) {
                    throw tooLong(row.number());
                }
                if (!row.isBlank() && !taker.take(row)) {
                    return false;
                }
            }
            return true;
        } catch (CsvParseException broken) {
            throw new UnreadableFileException(
                    IntakeMessage.QUOTE_NOT_CLOSED,
                    file.name(),
                    "",
                    Sentence.of(
                            "a quotation mark is not closed where its cell ends (%s). Mend the quotation mark in a"
                                    + " copy of the file, or export it again.",
                            String.valueOf(broken.getMessage())));
        } catch (UncheckedIOException wrapped) {
            throw unwrapped(wrapped);
        }
    }

    private static IOException unwrapped(UncheckedIOException wrapped) throws UnreadableFileException {
        for (Throwable inner = wrapped; inner != null; inner = inner.getCause()) {
            if (inner instanceof TextReader.RefusedException refused) {
                throw refused.refusal();
            }
            if (inner instanceof TextReader.NotThatEncodingException other) {
                return other;
            }
        }
        return new IOException(wrapped);
    }

    private UnreadableFileException tooLong(int line) {
        return new UnreadableFileException(
                IntakeMessage.ROW_TOO_LONG,
                file.name(),
                "row " + line,
                Sentence.of(
                        "this row has more than %s cells or %s characters, as no logger writes. Was the wrong file"
                                + " named, or are its line ends lost? Export it again.",
                        MOST_CELLS, LONGEST_ROW));
    }

    private static final class Handler extends AbstractBaseCsvCallbackHandler<Row> {
        private final Row row = new Row();
        private long length;
        private boolean isTooLong;

        @Override
        protected void handleBegin(long startingLineNumber) {
            row.begin(startingLineNumber);
            length = 0;
        }

        @Override
        protected void handleField(int index, char[] buffer, int offset, int size, boolean isQuoted) {
            length += size;
            if (index >= MOST_CELLS || length > LONGEST_ROW) {
                isTooLong = true;
                return;
            }
            row.add(buffer, offset, size);
        }

        @Override
        protected @Nullable Row buildRecord() {
            return row;
        }
    }
}
