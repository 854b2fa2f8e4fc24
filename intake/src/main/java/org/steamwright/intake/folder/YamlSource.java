package org.steamwright.intake.folder;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.composer.Composer;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.ReaderException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.parser.Parser;
import org.snakeyaml.engine.v2.parser.ParserImpl;
import org.snakeyaml.engine.v2.scanner.StreamReader;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/**
 * The nodes of a YAML 1.2 file, read within limits that no honest visit comes near: nesting, number of aliases, and
 * the size to which aliases would blow it up.
 */
final class YamlSource {

    /** Largest file in bytes. */
    static final int MAX_BYTES = 1_000_000;
    /** Deepest nesting. */
    static final int MAX_DEPTH = 20;
    /** Most aliases. */
    static final int MAX_ALIASES = 200;
    /** Most values, each alias counted as often as it is used. */
    static final int MAX_NODES = 200_000;

    private final Problems problems;
    private final List<Fields> opened = new ArrayList<>();

    private YamlSource(Problems problems) {
        this.problems = problems;
    }

    /** For values that come from no file. */
    static YamlSource of(Problems problems) {
        return new YamlSource(problems);
    }

    Problems problems() {
        return problems;
    }

    void opened(Fields fields) {
        opened.add(fields);
    }

    /**
     * Guards against a key that is accepted and then forgotten, which would lose what the technician wrote.
     *
     * @throws IllegalStateException if a key of the file was never asked for; a fault of the program
     */
    void checkAllAsked() {
        for (Fields fields : opened) {
            fields.checkAllAsked();
        }
    }

    /** The root of the file; empty after a problem was added. */
    static Optional<Entry> parse(byte[] bytes, Problems problems) {
        return parse(bytes, problems, MAX_BYTES);
    }

    /** The same with another limit of size; so many values as the usual limit allows for each byte of the usual size. */
    static Optional<Entry> parse(byte[] bytes, Problems problems, int maxBytes) {
        if (bytes.length > maxBytes) {
            problems.add(Mistake.TOO_LARGE, 0, Way.WHOLE, tooLarge(bytes.length, maxBytes));
            return Optional.empty();
        }
        String text = decode(bytes, problems);
        if (text == null) {
            return Optional.empty();
        }
        LoadSettings settings = LoadSettings.builder()
                .setSchema(new CoreSchema())
                .setCodePointLimit(maxBytes)
                .setMaxAliasesForCollections(MAX_ALIASES)
                // in one piece: between two pieces the library loses a sign made of two halves
                .setBufferSize(text.length() + 1)
                .build();
        Optional<Node> root;
        try {
            root = new Composer(settings, new Guard(new ParserImpl(settings, new StreamReader(settings, text))))
                    .getSingleNode();
        } catch (LimitReached limit) {
            problems.add(Mistake.TOO_DEEP, limit.line, Way.WHOLE, Flaw.of(limit.text));
            return Optional.empty();
        } catch (MarkedYamlEngineException e) {
            problems.add(
                    Mistake.NOT_YAML,
                    e.getProblemMark().map(YamlSource::line).orElse(0),
                    Way.WHOLE,
                    Flaw.of(explain(e)));
            return Optional.empty();
        } catch (ReaderException e) {
            problems.add(
                    Mistake.NOT_YAML,
                    lineOf(text, e.getPosition()),
                    Way.WHOLE,
                    Flaw.of(
                            "found a control character (code " + e.getCodePoint() + "), expected plain text.",
                            "Save the file as UTF-8 text from a text editor."));
            return Optional.empty();
        } catch (YamlEngineException e) {
            problems.add(
                    Mistake.NOT_YAML,
                    0,
                    Way.WHOLE,
                    Flaw.of("found text that is no YAML (" + e.getMessage() + "), expected the keys of "
                            + problems.words() + "."));
            return Optional.empty();
        }
        if (root.isEmpty()) {
            problems.add(
                    Mistake.NOT_YAML,
                    0,
                    Way.WHOLE,
                    Flaw.of("found an empty file, expected the keys of " + problems.words() + ".")
                            .inFile("The first line is: " + problems.firstLine()));
            return Optional.empty();
        }
        long maxNodes = (long) MAX_NODES * maxBytes / MAX_BYTES;
        if (size(root.get(), new IdentityHashMap<>(), 0, maxNodes) > maxNodes) {
            problems.add(
                    Mistake.TOO_DEEP,
                    0,
                    Way.WHOLE,
                    Flaw.of(
                            "found aliases (*name) that grow to more than " + maxNodes + " values, expected a visit.",
                            "Write the repeated parts out, or leave them away."));
            return Optional.empty();
        }
        return Optional.of(new Entry(root.get(), Way.WHOLE, new YamlSource(problems)));
    }

    static Flaw tooLarge(long bytes) {
        return tooLarge(bytes, MAX_BYTES);
    }

