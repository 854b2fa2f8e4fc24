package org.steamwright.criteriasets;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * A block of keys in a file, with the place of everything in it.
 *
 * <p>Every value is text until somebody says otherwise: '1', 'yes' and '12:30' are never turned into something else
 * behind the writer's back. An empty value counts as missing text, not as absent.
 */
final class YamlBlock {

    private static final int LARGEST_FILE_BYTES = 1_000_000;

    /** One source may be named by many entries; a file that nests them by the thousand is not a criteria set. */
    private static final int MOST_ALIASES = 200;

    private static final int MOST_BRACKETS = 1000;
    private static final int DEEPEST_INDENT = 400;

    /**
     * One value.
     *
     * @param place of the value
     * @param node as parsed
     */
    private record Value(Place place, Node node) {}

    /**
     * A text with its place.
     *
     * @param place of the text
     * @param text stripped, not blank
     */
    record Text(Place place, String text) {}

    private final Place place;
    private final Map<String, Value> values;

    private YamlBlock(Place place, Map<String, Value> values) {
        this.place = place;
        this.values = values;
    }

    /** Reads the bytes of a file whose top level is a block. */
    static YamlBlock read(byte[] bytes, String fileName) {
        String text = decoded(bytes, fileName);
        checkNesting(text, fileName);
        LoadSettings settings = LoadSettings.builder()
                .setLabel(fileName)
                .setMaxAliasesForCollections(MOST_ALIASES)
                .build();
        try {
            Node top = new Compose(settings)
                    .composeString(text)
                    .orElseThrow(
                            () -> CriteriaFileException.ofFile(
                                    CriteriaMessage.UNREADABLE_BYTES,
                                    fileName,
                                    "no key at all",
                                    "a criteria set",
                                    "A file of comments only says nothing; start from the example in docs/reference/criteria-sets.md."));
            return of(new Value(new Place(fileName, lineOf(top), ""), top));
        } catch (MarkedYamlEngineException problem) {
            throw notYaml(fileName, problem.getProblemMark().map(Mark::getLine).orElse(0) + 1, problem.getProblem());
        } catch (YamlEngineException problem) {
            throw notYaml(fileName, 1, String.valueOf(problem.getMessage()));
        }
    }

    private static CriteriaFileException notYaml(String fileName, int line, String problem) {
        return CriteriaFileException.ofPlace(
                CriteriaMessage.NOT_YAML,
                new Place(fileName, line, ""),
                "text that breaks the rules of YAML ("
                        + problem.replaceAll("\\s+", " ").strip() + ")",
                "one YAML document",
                "Look at this line and the one above it: indent by two blanks, never by a tab; put a blank after each"
                        + " colon; put text with a colon in it between quotes.");
    }

    private static String decoded(byte[] bytes, String fileName) {
        if (bytes.length == 0) {
            throw CriteriaFileException.ofFile(
                    CriteriaMessage.UNREADABLE_BYTES,
                    fileName,
                    "an empty file",
                    "a criteria set",
                    "Was the copy cut short? Start from the example in docs/reference/criteria-sets.md.");
        }
        if (bytes.length > LARGEST_FILE_BYTES) {
            throw CriteriaFileException.ofFile(
                    CriteriaMessage.UNREADABLE_BYTES,
                    fileName,
                    bytes.length + " bytes",
                    "at most " + LARGEST_FILE_BYTES + " bytes",
                    "A criteria set is a page or two of text; was another file named by mistake?");
        }
        try {
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            return text.startsWith("\uFEFF") ? text.substring(1) : text;
        } catch (CharacterCodingException problem) {
            throw CriteriaFileException.ofFile(
                    CriteriaMessage.UNREADABLE_BYTES,
                    fileName,
                    "bytes that are not UTF-8 text",
                    "UTF-8 text",
                    "Save the file as UTF-8 in the editor; signs such as ° and ≤ are what usually breaks.");
        }
    }

