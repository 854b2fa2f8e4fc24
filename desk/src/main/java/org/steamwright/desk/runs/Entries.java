package org.steamwright.desk.runs;

import jakarta.servlet.http.Part;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import java.util.UUID;
import org.steamwright.desk.path.Earlier;
import org.steamwright.desk.path.Recorded;
import org.steamwright.desk.path.RegisterInstruments;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.records.proof.Hash;

/** What is typed, chosen and dropped on the page of the recordings, put into the draft. */
final class Entries {

    private static final String ROLE = "role";
    private static final String INSTRUMENT = "instrument";
    private static final List<String> SAID = List.of(ROLE, "position", "place", INSTRUMENT, "reference");
    private static final String RECORDING = "recording";
    private static final String FILE = "file";

    private Entries() {}

    /** What an entry was refused for, in words of the desk. */
    static final class Refused extends Exception {

        private static final long serialVersionUID = 1L;

        private final String key;
        private final transient Object[] values;

        Refused(String key, Object... values) {
            super(key);
            this.key = key;
            this.values = values.clone();
        }

        /** The words. */
        String words(Frame frame) {
            return frame.say(key, values);
        }
    }

    /** Keeps files with the visit and names them as recordings of the run. */
    static void files(RunFacts facts, Ask ask) throws IOException, DraftRefusal, Refused {
        List<Part> parts =
                ask.files(RECORDING).stream().filter(part -> part.getSize() > 0).toList();
        if (parts.isEmpty()) {
            throw new Refused("runs.no-file");
        }
        DraftChange change = facts.draft().change();
        List<Object> entries = facts.entries();
        for (Part part : parts) {
            String name = name(part.getSubmittedFileName());
            refuseAgain(facts, name, part);
            try (InputStream bytes = part.getInputStream()) {
                change.putFile(name, bytes);
            }
            if (!facts.files().contains(name)) {
                entries.add(name);
            }
        }
        change.set(facts.path(RECORDING), Optional.of(listed(entries)), facts.find(RECORDING))
                .keep(ask.author(), "");
    }

    /** The recording of one run is no evidence of another, and laid beside itself it is none of a second logger. */
    private static void refuseAgain(RunFacts facts, String name, Part part) throws IOException, Refused {
        Hash hash;
        try (InputStream bytes = part.getInputStream()) {
            hash = Hash.ofContent(bytes);
        }
        for (int run = 1; run <= facts.draft().count(FactPath.of("runs")); run++) {
            for (String file : new RunFacts(facts.draft(), run).files()) {
                boolean isSame = Optional.ofNullable(facts.draft().files().get(file))
                        .filter(kept -> kept.sha256().equals(hash))
                        .isPresent();
                if (isSame && (run != facts.number() || !file.equals(name))) {
                    throw new Refused("runs.same-recording", name, run, file);
                }
            }
        }
    }

    /** The last part of a name, whatever folder the sender had it in. */
    private static String name(String submitted) {
        String name = submitted.replace('\\', '/');
        return name.substring(name.lastIndexOf('/') + 1).strip();
    }

    private static Object listed(List<Object> entries) {
        return entries.size() == 1 ? entries.get(0) : entries;
    }

    /** Takes a recording away from the run, with a reason, and from the visit if no other run names it. */
    static void remove(RunFacts facts, Ask ask) throws DraftRefusal, Refused {
        String file = known(facts, ask);
        String because = ask.typed("because");
        if (because.isBlank()) {
            throw new Refused("runs.no-reason");
        }
        List<Object> entries = facts.entries();
        entries.removeIf(entry -> RunFacts.file(entry).equals(file));
        DraftChange change = facts.draft()
                .change()
                .set(
                        facts.path(RECORDING),
                        entries.isEmpty() ? Optional.empty() : Optional.of(listed(entries)),
                        facts.find(RECORDING));
        if (facts.draft().files().containsKey(file) && !isNamedElsewhere(facts, file)) {
            change.removeFile(file);
        }
        Map<String, Object> away = new LinkedHashMap<>();
        away.put("recording", file);
        Optional.ofNullable(facts.draft().files().get(file))
                .ifPresent(kept -> away.put("sha256", kept.sha256().hex()));
        away.put("because", because);
        away.put("by", ask.person().name());
        change.add(facts.path("taken-away"), away).keep(ask.author(), because);
    }

    private static boolean isNamedElsewhere(RunFacts facts, String file) {
        for (int run = 1; run <= facts.draft().count(FactPath.of("runs")); run++) {
            if (run != facts.number()
                    && new RunFacts(facts.draft(), run).files().contains(file)) {
                return true;
            }
        }
        return false;
    }

