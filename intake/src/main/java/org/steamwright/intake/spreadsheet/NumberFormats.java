package org.steamwright.intake.spreadsheet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.xml.stream.XMLStreamConstants;
import org.steamwright.intake.MeasuringUnit;
import org.steamwright.intake.UnreadableFileException;

/**
 * What the number formats of a workbook say about cells: that a number is a day or a time of day, and the unit that a
 * format writes behind it.
 *
 * @source ISO/IEC 29500-1, 18.8.30 (numbers of the built-in formats) and 18.8.31 (format codes), from memory
 */
final class NumberFormats {

    private static final int MOST = 100_000;

    private final List<Format> byStyle;

    private NumberFormats(List<Format> byStyle) {
        this.byStyle = byStyle;
    }

    /** What a number with a format is. */
    enum Kind {
        NUMBER,
        DATE,
        DATE_AND_TIME,
        /** A time of day, or hours and minutes that may exceed a day. */
        TIME,
        /** Shown as written, whatever it looks like. */
        TEXT
    }

    /**
     * A format.
     *
     * @param kind what the number is
     * @param unit written behind the number; empty text if no unit of temperature or pressure
     */
    record Format(Kind kind, String unit) {}

    private static final Format PLAIN = new Format(Kind.NUMBER, "");

    /** No formats: every number is a number. */
    static NumberFormats none() {
        return new NumberFormats(List.of());
    }

    /** The format of a cell by its style. */
    Format of(int style) {
        return style >= 0 && style < byStyle.size() ? byStyle.get(style) : PLAIN;
    }

    /** Reads the part with styles to its end. */
    static NumberFormats read(PartXml xml) throws UnreadableFileException {
        Map<Integer, Format> custom = new HashMap<>();
        List<Format> byStyle = new ArrayList<>();
        boolean isInCells = false;
        int event = xml.next();
        while (event != XMLStreamConstants.END_DOCUMENT) {
            if (event == XMLStreamConstants.START_ELEMENT) {
                switch (xml.name()) {
                    case "numFmt" -> {
                        if (custom.size() < MOST) {
                            custom.put(number(xml.attribute("numFmtId")), ofCode(xml.attribute("formatCode")));
                        }
                    }
                    case "cellXfs" -> isInCells = true;
                    case "xf" -> {
                        if (isInCells && byStyle.size() < MOST) {
                            int id = number(xml.attribute("numFmtId"));
                            byStyle.add(custom.containsKey(id) ? custom.get(id) : builtIn(id));
                        }
                    }
                    default -> {
                        // fonts, fills, borders
                    }
                }
            } else if (event == XMLStreamConstants.END_ELEMENT && xml.name().equals("cellXfs")) {
                isInCells = false;
            }
            event = xml.next();
        }
        return new NumberFormats(byStyle);
    }

    private static int number(String text) {
        int value = 0;
        for (int i = 0; i < text.length(); i++) {
            char c = text.charAt(i);
            if (c < '0' || c > '9' || value > 10_000_000) {
                return -1;
            }
            value = value * 10 + (c - '0');
        }
        return text.isEmpty() ? -1 : value;
    }

    private static Format builtIn(int id) {
        Kind kind = switch (id) {
            case 14, 15, 16, 17, 27, 28, 29, 30, 31, 36, 50, 51, 52, 53, 54, 55, 56, 57, 58 -> Kind.DATE;
            case 18, 19, 20, 21, 32, 33, 34, 35, 45, 46, 47 -> Kind.TIME;
            case 22 -> Kind.DATE_AND_TIME;
            case 49 -> Kind.TEXT;
            default -> Kind.NUMBER;
        };
        return new Format(kind, "");
    }

    /** Reads a format code by its first section. */
    static Format ofCode(String code) {
        boolean hasDate = false;
        boolean hasTime = false;
        boolean hasMonthOrMinute = false;
        boolean hasDigit = false;
        StringBuilder behind = new StringBuilder();
        int at = 0;
        while (at < code.length() && code.charAt(at) != ';') {
            char c = code.charAt(at++);
            switch (c) {
                case '"' -> {
                    int end = code.indexOf('"', at);
                    end = end < 0 ? code.length() : end;
                    behind.append(code, at, end);
                    at = Math.min(end + 1, code.length());
                }
                case '\\' -> {
                    if (at < code.length()) {
                        behind.append(code.charAt(at++));
                    }
                }
                case '_', '*' -> at = Math.min(at + 1, code.length());
                case '[' -> {
                    int end = code.indexOf(']', at);
                    end = end < 0 ? code.length() : end;
                    hasTime |= isElapsed(code.substring(at, end));
                    at = Math.min(end + 1, code.length());
                }
                case '0', '#', '?' -> {
                    hasDigit = true;
                    behind.setLength(0);
                }
                case 'y', 'Y', 'd', 'D' -> hasDate = true;
                case 'h', 'H', 's', 'S' -> hasTime = true;
                case 'm', 'M' -> hasMonthOrMinute = true;
                case '@' -> {
                    return new Format(Kind.TEXT, "");
                }
                default -> behind.append(c);
            }
        }
        if (hasDate || hasTime) {
            return new Format(!hasTime ? Kind.DATE : hasDate ? Kind.DATE_AND_TIME : Kind.TIME, "");
        }
        if (hasMonthOrMinute && !hasDigit) {
            return new Format(Kind.DATE, "");
        }
        Optional<MeasuringUnit> unit = MeasuringUnit.find(behind.toString());
        return unit.isPresent() ? new Format(Kind.NUMBER, behind.toString().strip()) : PLAIN;
    }

    /** Whether brackets hold hours, minutes or seconds that count on beyond a day. */
    private static boolean isElapsed(String inside) {
        if (inside.isEmpty() || inside.length() > 4) {
            return false;
        }
        for (int i = 0; i < inside.length(); i++) {
            char c = (char) (inside.charAt(i) | 0x20);
            if (c != 'h' && c != 'm' && c != 's') {
                return false;
            }
        }
        return true;
    }
}
