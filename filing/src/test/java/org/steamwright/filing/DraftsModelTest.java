package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

/** Random sequences of changes against a plain map of lists, maps and texts that knows nothing of journals. */
class DraftsModelTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");

    private static Path folder = Path.of(".");
    private static Records records;
    private static int number;

    @BeforeContainer
    static void open_a_record() throws IOException {
        folder = Files.createTempDirectory("drafts");
        records =
                Records.open(Place.folder(folder), Clock.fixed(Instant.parse("2026-03-02T09:00:00Z"), ZoneOffset.UTC));
    }

    @AfterContainer
    static void close_it() throws IOException {
        records.close();
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path one : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(one);
            }
        }
    }

    enum Kind {
        TEXT,
        RUN_TEXT,
        ADD,
        REMOVE,
        UNDO
    }

    /** What is done; numbers are taken modulo what is there. */
    record Act(Kind kind, int which, int field, String value) {}

    private static final List<String> FIELDS = List.of("kind", "cycle", "note", "machine-cycle");
    private static final List<String> KEYS = List.of("purpose", "company", "date");

    @Provide
    Arbitrary<List<Act>> acts() {
        return net.jqwik.api.Combinators.combine(
                        Arbitraries.of(Kind.values()),
                        Arbitraries.integers().between(0, 5),
                        Arbitraries.integers().between(0, 3),
                        Arbitraries.of("", " ", "a", "b: c", "134 °C", "- x", "\"q\""))
                .as(Act::new)
                .list()
                .ofMinSize(3)
                .ofMaxSize(18);
    }

    /** The plain model. */
    private static final class Model {
        final Map<String, String> texts = new TreeMap<>();
        final List<Map<String, String>> runs = new ArrayList<>();

        Model copy() {
            Model copy = new Model();
            copy.texts.putAll(texts);
            runs.forEach(run -> copy.runs.add(new TreeMap<>(run)));
            return copy;
        }

        Map<String, Object> tree(String number) {
            Map<String, Object> tree = new TreeMap<>(texts);
            tree.put("steamwright-visit", "1");
            tree.put("report-number", number);
            if (!runs.isEmpty()) {
                tree.put("runs", runs);
            }
            return tree;
        }

        boolean isSame(Model other) {
            return texts.equals(other.texts) && runs.equals(other.runs);
        }
    }

    @Property(tries = 60)
    void any_sequence_of_changes_gives_the_tree_of_a_plain_map(@ForAll("acts") List<Act> acts) throws Exception {
        String name = "R-" + ++number;
        Drafts drafts = new Drafts(records);
        Draft draft = drafts.open(KIM, name, Map.of());
        Model model = new Model();
        Deque<Model> before = new ArrayDeque<>();
        for (Act act : acts) {
            Model was = model.copy();
            switch (act.kind) {
                case TEXT -> {
                    String key = KEYS.get(act.which % KEYS.size());
                    draft = draft.set(FactPath.of(key), Optional.of(act.value), KIM, "");
                    put(model.texts, key, act.value);
                }
                case RUN_TEXT -> {
                    if (!model.runs.isEmpty()) {
                        int run = act.which % model.runs.size();
                        String field = FIELDS.get(act.field);
                        draft = draft.set(FactPath.of("runs", run + 1, field), Optional.of(act.value), KIM, "");
                        put(model.runs.get(run), field, act.value);
                    }
                }
                case ADD -> {
                    draft = draft.add(FactPath.of("runs"), Map.of("kind", "k" + act.field, "note", act.value), KIM, "");
                    Map<String, String> run = new TreeMap<>(Map.of("kind", "k" + act.field));
                    put(run, "note", act.value);
                    model.runs.add(run);
                }
                case REMOVE -> {
                    if (!model.runs.isEmpty()) {
                        int run = act.which % model.runs.size();
                        draft = draft.remove(FactPath.of("runs", run + 1), KIM, "");
                        model.runs.remove(run);
                    }
                }
                case UNDO -> {
                    if (!before.isEmpty()) {
                        draft = draft.undo(KIM, draft.lastChange().map(Draft.Step::id));
                        model = before.pop();
                    }
                    continue;
                }
            }
            if (!model.isSame(was)) {
                before.push(was);
            }
            assertThat(draft.facts()).isEqualTo(model.tree(name));
        }
        assertThat(drafts.of(draft.id()).facts()).isEqualTo(model.tree(name));
        assertThat(FactTree.ofFacts(org.steamwright.intake.folder.StatedFacts.of(
                                "visit.yaml",
                                records.files()
                                        .get(VisitFiles.of(draft.subject()).get("visit.yaml"))))
                        .root())
                .as("the kept file states the same")
                .isEqualTo(model.tree(name));
    }

    private static void put(Map<String, String> map, String key, String value) {
        if (value.isBlank()) {
            map.remove(key);
        } else {
            map.put(key, value);
        }
    }
}
