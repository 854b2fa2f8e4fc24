package org.steamwright.filing;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import org.steamwright.filing.DraftRefusal.Clash;
import org.steamwright.filing.DraftRefusal.Reason;
import org.steamwright.intake.register.VisitText;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.TreeHead;

/**
 * Steps that are kept together or not at all, in the order in which they were named. Files are kept first, so that no fact ever
 * names a file that is not there.
 */
public final class DraftChange {

    private static final int LARGEST_TEXT = 1_000_000;
    private static final int LONGEST_VALUE = 20_000;
    private static final int DEEPEST = 15;
    private static final int MOST_FILES = 2_000;
    private static final int LONGEST_NAME = 150;
    private static final int DEEPEST_FOLDER = 4;

    private final Drafts drafts;
    private final SubjectId visit;
    private final List<Step> steps = new ArrayList<>();
    private boolean isSettling;
    private Optional<Instant> stated = Optional.empty();

    /** A visit while the steps are made. */
    private static final class State {
        final Draft draft;
        FactTree tree;
        NavigableMap<String, KeptFile> files;
        SortedMap<String, String> notes;
        Optional<Draft.TakenBack> takenBack = Optional.empty();

        State(Draft draft) {
            this.draft = draft;
            tree = Draft.tree(draft.subject());
            files = new TreeMap<>(draft.files());
            notes = new TreeMap<>(draft.notes());
        }
    }

    @FunctionalInterface
    private interface Step {
        void make(State state) throws DraftRefusal;
    }

    DraftChange(Drafts drafts, SubjectId visit) {
        this.drafts = drafts;
        this.visit = visit;
    }

    /** Sets a fact whatever stands there now; no value takes it away. */
    public DraftChange set(FactPath path, Optional<Object> value) {
        steps.add(state -> state.tree = place(path, () -> {
            checkKey(path);
            if (value.isPresent()) {
                checkValue(path, value.get(), 0);
            }
            return state.tree.with(path, value);
        }));
        return this;
    }

    /** Sets a fact to a text. */
    public DraftChange set(FactPath path, String value) {
        return set(path, Optional.of(value));
    }

    /**
     * The same, refused if another value stands there than the one that was seen.
     *
     * @param seen empty if none was seen
     */
    public DraftChange set(FactPath path, Optional<Object> value, Optional<Object> seen) {
        expect(path, seen, value);
        return set(path, value);
    }

    /** Refuses the whole change unless that value stands at the path. */
    public DraftChange expect(FactPath path, Optional<Object> seen) {
        expect(path, seen, Optional.empty());
        return this;
    }

    private void expect(FactPath path, Optional<Object> seen, Optional<Object> wanted) {
        Optional<Object> held = seen.map(FactTree::frozen).filter(value -> !FactTree.isBlank(value));
        Optional<Object> asked = wanted.map(FactTree::frozen).filter(value -> !FactTree.isBlank(value));
        steps.add(state -> {
            Optional<Object> standing = state.tree.find(path);
            // what stands there already may be asked for twice
            if (!standing.equals(held) && !standing.equals(asked)) {
                throw new DraftRefusal(
                        Reason.CHANGED_MEANWHILE,
                        "%s was changed since it was shown: it was %s and is %s"
                                .formatted(PlaceWords.of(path), shown(held), shown(standing)),
                        "Look at the newer value and decide which is right.",
                        Optional.of(new Clash(path.toString(), held, standing, asked)));
            }
        });
    }

    private static String shown(Optional<Object> value) {
        return value.map(one -> one instanceof String text ? "'" + text + "'" : one.toString())
                .orElse("empty");
    }

    /** Adds an entry at the end of a list, which is made if it is not there. */
    public DraftChange add(FactPath list, Object entry) {
        steps.add(state -> state.tree = place(list, () -> {
            checkKey(list);
            checkValue(list, entry, 0);
            if (FactTree.isBlank(entry)) {
                throw new DraftRefusal(
                        Reason.NOT_A_VALUE,
                        PlaceWords.of(list) + ": there is nothing to add",
                        "Fill in a field first.");
            }
            return state.tree.added(list, entry);
        }));
        return this;
    }

