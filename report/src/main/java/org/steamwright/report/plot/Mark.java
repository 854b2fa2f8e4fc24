package org.steamwright.report.plot;

import java.util.List;

/** One mark of a drawing. Lengths are points, from the upper left corner. */
public sealed interface Mark {

    /** A stroke along an outline; no dashes is solid. */
    record Line(Outline outline, double width, Ink ink, List<Double> dashes) implements Mark {
        public Line {
            dashes = List.copyOf(dashes);
        }
    }

    /** A filled outline. */
    record Area(Outline outline, Ink ink) implements Mark {}

    /** A filled disc. */
    record Dot(double x, double y, double radius, Ink ink) implements Mark {}

    /** A line of text with its baseline at {@code y}. */
    record Words(double x, double y, String text, double size, Anchor anchor, Face face, Ink ink) implements Mark {}

    /** Which end of a text stands at its x. */
    enum Anchor {
        START("start"),
        MIDDLE("middle"),
        END("end");

        private final String word;

        Anchor(String word) {
            this.word = word;
        }

        /** As SVG says it. */
        public String word() {
            return word;
        }
    }

    /** Cuts of the one type face. */
    enum Face {
        REGULAR,
        BOLD,
        ITALIC
    }
}
