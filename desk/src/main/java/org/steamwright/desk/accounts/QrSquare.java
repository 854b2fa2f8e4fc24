package org.steamwright.desk.accounts;

import io.nayuki.qrcodegen.QrCode;

/**
 * A square of dots that a telephone reads, as one SVG path.
 *
 * @source ISO/IEC 18004, by the library qrcodegen
 */
final class QrSquare {

    private static final int BORDER = 4;

    private QrSquare() {}

    /**
     * The square as an SVG element; black on white in either mode of the screen, because cameras want it so.
     *
     * @param text to be read; must hold nothing that SVG would take for markup, which a path never does
     * @param label what it is, for readers that see no pictures; plain words
     */
    static String svg(String text, String label) {
        QrCode code = QrCode.encodeText(text, QrCode.Ecc.MEDIUM);
        StringBuilder path = new StringBuilder();
        for (int y = 0; y < code.size; y++) {
            for (int x = 0; x < code.size; x++) {
                if (code.getModule(x, y)) {
                    path.append('M')
                            .append(x + BORDER)
                            .append(' ')
                            .append(y + BORDER)
                            .append("h1v1h-1z");
                }
            }
        }
        int size = code.size + 2 * BORDER;
        return "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + size + " " + size
                + "\" width=\"220\" height=\"220\" role=\"img\" aria-label=\""
                + label.replace("&", "&amp;").replace("<", "&lt;").replace("\"", "&quot;")
                + "\"><path fill=\"#fff\" d=\"M0 0h" + size + "v" + size + "h-" + size + "z\"/><path fill=\"#000\" d=\""
                + path + "\"/></svg>";
    }
}