    /**
     * Refuses text that could be nested so deep that taking it apart would exhaust the stack. Brackets can't nest deeper
     * than there are brackets, lines not deeper than they are indented.
     */
    private static void checkNesting(String text, String fileName) {
        int brackets = 0;
        int line = 1;
        int indent = 0;
        boolean isIndent = true;
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            if (sign == '\n') {
                line++;
                indent = 0;
                isIndent = true;
            } else if (isIndent && (sign == ' ' || sign == '-' || sign == '?' || sign == ':')) {
                indent++;
            } else {
                isIndent = false;
                brackets += sign == '[' || sign == '{' ? 1 : 0;
            }
            if (brackets > MOST_BRACKETS || indent > DEEPEST_INDENT) {
                throw notYaml(
                        fileName,
                        line,
                        brackets > MOST_BRACKETS
                                ? "more than " + MOST_BRACKETS + " opening brackets"
                                : "a line indented by more than " + DEEPEST_INDENT);
            }
        }
    }

    private static YamlBlock of(Value value) {
        if (!(value.node() instanceof MappingNode mapping)) {
            throw wrongShape(value, "keys with values below it");
        }
        Map<String, Value> values = new LinkedHashMap<>();
        for (NodeTuple tuple : mapping.getValue()) {
            int keyLine = lineOf(tuple.getKeyNode());
            if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
                throw wrongShape(
                        new Value(value.place().below("?", keyLine), tuple.getKeyNode()),
                        "a word in front of the colon");
            }
            Place keyPlace = value.place().below(key.getValue(), keyLine);
            if (values.containsKey(key.getValue())) {
                throw CriteriaFileException.ofPlace(
                        CriteriaMessage.KEY_TWICE,
                        keyPlace,
                        "'" + key.getValue() + "' a second time (first in line "
                                + values.get(key.getValue()).place().line() + ")",
                        "every key once",
                        "Keep the one that is meant and take the other out.");
            }
            values.put(key.getValue(), new Value(keyPlace, tuple.getValueNode()));
        }
        return new YamlBlock(value.place(), values);
    }

    /** Where it stands. */
    Place place() {
        return place;
    }

    /** Its keys, in the order of the file. */
    List<String> keys() {
        return List.copyOf(values.keySet());
    }

    boolean has(String key) {
        return values.containsKey(key);
    }

    /** Place of a key that is there, otherwise of the block. */
    Place placeOf(String key) {
        Value value = values.get(key);
        return value == null ? place : value.place();
    }

    /** Refuses every key that is not one of these, and says which is nearest. */
    void allowOnly(List<String> known) {
        for (Map.Entry<String, Value> entry : values.entrySet()) {
            if (!known.contains(entry.getKey())) {
                throw CriteriaFileException.ofPlace(
                        CriteriaMessage.UNKNOWN_KEY,
                        entry.getValue().place(),
                        "'" + entry.getKey() + "'",
                        "one of " + String.join(", ", known),
                        "Nearest is '" + NearestWord.of(entry.getKey(), known) + "'.");
            }
        }
    }

    /** A text that has to be there. */
    Text text(String key) {
        return findText(key)
                .orElseThrow(() -> CriteriaFileException.ofPlace(
                        CriteriaMessage.MISSING_KEY,
                        place,
                        "no '" + key + "'",
                        "'" + key + ":' with a text",
                        "Add the line; docs/reference/criteria-sets.md shows where."));
    }

    /** A text, if the key is there. */
    Optional<Text> findText(String key) {
        Value value = values.get(key);
        if (value == null) {
            return Optional.empty();
        }
        if (!(value.node() instanceof ScalarNode scalar)) {
            throw wrongShape(value, "a text on the same line");
        }
        String text = scalar.getValue().strip();
        if (text.isEmpty()) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.EMPTY_TEXT,
                    value.place(),
                    "nothing after the colon",
                    "a text",
                    "Write it, or take the line out.");
        }
        return Optional.of(new Text(value.place(), text));
    }

    /** A block below a key, if the key is there. */
    Optional<YamlBlock> findBlock(String key) {
        return Optional.ofNullable(values.get(key)).map(YamlBlock::of);
    }

    /** A block below a key that has to be there. */
    YamlBlock block(String key) {
        return findBlock(key)
                .orElseThrow(() -> CriteriaFileException.ofPlace(
                        CriteriaMessage.MISSING_KEY,
                        place,
                        "no '" + key + "'",
                        "'" + key + ":' with keys below it",
                        "Add the lines; docs/reference/criteria-sets.md shows where."));
    }

    /** The blocks of a list below a key; empty if the key is not there. */
    List<YamlBlock> blocks(String key) {
        Value value = values.get(key);
        if (value == null) {
            return List.of();
        }
        if (!(value.node() instanceof SequenceNode list)) {
            throw wrongShape(value, "a list, each entry with a dash in front");
        }
        List<YamlBlock> blocks = new ArrayList<>();
        for (Node entry : list.getValue()) {
            blocks.add(of(new Value(value.place().entry(blocks.size() + 1, lineOf(entry)), entry)));
        }
        return blocks;
    }

    private static CriteriaFileException wrongShape(Value value, String expected) {
        String found;
        if (value.node() instanceof ScalarNode scalar) {
            found = scalar.getValue().isBlank()
                    ? "nothing"
                    : "the text '" + scalar.getValue().strip() + "'";
        } else {
            found = value.node() instanceof SequenceNode ? "a list" : "keys with values below them";
        }
        return CriteriaFileException.ofPlace(
                CriteriaMessage.WRONG_SHAPE,
                value.place(),
                found,
                expected,
                "Check the indentation against the example in docs/reference/criteria-sets.md.");
    }

    private static int lineOf(Node node) {
        return node.getStartMark().map(Mark::getLine).orElse(0) + 1;
    }
}
