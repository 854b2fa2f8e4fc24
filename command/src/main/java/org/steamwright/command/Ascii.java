package org.steamwright.command;

/** Plain letters for terminals that can show no more. */
final class Ascii {
    private Ascii() {}

    /** The text with every sign outside ASCII replaced by something readable. */
    static String of(String text) {
        StringBuilder plain = new StringBuilder(text.length());
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            if (sign < 0x80) {
                plain.append(sign);
            } else {
                plain.append(
                        switch (sign) {
                            case '°' -> " deg ";
                            case '≥' -> ">=";
                            case '≤' -> "<=";
                            case '−', '–', '—' -> "-";
                            case '·', '•' -> "*";
                            case '…' -> "...";
                            case '×' -> "x";
                            case '±' -> "+/-";
                            case '²' -> "2";
                            case '³' -> "3";
                            case 'µ', 'μ' -> "u";
                            case '√' -> "sqrt";
                            case '∞' -> "infinity";
                            case '→' -> "->";
                            case '‘', '’' -> "'";
                            case '“', '”' -> "\"";
                            case '\u00a0', '\u202f', '\u2009' -> " ";
                            default -> "?";
                        });
            }
        }
        return plain.toString().replace("  deg C", " degC").replace(" deg C", " degC");
    }
}
