package org.steamwright.report.language;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The texts of a Java source, those added up with {@code +} as one. */
final class JavaLiterals {

    private static final Pattern COMMENT_OR_TEXT =
            Pattern.compile("//[^\\n]*|/\\*.*?\\*/|'(?:\\\\.|[^'\\\\])'|\"(?:\\\\.|[^\"\\\\])*+\"", Pattern.DOTALL);

    private static final Pattern ADDED_UP = Pattern.compile("\"\\s*\\+\\s*\"");
    private static final Pattern TEXT = Pattern.compile("\"((?:\\\\.|[^\"\\\\])*)\"");
    private static final Pattern STATEMENT = Pattern.compile("(?:\"(?:\\\\.|[^\"\\\\])*+\"|[^;{}\"]++)*+[;{}]");

    private JavaLiterals() {}

    /** The texts of every statement in which the pattern is not found. */
    static List<String> of(String source, Pattern except) {
        String code = COMMENT_OR_TEXT
                .matcher(source)
                .replaceAll(found -> Matcher.quoteReplacement(found.group().startsWith("\"") ? found.group() : " "));
        List<String> texts = new ArrayList<>();
        Matcher statement = STATEMENT.matcher(ADDED_UP.matcher(code).replaceAll(""));
        while (statement.find()) {
            if (!except.matcher(statement.group()).find()) {
                Matcher text = TEXT.matcher(statement.group());
                while (text.find()) {
                    texts.add(text.group(1).replace("\\\"", "\""));
                }
            }
        }
        return texts;
    }
}
