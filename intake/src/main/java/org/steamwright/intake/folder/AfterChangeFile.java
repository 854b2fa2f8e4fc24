package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Function;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.StepKind;

/** The after-change matrix: the one that comes with the program, or an office's own in the same format. */
public final class AfterChangeFile {

    /** Name of the matrix that comes with the program, a resource beside this class. */
    public static final String SHIPPED = "after-change.yaml";

    private static final String VERSION_KEY = "steamwright-after-change";
    private static final int FORMAT_VERSION = 1;
    private static final int MAX_BYTES = 500_000;

    private static final Map<String, StepKind> STEP = words(StepKind.values(), StepKind::word);
    private static final Map<String, AfterChange.Extent> EXTENT =
            words(AfterChange.Extent.values(), AfterChange.Extent::word);
    private static final Map<String, Source.Provenance> PROVENANCE = words(
            Arrays.stream(Source.Provenance.values())
                    .filter(Source.Provenance::isForFiles)
                    .toArray(Source.Provenance[]::new),
            provenance -> provenance.name().toLowerCase(Locale.ROOT).replace('_', '-'));
    private static final Map<String, Source.Confidence> CONFIDENCE =
            words(Source.Confidence.values(), one -> one.name().toLowerCase(Locale.ROOT));

    private AfterChangeFile() {}

    /** The mappings of the file, with the keys each accepts. */
    private enum Keys implements KeyedShape {
        AFTER_CHANGE("after-change", VERSION_KEY, "notes", "times", "reasons"),
        TIMES(
                "times",
                "steps",
                "cycle-overhead",
                "usual-holding",
                "usual-drying",
                "presence",
                "empty-runs",
                "indicators-per-run",
                "source"),
        REASON("reason", "reason", "title", "checks", "penetration", "empty-chamber", "loaded", "note", "source"),
        SOURCE("source", "document", "edition", "clause", "provenance", "confidence", "note");

        private final String word;
        private final List<String> keys;

        Keys(String word, String... keys) {
            this.word = word;
            this.keys = List.of(keys);
        }

        @Override
        public String word() {
            return word;
        }

        @Override
        public List<String> keys() {
            return keys;
        }
    }

    private static <E> Map<String, E> words(E[] meanings, Function<E, String> word) {
        Map<String, E> words = new LinkedHashMap<>();
        for (E meaning : meanings) {
            words.put(word.apply(meaning), meaning);
        }
        return words;
    }

    /** The matrix that comes with the program. */
    public static AfterChange shipped() {
        return Own.MATRIX;
    }

    /** Read once, when somebody asks for it. */
    private static final class Own {
        private static final AfterChange MATRIX = matrix();

