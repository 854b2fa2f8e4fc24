package org.steamwright.desk.text;

import gg.jte.Content;
import gg.jte.TemplateOutput;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Phrasebook;

/**
 * A text as its reader gets it. What the program says in English and no catalogue knows stays English and is marked so, so
 * that it is read aloud as what it is.
 *
 * @param text in the reader's language, or in English
 * @param isEnglish whether it is English to a reader of another language
 * @source WCAG 2.2, success criterion 3.1.2, language of parts (text seen)
 */
public record Told(String text, boolean isEnglish) implements Content {

    /** A text that needs no mark: in the reader's language already, a name, or what somebody wrote. */
    public static Told asItIs(String text) {
        return new Told(text, false);
    }

    /** What the program says in English, said to a reader of a language. */
    public static Told to(Language language, String english) {
        return Phrasebook.in(language)
                .find(english)
                .map(Told::asItIs)
                .orElseGet(() -> new Told(english, language != Language.ENGLISH));
    }

    @Override
    public void writeTo(TemplateOutput output) {
        if (isEnglish) {
            output.writeContent("<span lang=\"en\">");
        }
        output.writeUserContent(text);
        if (isEnglish) {
            output.writeContent("</span>");
        }
    }
}
