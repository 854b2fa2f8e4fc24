package org.steamwright.report.plot;

import java.util.ArrayList;
import java.util.List;
import org.steamwright.report.language.Speaker;

/** Where a drawing is made, mark by mark. */
final class Canvas {

    private static final List<Double> SOLID = List.of();

    private final double width;
    private final double height;
    private final Speaker speaker;
    private final List<Mark> marks = new ArrayList<>();

    /** @param speaker who says its words */
    Canvas(double width, double height, Speaker speaker) {
        this.width = width;
        this.height = height;
        this.speaker = speaker;
    }

    double width() {
        return width;
    }

    void line(double x1, double y1, double x2, double y2, double stroke, Ink ink) {
        line(Outline.line(x1, y1, x2, y2), stroke, ink, SOLID);
    }

    void line(Outline outline, double stroke, Ink ink, List<Double> dashes) {
        if (outline.size() > 1) {
            marks.add(new Mark.Line(outline, stroke, ink, dashes));
        }
    }

    void area(Outline outline, Ink ink) {
        if (outline.size() > 2) {
            marks.add(new Mark.Area(outline, ink));
        }
    }

    void dot(double x, double y, double radius, Ink ink) {
        marks.add(new Mark.Dot(x, y, radius, ink));
    }

    /** A text as it will stand in the drawing. */
    String said(String text) {
        return speaker.say(text);
    }

    void words(double x, double y, String text, double size, Mark.Anchor anchor, Mark.Face face, Ink ink) {
        if (!text.isBlank()) {
            marks.add(new Mark.Words(x, y, said(text), size, anchor, face, ink));
        }
    }

    Drawing toDrawing(String title, String description) {
        return new Drawing(width, height, said(title), said(description), marks);
    }
}