    private static Flaw tooLarge(long bytes, int maxBytes) {
        return Flaw.of(
                "found " + bytes + " bytes, expected at most " + maxBytes + ".",
                "This file holds facts only; name recordings and documents by their file names.");
    }

    static int line(Mark mark) {
        return mark.getLine() + 1;
    }

    private static @Nullable String decode(byte[] bytes, Problems problems) {
        int from = bytes.length >= 3 && bytes[0] == (byte) 0xEF && bytes[1] == (byte) 0xBB && bytes[2] == (byte) 0xBF
                ? 3
                : 0;
        CharsetDecoder decoder = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        ByteBuffer in = ByteBuffer.wrap(bytes, from, bytes.length - from);
        CharBuffer out = CharBuffer.allocate(bytes.length);
        try {
            CoderResult result = decoder.decode(in, out, true);
            if (result.isError()) {
                result.throwException();
            }
        } catch (CharacterCodingException e) {
            out.flip();
            problems.add(
                    Mistake.NOT_YAML,
                    lineOf(out.toString(), out.length()),
                    Way.WHOLE,
                    Flaw.of(
                            "found a byte that is no UTF-8 text, expected UTF-8.",
                            "Save the file with the encoding UTF-8."));
            return null;
        }
        return out.flip().toString();
    }

    private static int lineOf(String text, int position) {
        int line = 1;
        for (int i = 0; i < Math.min(position, text.length()); i++) {
            if (text.charAt(i) == '\n') {
                line++;
            }
        }
        return line;
    }

    private static String explain(MarkedYamlEngineException e) {
        String problem = String.valueOf(e.getProblem());
        if (problem.contains("TAB") || problem.contains("\\t")) {
            return "found a tab, expected blanks. YAML indents with blanks only; replace the tab by two blanks.";
        }
        if (problem.contains("mapping values are not allowed")) {
            return "found a second \": \" in this place, expected one key and its value."
                    + " Put text that contains a colon between quotation marks, and check the indentation.";
        }
        if (problem.contains("another document")) {
            return "found a second document after \"---\", expected one visit in each file. Make two folders of it.";
        }
        if (problem.contains("undefined alias")) {
            return "found an alias (*name) without its anchor, expected &name earlier in the file."
                    + " Text that begins with * stands between quotation marks.";
        }
        return "found " + problem + (e.getContext() == null ? "" : " (" + e.getContext() + ")")
                + ", expected YAML. Check the indentation, quotation marks and brackets of this line and the one before.";
    }

    /** Values below this one, aliases written out; stops counting soon after the limit. */
    private static long size(Node node, IdentityHashMap<Node, Long> known, int depth, long maxNodes) {
        Long before = known.get(node);
        if (before != null) {
            return before;
        }
        if (node.isRecursive() || depth > MAX_DEPTH * 4) {
            return maxNodes + 1L;
        }
        known.put(node, maxNodes + 1L);
        long sum = 1;
        if (node instanceof MappingNode mapping) {
            for (NodeTuple tuple : mapping.getValue()) {
                sum += size(tuple.getKeyNode(), known, depth + 1, maxNodes)
                        + size(tuple.getValueNode(), known, depth + 1, maxNodes);
            }
        } else if (node instanceof SequenceNode sequence) {
            for (Node item : sequence.getValue()) {
                sum += size(item, known, depth + 1, maxNodes);
            }
        }
        sum = Math.min(sum, maxNodes + 1L);
        known.put(node, sum);
        return sum;
    }

    /** Stops the parser before nesting or aliases get out of hand. */
    private static final class Guard implements Parser {

        private final Parser parser;
        private int depth;
        private int aliases;

        Guard(Parser parser) {
            this.parser = parser;
        }

        @Override
        public boolean checkEvent(Event.ID choice) {
            return parser.checkEvent(choice);
        }

        @Override
        public Event peekEvent() {
            return parser.peekEvent();
        }

        @Override
        public boolean hasNext() {
            return parser.hasNext();
        }

        @Override
        public Event next() {
            Event event = parser.next();
            switch (event.getEventId()) {
                case MappingStart, SequenceStart -> depth++;
                case MappingEnd, SequenceEnd -> depth--;
                case Alias -> aliases++;
                default -> {}
            }
            int line = event.getStartMark().map(YamlSource::line).orElse(0);
            if (depth > MAX_DEPTH) {
                throw new LimitReached(
                        line,
                        "found more than " + MAX_DEPTH
                                + " levels inside each other, expected the few of a visit. Check the brackets and the indentation.");
            }
            if (aliases > MAX_ALIASES) {
                throw new LimitReached(
                        line,
                        "found more than " + MAX_ALIASES + " aliases (*name), expected fewer. Write the parts out.");
            }
            return event;
        }
    }

    private static final class LimitReached extends RuntimeException {

        private static final long serialVersionUID = 1L;

        private final int line;
        private final String text;

        LimitReached(int line, String text) {
            super(text, null, false, false);
            this.line = line;
            this.text = text;
        }
    }
}
