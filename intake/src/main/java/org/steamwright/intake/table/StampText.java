package org.steamwright.intake.table;

import java.util.HashMap;
import java.util.Locale;
import java.util.Map;

/**
 * Takes a date, a time of day or both out of a cell, without deciding which of two numbers is the day. Reused from cell
 * to cell; the fields tell about the last one.
 */
final class StampText {

    static final int NO_OFFSET = Integer.MIN_VALUE;

    private static final long NANOS_PER_SECOND = 1_000_000_000L;
    private static final String[] MONTHS = {
        "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"
    };
    private static final String[] MONTHS_IN_FULL = {
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december"
    };

    /** German, French, Spanish, Italian, Portuguese and Dutch; a class of its own, so that most files never load it. */
    private static final class MonthsElsewhere {
        private static final Map<String, Integer> BY_NAME = byName(
                "jänner januar janv janvier ene enero gen gennaio janeiro januari",
                "februar févr février fevr fevrier febrero febbraio fev fevereiro februari",
                "mär märz mrz maerz mars marzo março marco mrt maart",
                "avr avril abr abril aprile",
                "mai mayo mag maggio maio mei",
                "juni juin junio giu giugno junho",
                "juli juil juillet julio lug luglio julho",
                "août aout ago agosto augustus",
                "sept septembre septiembre set settembre setembro",
                "okt oktober octobre octubre ott ottobre out outubro",
                "novembre noviembre novembro",
                "dez dezember déc décembre decembre dic diciembre dicembre dezembro");

        private static Map<String, Integer> byName(String... names) {
            Map<String, Integer> byName = new HashMap<>();
            for (int m = 0; m < names.length; m++) {
                for (String name : names[m].split(" ", -1)) {
                    byName.put(name, m + 1);
                }
            }
            return byName;
        }
    }

    boolean hasDate;
    boolean hasTime;
    /** The three numbers of the date in the order written, and with how many digits; a month by name has 0 digits. */
    int first;

    int second;
    int third;
    int firstDigits;
    int secondDigits;
    int thirdDigits;
    /** Since midnight, or elapsed: hours may exceed 23 where there is no date. */
    long nanos;
    /** Whether seconds were written. */
    boolean hasSeconds;
    /** Offset from UTC in seconds, {@link #NO_OFFSET} if none is written. */
    int offsetSeconds;

    private char[] c = {};
    private int at;
    private int to;

    /** Reads a whole cell without outer blanks; false if anything in it is neither date nor time. */
    boolean read(char[] chars, int from, int end) {
        c = chars;
        at = from;
        to = end;
        hasDate = false;
        hasTime = false;
        hasSeconds = false;
        nanos = 0;
        offsetSeconds = NO_OFFSET;
        if (to - from < 4 || to - from > 48) {
            return false;
        }
        if (readIso()) {
            return at == to || readRest();
        }
        at = from;
        boolean isNegative = false;
        if (c[at] == '-') {
            isNegative = true;
            at++;
        }
        if (!isNegative && readDate()) {
            hasDate = true;
            if (at == to) {
                return true;
            }
            return skipBetween() && readTime() && at == to;
        }
        if (isNegative || !readTime()) {
            return false;
        }
        if (at == to) {
            return true;
        }
        if (!skipBetween() || !readDate()) {
            return false;
        }
        hasDate = true;
        return at == to && nanos < 86_400 * NANOS_PER_SECOND;
    }

    /** The common form yyyy-MM-dd?HH:mm:ss, without calls. */
    private boolean readIso() {
        if (to - at < 19
                || c[at + 4] != '-'
                || c[at + 7] != '-'
                || c[at + 13] != ':'
                || c[at + 16] != ':'
                || (c[at + 10] != 'T' && c[at + 10] != ' ')) {
            return false;
        }
        int year = two(at) * 100 + two(at + 2);
        int month = two(at + 5);
        int day = two(at + 8);
        int hour = two(at + 11);
        int minute = two(at + 14);
        int sec = two(at + 17);
        if ((year | month | day | hour | minute | sec) < 0 || hour > 23 || minute > 59 || sec > 59) {
            return false;
        }
        hasDate = true;
        hasTime = true;
        hasSeconds = true;
        first = year;
        second = month;
        third = day;
        firstDigits = 4;
        secondDigits = 2;
        thirdDigits = 2;
        nanos = (hour * 3600L + minute * 60L + sec) * NANOS_PER_SECOND;
        at += 19;
        return true;
    }

