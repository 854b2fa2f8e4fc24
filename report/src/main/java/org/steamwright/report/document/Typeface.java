package org.steamwright.report.document;

import java.io.IOException;
import java.io.InputStream;
import java.io.InterruptedIOException;
import java.util.EnumMap;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
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

    /** Begins to read the cuts, each in a thread of its own: reading takes longer than anything before it is needed. */
    static Reading read() {
        return new Reading();
    }

    /** Type faces on their way from the installation. */
    static final class Reading {
        private final Map<Face, FutureTask<TrueTypeFont>> tasks = new EnumMap<>(Face.class);

        private Reading() {
            for (Face face : Face.values()) {
                FutureTask<TrueTypeFont> task = new FutureTask<>(() -> Typeface.read(face));
                tasks.put(face, task);
                Thread thread = new Thread(task, "type face " + face);
                thread.setDaemon(true);
                thread.start();
            }
        }

        /** Waits for the cuts and puts them into a document. */
        Typeface embed(PDDocument document) throws IOException {
            Typeface typeface = new Typeface();
            for (Map.Entry<Face, FutureTask<TrueTypeFont>> entry : tasks.entrySet()) {
                typeface.fonts.put(entry.getKey(), PDType0Font.load(document, await(entry.getValue()), true));
            }
            return typeface;
        }

        private static TrueTypeFont await(FutureTask<TrueTypeFont> task) throws IOException {
            try {
                return task.get();
            } catch (ExecutionException e) {
                if (e.getCause() instanceof IOException cause) {
                    throw cause;
                }
                throw new IllegalStateException("reading a type face", e.getCause());
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                throw new InterruptedIOException("interrupted while a type face was read");
            }
        }
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
            shown.appendCodePoint(hasGlyph(font, c) ? c : REPLACEMENT.codePointAt(0));
        }
        return shown.toString();
    }

    /** By the letter: what the font itself is asked by is the number of a glyph. */
    private static boolean hasGlyph(PDType0Font font, int letter) throws IOException {
        try {
            return font.encode(Character.toString(letter)).length > 0;
        } catch (IllegalArgumentException none) {
            return false;
        }
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
