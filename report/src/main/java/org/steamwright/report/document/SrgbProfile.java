package org.steamwright.report.document;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;

/**
 * A colour profile for sRGB, made here so that the report's bytes do not depend on the Java that printed it.
 *
 * @source ICC.1:2001-04 layout of a version 2 display profile; IEC 61966-2-1 tone curve and primaries adapted to D50
 *     (texts not seen; values from memory, the finished profile is read back by a reference library in the tests)
 */
final class SrgbProfile {

    private static final int HEADER = 128;
    private static final int CURVE_POINTS = 256;
    private static final double[] WHITE = {0.9642, 1.0, 0.8249};
    private static final double[] RED = {0.4360747, 0.2225045, 0.0139322};
    private static final double[] GREEN = {0.3850649, 0.7168786, 0.0971045};
    private static final double[] BLUE = {0.1430804, 0.0606169, 0.7141733};

    private SrgbProfile() {}

    /** The profile as a file. */
    static byte[] bytes() {
        byte[] description = description("sRGB IEC61966-2.1, made by Steamwright");
        byte[] copyright = text("No copyright, use freely");
        byte[] curve = curve();
        String[] names = {"desc", "cprt", "wtpt", "rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC"};
        byte[][] blocks = {description, copyright, xyz(WHITE), xyz(RED), xyz(GREEN), xyz(BLUE), curve};
        int[] block = {0, 1, 2, 3, 4, 5, 6, 6, 6};
        int[] offsets = new int[blocks.length];
        int size = HEADER + 4 + 12 * names.length;
        for (int i = 0; i < blocks.length; i++) {
            offsets[i] = size;
            size += blocks[i].length;
        }
        ByteBuffer out = ByteBuffer.allocate(size);
        header(out, size);
        out.position(HEADER);
        out.putInt(names.length);
        for (int i = 0; i < names.length; i++) {
            ascii(out, names[i]);
            out.putInt(offsets[block[i]]).putInt(blocks[block[i]].length);
        }
        for (byte[] content : blocks) {
            out.put(content);
        }
        return out.array();
    }

    private static void header(ByteBuffer out, int size) {
        out.putInt(size);
        out.putInt(0);
        out.putInt(0x02400000);
        ascii(out, "mntr");
        ascii(out, "RGB ");
        ascii(out, "XYZ ");
        for (short part : new short[] {2026, 1, 1, 0, 0, 0}) {
            out.putShort(part);
        }
        ascii(out, "acsp");
        out.position(68);
        for (double part : WHITE) {
            out.putInt(fixed(part));
        }
    }

    private static byte[] curve() {
        ByteBuffer out = ByteBuffer.allocate(12 + 2 * CURVE_POINTS);
        ascii(out, "curv");
        out.putInt(0).putInt(CURVE_POINTS);
        for (int i = 0; i < CURVE_POINTS; i++) {
            double v = i / (CURVE_POINTS - 1.0);
            double linear = v <= 0.04045 ? v / 12.92 : StrictMath.pow((v + 0.055) / 1.055, 2.4);
            out.putShort((short) Math.round(linear * 65535));
        }
        return out.array();
    }

    private static byte[] xyz(double[] parts) {
        ByteBuffer out = ByteBuffer.allocate(20);
        ascii(out, "XYZ ");
        out.putInt(0);
        for (double part : parts) {
            out.putInt(fixed(part));
        }
        return out.array();
    }

    private static byte[] text(String words) {
        return padded("text", 0, words.getBytes(StandardCharsets.US_ASCII), 1);
    }

    private static byte[] description(String words) {
        byte[] ascii = words.getBytes(StandardCharsets.US_ASCII);
        return padded("desc", ascii.length + 1, ascii, 1 + 4 + 4 + 2 + 1 + 67);
    }

    /** Type, reserved word, length where the type has one, the text, its closing zeros, up to a multiple of four. */
    private static byte[] padded(String type, int length, byte[] words, int zeros) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.writeBytes(type.getBytes(StandardCharsets.US_ASCII));
        out.writeBytes(new byte[4]);
        if (length > 0) {
            out.writeBytes(ByteBuffer.allocate(4).putInt(length).array());
        }
        out.writeBytes(words);
        out.writeBytes(new byte[zeros]);
        while (out.size() % 4 != 0) {
            out.write(0);
        }
        return out.toByteArray();
    }

    private static void ascii(ByteBuffer out, String words) {
        out.put(words.getBytes(StandardCharsets.US_ASCII));
    }

    private static int fixed(double value) {
        return (int) Math.round(value * 65536);
    }
}