    /** Answers a question about a file. */
    static void answer(RunFacts facts, Ask ask) throws DraftRefusal, Refused {
        String file = known(facts, ask);
        String key = ask.typed("key");
        String value = ask.typed("value");
        if (key.isEmpty() || value.isEmpty()) {
            throw new Refused("runs.no-answer");
        }
        if (key.startsWith("reference:")) {
            channel(facts, file, key.substring("reference:".length()), Map.of(ROLE, "pressure", "reference", value))
                    .keep(ask.author(), "");
            return;
        }
        Map<String, Object> reading = new LinkedHashMap<>(facts.reading(file));
        if (key.startsWith("unit:")) {
            Map<String, Object> units = new LinkedHashMap<>();
            if (reading.get("units") instanceof Map<?, ?> held) {
                held.forEach((column, unit) -> units.put(String.valueOf(column), unit));
            }
            units.put(key.substring("unit:".length()), value);
            reading.put("units", units);
        } else {
            reading.put(key.equals("charset") ? "encoding" : key, value);
        }
        boolean isAlone = facts.files().size() == 1 && !(facts.entries().get(0) instanceof Map<?, ?>);
        DraftChange change = facts.draft().change();
        if (isAlone) {
            change.set(facts.path("reading"), Optional.of(reading), facts.find("reading"));
        } else {
            change.set(facts.path(RECORDING), Optional.of(facts.with(file, "reading", reading)), facts.find(RECORDING));
        }
        change.keep(ask.author(), "");
    }

    /**
     * Says for the columns of a file what each stands for and where its sensor sat. What was not changed on the page stays as
     * it stands by now; what was changed both there and elsewhere is refused.
     *
     * @param earlier of which one column is taken over, if that is asked for
     * @param register from which an instrument that is named here comes into the visit, if it is not there yet
     */
    static void channels(
            RunFacts facts, Ask ask, Optional<Earlier> earlier, Office office, RegisterInstruments register)
            throws IOException, FilingException, DraftRefusal, Refused {
        String file = known(facts, ask);
        List<String> columns = ask.chosen("column");
        DraftChange change = facts.draft().change();
        NavigableSet<String> known = new TreeSet<>(register.usable().keySet());
        known.addAll(facts.instruments());
        List<String> named = new ArrayList<>();
        Optional<RunFacts> like = like(facts, ask);
        for (int i = 0; i < columns.size(); i++) {
            if (like.isPresent()) {
                Map<String, Object> then = LikeRun.said(like.get(), columns.get(i));
                named.add(RunFacts.text(then, INSTRUMENT));
                put(change, facts, file, columns.get(i), then);
                continue;
            }
            if (ask.typed("take").equals(String.valueOf(i))) {
                String column = columns.get(i);
                Map<String, Object> then = new LinkedHashMap<>();
                earlier.ifPresent(before -> then.putAll(before.channel(facts.draft(), facts.number(), column)));
                named.add(RunFacts.text(then, INSTRUMENT));
                put(change, facts, file, column, then);
                continue;
            }
            Map<String, Object> standing = facts.channel(file, columns.get(i));
            Map<String, Object> said = new LinkedHashMap<>(standing);
            boolean isChanged = false;
            for (String key : SAID) {
                Optional<String> typed = typed(ask, key + "-" + i);
                String held = RunFacts.text(standing, key);
                Optional<String> shown = typed(ask, "was-" + key + "-" + i);
                if (typed.isEmpty() || typed.equals(shown) || typed.get().equals(held)) {
                    continue;
                }
                if (shown.isPresent() && !shown.get().equals(held)) {
                    throw new Refused("runs.changed-meanwhile", columns.get(i), held.isEmpty() ? "–" : held);
                }
                said.put(key, key.equals(INSTRUMENT) ? instrument(known, typed.get()) : typed.get());
                isChanged = true;
            }
            String role = RunFacts.text(said, ROLE);
            if (!role.isEmpty() && !RoleWord.ofFiles().contains(role)) {
                throw new Refused("runs.no-role");
            }
            if (isChanged) {
                named.add(RunFacts.text(said, INSTRUMENT));
                boolean isGone = role.isEmpty() && standing.containsKey(ROLE);
                put(change, facts, file, columns.get(i), isGone ? Map.of() : said);
            }
        }
        register.bring(facts.draft(), change, named, office);
        change.keep(ask.author(), "");
    }

    /** The run of which everything that is said of these columns is taken over, if that is asked for. */
    private static Optional<RunFacts> like(RunFacts facts, Ask ask) throws Refused {
        String run = ask.typed("as-run");
        if (run.isEmpty()) {
            return Optional.empty();
        }
        Optional<RunFacts> like = Optional.of(run)
                .filter(text -> text.matches("[1-9][0-9]{0,3}"))
                .map(text -> new RunFacts(facts.draft(), Integer.parseInt(text)))
                .filter(other -> other.isThere() && other.number() != facts.number());
        if (like.isEmpty()) {
            throw new Refused("runs.no-like-run");
        }
        return like;
    }

    /** The instrument of the visit or of the office that is meant; another one has no certificate here. */
    private static String instrument(NavigableSet<String> known, String typed) throws Refused {
        if (typed.isEmpty()) {
            return typed;
        }
        return known.stream()
                .filter(typed::equalsIgnoreCase)
                .findFirst()
                .orElseThrow(() -> known.isEmpty()
                        ? new Refused("runs.no-instruments", typed)
                        : new Refused("runs.no-such-instrument", typed, String.join(", ", known)));
    }

