package org.steamwright.intake.certificate;

import java.util.List;
import java.util.Optional;
import org.steamwright.intake.xml.XmlElement;

/** Texts of a certificate, which may stand there in several languages, and its numbers. */
final class DccText {

    /** Longer texts are cut where they are printed; the file keeps them. */
    private static final int LONGEST = 300;

    private static final int LONGEST_NUMBER = 40;
    private static final double LARGEST = 1e12;

    private DccText() {}

    /** The English text of an element with {@code content} inside, or the first there is; blank if there is none. */
    static String of(Optional<XmlElement> holder) {
        return holder.map(DccText::of).orElse("");
    }

    /** The English text of an element with {@code content} inside, or the first there is; blank if there is none. */
    static String of(XmlElement holder) {
        List<XmlElement> contents = holder.children("content");
        Optional<XmlElement> english = contents.stream()
                .filter(content ->
                        content.attribute("lang").filter("en"::equals).isPresent())
                .filter(content -> !content.text().isEmpty())
                .findFirst();
        return oneLine(english.or(() -> contents.stream()
                        .filter(content -> !content.text().isEmpty())
                        .findFirst())
                .map(XmlElement::text)
                .orElse(contents.isEmpty() ? holder.text() : ""));
    }

    /** The text of the {@code name} inside an element. */
    static String name(XmlElement element) {
        return of(element.child("name"));
    }

    /** On one line, without control characters, cut if it is very long. */
    static String oneLine(String text) {
        String line = text.replaceAll("[\\s\\p{Cntrl}]+", " ").strip();
        return line.length() <= LONGEST ? line : line.substring(0, LONGEST).strip() + " …";
    }

    /** A number in the spelling of XML; empty if it is none, or beyond everything that is measured. */
    static Optional<Double> number(String text) {
        if (text.length() > LONGEST_NUMBER
                || !text.matches("[+-]?([0-9]+(\\.[0-9]*)?|\\.[0-9]+)([eE][+-]?[0-9]{1,3})?")) {
            return Optional.empty();
        }
        double value = Double.parseDouble(text);
        return Math.abs(value) <= LARGEST ? Optional.of(value) : Optional.empty();
    }

    /** How many decimals a number of {@link #number} was written with; never below 0. */
    static int decimals(String text) {
        int exponentAt = Math.max(text.indexOf('e'), text.indexOf('E'));
        String digits = exponentAt < 0 ? text : text.substring(0, exponentAt);
        int exponent = exponentAt < 0 ? 0 : Integer.parseInt(text.substring(exponentAt + 1));
        int point = digits.indexOf('.');
        int written = point < 0 ? 0 : digits.length() - point - 1;
        return Math.max(0, written - exponent);
    }
}
