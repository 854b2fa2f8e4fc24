package org.steamwright.intake;

import java.nio.charset.Charset;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
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
    private final Optional<TimeMark> from;
    private final Optional<TimeMark> to;
    private final boolean hasDaylightSaving;
    private final Map<String, MeasuringUnit> units;
    private final Map<String, PressureReference> references;
    private final Set<String> skipped;
    private final Optional<String> profile;
    private final String profileName;
    private final String profileNote;
    private final Set<String> byProfile;
    private final boolean isZoneSupposed;
    private final Set<String> said;

    private ReadingChoices(Builder builder) {
        this.zone = builder.zone;
        this.delimiter = builder.delimiter;
        this.decimalMark = builder.decimalMark;
        this.charset = builder.charset;
        this.dateOrder = builder.dateOrder;
        this.timeUnit = builder.timeUnit;
        this.start = builder.start;
        this.sheet = builder.sheet;
        this.from = builder.from;
        this.to = builder.to;
        this.hasDaylightSaving = builder.hasDaylightSaving;
        this.units = Map.copyOf(builder.units);
        this.references = Map.copyOf(builder.references);
        this.skipped = Set.copyOf(builder.skipped);
        this.profile = builder.profile;
        this.profileName = builder.profileName;
        this.profileNote = builder.profileNote;
        this.byProfile = Set.copyOf(builder.byProfile);
        this.isZoneSupposed = builder.isZoneSupposed;
        this.said = Set.copyOf(builder.said);
    }

    /**
     * Choices for a clock in that zone, all else open.
     *
     * @param zone of the logger's clock, usually the site's; a fixed offset for a logger without daylight saving
     */
    public static Builder inZone(ZoneId zone) {
        return new Builder(zone);
    }

    /**
     * Choices for a clock whose zone nobody has told.
     *
     * @param zone what is supposed, usually the site's; a reading profile that knows better overrules it
     */
    public static Builder supposingZone(ZoneId zone) {
        Builder builder = new Builder(zone);
        builder.isZoneSupposed = true;
        return builder;
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

    /** The first time that is wanted of a long file. */
    public Optional<TimeMark> from() {
        return from;
    }

    /** The last time that is wanted of a long file, itself wanted. */
    public Optional<TimeMark> to() {
        return to;
    }

    /** Whether only part of the file's time is wanted. */
    public boolean isTimeChosen() {
        return from.isPresent() || to.isPresent();
    }

    /** Whether the file's clock goes forward and back as its zone does; otherwise it keeps the zone's standard time. */
    public boolean hasDaylightSaving() {
        return hasDaylightSaving;
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

    /** The reading profile that shall be used, or {@code none}; empty if the one that fits shall be found. */
    public Optional<String> profile() {
        return profile;
    }

    /** Name of the reading profile whose answers are among these choices; empty if none is. */
    public String profileName() {
        return profileName;
    }

    /** One line about the reading profile whose answers are among these choices; empty if none is. */
    public String profileNote() {
        return profileNote;
    }

    /**
     * Whether a choice was not said for this file but comes from a reading profile.
     *
     * @param key as {@link Builder#answer} takes it
     */
    public boolean isByProfile(String key) {
        return byProfile.contains(plainKey(key));
    }

    /**
     * These choices, with the answers of a reading profile where nothing was said.
     *
     * @param name of the profile
     * @param answers by key, as {@link Builder#answer} takes them, and {@code zone}
     * @throws IllegalArgumentException if an answer says nothing for its key
     */
    public ReadingChoices withProfile(String name, Map<String, String> answers) {
        Builder builder = new Builder(this);
        List<String> taken = new ArrayList<>();
        answers.forEach((key, value) -> {
            boolean isZone = key.equals("zone");
            if (isZone ? !isZoneSupposed : said.contains(plainKey(key))) {
                return;
            }
            if (isZone) {
                builder.zone = zoneOf(value);
            } else {
                builder.answer(key, value);
            }
            builder.byProfile.add(plainKey(key));
            taken.add(key + " = " + value);
        });
        builder.profileName = name;
        builder.profileNote = "reading profile \"" + name
                + "\" fits by delimiter, columns, units and lines before the header; "
                + (taken.isEmpty() ? "all that it answers was said otherwise" : "it says " + String.join(", ", taken));
        return builder.build();
    }

    private static ZoneId zoneOf(String text) {
        try {
            return ZoneId.of(text);
        } catch (DateTimeException unknown) {
            throw Builder.refused("zone", text, "a zone such as Australia/Sydney or an offset such as +10:00");
        }
    }

    private static String plainKey(String key) {
        int colon = key.indexOf(':');
        return colon < 0 ? key.strip() : key.substring(0, colon).strip() + ":" + key(key.substring(colon + 1));
    }

    /** How a column's name is compared: outer blanks and case removed. */
    public static String key(String columnName) {
        return columnName.strip().toLowerCase(Locale.ROOT);
    }

    /** Collects choices; the last one for the same thing counts. */
    public static final class Builder {

        private ZoneId zone;
        private Optional<Character> delimiter = Optional.empty();
        private Optional<DecimalMark> decimalMark = Optional.empty();
        private Optional<Charset> charset = Optional.empty();
        private Optional<DateOrder> dateOrder = Optional.empty();
        private Optional<ElapsedUnit> timeUnit = Optional.empty();
        private Optional<Instant> start = Optional.empty();
        private Optional<String> sheet = Optional.empty();
        private Optional<TimeMark> from = Optional.empty();
        private Optional<TimeMark> to = Optional.empty();
        private boolean hasDaylightSaving = true;
        private final Map<String, MeasuringUnit> units = new LinkedHashMap<>();
        private final Map<String, PressureReference> references = new LinkedHashMap<>();
        private final Set<String> skipped = new LinkedHashSet<>();

        private final Set<String> said = new LinkedHashSet<>();
        private final Set<String> byProfile = new LinkedHashSet<>();
        private Optional<String> profile = Optional.empty();
        private String profileName = "";
        private String profileNote = "";
        private boolean isZoneSupposed;

        private Builder(ZoneId zone) {
            this.zone = zone;
        }

        private Builder(ReadingChoices choices) {
            this.zone = choices.zone;
            this.delimiter = choices.delimiter;
            this.decimalMark = choices.decimalMark;
            this.charset = choices.charset;
            this.dateOrder = choices.dateOrder;
            this.timeUnit = choices.timeUnit;
            this.start = choices.start;
            this.sheet = choices.sheet;
            this.from = choices.from;
            this.to = choices.to;
            this.hasDaylightSaving = choices.hasDaylightSaving;
            this.units.putAll(choices.units);
            this.references.putAll(choices.references);
            this.skipped.addAll(choices.skipped);
            this.said.addAll(choices.said);
            this.profile = choices.profile;
            this.isZoneSupposed = choices.isZoneSupposed;
        }

        public Builder delimiter(char mark) {
            said.add("delimiter");
            this.delimiter = Optional.of(mark);
            return this;
        }

        public Builder decimalMark(DecimalMark mark) {
            said.add("decimal-mark");
            this.decimalMark = Optional.of(mark);
            return this;
        }

        public Builder charset(Charset encoding) {
            said.add("charset");
            this.charset = Optional.of(encoding);
            return this;
        }

        public Builder dateOrder(DateOrder order) {
            said.add("date-order");
            this.dateOrder = Optional.of(order);
            return this;
        }

        public Builder timeUnit(ElapsedUnit unit) {
            said.add("time-unit");
            this.timeUnit = Optional.of(unit);
            return this;
        }

        public Builder start(Instant moment) {
            this.start = Optional.of(moment);
            return this;
        }

        public Builder sheet(String name) {
            said.add("sheet");
            this.sheet = Optional.of(name);
            return this;
        }

        /** Uses that reading profile, or none if it is called {@code none}. */
        public Builder profile(String name) {
            this.profile = Optional.of(name.strip());
            return this;
        }

        /** Reads nothing before that time. */
        public Builder from(TimeMark first) {
            this.from = Optional.of(first);
            return this;
        }

        /** Reads nothing after that time. */
        public Builder to(TimeMark last) {
            this.to = Optional.of(last);
            return this;
        }

        /** Says whether the file's clock follows daylight saving; without a word it does. */
        public Builder daylightSaving(boolean isFollowed) {
            said.add("clock");
            this.hasDaylightSaving = isFollowed;
            return this;
        }

        public Builder unit(String column, MeasuringUnit unit) {
            said.add("unit:" + key(column));
            units.put(key(column), unit);
            return this;
        }

        public Builder reference(String column, PressureReference reference) {
            said.add("reference:" + key(column));
            references.put(key(column), reference);
            return this;
        }

        public Builder skip(String column) {
            said.add("unit:" + key(column));
            skipped.add(key(column));
            return this;
        }

        /**
         * A choice as text, as a command or a visit folder has it.
         *
         * @param key {@code delimiter}, {@code decimal-mark}, {@code charset}, {@code date-order}, {@code time-unit},
         *     {@code start}, {@code sheet}, {@code from}, {@code to}, {@code clock}, {@code profile}, {@code unit:COLUMN} or {@code reference:COLUMN}
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
                case "from" -> from(markOf("from", said));
                case "to" -> to(markOf("to", said));
                case "clock" -> daylightSaving(clockOf(said));
                case "profile" -> profile(said);
                default ->
                    throw new IllegalArgumentException(
                            "\"%s\" is no reading choice; there are delimiter, decimal-mark, charset, date-order, time-unit, start, sheet, from, to, clock, profile, unit:COLUMN and reference:COLUMN"
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
                                    .orElseThrow(() -> refused(
                                            "unit:" + column.strip(),
                                            said,
                                            "a unit such as °C, °F, K, kPa, bar, mbar, psi, mmHg, inHg"
                                                    + " (pressures with abs or gauge), or skip")));
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

        private static TimeMark markOf(String key, String said) {
            return TimeMark.find(said)
                    .orElseThrow(() -> refused(key, said, "a time such as 2026-03-02T09:00:00 or 09:00:00"));
        }

        private static boolean clockOf(String said) {
            return switch (said.toLowerCase(Locale.ROOT)) {
                case "daylight-saving" -> true;
                case "no-daylight-saving" -> false;
                default -> throw refused("clock", said, "daylight-saving or no-daylight-saving");
            };
        }

        static IllegalArgumentException refused(String key, String found, String expected) {
            return new IllegalArgumentException("%s: found \"%s\", expected %s".formatted(key, found, expected));
        }

        public ReadingChoices build() {
            return new ReadingChoices(this);
        }
    }
}
