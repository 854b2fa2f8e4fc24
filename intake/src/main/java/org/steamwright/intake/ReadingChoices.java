package org.steamwright.intake;

import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.quantity.PressureReference;

/**
 * What a person has said to settle doubts about a file. Whatever is left out is taken from the file if the file is clear,
 * and asked otherwise.
 *
 * <p>Columns are named as in the file's header, with or without the unit; case and outer blanks don't matter.
 */
public final class ReadingChoices {

    private final ZoneId zone;
    private final Optional<Character> delimiter;
    private final Optional<DecimalMark> decimalMark;
    private final Optional<Charset> charset;
    private final Optional<DateOrder> dateOrder;
    private final Optional<ElapsedUnit> timeUnit;
    private final Optional<Instant> start;
    private final Optional<String> sheet;
    private final Map<String, MeasuringUnit> units;
    private final Map<String, PressureReference> references;
    private final Set<String> skipped;

    private ReadingChoices(Builder builder) {
        this.zone = builder.zone;
        this.delimiter = builder.delimiter;
        this.decimalMark = builder.decimalMark;
        this.charset = builder.charset;
        this.dateOrder = builder.dateOrder;
        this.timeUnit = builder.timeUnit;
        this.start = builder.start;
        this.sheet = builder.sheet;
        this.units = Map.copyOf(builder.units);
        this.references = Map.copyOf(builder.references);
        this.skipped = Set.copyOf(builder.skipped);
    }

    /**
     * Choices for a clock in that zone, all else open.
     *
     * @param zone of the logger's clock, usually the site's; a fixed offset for a logger without daylight saving
     */
    public static Builder inZone(ZoneId zone) {
        return new Builder(zone);
    }

    /** Zone in which time stamps without offset are read. */
    public ZoneId zone() {
        return zone;
    }

    public Optional<Character> delimiter() {
        return delimiter;
    }

    public Optional<DecimalMark> decimalMark() {
        return decimalMark;
    }

    public Optional<Charset> charset() {
        return charset;
    }

    public Optional<DateOrder> dateOrder() {
        return dateOrder;
    }

    /** Unit of a time column of plain numbers. */
    public Optional<ElapsedUnit> timeUnit() {
        return timeUnit;
    }

    /** Moment at which elapsed time was zero, or of the first sample where the file has the time of day only. */
    public Optional<Instant> start() {
        return start;
    }

    /** Name of the sheet of a workbook that holds the recording. */
    public Optional<String> sheet() {
        return sheet;
    }

    /** Units by column key (see {@link #key}); they overrule the file. */
    public Map<String, MeasuringUnit> units() {
        return units;
    }

    /** Absolute or gauge by column key; they overrule the file. */
    public Map<String, PressureReference> references() {
        return references;
    }

    /** Keys of columns that shall not be read. */
    public Set<String> skipped() {
        return skipped;
    }

    /** How a column's name is compared: outer blanks and case removed. */
    public static String key(String columnName) {
        return columnName.strip().toLowerCase(Locale.ROOT);
    }

    /** Collects choices; the last one for the same thing counts. */
    public static final class Builder {

        private final ZoneId zone;
        private Optional<Character> delimiter = Optional.empty();
        private Optional<DecimalMark> decimalMark = Optional.empty();
        private Optional<Charset> charset = Optional.empty();
        private Optional<DateOrder> dateOrder = Optional.empty();
        private Optional<ElapsedUnit> timeUnit = Optional.empty();
        private Optional<Instant> start = Optional.empty();
        private Optional<String> sheet = Optional.empty();
        private final Map<String, MeasuringUnit> units = new LinkedHashMap<>();
        private final Map<String, PressureReference> references = new LinkedHashMap<>();
        private final Set<String> skipped = new LinkedHashSet<>();

        private Builder(ZoneId zone) {
            this.zone = zone;
        }

        public Builder delimiter(char mark) {
            this.delimiter = Optional.of(mark);
            return this;
        }

        public Builder decimalMark(DecimalMark mark) {
            this.decimalMark = Optional.of(mark);
            return this;
        }

        public Builder charset(Charset encoding) {
            this.charset = Optional.of(encoding);
            return this;
        }

        public Builder dateOrder(DateOrder order) {
            this.dateOrder = Optional.of(order);
            return this;
        }

        public Builder timeUnit(ElapsedUnit unit) {
            this.timeUnit = Optional.of(unit);
            return this;
        }

        public Builder start(Instant moment) {
            this.start = Optional.of(moment);
            return this;
        }

        public Builder sheet(String name) {
            this.sheet = Optional.of(name);
            return this;
        }

