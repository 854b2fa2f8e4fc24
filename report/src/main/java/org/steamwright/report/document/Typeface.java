package org.steamwright.report.document;

import java.io.IOException;
import java.io.InputStream;
import java.util.EnumMap;
import java.util.Map;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.steamwright.report.plot.Mark.Face;

/**
 * The one text face of the report, in three cuts, embedded as subsets.
 *
 * <p>DejaVu Serif Condensed: a true italic, figures of one width, Latin, Greek and Cyrillic.
 */
final class Typeface {

    static final String FAMILY = "Report";

    private static final String FOLDER = "/net/sf/jasperreports/fonts/dejavu/DejaVuSerifCondensed";

    private final Map<Face, PDType0Font> fonts = new EnumMap<>(Face.class);

    private Typeface() {}

    /** Reads the cuts into a document. */
    static Typeface embed(PDDocument document) throws IOException {
        Typeface typeface = new Typeface();
        for (Face face : Face.values()) {
            typeface.fonts.put(face, PDType0Font.load(document, read(face), true));
        }
        return typeface;
    }

    PDType0Font font(Face face) {
        PDType0Font font = fonts.get(face);
        if (font == null) {
            throw new IllegalStateException("no cut " + face);
        }
        return font;
    }

    /** The text with what the face can't show replaced by a hollow square. */
    static String printable(PDType0Font font, String text) throws IOException {
        StringBuilder shown = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); ) {
            int c = text.codePointAt(i);
            i += Character.charCount(c);
            shown.appendCodePoint(font.hasGlyph(c) ? c : REPLACEMENT.codePointAt(0));
        }
        return shown.toString();
    }

    /** Stands where the face has no sign. */
    static final String REPLACEMENT = "□";

    private static TrueTypeFont read(Face face) throws IOException {
        String resource = FOLDER
                + switch (face) {
                    case REGULAR -> "";
                    case BOLD -> "-Bold";
                    case ITALIC -> "-Italic";
                }
                + ".ttf";
        try (InputStream in = Typeface.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IOException("the type face " + resource + " is missing from the installation");
            }
            TrueTypeFont font = new TTFParser().parse(new RandomAccessReadBuffer(in.readAllBytes()));
            font.setEnableGsub(false);
            return font;
        }
    }
}
