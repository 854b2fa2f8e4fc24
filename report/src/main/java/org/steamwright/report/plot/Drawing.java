package org.steamwright.report.plot;

import java.util.List;

/**
 * A finished drawing.
 *
 * @param width in points
 * @param height in points
 * @param title its message, one sentence
 * @param description what is to be seen, for those who can't see it; never blank
 * @param marks in the order in which they are drawn
 */
public record Drawing(double width, double height, String title, String description, List<Mark> marks) {

    public Drawing {
        marks = List.copyOf(marks);
        if (description.isBlank()) {
            throw new IllegalArgumentException("a drawing describes itself");
        }
    }
}
