package org.steamwright.intake.table;

import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.ElapsedUnit;
import org.steamwright.intake.MeasuringUnit;

/**
 * What the header says about a column.
 *
 * @param full the cell as written, without outer blanks
 * @param name the same without the unit
 * @param unit unit of temperature or pressure, with absolute or gauge if the header says so
 * @param elapsed unit of time
 * @param otherUnit a unit of something else ({@code %rH}, {@code V}), so that the column is of no use here
 * @param unread what stands where a unit would stand and is none that the program knows; empty text if nothing does
 */
record Heading(
        String full,
        String name,
        Optional<MeasuringUnit> unit,
        Optional<ElapsedUnit> elapsed,
        Optional<String> otherUnit,
        String unread) {

    /** Reads a header cell, with the cell of a row of units below it (empty text if there is none). */
    static Heading of(String cell, String unitCell) {
        String full = cell.strip();
        if (!unitCell.isBlank()) {
            String said = withoutBrackets(unitCell.strip());
            Heading above = of(full, "");
            Heading below = ofUnit(full, above.name(), said);
            return below.isSilent() && !above.isSilent() ? above : below.countedAs(full);
        }
        int open = full.isEmpty() ? -1 : openingOf(full);
        if (open >= 0) {
            String inside = full.substring(open + 1, full.length() - 1).strip();
            String before = full.substring(0, open).strip();
            if (isCounted(inside) && !before.isEmpty()) {
                Heading outer = of(before, "");
                if (outer.unit().isPresent()) {
                    return new Heading(full, outer.name(), outer.unit(), outer.elapsed(), outer.otherUnit(), "")
                            .countedAs(
                                    inside.equalsIgnoreCase("a")
                                            ? "abs"
                                            : inside.equalsIgnoreCase("g") ? "gauge" : inside);
                }
                return new Heading(full, full, Optional.empty(), Optional.empty(), Optional.empty(), "");
            }
            Heading read = ofUnit(full, before.isEmpty() ? full : before, inside);
            return read.isSilent()
                    ? new Heading(full, full, Optional.empty(), Optional.empty(), Optional.empty(), inside)
                    : read.countedAs(before);
        }
        for (String between : new String[] {",", " in ", "/", ":"}) {
            int at = full.lastIndexOf(between);
            if (at > 0) {
                Heading read = ofUnit(
                        full,
                        full.substring(0, at).strip(),
                        full.substring(at + between.length()).strip());
                if (!read.isSilent() && !read.isLetterOfOtherUnit()) {
                    return read.countedAs(full.substring(0, at));
                }
            }
        }
        Heading alone = ofUnit(full, full, full);
        if (alone.elapsed().isPresent() || (full.length() > 1 && !alone.isSilent())) {
            return alone;
        }
        Heading suffix = ofSuffix(full);
        return suffix.isSilent() ? silent(full) : suffix.countedAs(full);
    }

    /** The last word, behind a blank or underscore; a single letter only behind an underscore. */
    private static Heading ofSuffix(String full) {
        for (int words = 2; words >= 1; words--) {
            int at = full.length();
            for (int w = 0; w < words && at > 0; w++) {
                at = Math.max(full.lastIndexOf('_', at - 1), full.lastIndexOf(' ', at - 1));
            }
            if (at <= 0) {
                continue;
            }
            String last = full.substring(at + 1);
            if (last.length() == 1 && full.charAt(at) != '_' && !last.equals("%")) {
                continue;
            }
            Heading read = ofUnit(full, full, last.replace('_', ' '));
            if (!read.isSilent() && !read.isLetterOfOtherUnit()) {
                return read;
            }
        }
        return silent(full);
    }

    private static Heading silent(String full) {
        return new Heading(full, full, Optional.empty(), Optional.empty(), Optional.empty(), "");
    }

    private static Heading ofUnit(String full, String name, String said) {
        return new Heading(
                full,
                name.isEmpty() ? full : name,
                MeasuringUnit.find(said),
                isTimeUnit(said) ? ElapsedUnit.find(said) : Optional.empty(),
                otherUnit(said),
                "");
    }

    private static boolean isTimeUnit(String said) {
        return !said.equalsIgnoreCase("unix") && !said.equalsIgnoreCase("epoch");
    }

    /** Whether a cell of a row of units is one. */
    static boolean isUnit(String cell) {
        String said = withoutBrackets(cell.strip());
        return MeasuringUnit.find(said).isPresent()
                || ElapsedUnit.find(said).isPresent()
                || otherUnit(said).isPresent();
    }

    /** Whether a cell of a row of units tells how a date or time is written, as {@code hh:mm:ss} does. */
    static boolean isTimeFormat(String cell) {
        String said = withoutBrackets(cell.strip()).toLowerCase(Locale.ROOT);
        if (said.length() < 2 || said.length() > 24) {
            return false;
        }
        for (int i = 0; i < said.length(); i++) {
            if ("ymdhstj:-/. _f".indexOf(said.charAt(i)) < 0) {
                return false;
            }
        }
        return said.contains("mm") || said.contains("hh") || said.contains("dd") || said.contains("yy");
    }

    /** Whether only a letter such as the V of volt was found, which as likely is the name of a probe. */
    private boolean isLetterOfOtherUnit() {
        return otherUnit.isPresent()
                && otherUnit.get().length() == 1
                && !otherUnit.get().equals("%");
    }

    /** Whether no unit of any kind was found. */
    boolean isSilent() {
        return unit.isEmpty() && elapsed.isEmpty() && otherUnit.isEmpty();
    }

    /** Whether the name speaks of time: such a column of plain numbers counts time. */
    boolean namesTime() {
        return switch (plainName()) {
            case "t",
                    "time",
                    "elapsed",
                    "elapsed time",
                    "run time",
                    "runtime",
                    "duration",
                    "seconds",
                    "sec",
                    "minutes",
                    "timestamp",
                    "time stamp",
                    "zeit",
                    "unix",
                    "unix time",
                    "epoch",
                    "temps",
                    "tiempo",
                    "tempo" -> true;
            default -> plainName().startsWith("elapsed") || plainName().startsWith("time ");
        };
    }

    /** Whether the name speaks of seconds since 1970. */
    boolean namesUnixTime() {
        return plainName().contains("unix") || plainName().contains("epoch");
    }

    /** Whether the name says that the clock runs in UTC. */
    boolean namesUtc() {
        for (String word : full.toLowerCase(Locale.ROOT)
                .replace('(', ' ')
                .replace(')', ' ')
                .replace('[', ' ')
                .replace(']', ' ')
                .replace('_', ' ')
                .split(" ", -1)) {
            if (word.equals("utc") || word.equals("gmt")) {
                return true;
            }
        }
        return false;
    }

    /** Whether the name is one that a running number has. */
    boolean namesRunningNumber() {
        return switch (plainName()) {
            case "#",
                    "no",
                    "no.",
                    "nr",
                    "nr.",
                    "n",
                    "n°",
                    "index",
                    "idx",
                    "row",
                    "record",
                    "sample",
                    "sample no",
                    "sample no.",
                    "reading",
                    "count",
                    "scan",
                    "scan no",
                    "id",
                    "lfd",
                    "lfd.",
                    "lfd nr",
                    "numero" -> true;
            default -> false;
        };
    }

    /** Whether the name speaks of the date. */
    boolean namesDate() {
        return switch (plainName()) {
            case "date", "datum", "fecha", "data", "date/time", "date time", "datetime" -> true;
            default -> plainName().startsWith("date and time");
        };
    }

    /** Whether the first cell of a row says that units stand behind it. */
    static boolean isLabelOfUnits(String cell) {
        return switch (withoutBrackets(cell.strip()).toLowerCase(Locale.ROOT)) {
            case "unit", "units", "unit:", "units:", "einheit", "einheiten", "unité", "unités", "unidad", "unità" ->
                true;
            default -> false;
        };
    }

    /** Whether the name says that the column tells whose reading stands beside it. */
    boolean namesChannel() {
        return switch (plainName()) {
            case "channel",
                    "channel name",
                    "channel no",
                    "channel id",
                    "ch",
                    "sensor",
                    "sensor name",
                    "sensor id",
                    "probe",
                    "point",
                    "measuring point",
                    "tag",
                    "variable",
                    "parameter",
                    "kanal",
                    "fühler",
                    "messstelle",
                    "voie",
                    "canal",
                    "capteur",
                    "sonde",
                    "canale",
                    "sonda",
                    "sensore" -> true;
            default -> false;
        };
    }

    /** Whether the name speaks of a temperature. */
    boolean namesTemperature() {
        String plain = plainName();
        return plain.contains("temp")
                || (plain.startsWith("t") && (plain.length() == 1 || !Character.isLetter(plain.charAt(1))));
    }

    /** Whether the name speaks of a pressure. */
    boolean namesPressure() {
        String plain = plainName();
        return plain.contains("press")
                || plain.contains("druck")
                || (plain.startsWith("p") && (plain.length() == 1 || !Character.isLetter(plain.charAt(1))));
    }

    private String plainName() {
        return name.toLowerCase(Locale.ROOT).replace('_', ' ').strip();
    }

    /** Adds absolute or gauge if words say so and the unit does not yet. */
    private Heading countedAs(String words) {
        if (unit.isEmpty() || unit.get().reference().isPresent() || unit.get().quantity() != Quantity.PRESSURE) {
            return this;
        }
        Optional<PressureReference> counted = counted(words);
        if (counted.isEmpty()) {
            return this;
        }
        return new Heading(full, name, Optional.of(unit.get().with(counted.get())), elapsed, otherUnit, unread);
    }

    private static boolean isCounted(String words) {
        return words.equalsIgnoreCase("a")
                || words.equalsIgnoreCase("g")
                || (counted(words).isPresent() && MeasuringUnit.find(words).isEmpty());
    }

    private static Optional<PressureReference> counted(String words) {
        boolean isAbsolute = false;
        boolean isGauge = false;
        int start = 0;
        String lower = words.toLowerCase(Locale.ROOT);
        for (int i = 0; i <= lower.length(); i++) {
            if (i == lower.length() || !Character.isLetter(lower.charAt(i))) {
                switch (lower.substring(start, i)) {
                    case "abs", "absolute", "absolut" -> isAbsolute = true;
                    case "gauge", "gage", "rel", "relative", "relativ" -> isGauge = true;
                    default -> {}
                }
                start = i + 1;
            }
        }
        if (isAbsolute == isGauge) {
            return Optional.empty();
        }
        return Optional.of(isAbsolute ? PressureReference.ABSOLUTE : PressureReference.GAUGE);
    }

    /** Where the last bracket opens if the text ends with its closing partner; -1 otherwise. */
    private static int openingOf(String full) {
        char close = full.charAt(full.length() - 1);
        char open = close == ')' ? '(' : close == ']' ? '[' : close == '}' ? '{' : 0;
        if (open == 0) {
            return -1;
        }
        int depth = 0;
        for (int i = full.length() - 1; i >= 0; i--) {
            if (full.charAt(i) == close) {
                depth++;
            } else if (full.charAt(i) == open && --depth == 0) {
                return i;
            }
        }
        return -1;
    }

    private static String withoutBrackets(String text) {
        return text.length() > 2 && openingOf(text) == 0
                ? text.substring(1, text.length() - 1).strip()
                : text;
    }

    /** Units that a logger may also record and that no criterion uses. */
    private static Optional<String> otherUnit(String said) {
        return switch (said.toLowerCase(Locale.ROOT)) {
            case "%",
                    "%rh",
                    "% rh",
                    "%rf",
                    "rh%",
                    "%hr",
                    "v",
                    "mv",
                    "a",
                    "ma",
                    "w",
                    "kw",
                    "ohm",
                    "\u03c9",
                    "kohm",
                    "hz",
                    "rpm",
                    "l/min",
                    "ml/min",
                    "µs/cm",
                    "us/cm",
                    "ppm",
                    "kg",
                    "g",
                    "mm",
                    "dbm",
                    "lux",
                    "m/s" -> Optional.of(said);
            default -> Optional.empty();
        };
    }
}