        public Builder unit(String column, MeasuringUnit unit) {
            units.put(key(column), unit);
            return this;
        }

        public Builder reference(String column, PressureReference reference) {
            references.put(key(column), reference);
            return this;
        }

        public Builder skip(String column) {
            skipped.add(key(column));
            return this;
        }

        /**
         * A choice as text, as a command or a visit folder has it.
         *
         * @param key {@code delimiter}, {@code decimal-mark}, {@code charset}, {@code date-order}, {@code time-unit},
         *     {@code start}, {@code sheet}, {@code unit:COLUMN} or {@code reference:COLUMN}
         * @throws IllegalArgumentException if there is no such key or the value says nothing for it; the message is
         *     fit for the person who typed it
         */
        public Builder answer(String key, String value) {
            String said = value.strip();
            int colon = key.indexOf(':');
            if (colon > 0) {
                return answerForColumn(key.substring(0, colon).strip(), key.substring(colon + 1), said);
            }
            switch (key.strip()) {
                case "delimiter" -> delimiter(delimiterOf(value));
                case "decimal-mark" -> decimalMark(decimalMarkOf(said));
                case "charset" -> charset(charsetOf(said));
                case "date-order" -> dateOrder(dateOrderOf(said));
                case "time-unit" ->
                    timeUnit(ElapsedUnit.find(said)
                            .orElseThrow(() -> refused("time-unit", said, "one of s, min, h, ms, unix-s, unix-ms")));
                case "start" -> start(startOf(said));
                case "sheet" -> sheet(said);
                default ->
                    throw new IllegalArgumentException(
                            "\"%s\" is no reading choice; there are delimiter, decimal-mark, charset, date-order, time-unit, start, sheet, unit:COLUMN and reference:COLUMN"
                                    .formatted(key));
            }
            return this;
        }

        private Builder answerForColumn(String kind, String column, String said) {
            switch (kind) {
                case "unit" -> {
                    if (said.equalsIgnoreCase("skip")) {
                        return skip(column);
                    }
                    return unit(
                            column,
                            MeasuringUnit.find(said)
                                    .orElseThrow(
                                            () -> refused(
                                                    "unit:" + column.strip(),
                                                    said,
                                                    "a unit such as °C, °F, K, kPa, bar, mbar, psi, mmHg, inHg (pressures with abs or gauge), or skip")));
                }
                case "reference" -> {
                    return reference(
                            column,
                            switch (said.toLowerCase(Locale.ROOT)) {
                                case "abs", "absolute" -> PressureReference.ABSOLUTE;
                                case "gauge", "rel", "relative" -> PressureReference.GAUGE;
                                default -> throw refused("reference:" + column.strip(), said, "absolute or gauge");
                            });
                }
                default ->
                    throw new IllegalArgumentException(
                            "\"%s:\" is no reading choice; for a column there are unit: and reference:"
                                    .formatted(kind));
            }
        }

        private static char delimiterOf(String value) {
            return switch (value.strip().toLowerCase(Locale.ROOT)) {
                case "comma" -> ',';
                case "semicolon" -> ';';
                case "tab", "\\t" -> '\t';
                case "pipe", "bar" -> '|';
                default -> {
                    if (value.length() != 1) {
                        throw refused("delimiter", value, "comma, semicolon, tab, pipe or a single character");
                    }
                    yield value.charAt(0);
                }
            };
        }

        private static DecimalMark decimalMarkOf(String said) {
            return switch (said.toLowerCase(Locale.ROOT)) {
                case "point", "." -> DecimalMark.POINT;
                case "comma", "," -> DecimalMark.COMMA;
                default -> throw refused("decimal-mark", said, "point or comma");
            };
        }

        private static DateOrder dateOrderOf(String said) {
            for (DateOrder order : DateOrder.values()) {
                if (order.symbol().equalsIgnoreCase(said)) {
                    return order;
                }
            }
            throw refused("date-order", said, "DMY, MDY or YMD");
        }

        private static Charset charsetOf(String said) {
            try {
                return Charset.forName(said);
            } catch (IllegalCharsetNameException | UnsupportedCharsetException unknown) {
                throw refused("charset", said, "the name of an encoding such as UTF-8 or windows-1252");
            }
        }

        private static Instant startOf(String said) {
            try {
                return Instant.parse(said);
            } catch (DateTimeException unread) {
                throw refused("start", said, "a moment such as 2026-03-02T09:00:00Z");
            }
        }

        private static IllegalArgumentException refused(String key, String found, String expected) {
            return new IllegalArgumentException("%s: found \"%s\", expected %s".formatted(key, found, expected));
        }

        public ReadingChoices build() {
            return new ReadingChoices(this);
        }
    }
}