    /** Takes a fact or an entry of a list away; entries behind it move up. */
    public DraftChange remove(FactPath path) {
        steps.add(state -> state.tree = place(path, () -> state.tree.without(path)));
        return this;
    }

    /** Sets a note of the way; blank takes it away. */
    public DraftChange note(String name, String text) {
        steps.add(state -> {
            checkValue(FactPath.of(name), text, 0);
            if (text.isBlank()) {
                state.notes.remove(name);
            } else {
                state.notes.put(name, text);
            }
        });
        return this;
    }

    /**
     * Keeps a file with the visit. The bytes are durable when this returns, the visit names them once the change is kept.
     *
     * @param name in the visit folder, with / between a subfolder and the file; other content under it is not replaced
     * @param bytes read to the end
     */
    public DraftChange putFile(String name, InputStream bytes) {
        return putFile(name, drafts.records().files().put(bytes, name));
    }

    private DraftChange putFile(String name, KeptFile kept) {
        steps.add(state -> {
            checkName(name);
            Optional<String> there = state.files.keySet().stream()
                    .filter(one -> one.equalsIgnoreCase(name))
                    .findFirst();
            if (there.isPresent() && !(there.get().equals(name) && kept.equals(state.files.get(name)))) {
                throw new DraftRefusal(
                        Reason.FILE_THERE,
                        "the visit has a file %s already, with other content".formatted(there.get()),
                        "Give the new one another name, or take the old one away first; nothing is overwritten.");
            }
            state.files.put(name, kept);
            if (state.files.size() > MOST_FILES) {
                throw new DraftRefusal(
                        Reason.TOO_LARGE,
                        "a visit has %d files at most".formatted(MOST_FILES),
                        "Leave away what no run names.");
            }
        });
        return this;
    }

    /** Takes a file away from the visit; its bytes stay in the record. */
    public DraftChange removeFile(String name) {
        steps.add(state -> {
            if (state.files.remove(name) == null) {
                throw new DraftRefusal(
                        Reason.NO_SUCH_PLACE,
                        "the visit has no file " + name,
                        "It may have been taken away in another window; look again.");
            }
        });
        return this;
    }

    /** Subjects that the visit names and the record does not know are made with it. */
    DraftChange settling() {
        isSettling = true;
        return this;
    }

    /** Takes back the last change of the visit, with the same checks as any other change. */
    DraftChange takingBack(Optional<UUID> seen) {
        steps.add(state -> {
            Draft.TakenBack before = state.draft.takenBack(seen);
            state.tree = before.tree();
            state.files = before.files();
            state.notes = before.notes();
            state.takenBack = Optional.of(before);
        });
        return this;
    }

    /** What is changed was stated at that time, not only now: it could not be kept before. */
    public DraftChange statedAt(Instant when) {
        stated = Optional.of(when);
        return this;
    }

    /**
     * Keeps all steps.
     *
     * @param author who
     * @param why reason; may be blank
     * @return the visit after it
     * @throws DraftRefusal if nothing was kept
     * @throws org.steamwright.records.RecordsException if the disk or the store failed; the message says whether anything was
     *     kept
     */
    public Draft keep(Author author, String why) throws DraftRefusal {
        for (int attempt = 0; ; attempt++) {
            Optional<TreeHead> head = Optional.of(drafts.records().head().tree());
            Draft draft = drafts.of(visit);
            refuseSigned(draft);
            State state = new State(draft);
            for (Step step : steps) {
                step.make(state);
            }
            Optional<DraftChanges> changes = changes(draft, state, why);
            if (changes.isEmpty()) {
                return draft;
            }
            Submission submission = new Submission(
                    drafts.records().newSubmission(),
                    author,
                    changes.get().all.stream()
                            .map(change -> stated.map(change::statedAt).orElse(change))
                            .toList(),
                    changes.get().isByHead ? head : Optional.empty());
            if (drafts.append(submission, attempt)) {
                return drafts.of(visit);
            }
        }
    }

    private static void refuseSigned(Draft draft) throws DraftRefusal {
        if (draft.isSigned()) {
            throw Drafts.signed("visit " + draft.number() + " is signed and does not change any more");
        }
    }

