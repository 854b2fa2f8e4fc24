package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.steamwright.filing.RegisterField.Look;

/**
 * What somebody wrote into the fields of an entry, as a register states it. What was not touched stays as it was stated, to
 * the letter.
 */
public final class RegisterForm {

    private static final JsonNodeFactory MAKING = JsonNodeFactory.instance;
    private static final int MOST_ROWS = 2_000;
    /** The field that tells in which units the points of an instrument are. */
    private static final String MEASURES = "measures";

    private final Function<String, List<String>> written;
    private final Function<String, Optional<String>> figure;
    private final UnaryOperator<String> shownAs;
    private final List<String> unclear = new ArrayList<>();

    /**
     * @param written what was written or chosen under a name; empty if nothing was
     * @param figure a figure as files have it, from one as the writer writes it; empty if that is not clear
     * @param shownAs a figure as the writer reads it, from one as files have it
     */
    public RegisterForm(
            Function<String, List<String>> written,
            Function<String, Optional<String>> figure,
            UnaryOperator<String> shownAs) {
        this.written = written;
        this.figure = figure;
        this.shownAs = shownAs;
    }

    /** Names of fields whose figures may mean one thing or another. */
    public List<String> unclear() {
        return List.copyOf(unclear);
    }

    /** The name under which a field within another is written. */
    public static String name(String within, String key) {
        return within.isEmpty() ? key : within + "/" + key;
    }

    /** The name under which the number of rows of a list is told. */
    public static String rows(String name) {
        return name + "/rows";
    }

    /** The name under which it is told which row of the register a row is. */
    public static String was(String row) {
        return row + "/was";
    }

    /** A text as it is shown in its field. */
    public static String shown(RegisterField field, JsonNode value) {
        if (field.look() == Look.POINTS) {
            return PointLines.shown(value);
        }
        if (field.look() == Look.TEXTS && value.isArray()) {
            List<String> lines = new ArrayList<>();
            value.forEach(one -> lines.add(one.asText()));
            return String.join("\n", lines);
        }
        return value.isValueNode() && !value.isNull() ? value.asText() : "";
    }

    /** The words that are chosen in a field. */
    public static List<String> chosen(JsonNode value) {
        List<String> words = new ArrayList<>();
        value.forEach(one -> words.add(one.asText()));
        return words;
    }

    /** The entry as it would be stated. */
    public ObjectNode entry(List<RegisterField> fields, JsonNode stands) {
        return entry(fields, "", stands);
    }

    private ObjectNode entry(List<RegisterField> fields, String within, JsonNode stands) {
        ObjectNode entry = stands instanceof ObjectNode object ? object.deepCopy() : MAKING.objectNode();
        for (RegisterField field : fields) {
            Optional<JsonNode> value = value(field, name(within, field.key()), stands.path(field.key()));
            if (value.isPresent()) {
                entry.set(field.key(), value.get());
            } else {
                entry.remove(field.key());
            }
        }
        return entry;
    }

    /** Whether a form can show what stands; what it can't show stays. */
    public static boolean isShown(RegisterField field, JsonNode stands) {
        return field.look() != Look.ENTRY || stands.isMissingNode() || (stands.isObject() && !stands.has("file"));
    }

    /** An id stays what it is. */
    public static boolean isFixed(RegisterField field, JsonNode stands) {
        return field.key().equals("id") && !stands.asText().isBlank();
    }

    private Optional<JsonNode> value(RegisterField field, String name, JsonNode stands) {
        Optional<JsonNode> before = Optional.of(stands).filter(node -> !node.isMissingNode() && !node.isNull());
        if (!isShown(field, stands) || isFixed(field, stands)) {
            return before;
        }
        return switch (field.look()) {
            case ENTRY ->
                Optional.<JsonNode>of(entry(field.fields(), name, stands)).filter(node -> !node.isEmpty());
            case ENTRIES -> rows(field, name, stands, before);
            case CHOICES -> {
                List<String> words = written.apply(name);
                yield words.equals(chosen(stands)) ? before : texts(words);
            }
            case TEXTS -> {
                String typed = one(name).replace("\r\n", "\n");
                List<String> lines = typed.lines()
                        .map(String::strip)
                        .filter(line -> !line.isEmpty())
                        .toList();
                yield typed.equals(shown(field, stands).strip()) ? before : texts(lines);
            }
            case POINTS -> {
                String typed = String.join("\n", PointLines.lines(one(name)).orElse(List.of()));
                String stood = shown(field, stands);
                yield typed.equals(stood) || typed.equals(shownAs.apply(stood)) ? before : points(name, typed);
            }
            default -> {
                String typed = one(name);
                boolean isFigure = field.look() == Look.QUANTITY;
                String stood = shown(field, stands).strip();
                if (typed.equals(stood) || (isFigure && typed.equals(shownAs.apply(stood)))) {
                    yield before;
                }
                String plain = isFigure ? plain(name, typed) : typed;
                yield plain.equals(stood)
                        ? before
                        : Optional.<JsonNode>of(MAKING.textNode(plain)).filter(node -> !plain.isEmpty());
            }
        };
    }

    private Optional<JsonNode> points(String name, String typed) {
        return PointLines.lines(typed)
                .map(lines -> PointLines.read(lines, text -> plain(name, text), PointLines.Units.of(one(MEASURES))));
    }

    private String plain(String name, String typed) {
        String sign = typed.startsWith("±") ? "±" : "";
        Optional<String> plain = figure.apply(typed.substring(sign.length()).strip());
        if (plain.isEmpty() && typed.matches("[^\\p{L}]*\\d.*")) {
            unclear.add(name);
        }
        return plain.map(text -> sign + text).orElse(typed);
    }

    private String one(String name) {
        return written.apply(name).stream().findFirst().orElse("").strip();
    }

    private static Optional<JsonNode> texts(List<String> words) {
        ArrayNode array = MAKING.arrayNode();
        words.forEach(array::add);
        return words.isEmpty() ? Optional.empty() : Optional.of(array);
    }

    private Optional<JsonNode> rows(RegisterField field, String name, JsonNode stands, Optional<JsonNode> before) {
        int count = number(one(rows(name)));
        ArrayNode array = MAKING.arrayNode();
        for (int i = 1; i <= Math.min(count, MOST_ROWS); i++) {
            String row = name(name, String.valueOf(i));
            JsonNode was = stands.path(number(one(was(row))) - 1);
            if (was.isMissingNode() || was.isObject()) {
                ObjectNode now = entry(field.fields(), row, was);
                if (!now.isEmpty()) {
                    array.add(now);
                }
            } else {
                array.add(was);
            }
        }
        return array.equals(stands) ? before : Optional.<JsonNode>of(array).filter(node -> !node.isEmpty());
    }

    private static int number(String text) {
        return text.matches("\\d{1,5}") ? Integer.parseInt(text) : 0;
    }
}
