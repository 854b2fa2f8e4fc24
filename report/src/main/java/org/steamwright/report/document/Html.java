package org.steamwright.report.document;

import java.util.ArrayDeque;
import java.util.Deque;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Speaker;

/** Strict XHTML, element by element. Every text and attribute is escaped; nothing raw can get in. */
final class Html {

    private static final int OBJECT_REPLACEMENT = 0xfffc;

    private final StringBuilder out = new StringBuilder(65_536);
    private final Deque<String> open = new ArrayDeque<>();
    private final Speaker speaker;

    Html(Speaker speaker) {
        this.speaker = speaker;
    }

    /**
     * Opens an element.
     *
     * @param attributes names and values in turn
     */
    Html open(String tag, String... attributes) {
        start(tag, attributes);
        out.append('>');
        open.push(tag);
        return this;
    }

    /** An element without content. */
    Html empty(String tag, String... attributes) {
        start(tag, attributes);
        out.append("/>");
        return this;
    }

    /** Closes the element opened last. */
    Html close() {
        out.append("</").append(open.pop()).append('>');
        if (open.size() < 4) {
            out.append('\n');
        }
        return this;
    }

    /** Text in the open element, in the language of the reader; sentences that stay English say so. */
    Html text(String text) {
        String said = speaker.marked(text);
        int from = 0;
        for (int begin = said.indexOf(Speaker.FOREIGN); begin >= 0; begin = said.indexOf(Speaker.FOREIGN, from)) {
            escape(said.substring(from, begin));
            int end = said.indexOf(Speaker.OWN, begin);
            start("span", "lang", Language.ENGLISH.code());
            out.append('>');
            escape(said.substring(begin, end));
            out.append("</span>");
            from = end + 1;
        }
        escape(said.substring(from));
        return this;
    }

    /** Text that is no language, such as a style sheet. */
    Html verbatim(String text) {
        escape(text);
        return this;
    }

    /** An element with nothing but text. */
    Html element(String tag, String cssClass, String text) {
        if (cssClass.isEmpty()) {
            open(tag);
        } else {
            open(tag, "class", cssClass);
        }
        return text(text).close();
    }

    int depth() {
        return open.size();
    }

    @Override
    public String toString() {
        if (!open.isEmpty()) {
            throw new IllegalStateException("still open: " + open);
        }
        return out.toString();
    }

    private void start(String tag, String... attributes) {
        out.append('<').append(tag);
        for (int i = 0; i < attributes.length; i += 2) {
            out.append(' ').append(attributes[i]).append("=\"");
            escape(attributes[i + 1]);
            out.append('"');
        }
    }

    /**
     * Escapes what means something in markup, and leaves out what no page can carry: control characters, marks that turn
     * the direction of the text around them, halves of characters.
     */
    private void escape(String text) {
        for (int i = 0; i < text.length(); ) {
            int c = text.codePointAt(i);
            i += Character.charCount(c);
            switch (c) {
                case '&' -> out.append("&amp;");
                case '<' -> out.append("&lt;");
                case '>' -> out.append("&gt;");
                case '"' -> out.append("&quot;");
                case '\'' -> out.append("&#39;");
                case '\n', '\r', '\t' -> out.append(' ');
                default -> {
                    if (isPrintable(c)) {
                        out.appendCodePoint(c);
                    }
                }
            }
        }
    }

    private static boolean isPrintable(int c) {
        return switch (Character.getType(c)) {
            case Character.CONTROL,
                    Character.FORMAT,
                    Character.SURROGATE,
                    Character.UNASSIGNED,
                    Character.PRIVATE_USE -> false;
            default -> c != OBJECT_REPLACEMENT;
        };
    }
}