    /** Puts a channel at a place of the plan; what its words say of other directions stays. */
    static void place(RunFacts facts, Ask ask) throws DraftRefusal, Refused {
        String chosen = ask.typed("channel");
        String file = facts.files().stream()
                .filter(one -> chosen.startsWith(one + "/"))
                .findFirst()
                .orElseThrow(() -> new Refused("runs.no-channel"));
        String column = chosen.substring(file.length() + 1);
        Map<String, Object> standing = facts.channel(file, column);
        if (!standing.containsKey(ROLE)) {
            throw new Refused("runs.no-channel");
        }
        List<String> steps = List.of(ask.typed("at").split(",", -1));
        String place = ChamberPlan.moved(RunFacts.text(standing, "place"), steps)
                .orElseThrow(() -> new Refused("runs.no-such-place"));
        channel(facts, file, column, Map.of("place", place)).keep(ask.author(), "");
    }

    /** What was sent under a name; empty if the page had no such field. */
    private static Optional<String> typed(Ask ask, String name) {
        return ask.chosen(name).stream().findFirst().map(String::strip);
    }

    private static DraftChange channel(RunFacts facts, String file, String column, Map<String, Object> said) {
        Map<String, Object> merged = new LinkedHashMap<>(facts.channel(file, column));
        merged.putAll(said);
        DraftChange change = facts.draft().change();
        put(change, facts, file, column, merged);
        return change;
    }

    private static void put(DraftChange change, RunFacts facts, String file, String column, Map<String, Object> said) {
        Map<String, Object> kept = new LinkedHashMap<>();
        facts.channel(file, column).forEach((key, value) -> {
            if (key.equals("name") && !said.isEmpty()) {
                kept.put(key, value);
            }
        });
        said.forEach((key, value) -> {
            if (!String.valueOf(value).isBlank()) {
                kept.put(key, value);
            }
        });
        boolean isFull =
                facts.draft().find(facts.path("channels", file + "/" + column)).isPresent();
        boolean isShort = facts.draft().find(facts.path("channels", column)).isPresent();
        boolean isAlone = facts.files().size() == 1;
        String key = isFull || (!isShort && !isAlone) ? file + "/" + column : column;
        Object value = kept.size() == 1 && kept.containsKey(ROLE) ? kept.getOrDefault(ROLE, "") : kept;
        if (kept.isEmpty() && !isFull && !isShort) {
            return;
        }
        change.set(
                facts.path("channels", key),
                kept.isEmpty() ? Optional.empty() : Optional.of(value),
                facts.find("channels", key));
    }

    /** Says how the clock of a file compares with the others. An offset that is not yet complete is kept as a note of the way. */
    static void clock(RunFacts facts, Ask ask) throws DraftRefusal, Refused {
        String file = known(facts, ask);
        Map<String, Object> clock = new LinkedHashMap<>();
        String note = "";
        switch (ask.typed("way")) {
            case "event" -> {
                clock.put("event", "air-removal");
                clock.put("by", ask.person().name());
            }
            case "offset" -> {
                clock.put("offset", seconds(ask, "offset"));
                clock.put("half-width", seconds(ask, "half-width"));
                clock.put("by", ask.person().name());
                clock.put("because", ask.typed("because"));
                if (clock.values().stream().anyMatch(value -> value.toString().isBlank())) {
                    if (!ask.isPartial()) {
                        throw new Refused("runs.clock-incomplete");
                    }
                    note = ClockNote.of(clock);
                    clock.clear();
                }
            }
            case "" -> {}
            default -> throw new Refused("runs.clock-incomplete");
        }
        DraftChange change = facts.draft().change();
        change.note(ClockNote.name(facts, file), note);
        if (note.isEmpty() || !facts.clock(file).isEmpty()) {
            change.set(
                    facts.path(RECORDING),
                    Optional.of(listed(facts.with(file, "clock", clock))),
                    facts.find(RECORDING));
        }
        change.keep(ask.author(), "");
    }

    /** Seconds with their unit; a decimal comma is one, too. Blank if nothing was typed. */
    private static String seconds(Ask ask, String name) throws Refused {
        String typed = ask.typed(name);
        if (typed.isEmpty()) {
            return "";
        }
        String figure = ask.frame()
                .figures()
                .typed(typed)
                .orElseThrow(() -> new Refused("runs.no-seconds", typed))
                .strip();
        return figure.matches("[+-]?[0-9.]+") ? figure + " s" : figure;
    }

    /** Takes the last change back, if it is still the one that was shown. */
    static void undo(RunFacts facts, Ask ask) throws DraftRefusal, Refused {
        String change = ask.typed("change");
        if (!change.matches("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")) {
            throw new Refused("runs.no-change");
        }
        if (Recorded.isOfLastChange(facts.draft())) {
            throw new Refused("runs.undo-recorded");
        }
        facts.draft().undo(ask.author(), Optional.of(UUID.fromString(change)));
    }

    private static String known(RunFacts facts, Ask ask) throws Refused {
        String file = ask.typed(FILE);
        if (!facts.files().contains(file)) {
            throw new Refused("runs.no-such-file");
        }
        return file;
    }
}