    /**
     * Problems that the visit would have after these steps, as far as they show without reading a recording. Nothing is kept.
     *
     * @throws DraftRefusal if the steps can't be made
     */
    public List<DraftProblem> glance() throws IOException, FilingException, DraftRefusal {
        Draft draft = drafts.of(visit);
        refuseSigned(draft);
        State state = new State(draft);
        for (Step step : steps) {
            step.make(state);
        }
        return drafts.glance(state.tree, state.files);
    }

    private record DraftChanges(List<Change> all, boolean isByHead) {}

    private Optional<DraftChanges> changes(Draft draft, State state, String why) throws DraftRefusal {
        String number = state.tree
                .find(FactPath.of("report-number"))
                .map(String::valueOf)
                .orElse("");
        if (number.isBlank()) {
            throw Drafts.numberMissing();
        }
        boolean isNumberNew = !number.strip().equals(draft.number());
        if (isNumberNew) {
            drafts.refuseTaken(number.strip(), Optional.of(visit));
        }
        List<Change> changes = new ArrayList<>();
        boolean isSortNew = false;
        boolean isSame =
                state.tree.facts().equals(Draft.tree(draft.subject()).facts()) && state.files.equals(draft.files());
        if (!isSame || isSettling) {
            Map<String, Object> facts = drafts.facts(
                    state.tree, state.files, Drafts.ties(drafts.records(), draft.subject()), changes, isSettling);
            state.takenBack
                    .flatMap(Draft.TakenBack::visitFile)
                    .ifPresent(file -> facts.put(
                            VisitFiles.PREFIX + Filing.VISIT_FILE,
                            Map.of("sha256", file.sha256().hex(), "size", file.size())));
            isSortNew = refuseMixing(draft, facts);
            changes.addAll(expecting(draft, facts, why));
        }
        Map<String, Object> notes = new TreeMap<>();
        state.notes.forEach((name, text) -> notes.put(Draft.NOTES + name, text));
        changes.addAll(FactChanges.of(
                Kind.VISIT,
                visit,
                Optional.of(draft.subject()),
                notes,
                property -> property.startsWith(Draft.NOTES),
                why));
        state.takenBack.ifPresent(before -> changes.add(before.mark()));
        boolean isByHead = isNumberNew || isSortNew || state.takenBack.isPresent();
        return changes.isEmpty() ? Optional.empty() : Optional.of(new DraftChanges(changes, isByHead));
    }

    private List<Change> expecting(Draft draft, Map<String, Object> facts, String why) {
        return FactChanges.of(
                        Kind.VISIT,
                        visit,
                        Optional.of(draft.subject()),
                        facts,
                        property -> property.startsWith(Filing.STATED)
                                || property.startsWith(VisitFiles.PREFIX)
                                || FoundBy.PROPERTIES.contains(property),
                        why)
                .stream()
                .map(change ->
                        change.expecting(draft.subject().fact(change.property()).orElse(JsonText.NULL)))
                .toList();
    }

    /** Whether the visit is of another sort than before, which the record may hold as long as nobody writes in between. */
    private boolean refuseMixing(Draft draft, Map<String, Object> facts) throws DraftRefusal {
        Object simulated = facts.get("simulated");
        if (simulated == null || draft.subject().text("simulated").equals(simulated.toString())) {
            return false;
        }
        try {
            Filing.refuseMixing(drafts.records(), Optional.of(visit), simulated.equals(true));
        } catch (FilingException e) {
            throw new DraftRefusal(Reason.MIXED, String.valueOf(e.getMessage()), e.remedy());
        }
        return true;
    }

    /** The visit file of a tree. */
    static byte[] text(FactTree tree) throws DraftRefusal {
        byte[] text = VisitText.of(tree.root()).getBytes(StandardCharsets.UTF_8);
        if (text.length > LARGEST_TEXT) {
            throw new DraftRefusal(
                    Reason.TOO_LARGE,
                    "the facts of the visit would take %d bytes; %d is the most".formatted(text.length, LARGEST_TEXT),
                    "Keep long texts as files of the visit.");
        }
        return text;
    }