    /** Two digits at a place; a large negative number if they are none. */
    private int two(int i) {
        int tens = c[i] - '0';
        int ones = c[i + 1] - '0';
        return tens < 0 || tens > 9 || ones < 0 || ones > 9 ? -100_000 : tens * 10 + ones;
    }

    private boolean readRest() {
        return readFraction() && readHalfOfDay(-1) && readOffset() && at == to;
    }

    private boolean readDate() {
        int start = at;
        if (!readPart(1)) {
            at = start;
            return false;
        }
        char between = at < to ? c[at] : 0;
        if (!isBetween(between) || !skipBetweenParts() || !readPart(2)) {
            at = start;
            return false;
        }
        char again = at < to ? c[at] : 0;
        boolean isSame = again == between || again == ' ' || again == ',' || secondDigits == 0 || firstDigits == 0;
        if (!isBetween(again) || !isSame || !skipBetweenParts() || !readPart(3)) {
            at = start;
            return false;
        }
        int names = (firstDigits == 0 ? 1 : 0) + (secondDigits == 0 ? 1 : 0) + (thirdDigits == 0 ? 1 : 0);
        if (names > 1 || thirdDigits == 0) {
            at = start;
            return false;
        }
        return true;
    }

    private static boolean isBetween(char between) {
        return between == '-' || between == '/' || between == '.' || between == ' ' || between == ',';
    }

    private boolean skipBetweenParts() {
        int start = at;
        while (at < to && at - start < 2 && isBetween(c[at])) {
            at++;
        }
        return at > start;
    }

    private boolean readPart(int place) {
        int value = 0;
        int start = at;
        while (at < to && at - start < 4 && c[at] >= '0' && c[at] <= '9') {
            value = value * 10 + (c[at] - '0');
            at++;
        }
        int digits = at - start;
        if (digits == 0) {
            value = readMonth();
            if (value == 0) {
                return false;
            }
        }
        if (digits == 3) {
            return false;
        }
        switch (place) {
            case 1 -> {
                first = value;
                firstDigits = digits;
            }
            case 2 -> {
                second = value;
                secondDigits = digits;
            }
            default -> {
                third = value;
                thirdDigits = digits;
            }
        }
        return true;
    }

    private int readMonth() {
        int end = at;
        while (end < to && (isLetter(c[end]) || Character.isLetter(c[end]))) {
            end++;
        }
        int length = end - at;
        if (length < 3 || length > 10) {
            return 0;
        }
        for (int m = 0; m < MONTHS.length; m++) {
            if (matches(MONTHS[m], length) || matches(MONTHS_IN_FULL[m], length)) {
                at = end;
                return m + 1;
            }
        }
        Integer elsewhere = MonthsElsewhere.BY_NAME.get(new String(c, at, length).toLowerCase(Locale.ROOT));
        if (elsewhere == null) {
            return 0;
        }
        at = end;
        if (at < to && c[at] == '.') {
            at++;
        }
        return elsewhere;
    }

    private boolean matches(String word, int length) {
        if (word.length() != length) {
            return false;
        }
        for (int i = 0; i < length; i++) {
            if ((c[at + i] | 0x20) != word.charAt(i)) {
                return false;
            }
        }
        return true;
    }

    private static boolean isLetter(char letter) {
        return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z');
    }

    private boolean skipBetween() {
        int start = at;
        while (at < to && (c[at] == ' ' || c[at] == ',' || c[at] == '\u00a0' || c[at] == '\t')) {
            at++;
        }
        if (at < to && at == start && (c[at] == 'T' || c[at] == 't' || c[at] == '_')) {
            at++;
        }
        return at > start;
    }

