package org.steamwright.intake.register;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;
import org.steamwright.assessment.cycle.CycleDefinition;

/** Writes a YAML file line by line, so that every text is read again as what it was. */
abstract class YamlLines {

    private static final int FIRST_PRINTABLE = 0x20;
    private static final int LAST_PLAIN = 0x7e;
    private static final int MILLISECONDS_PER_SECOND = 1000;

    private final StringBuilder text = new StringBuilder();

    /** What was written, lines ended by a line feed. */
    final String text() {
        return text.toString();
    }

    final void line(String line) {
        text.append(line).append('\n');
    }

    /** Writes one element whose keys stand at that indentation. */
    interface Element<E> {
        void write(String indent, E element);
    }

    /** A list that is left out if it is empty; the first key of an element stands behind its hyphen. */
    final <E> void list(String indent, String key, List<E> elements, Element<E> element) {
        if (elements.isEmpty()) {
            return;
        }
        line(indent + key + ":");
        for (E one : elements) {
            int start = text.length();
            element.write(indent + "    ", one);
            text.setCharAt(start + indent.length() + 2, '-');
        }
    }

    final void key(String indent, String key, String value) {
        if (!value.isBlank()) {
            plain(indent, key, quoted(value));
        }
    }

    final void plain(String indent, String key, Object value) {
        line(indent + key + ": " + value);
    }

    /** What is declared of a cycle, in the keys that registers and visit files share. */
    final void definition(String in, CycleDefinition definition) {
        key(in, "name", definition.name());
        plain(in, "type", definition.type().name());
        plain(
                in,
                "sterilizing-temperature",
                number(definition.sterilizingTemperature().celsius()) + " °C");
        definition.holdingTime().ifPresent(time -> plain(in, "holding-time", seconds(time)));
        OptionalInt pulses = definition.airRemovalPulses();
        if (pulses.isPresent()) {
            plain(in, "air-removal-pulses", pulses.getAsInt());
        }
        definition.pulseDepth().ifPresent(depth -> plain(in, "pulse-depth", number(depth) + " kPa absolute"));
        definition.dryingTime().ifPresent(time -> plain(in, "drying-time", seconds(time)));
    }

    /** Always between quotation marks: a text never turns into a number, a day or an alias. */
    static String quoted(String value) {
        StringBuilder quoted = new StringBuilder("\"");
        for (int i = 0; i < value.length(); i++) {
            char sign = value.charAt(i);
            switch (sign) {
                case '"' -> quoted.append("\\\"");
                case '\\' -> quoted.append("\\\\");
                case '\n' -> quoted.append("\\n");
                case '\t' -> quoted.append("\\t");
                default -> {
                    boolean isSafe = (sign >= FIRST_PRINTABLE && sign <= LAST_PLAIN) || Character.isLetter(sign);
                    if (isSafe || Character.isSurrogate(sign) || sign == '°' || sign == 'µ') {
                        quoted.append(sign);
                    } else {
                        String hex = Integer.toHexString(sign);
                        quoted.append("\\u")
                                .append("0".repeat(4 - hex.length()))
                                .append(hex);
                    }
                }
            }
        }
        return quoted.append('"').toString();
    }

    static String number(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    static String seconds(Duration duration) {
        return number(duration.toMillis() / (double) MILLISECONDS_PER_SECOND) + " s";
    }
}
