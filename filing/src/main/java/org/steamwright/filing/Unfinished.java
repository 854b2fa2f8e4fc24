package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.steamwright.filing.FactTree.NoPlaceException;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.visit.Visit;

/**
 * A visit without those entries that somebody has begun and not finished, and without the recordings of runs that can't be
 * read yet, so that the rest of it can be assessed meanwhile.
 */
final class Unfinished {

    /** Later and deeper places first, so that taking one away moves none of the others. */
    private static final Comparator<FactPath> BACKWARDS =
            Comparator.comparing(Unfinished::key).reversed();

    private static final String RUNS = "runs";
    private static final String STERILIZERS = "sterilizers";
    private static final String KEY = "key";
    private static final String RECORDING = "recording";

    /** What stays of a run that is left out: what it was, and the number by which the steriliser counts it. */
    private static final List<String> STAYING = List.of("kind", "sterilizer", "cycle", "machine-cycle", "note");

    private static final String KIND = "kind";

    private final byte[] visitFile;
    private final int entries;
    private final Set<Integer> runs;

    private Unfinished(byte[] visitFile, int entries, Set<Integer> runs) {
        this.visitFile = visitFile;
        this.entries = entries;
        this.runs = Set.copyOf(runs);
    }

    /** A visit of which nothing is left out yet. */
    static Unfinished nothing(byte[] visitFile) {
        return new Unfinished(visitFile, 0, Set.of());
    }

    /**
     * What is left if more is left out.
     *
     * @param problems why it could not be read as it is
     * @return empty if what can't be read belongs to the visit as a whole
     */
    Optional<Unfinished> without(List<Problem> problems) {
        try {
            FactTree all = FactTree.ofFacts(StatedFacts.of(Filing.VISIT_FILE, visitFile));
            FactTree tree = all;
            NavigableSet<FactPath> taken = new TreeSet<>(BACKWARDS);
            Map<Integer, Set<String>> left = new TreeMap<>();
            for (Problem problem : problems) {
                DraftProblem place = DraftProblem.of(problem);
                FactTree facts = tree;
                Optional<FactPath> entry = place.path()
                        .map(Unfinished::whole)
                        .filter(path -> problem.isUnfinished() && canBeLeftOut(path))
                        .filter(path -> isFree(path, facts));
                List<Integer> ofRuns = entry.isPresent() ? List.of() : runs(place, tree);
                Optional<String> wrong = place.path()
                        .map(FactPath::steps)
                        .filter(steps -> steps.size() == 3)
                        .map(steps -> steps.get(2));
                if (entry.isEmpty() && (ofRuns.isEmpty() || wrong.equals(Optional.of(KIND)))) {
                    return Optional.empty();
                }
                entry.ifPresent(taken::add);
                ofRuns.forEach(run -> {
                    Set<String> keys = left.computeIfAbsent(run, unseen -> new TreeSet<>());
                    wrong.ifPresent(keys::add);
                });
            }
            taken.removeIf(path -> taken.stream().anyMatch(other -> isBelow(path, other)));
            for (FactPath entry : taken) {
                tree = tree.without(entry);
            }
            FactTree before = tree;
            Set<Integer> recorded = new TreeSet<>(runs);
            left.keySet().stream().filter(run -> isRecorded(before, run)).forEach(recorded::add);
            for (Map.Entry<Integer, Set<String>> one : left.entrySet()) {
                tree = tree.with(
                        FactPath.of(RUNS, one.getKey()), Optional.of(staying(before, one.getKey(), one.getValue())));
            }
            return tree.equals(all)
                    ? Optional.empty()
                    : Optional.of(new Unfinished(DraftChange.text(tree), entries + taken.size(), recorded));
        } catch (VisitFolderException | NoPlaceException | DraftRefusal notSo) {
            return Optional.empty();
        }
    }

    private static Map<String, Object> staying(FactTree tree, int run, Set<String> wrong) {
        Map<String, Object> staying = new LinkedHashMap<>();
        for (String key : STAYING) {
            tree.find(FactPath.of(RUNS, run, key))
                    .filter(value -> !wrong.contains(key))
                    .ifPresent(value -> staying.put(key, value));
        }
        return staying;
    }

    /** Of a clock that was read only on one side, all that is said of it. */
    private static FactPath whole(FactPath path) {
        List<String> steps = path.steps();
        return path.first().equals("instrument-checks")
                        && steps.size() > 3
                        && steps.get(2).equals("clock")
                ? new FactPath(steps.subList(0, 3))
                : path;
    }

