package org.steamwright.intake.xml;

import java.io.ByteArrayInputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Locale;

/**
 * A stream that ends with an error at the first byte that is no UTF-8. The parser would find it too, but the one of the Java
 * runtime writes a line to the standard error of the program when it does.
 */
final class Utf8Check extends FilterInputStream {

    private static final int LOOKED_AT = 128;

    private int missing;
    private int lowest = 0x80;
    private int highest = 0xBF;

    private Utf8Check(InputStream in) {
        super(in);
    }

    /** The same bytes, checked if the document is in UTF-8: neither marked nor declared as anything else. */
    static InputStream of(InputStream in) throws IOException {
        byte[] begin = in.readNBytes(LOOKED_AT);
        InputStream whole = new SequenceInputStream(new ByteArrayInputStream(begin), in);
        return isUtf8(begin) ? new Utf8Check(whole) : whole;
    }

    private static boolean isUtf8(byte[] begin) {
        if (begin.length > 1) {
            int first = ((begin[0] & 0xFF) << 8) | (begin[1] & 0xFF);
            if (first == 0xFEFF || first == 0xFFFE || first == '<' || first == ('<' << 8) || first == 0) {
                return false;
            }
        }
        String declaration = new String(begin, StandardCharsets.ISO_8859_1).toLowerCase(Locale.ROOT);
        int end = declaration.indexOf("?>");
        int encoding = declaration.indexOf("encoding");
        if (!declaration.contains("<?xml") || encoding < 0 || (end >= 0 && encoding > end)) {
            return true;
        }
        String named = declaration.substring(encoding, end < 0 ? declaration.length() : end);
        return named.contains("utf") || named.contains("ucs");
    }

    @Override
    public int read() throws IOException {
        int value = super.read();
        if (value >= 0) {
            check(value);
        }
        return value;
    }

    @Override
    public int read(byte[] into, int from, int length) throws IOException {
        int n = super.read(into, from, length);
        for (int i = from; i < from + n; i++) {
            byte b = into[i];
            if (b < 0 || missing > 0) {
                check(b & 0xFF);
            }
        }
        return n;
    }

    @Override
    public boolean markSupported() {
        return false;
    }

    /**
     * One byte after those before it.
     *
     * @source The Unicode Standard, table 3-7, well-formed UTF-8 byte sequences
     */
    private void check(int value) throws IOException {
        if (missing > 0) {
            if (value < lowest || value > highest) {
                throw new IOException("a byte that is no UTF-8");
            }
            missing--;
            lowest = 0x80;
            highest = 0xBF;
        } else if (value >= 0x80) {
            if (value < 0xC2 || value > 0xF4) {
                throw new IOException("a byte that is no UTF-8");
            }
            missing = value < 0xE0 ? 1 : value < 0xF0 ? 2 : 3;
            lowest = value == 0xE0 ? 0xA0 : value == 0xF0 ? 0x90 : 0x80;
            highest = value == 0xED ? 0x9F : value == 0xF4 ? 0x8F : 0xBF;
        }
    }
}
