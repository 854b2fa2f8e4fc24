package org.steamwright.intake.spreadsheet;

import java.util.ArrayList;
import java.util.List;
import javax.xml.stream.XMLStreamConstants;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.Sentence;

/** The texts that cells of all sheets share; letters of several looks are put together, reading aids are left out. */
final class SharedStrings {

    /** The most characters of all texts together. */
    static final int MOST_CHARS = 20_000_000;

    /** The most texts: one for each cell of a column. */
    static final int MOST_TEXTS = 1_048_576;

    private SharedStrings() {}

    /** Reads the part with texts to its end. */
    static List<String> read(String file, PartXml xml) throws UnreadableFileException {
        List<String> texts = new ArrayList<>();
        StringBuilder text = new StringBuilder();
        int chars = 0;
        boolean isText = false;
        int aids = 0;
        int event = xml.next();
        while (event != XMLStreamConstants.END_DOCUMENT) {
            switch (event) {
                case XMLStreamConstants.START_ELEMENT -> {
                    String name = xml.name();
                    if (name.equals("t")) {
                        isText = true;
                    } else if (name.equals("rPh")) {
                        aids++;
                    }
                }
                case XMLStreamConstants.END_ELEMENT -> {
                    String name = xml.name();
                    if (name.equals("t")) {
                        isText = false;
                    } else if (name.equals("rPh")) {
                        aids--;
                    } else if (name.equals("si")) {
                        chars += text.length();
                        texts.add(plain(text));
                        text.setLength(0);
                        checkSize(file, texts.size(), chars);
                    }
                }
                case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA, XMLStreamConstants.SPACE -> {
                    if (isText && aids == 0) {
                        xml.appendTo(text);
                        checkSize(file, texts.size(), chars + text.length());
                    }
                }
                default -> {
                    // comments say nothing
                }
            }
            event = xml.next();
        }
        return texts;
    }

    private static void checkSize(String file, int texts, int chars) throws UnreadableFileException {
        if (texts > MOST_TEXTS || chars > MOST_CHARS) {
            throw new UnreadableFileException(
                    IntakeMessage.SPREADSHEET_TOO_LARGE,
                    file,
                    "",
                    Sentence.of(
                            "the texts of the workbook are more than %s characters or %s texts. Export only the time of the run, or export CSV.",
                            MOST_CHARS, MOST_TEXTS));
        }
    }

    /** A text on one line, with escaped characters as themselves. */
    static String plain(StringBuilder written) {
        StringBuilder plain = new StringBuilder(written.length());
        int length = written.length();
        for (int i = 0; i < length; i++) {
            char c = written.charAt(i);
            if (c == '_' && i + 6 < length && written.charAt(i + 1) == 'x' && written.charAt(i + 6) == '_') {
                int escaped = hex(written, i + 2);
                if (escaped >= 0) {
                    c = (char) escaped;
                    i += 6;
                }
            }
            plain.append(c < ' ' ? ' ' : c);
        }
        return plain.toString();
    }

    private static int hex(StringBuilder written, int from) {
        int value = 0;
        for (int i = from; i < from + 4; i++) {
            int digit = Character.digit(written.charAt(i), 16);
            if (digit < 0) {
                return -1;
            }
            value = value * 16 + digit;
        }
        return value;
    }
}