    /** An entry of a list or the load of a run; never a run, whose number others name, nor what the visit stands on. */
    private static boolean canBeLeftOut(FactPath path) {
        List<String> steps = path.steps();
        boolean isEntry = FactPath.place(path.last()).isPresent();
        return switch (path.first()) {
            case "people", "checklists", STERILIZERS -> isEntry;
            case "instrument-checks" -> isEntry || path.last().equals("clock");
            case "job-sheet" -> isEntry && steps.size() > 2;
            case RUNS -> steps.size() > 2 && (isEntry || path.last().equals("load"));
            default -> false;
        };
    }

    /** Whether nothing else names it: a steriliser by its letter, a cycle by its name. What has neither can't be named. */
    private static boolean isFree(FactPath path, FactTree tree) {
        if (!path.first().equals(STERILIZERS)) {
            return true;
        }
        boolean isCycle = path.steps().size() > 2;
        Optional<Object> name = tree.find(path.then(isCycle ? "name" : KEY));
        if (name.isPresent()) {
            String by = isCycle ? "cycle" : "sterilizer";
            return !names(tree.root(), by, String.valueOf(name.get()));
        }
        return isCycle || areOthersNamed(path, tree);
    }

    private static boolean areOthersNamed(FactPath path, FactTree tree) {
        for (int i = 1; tree.find(FactPath.of(STERILIZERS, i)).isPresent(); i++) {
            FactPath one = FactPath.of(STERILIZERS, i);
            if (!one.equals(path) && tree.find(one.then(KEY)).isEmpty()) {
                return false;
            }
        }
        return true;
    }

    private static boolean names(Object here, String key, String name) {
        if (here instanceof Map<?, ?> map) {
            return map.entrySet().stream()
                    .anyMatch(one -> (one.getKey().equals(key)
                                    && String.valueOf(one.getValue()).equalsIgnoreCase(name))
                            || names(one.getValue(), key, name));
        }
        return here instanceof List<?> list && list.stream().anyMatch(one -> names(one, key, name));
    }

    /** The runs that can't be read because of this; empty if it is about none. */
    private static List<Integer> runs(DraftProblem problem, FactTree tree) {
        List<String> steps = problem.path().map(FactPath::steps).orElse(List.of());
        if (steps.size() > 1 && steps.get(0).equals(RUNS)) {
            OptionalInt run = FactPath.place(steps.get(1));
            boolean isBare = steps.size() == 2 && !isRecorded(tree, run.orElse(0));
            return run.isPresent() && !isBare ? List.of(run.getAsInt()) : List.of();
        }
        List<Integer> naming = new ArrayList<>();
        for (int i = 1;
                !problem.file().isEmpty() && tree.find(FactPath.of(RUNS, i)).isPresent();
                i++) {
            if (isOf(tree.find(FactPath.of(RUNS, i, RECORDING)), problem.file())) {
                naming.add(i);
            }
        }
        return List.copyOf(naming);
    }

    private static boolean isRecorded(FactTree tree, int run) {
        return tree.find(FactPath.of(RUNS, run, RECORDING)).isPresent();
    }

    private static boolean isOf(Optional<Object> recording, String file) {
        return recording
                .filter(one -> one.equals(file)
                        || (one instanceof List<?> list
                                && list.stream().anyMatch(entry -> isOf(Optional.of(entry), file)))
                        || (one instanceof Map<?, ?> map && file.equals(map.get("file"))))
                .isPresent();
    }

    private static boolean isBelow(FactPath path, FactPath other) {
        List<String> steps = path.steps();
        return steps.size() > other.steps().size()
                && steps.subList(0, other.steps().size()).equals(other.steps());
    }

    private static String key(FactPath path) {
        StringBuilder key = new StringBuilder();
        path.steps()
                .forEach(step -> key.append('/')
                        .append(
                                FactPath.place(step).isPresent()
                                        ? String.format(Locale.ROOT, "%06d", Integer.parseInt(step))
                                        : step));
        return key.toString();
    }

    /** Puts the text of what is left in the place of the visit file. */
    void write(Path folder) throws IOException {
        Files.write(folder.resolve(Filing.VISIT_FILE), visitFile);
    }

    /** The visit that was read of what is left, which says what was left out. */
    Visit told(Visit rest) {
        Visit told = rest.leavingOut(runs);
        return entries == 0 ? told : told.remarked(VisitFolder.unfinished(entries));
    }
}
