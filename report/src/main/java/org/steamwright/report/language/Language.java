package org.steamwright.report.language;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Languages of screens and documents. */
public enum Language {
    ENGLISH("en", "English", Locale.UK),
    GERMAN("de", "Deutsch", Locale.GERMANY),
    FRENCH("fr", "français", Locale.FRANCE);

    private final String code;
    private final String ownName;
    private final Locale locale;

    Language(String code, String ownName, Locale locale) {
        this.code = code;
        this.ownName = ownName;
        this.locale = locale;
    }

    /** Code of ISO 639-1, as in the {@code lang} attribute. */
    public String code() {
        return code;
    }

    /**
     * End of the name of a file in this language.
     *
     * @param ending in English, such as {@code .pdf}
     * @return the same in English, and such as {@code .de.pdf} in any other
     */
    public String ending(String ending) {
        return this == ENGLISH ? ending : "." + code + ending;
    }

    /** What it calls itself. */
    public String ownName() {
        return ownName;
    }

    /** Customs for figures and days. */
    public Locale locale() {
        return locale;
    }

    /** The language of that code. */
    public static Optional<Language> ofCode(String code) {
        return Arrays.stream(values()).filter(one -> one.code.equals(code)).findFirst();
    }

    /**
     * The first language that a reader accepts and the program speaks; English if there is none.
     *
     * @param accepted value of the header {@code Accept-Language}; may be empty
     */
    public static Language accepted(String accepted) {
        try {
            List<Locale.LanguageRange> wished = accepted.isBlank() ? List.of() : Locale.LanguageRange.parse(accepted);
            return wished.stream()
                    .map(range -> range.getRange()
                            .substring(0, Math.min(2, range.getRange().length())))
                    .flatMap(code -> ofCode(code).stream())
                    .findFirst()
                    .orElse(ENGLISH);
        } catch (IllegalArgumentException unreadable) {
            return ENGLISH;
        }
    }
}