    private interface Placing {
        FactTree place() throws FactTree.NoPlaceException, DraftRefusal;
    }

    private static FactTree place(FactPath path, Placing placing) throws DraftRefusal {
        try {
            return placing.place();
        } catch (FactTree.NoPlaceException e) {
            throw new DraftRefusal(
                    Reason.NO_SUCH_PLACE,
                    "%s is not there (%s)".formatted(PlaceWords.of(path), e.getMessage()),
                    "It may have been taken away in another window; look again.");
        }
    }

    /** The first key of a path has the form of a key; whether a visit has it is told when the visit is read. */
    static void checkKey(FactPath path) throws DraftRefusal {
        if (!path.first().matches("[a-z]+(-[a-z]+)*") || path.steps().size() > DEEPEST) {
            throw new DraftRefusal(
                    Reason.NO_SUCH_PLACE,
                    "'%s' is no place in a visit".formatted(path),
                    "Take one of the keys of docs/reference/visit-folder.md.");
        }
    }

    private static void checkValue(FactPath path, Object value, int depth) throws DraftRefusal {
        if (depth + path.steps().size() > DEEPEST) {
            throw notAValue(path, "more than %d levels inside each other".formatted(DEEPEST), "Write it in fewer.");
        }
        if (value instanceof Map<?, ?> map) {
            for (Map.Entry<?, ?> entry : map.entrySet()) {
                checkText(path, String.valueOf(entry.getKey()));
                checkValue(path, entry.getValue(), depth + 1);
            }
        } else if (value instanceof List<?> list) {
            for (Object one : list) {
                checkValue(path, one, depth + 1);
            }
        } else {
            checkText(path, String.valueOf(value));
        }
    }

    private static void checkText(FactPath path, String text) throws DraftRefusal {
        if (text.length() > LONGEST_VALUE) {
            throw notAValue(
                    path,
                    "a text of %d characters; %d is the most".formatted(text.length(), LONGEST_VALUE),
                    "Keep it as a file of the visit, or make it shorter.");
        }
        for (int i = 0; i < text.length(); i++) {
            char sign = text.charAt(i);
            if (Character.isISOControl(sign) && sign != '\n' && sign != '\r' && sign != '\t') {
                throw notAValue(
                        path,
                        "a control character (code %d) at place %d".formatted((int) sign, i + 1),
                        "Type the text instead of pasting it.");
            }
            if (Character.isHighSurrogate(sign)
                    && i + 1 < text.length()
                    && Character.isLowSurrogate(text.charAt(i + 1))) {
                i++;
            } else if (Character.isSurrogate(sign)) {
                throw notAValue(path, "half of a character at place %d".formatted(i + 1), "Type the text again.");
            }
        }
    }

    private static DraftRefusal notAValue(FactPath path, String found, String remedy) {
        return new DraftRefusal(Reason.NOT_A_VALUE, "%s: found %s".formatted(PlaceWords.of(path), found), remedy);
    }

    private static void checkName(String name) throws DraftRefusal {
        String[] parts = name.split("/", -1);
        boolean isGood = name.length() <= LONGEST_NAME && parts.length <= DEEPEST_FOLDER && !isOwn(name);
        for (String part : parts) {
            isGood &= !part.isBlank()
                    && part.equals(part.strip())
                    && !part.startsWith(".")
                    && !part.endsWith(".")
                    && part.chars()
                            .noneMatch(sign -> Character.isISOControl(sign)
                                    || Character.isSurrogate((char) sign)
                                    || "\\:*?\"<>|~".indexOf(sign) >= 0);
        }
        if (!isGood) {
            throw new DraftRefusal(
                    Reason.FILE_NAME,
                    "a file of a visit can't be called '%s'".formatted(name),
                    "Take a name of letters, digits, blanks, hyphens and full stops, at most %d characters; %s, result.json, report.pdf and certificates are made by the program."
                            .formatted(LONGEST_NAME, Filing.VISIT_FILE));
        }
    }

    private static boolean isOwn(String name) {
        return name.equalsIgnoreCase(Filing.VISIT_FILE)
                || name.equalsIgnoreCase("visit.yml")
                || VisitFiles.isDerived(name);
    }
}
