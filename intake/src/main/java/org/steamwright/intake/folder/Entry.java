package org.steamwright.intake.folder;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/** One value of a visit file with its place. Whatever can't be read as asked adds a problem and comes back empty. */
public final class Entry implements Spot {

    private final Node node;
    private final Way way;
    private final int line;
    private final YamlSource source;

    Entry(Node node, Way way, YamlSource source) {
        this(node, way, node.getStartMark().map(YamlSource::line).orElse(0), source);
    }

    private Entry(Node node, Way way, int line, YamlSource source) {
        this.node = node;
        this.way = way;
        this.line = line;
        this.source = source;
    }

    @Override
    public void problem(MessageId mistake, Flaw flaw) {
        source.problems().add(mistake, line, way, flaw);
    }

    YamlSource source() {
        return source;
    }

    Way way() {
        return way;
    }

    public int line() {
        return line;
    }

    /** The place for a message to people: line and path. */
    String where() {
        return Problem.where(source.problems().file(), line, way);
    }

    boolean isMapping() {
        return node instanceof MappingNode;
    }

    public boolean isList() {
        return node instanceof SequenceNode;
    }

    /** Whether it is a mapping with that key; says nothing if not. */
    boolean has(String key) {
        return node instanceof MappingNode mapping
                && mapping.getValue().stream()
                        .anyMatch(tuple -> tuple.getKeyNode() instanceof ScalarNode scalar
                                && scalar.getValue().equals(key));
    }

    /** The mapping of that shape, its keys checked. */
    public Optional<Fields> fields(KeyedShape shape) {
        Optional<Map<String, Entry>> entries = entries();
        if (entries.isEmpty()) {
            return Optional.empty();
        }
        Map<String, Entry> known = new LinkedHashMap<>();
        entries.get().forEach((key, value) -> {
            if (shape.keys().contains(key)) {
                known.put(key, value);
            } else {
                value.problem(
                        Mistake.UNKNOWN_KEY,
                        Flaw.notAmong("found the unknown key \"%s\", expected one of %s.", key, shape.keys())
                                .with(remedyForKey(key, shape)));
            }
        });
        Fields fields = new Fields(this, shape, known);
        source.opened(fields);
        return Optional.of(fields);
    }

    private static String remedyForKey(String key, KeyedShape shape) {
        String near = Nearest.didYouMean(key, shape.keys());
        return near.isEmpty() ? " Remove it, or write it as a note." : near;
    }

    /** The keys and values of a mapping with free keys, in the order of the file. */
    public Optional<Map<String, Entry>> entries() {
        if (!(node instanceof MappingNode mapping)) {
            wrongShape("expected keys with values");
            return Optional.empty();
        }
        Map<String, Entry> entries = new LinkedHashMap<>();
        for (NodeTuple tuple : mapping.getValue()) {
            Node keyNode = tuple.getKeyNode();
            int keyLine = keyNode.getStartMark().map(YamlSource::line).orElse(line);
            if (!(keyNode instanceof ScalarNode scalar)) {
                source.problems()
                        .add(
                                Mistake.WRONG_SHAPE,
                                keyLine,
                                way,
                                Flaw.of(
                                        "found a list or mapping as a key, expected a word.",
                                        "Put text with brackets between quotation marks."));
                continue;
            }
            String key = scalar.getValue();
            Entry value = new Entry(tuple.getValueNode(), way.key(key), keyLine, source);
            Entry before = entries.putIfAbsent(key, value);
            if (before != null) {
                value.problem(
                        Mistake.DUPLICATE_KEY,
                        Flaw.of(
                                "found the key \"" + key + "\" again, expected it once; it stands in line "
                                        + before.line + " already.",
                                "Remove one of the two."));
            }
        }
        return Optional.of(entries);
    }

    /** The entries of a list. */
    public List<Entry> list() {
        if (!(node instanceof SequenceNode sequence)) {
            wrongShape("expected a list, each entry beginning with \"- \"");
            return List.of();
        }
        List<Entry> entries = new ArrayList<>();
        for (Node item : sequence.getValue()) {
            entries.add(new Entry(item, way.entry(entries.size() + 1), source));
        }
        return entries;
    }

    /** The entries of a list, or the single value itself. */
    List<Entry> listOrOne() {
        return isList() ? list() : List.of(this);
    }

    /** The text as written, without outer blanks. */
    public Optional<String> text() {
        if (!(node instanceof ScalarNode scalar)) {
            wrongShape("expected one text");
            return Optional.empty();
        }
        if (!isCore(scalar.getTag())) {
            problem(
                    Mistake.WRONG_SHAPE,
                    Flaw.of(
                            "found the tag " + scalar.getTag().getValue() + ", expected plain text.",
                            "Remove the tag."));
            return Optional.empty();
        }
        String text = scalar.getValue().strip();
        if (text.isEmpty() || (scalar.isPlain() && scalar.getTag().equals(Tag.NULL))) {
            problem(
                    Mistake.WRONG_SHAPE,
                    Flaw.of("found nothing, expected a value.").inFile("Write one, or remove the key."));
            return Optional.empty();
        }
        return Optional.of(text);
    }

    private static boolean isCore(Tag tag) {
        return tag.equals(Tag.STR)
                || tag.equals(Tag.INT)
                || tag.equals(Tag.FLOAT)
                || tag.equals(Tag.BOOL)
                || tag.equals(Tag.NULL);
    }

    private void wrongShape(String expected) {
        problem(
                Mistake.WRONG_SHAPE,
                Flaw.of(foundShape() + expected + ".")
                        .inFile("Compare with the example in "
                                + source.problems().page() + "."));
    }

    private String foundShape() {
        if (node instanceof MappingNode) {
            return "found keys with values, ";
        }
        if (node instanceof SequenceNode) {
            return "found a list, ";
        }
        String text = ((ScalarNode) node).getValue().strip();
        return text.isEmpty() ? "found nothing, " : "found \"" + text + "\", ";
    }

    /** The quantity in its inside unit. */
    public Optional<Double> quantity(Measure measure) {
        return text().flatMap(text -> Quantities.parse(text, measure, this));
    }

    /** A plain number without a unit. */
    Optional<Double> number() {
        return text().flatMap(text -> Quantities.number(text, this));
    }

    /** A whole number, not negative. */
    public OptionalInt count() {
        Optional<String> text = text();
        return text.isEmpty() ? OptionalInt.empty() : Quantities.count(text.get(), this);
    }

    /** Yes or no, also as true or false. */
    public Optional<Boolean> yesOrNo() {
        return word(Words.YES_OR_NO);
    }

    public Optional<LocalDate> date() {
        return text().flatMap(text -> Moments.date(text, this));
    }

    public Optional<ZoneId> zone() {
        return text().flatMap(text -> Moments.zone(text, this));
    }

    /** One of the words of a list. */
    public <E> Optional<E> word(Map<String, E> words) {
        return text().flatMap(text -> Words.find(text, words, this));
    }

    /** Digits with an exponent are fine: spores are counted like that. */
    Optional<Double> positiveNumber() {
        Optional<Double> number = number();
        if (number.isPresent() && !(number.get() > 0)) {
            problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of(
                            "found " + BigDecimal.valueOf(number.get()).toPlainString()
                                    + ", expected a number above 0.",
                            "Check it against the document it was taken from."));
            return Optional.empty();
        }
        return number;
    }
}
