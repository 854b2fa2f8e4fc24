package org.steamwright.desk.web;

import org.steamwright.report.language.Language;

/** The language of a report or certificate that is handed out: the reader's own, or the English one that was signed. */
public final class PaperLanguage {

    private static final String NAME = "language";

    private PaperLanguage() {}

    /** What comes behind the address of a document that is to be in the reader's language; nothing for English. */
    public static String query(Frame frame) {
        return isOther(frame) ? "?" + NAME + "=" + frame.words().language().code() : "";
    }

    /** The same behind a query that says already which document is meant. */
    public static String further(Frame frame) {
        return query(frame).replace('?', '&');
    }

    /** Whether the reader reads another language than English, so that the English document is offered beside it. */
    public static boolean isOther(Frame frame) {
        return frame.words().language() != Language.ENGLISH;
    }

    /** The language that is asked for; English where none is named, or one in which there are no documents. */
    public static Language of(Ask ask) {
        return Language.ofCode(ask.typed(NAME)).orElse(Language.ENGLISH);
    }
}
