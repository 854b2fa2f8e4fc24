package org.steamwright.intake.csv;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.intake.table.Row;
import org.steamwright.intake.table.RowTaker;
import org.steamwright.intake.table.Sentence;
import org.steamwright.intake.table.Table;

/** Takes delimited text apart into rows of cells, through the grammar of the CSV library. */
final class TextTable implements Table {

    private final FileBytes file;
    private final String text;
    private final char delimiter;

    TextTable(FileBytes file, String text, char delimiter) {
        this.file = file;
        this.text = text;
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
        return new Fingerprint(file.size(), file.sha256());
    }

    @Override
    public Ending each(RowTaker taker) throws UnreadableFileException {
        CsvReader<Row> reader = CsvReader.builder()
                .fieldSeparator(delimiter)
                .allowUnclosedQuote(false)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .build(new Handler(), text);
        try {
            for (Row row : reader) {
                if (!row.isBlank() && !taker.take(row)) {
                    return Ending.STOPPED;
                }
            }
        } catch (CsvParseException broken) {
            throw new UnreadableFileException(
                    IntakeMessage.QUOTE_NOT_CLOSED,
                    file.name(),
                    "",
                    Sentence.of(
                            "a quotation mark is not closed where its cell ends (%s). Mend the quotation mark in a copy of the file, or export it again.",
                            String.valueOf(broken.getMessage())));
        }
        char last = text.charAt(text.length() - 1);
        return last == '\n' || last == '\r' ? Ending.COMPLETE : Ending.OPEN;
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
}
