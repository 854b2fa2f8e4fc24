package org.steamwright.report.plot;

import org.steamwright.report.language.Speaker;

/** The frame of a word on hatched ground, for what a page can't draw by itself. */
public final class VerdictFrame {

    private static final double HEIGHT = 13;
    private static final double SIZE = 8;
    private static final double STEP = 3.2;

    private VerdictFrame() {}

    /** A word on hatched ground. */
    public static Drawing hatched(String word) {
        double text = 0.56 * SIZE * word.length();
        double width = text + 22;
        Canvas canvas = new Canvas(width, HEIGHT, Speaker.ENGLISH);
        for (double x = -HEIGHT + STEP; x < width; x += STEP) {
            double x1 = Math.max(0.3, x);
            double x2 = Math.min(width - 0.3, x + HEIGHT);
            canvas.line(x1, HEIGHT - (x1 - x), x2, HEIGHT - (x2 - x), 0.45, Ink.BLACK);
        }
        canvas.area(Outline.box(8, 1.6, width - 16, HEIGHT - 3.2), Ink.PAPER);
        double edge = 0.35;
        canvas.line(edge, edge, width - edge, edge, 0.6, Ink.BLACK);
        canvas.line(edge, HEIGHT - edge, width - edge, HEIGHT - edge, 0.6, Ink.BLACK);
        canvas.line(edge, edge, edge, HEIGHT - edge, 0.6, Ink.BLACK);
        canvas.line(width - edge, edge, width - edge, HEIGHT - edge, 0.6, Ink.BLACK);
        canvas.words(width / 2, 9.2, word, SIZE, Mark.Anchor.MIDDLE, Mark.Face.REGULAR, Ink.BLACK);
        return canvas.toDrawing(word, word);
    }
}
