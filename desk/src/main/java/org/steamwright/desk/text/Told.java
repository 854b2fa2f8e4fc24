package org.steamwright.desk.text;

import gg.jte.Content;
import gg.jte.TemplateOutput;
import java.util.List;
import java.util.stream.Collectors;
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

    /** A place and the sentences about it; English if one of the sentences is. */
    public static Told of(Language language, String place, List<String> sentences) {
        List<String> said =
                sentences.stream().filter(sentence -> !sentence.isBlank()).toList();
        boolean isEnglish =
                said.stream().anyMatch(sentence -> to(language, sentence).isEnglish());
        Phrasebook book = Phrasebook.in(isEnglish ? Language.ENGLISH : language);
        return new Told(
                book.say(place)
                        + colon(book.language())
                        + said.stream().map(book::say).collect(Collectors.joining(" ")),
                isEnglish);
    }

    private static String colon(Language language) {
        return language == Language.FRENCH ? "\u00a0: " : ": ";
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
