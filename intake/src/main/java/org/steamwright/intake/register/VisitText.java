package org.steamwright.intake.register;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.steamwright.intake.folder.StatedFacts;

/**
 * Writes stated facts as a visit file. What is read from it again is what was written: every text stands between quotation
 * marks. Keys come in the order of the reference page, names of the user's own in the order in which people count, so that T2
 * stands before T10.
 */
public final class VisitText extends YamlLines {

    private static final String STEP = "  ";

    private final Comparator<String> order;

    private VisitText() {
        List<String> keys = StatedFacts.keys();
        order = Comparator.comparingInt((String key) -> {
                    int place = keys.indexOf(key);
                    return place < 0 ? keys.size() : place;
                })
                .thenComparing(VisitText::compareAsPeopleCount);
    }

    /**
     * The text of the file.
     *
     * @param facts texts, lists and maps by key
     * @throws IllegalArgumentException if a value is nothing of these
     */
    public static String of(Map<String, ?> facts) {
        VisitText text = new VisitText();
        text.map("", facts);
        return text.text();
    }

    private void map(String indent, Map<?, ?> map) {
        List<String> keys = new ArrayList<>();
        map.keySet().forEach(key -> keys.add(String.valueOf(key)));
        keys.sort(order);
        keys.forEach(key -> value(indent + shown(key) + ":", indent, map.get(key)));
    }

    private void value(String head, String indent, @Nullable Object value) {
        if (value instanceof Map<?, ?> map) {
            line(map.isEmpty() ? head + " {}" : head);
            map(indent + STEP, map);
        } else if (value instanceof List<?> list) {
            line(list.isEmpty() ? head + " []" : head);
            list.forEach(one -> value(indent + STEP + "-", indent + STEP, one));
        } else if (value instanceof String text) {
            line(head + " " + quoted(text));
        } else {
            throw new IllegalArgumentException("a fact is a text, a list or a map, not " + value);
        }
    }

    private static String shown(String key) {
        return key.matches("[a-z]+(-[a-z]+)*") && !key.matches("y|n|yes|no|on|off|true|false|null") ? key : quoted(key);
    }

    /** Digits count as numbers. */
    static int compareAsPeopleCount(String one, String other) {
        int i = 0;
        int j = 0;
        while (i < one.length() && j < other.length()) {
            int endOne = endOfDigits(one, i);
            int endOther = endOfDigits(other, j);
            int compared;
            if (endOne > i && endOther > j) {
                String digitsOne = one.substring(i, endOne).replaceFirst("^0+(?=.)", "");
                String digitsOther = other.substring(j, endOther).replaceFirst("^0+(?=.)", "");
                compared = digitsOne.length() != digitsOther.length()
                        ? Integer.compare(digitsOne.length(), digitsOther.length())
                        : digitsOne.compareTo(digitsOther);
                i = endOne;
                j = endOther;
            } else {
                compared = Character.compare(one.charAt(i++), other.charAt(j++));
            }
            if (compared != 0) {
                return compared;
            }
        }
        int rest = Integer.compare(one.length() - i, other.length() - j);
        return rest != 0 ? rest : one.compareTo(other);
    }

    private static int endOfDigits(String text, int from) {
        int end = from;
        while (end < text.length() && text.charAt(end) >= '0' && text.charAt(end) <= '9') {
            end++;
        }
        return end;
    }
}