    private boolean readTime() {
        long hour = 0;
        int start = at;
        while (at < to && at - start < 4 && c[at] >= '0' && c[at] <= '9') {
            hour = hour * 10 + (c[at] - '0');
            at++;
        }
        if (at == start || at + 2 >= to || c[at] != ':') {
            return false;
        }
        int minute = two(at + 1);
        if (minute < 0 || minute > 59 || (hasDate && hour > 23)) {
            return false;
        }
        at += 3;
        int sec = 0;
        if (at < to && c[at] == ':') {
            if (at + 2 >= to) {
                return false;
            }
            sec = two(at + 1);
            if (sec < 0 || sec > 59) {
                return false;
            }
            at += 3;
            hasSeconds = true;
        }
        nanos = (hour * 3600 + minute * 60L + sec) * NANOS_PER_SECOND;
        hasTime = true;
        return (!hasSeconds || readFraction()) && readHalfOfDay(hour) && readOffset();
    }

    private boolean readFraction() {
        if (at >= to || (c[at] != '.' && c[at] != ',' && c[at] != ':')) {
            return true;
        }
        boolean isColon = c[at] == ':';
        int start = ++at;
        long fraction = 0;
        long size = NANOS_PER_SECOND;
        while (at < to && at - start < 9 && c[at] >= '0' && c[at] <= '9') {
            fraction = fraction * 10 + (c[at] - '0');
            size /= 10;
            at++;
        }
        if (at == start || (isColon && at - start != 3)) {
            return false;
        }
        nanos += fraction * size;
        return true;
    }

    /** AM and PM, where an hour is known that they can stand behind. */
    private boolean readHalfOfDay(long hour) {
        int i = at;
        while (i < to && (c[i] == ' ' || c[i] == '\u00a0' || c[i] == '\u202f')) {
            i++;
        }
        if (i >= to) {
            return true;
        }
        char half = (char) (c[i] | 0x20);
        if (half != 'a' && half != 'p') {
            return true;
        }
        i++;
        if (i < to && c[i] == '.') {
            i++;
        }
        if (i >= to || (c[i] | 0x20) != 'm') {
            return false;
        }
        i++;
        if (i < to && c[i] == '.') {
            i++;
        }
        if (hour < 1 || hour > 12) {
            return false;
        }
        long twelve = 43_200 * NANOS_PER_SECOND;
        if (half == 'p' && hour < 12) {
            nanos += twelve;
        } else if (half == 'a' && hour == 12) {
            nanos -= twelve;
        }
        at = i;
        return true;
    }

    /** Z, UTC, GMT, +hh, +hhmm or +hh:mm. */
    private boolean readOffset() {
        int i = at;
        while (i < to && c[i] == ' ') {
            i++;
        }
        if (i >= to) {
            return true;
        }
        if (c[i] == 'Z' || c[i] == 'z') {
            offsetSeconds = 0;
            at = i + 1;
            return true;
        }
        if (i + 2 < to && (matchesAt(i, "utc") || matchesAt(i, "gmt"))) {
            offsetSeconds = 0;
            i += 3;
            at = i;
            if (i >= to) {
                return true;
            }
        }
        if (c[i] != '+' && c[i] != '-' && c[i] != '\u2212') {
            return true;
        }
        boolean isWest = c[i] != '+';
        if (i + 2 >= to) {
            return false;
        }
        int hours = two(i + 1);
        i += 3;
        int minutes = 0;
        if (i < to && c[i] == ':') {
            i++;
        }
        if (i + 1 < to && c[i] >= '0' && c[i] <= '9') {
            minutes = two(i);
            i += 2;
        }
        if (hours < 0 || hours > 18 || minutes < 0 || minutes > 59) {
            return false;
        }
        offsetSeconds = (hours * 3600 + minutes * 60) * (isWest ? -1 : 1);
        at = i;
        return true;
    }

    private boolean matchesAt(int i, String word) {
        for (int k = 0; k < word.length(); k++) {
            if ((c[i + k] | 0x20) != word.charAt(k)) {
                return false;
            }
        }
        return true;
    }
}
