package org.steamwright.intake.register;

/**
 * A text in a cell of a table. A spreadsheet runs what begins with an equals sign, a plus, a minus or an at sign; such a text is
 * written with an apostrophe before it, which is taken off again in reading.
 */
final class CellText {

    private static final String DANGEROUS = "=+-@\t\r\n";

    private CellText() {}

    /** The text as it may stand in a cell. */
    static String write(String text) {
        return isDangerousBehindApostrophes(text) ? "'" + text : text;
    }

    /** The text that a cell means, without outer blanks. */
    static String read(String cell) {
        String text = cell.startsWith("'") && isDangerousBehindApostrophes(cell) ? cell.substring(1) : cell;
        return text.strip();
    }

    private static boolean isDangerousBehindApostrophes(String text) {
        int at = 0;
        while (at < text.length() && text.charAt(at) == '\'') {
            at++;
        }
        return at < text.length() && DANGEROUS.indexOf(text.charAt(at)) >= 0;
    }
}
