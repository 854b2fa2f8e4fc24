package org.steamwright.intake.table;

import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.MeasuringUnit;

/** What a cell looks like before anybody knows its column. */
public enum CellKind {
    EMPTY,
    /** A number with either decimal mark, with or without a unit behind. */
    NUMBER,
    /** A word for a missing reading. */
    NO_READING,
    /** Date and time. */
    STAMP,
    DATE,
    TIME,
    TEXT;

    /** Looks at cells one after the other with the same scratch space. */
    public static final class Looker {
        private final NumberText number = new NumberText();
        private final StampText stamp = new StampText();

        /** What a cell looks like; outer blanks don't matter. */
        public CellKind look(String cell) {
            String text = cell.strip();
            if (text.isEmpty()) {
                return EMPTY;
            }
            char[] c = text.toCharArray();
            if (stamp.read(c, 0, c.length)) {
                return stamp.hasDate ? (stamp.hasTime ? STAMP : DATE) : TIME;
            }
            if (isNumber(c, DecimalMark.POINT) || isNumber(c, DecimalMark.COMMA)) {
                return NUMBER;
            }
            return NumberText.meaningOf(text).isEmpty() ? TEXT : NO_READING;
        }

        private boolean isNumber(char[] c, DecimalMark mark) {
            if (!number.read(c, 0, c.length, mark, true)) {
                return false;
            }
            return number.end == c.length
                    || MeasuringUnit.find(new String(c, number.end, c.length - number.end))
                            .isPresent();
        }

        /** The unit behind a number; empty text if there is none or it is no number. */
        String unitBehind(String cell, DecimalMark mark) {
            char[] c = cell.strip().toCharArray();
            if (!number.read(c, 0, c.length, mark, true) || number.end == c.length) {
                return "";
            }
            return new String(c, number.end, c.length - number.end).strip();
        }
    }

    /** Whether a column of readings may hold it. */
    boolean isNumeric() {
        return this == NUMBER;
    }

    /** Whether a time column may hold it. */
    boolean isTime() {
        return this == STAMP || this == DATE || this == TIME;
    }

    /** Whether it says nothing about its column. */
    boolean isNeutral() {
        return this == EMPTY || this == NO_READING;
    }
}
