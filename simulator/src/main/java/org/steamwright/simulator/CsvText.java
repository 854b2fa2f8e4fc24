package org.steamwright.simulator;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;

/** Writes the rows of a logger's file, byte by byte: campaigns make many thousand of them. */
final class CsvText {
    private static final int MILLIS_PER_DAY = 86_400_000;
    private static final long[] POWERS = {1, 10, 100, 1000};

    private byte[] buffer = new byte[1 << 17];
    private int length;

    private final long startMillis;
    private final String offset;
    private long day = Long.MIN_VALUE;
    private byte[] date = new byte[0];

    /**
     * @param start moment zero
     * @param zone whose offset at that moment is written in every row
     */
    CsvText(Instant start, ZoneId zone) {
        ZoneOffset zoneOffset = zone.getRules().getOffset(start);
        startMillis = start.toEpochMilli() + zoneOffset.getTotalSeconds() * 1000L;
        offset = zoneOffset.getId();
    }

    void line(String text) {
        bytes(text.getBytes(StandardCharsets.UTF_8));
        put('\n');
    }

    /** A row of values at a moment in milliseconds from the start; NaN is an empty cell. */
    void row(long millis, boolean withFraction, double[] values, int[] decimals) {
        stamp(startMillis + millis, withFraction);
        for (int i = 0; i < values.length; i++) {
            put(',');
            if (!Double.isNaN(values[i])) {
                number(Math.round(values[i] * POWERS[decimals[i]]), decimals[i]);
            }
        }
        put('\n');
    }

    byte[] toBytes() {
        return Arrays.copyOf(buffer, length);
    }

    private void stamp(long millis, boolean withFraction) {
        long today = Math.floorDiv(millis, (long) MILLIS_PER_DAY);
        if (today != day) {
            day = today;
            date = LocalDate.ofEpochDay(today).toString().getBytes(StandardCharsets.US_ASCII);
        }
        int inDay = (int) Math.floorMod(millis, (long) MILLIS_PER_DAY);
        bytes(date);
        put('T');
        digits(inDay / 3_600_000, 2);
        put(':');
        digits(inDay / 60_000 % 60, 2);
        put(':');
        digits(inDay / 1000 % 60, 2);
        if (withFraction) {
            put('.');
            digits(inDay % 1000, 3);
        }
        for (int i = 0; i < offset.length(); i++) {
            put(offset.charAt(i));
        }
    }

    private void number(long scaled, int decimals) {
        long left = scaled;
        if (left < 0) {
            put('-');
            left = -left;
        }
        long whole = left / POWERS[decimals];
        int width = 1;
        while (width < 3 && whole >= POWERS[width]) {
            width++;
        }
        digits((int) whole, whole >= 1000 ? 6 : width);
        put('.');
        digits((int) (left % POWERS[decimals]), decimals);
    }

    private void digits(int value, int width) {
        ensure(width);
        int left = value;
        for (int i = width - 1; i >= 0; i--) {
            buffer[length + i] = (byte) ('0' + left % 10);
            left /= 10;
        }
        length += width;
    }

    private void bytes(byte[] text) {
        ensure(text.length);
        System.arraycopy(text, 0, buffer, length, text.length);
        length += text.length;
    }

    private void put(char sign) {
        ensure(1);
        buffer[length++] = (byte) sign;
    }

    private void ensure(int more) {
        if (length + more > buffer.length) {
            buffer = Arrays.copyOf(buffer, buffer.length * 2);
        }
    }
}