        private static AfterChange matrix() {
            try (InputStream in = AfterChangeFile.class.getResourceAsStream(SHIPPED)) {
                if (in == null) {
                    throw new IllegalStateException("the program's own file " + SHIPPED + " is missing");
                }
                OtherYaml.Answer<AfterChange> answer = OtherYaml.read(
                        in.readAllBytes(),
                        new OtherYaml.Kind(
                                SHIPPED,
                                "the after-change matrix",
                                VERSION_KEY + ": " + FORMAT_VERSION,
                                "docs/reference/register.md",
                                MAX_BYTES),
                        AfterChangeFile::read);
                return answer.value()
                        .orElseThrow(() -> new IllegalStateException(
                                "the program's own file " + SHIPPED + " can't be read: " + answer.problems()));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    /** The matrix that an entry of a visit names, a file of the folder; empty after a problem was added. */
    static Optional<AfterChange> read(Entry entry, FolderFiles files) {
        Optional<String> name = entry.text();
        if (name.isEmpty()) {
            return Optional.empty();
        }
        try {
            Optional<Path> file = files.find(name.get(), entry);
            if (file.isEmpty()) {
                return Optional.empty();
            }
            try (InputStream in = Files.newInputStream(file.get())) {
                return YamlSource.parse(
                                in.readNBytes(MAX_BYTES + 1),
                                entry.source().problems().ofMatrix(name.get()),
                                MAX_BYTES)
                        .flatMap(AfterChangeFile::read);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The matrix in an opened file; empty after a problem was added. */
    public static Optional<AfterChange> read(Entry root) {
        Optional<Fields> opened = root.fields(Keys.AFTER_CHANGE);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<String> version = fields.find(VERSION_KEY).flatMap(Entry::text);
        if (version.filter(String.valueOf(FORMAT_VERSION)::equals).isEmpty()) {
            root.problem(
                    Mistake.FORMAT_VERSION,
                    Flaw.of("found "
                                    + version.map(found -> "version \"" + found + "\"")
                                            .orElse("no \"" + VERSION_KEY + "\"")
                                    + ", expected version " + FORMAT_VERSION + " of the format.")
                            .inFile("Begin the file with: " + VERSION_KEY + ": " + FORMAT_VERSION));
            return Optional.empty();
        }
        fields.text("notes");
        Optional<AfterChange.Times> times = fields.need("times", "{…}")
                .flatMap(entry -> entry.fields(Keys.TIMES))
                .flatMap(AfterChangeFile::times);
        List<AfterChange.Row> rows = new ArrayList<>();
        for (Entry entry : fields.list("reasons")) {
            entry.fields(Keys.REASON).flatMap(AfterChangeFile::row).ifPresent(rows::add);
        }
        return times.flatMap(known -> Facts.checked(root, () -> new AfterChange(rows, known)));
    }

    private static Optional<AfterChange.Times> times(Fields fields) {
        Map<StepKind, Integer> steps = new EnumMap<>(StepKind.class);
        minutes(fields, "steps")
                .forEach((word, minutes) -> StepKind.find(word)
                        .ifPresentOrElse(
                                kind -> steps.put(kind, minutes),
                                () -> fields.entry()
                                        .problem(
                                                Mistake.UNKNOWN_WORD,
                                                Flaw.notAmong(
                                                        "found a time for the unknown step \"%s\", expected one of %s.",
                                                        word, STEP.keySet()))));
        Map<String, Integer> overhead = minutes(fields, "cycle-overhead");
        OptionalInt holding = fields.count("usual-holding");
        OptionalInt drying = fields.count("usual-drying");
        OptionalInt presence = fields.count("presence");
        OptionalInt empty = fields.count("empty-runs");
        OptionalInt indicators = fields.count("indicators-per-run");
        Optional<Source> source = source(fields);
        return source.flatMap(known -> Facts.checked(
                fields.entry(),
                () -> new AfterChange.Times(
                        steps,
                        overhead,
                        holding.orElse(0),
                        drying.orElse(0),
                        presence.orElse(0),
                        Math.max(1, empty.orElse(1)),
                        indicators.orElse(0),
                        known)));
    }

    private static Map<String, Integer> minutes(Fields fields, String key) {
        Map<String, Integer> minutes = new LinkedHashMap<>();
        fields.need(key, "{arrival: 20}")
                .flatMap(Entry::entries)
                .ifPresent(entries -> entries.forEach((word, entry) -> {
                    OptionalInt count = entry.count();
                    if (count.isPresent()) {
                        minutes.put(word, count.getAsInt());
                    }
                }));
        return minutes;
    }

    private static Optional<AfterChange.Row> row(Fields fields) {
        Optional<String> word = fields.needText("reason", "yearly");
        String title = fields.text("title");
        Set<StepKind> checks = new HashSet<>();
        for (Entry one : fields.list("checks")) {
            one.word(STEP).ifPresent(checks::add);
        }
        AfterChange.Extent penetration = extent(fields, "penetration");
        AfterChange.Extent empty = extent(fields, "empty-chamber");
        AfterChange.Extent loaded = extent(fields, "loaded");
        String note = fields.text("note");
        Optional<Source> source = source(fields);
        return word.isEmpty() || source.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new AfterChange.Row(word.get(), title, checks, penetration, empty, loaded, note, source.get()));
    }

    private static AfterChange.Extent extent(Fields fields, String key) {
        return fields.find(key).flatMap(entry -> entry.word(EXTENT)).orElse(AfterChange.Extent.NONE);
    }

    /** Where a line comes from, in the words that all data files share. */
    public static Optional<Source> source(Fields parent) {
        Optional<Fields> opened = parent.need(
                        "source", "{document: service practice, provenance: common-practice, confidence: medium}")
                .flatMap(entry -> entry.fields(Keys.SOURCE));
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<String> document = fields.needText("document", "service practice");
        String edition = fields.text("edition");
        String clause = fields.text("clause");
        Optional<Source.Provenance> provenance =
                fields.need("provenance", "common-practice").flatMap(entry -> entry.word(PROVENANCE));
        Optional<Source.Confidence> confidence =
                fields.need("confidence", "medium").flatMap(entry -> entry.word(CONFIDENCE));
        String note = fields.text("note");
        return document.isEmpty() || provenance.isEmpty() || confidence.isEmpty()
                ? Optional.empty()
                : Optional.of(new Source(document.get(), edition, clause, provenance.get(), confidence.get(), note));
    }
}
