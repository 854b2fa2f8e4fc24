package org.steamwright.desk.accounts;

/**
 * Bytes as capital letters and digits.
 *
 * @source RFC 4648, section 6, without padding
 */
final class Base32 {

    private static final String SIGNS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
    private static final int BITS = 5;

    private Base32() {}

    static String text(byte[] bytes) {
        StringBuilder text = new StringBuilder();
        int waiting = 0;
        int held = 0;
        for (byte one : bytes) {
            waiting = ((waiting << Byte.SIZE) | (one & 0xFF)) & 0xFFFF;
            held += Byte.SIZE;
            while (held >= BITS) {
                held -= BITS;
                text.append(SIGNS.charAt((waiting >> held) & (SIGNS.length() - 1)));
            }
        }
        if (held > 0) {
            text.append(SIGNS.charAt((waiting << (BITS - held)) & (SIGNS.length() - 1)));
        }
        return text.toString();
    }
}
