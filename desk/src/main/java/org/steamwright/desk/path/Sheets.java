package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.desk.shelf.ChamberPlaces;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.ReadOut;
import org.steamwright.intake.folder.ShippedTaskLists;
import org.steamwright.report.picture.DrawnSignature;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskList;

/** What stands on the sheet of each stage. */
final class Sheets {

    /** Notes of which task list was chosen begin with this. */
    private static final String LIST = "list/";

    private static final List<String> YES_NO = List.of("yes", "no");
    private static final List<String> ITEM_RESULTS = List.of("good", "bad", "not done", "not possible");

    /** What is looked at before anything is touched; titles stand in the visit and do not change with the reader's language. */
    private static final Map<String, String> AS_FOUND = asFound();

    private final Draft draft;
    private final Frame frame;
    private final Optional<Earlier> earlier;
    private final RegisterInstruments register;
    private final Map<String, DraftProblem> problems = new LinkedHashMap<>();

    Sheets(Draft draft, Frame frame, Optional<Earlier> earlier, List<DraftProblem> problems) {
        this(draft, frame, earlier, problems, RegisterInstruments.NONE);
    }

    Sheets(
            Draft draft,
            Frame frame,
            Optional<Earlier> earlier,
            List<DraftProblem> problems,
            RegisterInstruments register) {
        this.register = register;
        this.draft = draft;
        this.frame = frame;
        this.earlier = earlier;
        problems.forEach(
                problem -> problem.path().ifPresent(path -> this.problems.putIfAbsent(path.toString(), problem)));
    }

    private static Map<String, String> asFound() {
        Map<String, String> titles = new LinkedHashMap<>();
        titles.put("log-book", "Log book of the clinic: tests of the days and weeks are there");
        titles.put("own-failures", "Failed cycles and messages since the last visit");
        titles.put("complaints", "What the staff noticed");
        titles.put("last-indicator", "Last result of the clinic's own indicator");
        titles.put("display-at-rest", "Display at rest: room temperature and ambient pressure");
        titles.put("own-clock", "Clock of the steriliser against the reference clock");
        titles.put("chamber", "Chamber, door and seal before anything is touched");
        return titles;
    }

    Sheet of(Stage stage) {
        List<Block> blocks = new ArrayList<>();
        switch (stage) {
            case IDENTITY -> identity(blocks);
            case AS_FOUND -> asFound(blocks);
            case MAINTENANCE -> tasks(TaskList.Part.MAINTENANCE, blocks);
            case INSTALLATION -> installation(blocks);
            case RUNS -> runs(blocks);
            case LOAD -> load(blocks);
            case INDICATORS -> indicators(blocks);
            case INDICATION -> indication(blocks);
            case SAFETY -> tasks(TaskList.Part.SAFETY, blocks);
            case CLOSE -> close(blocks);
        }
        return new Sheet(stage, say("stage." + stage.word()), blocks);
    }

    // ---- words and fields

    private String say(String key, Object... parts) {
        return frame.say("path." + key, parts);
    }

    private Field field(Object list, String key) {
        return field(list + "/" + key, key, Look.TEXT, List.of());
    }

    private Field field(Object list, String key, Look look) {
        return field(list + "/" + key, key, look, List.of());
    }

    private Field choice(Object list, String key, List<String> words) {
        return field(list + "/" + key, key, Look.CHOICE, options(words));
    }

    private Field named(Object list, String key, List<String> names) {
        return field(
                list + "/" + key,
                key,
                Look.CHOICE,
                names.stream().map(name -> new Option(name, name)).toList());
    }

    private List<Option> options(List<String> words) {
        return words.stream()
                .map(word -> new Option(word, say("word." + word.replace(' ', '-'))))
                .toList();
    }

    private Field field(String path, String key, Look look, List<Option> options) {
        return field(
                path,
                say("label." + key),
                frame.words().find("path.hint." + key).orElse(""),
                look,
                options);
    }

    private Field field(String path, String label, String hint, Look look, List<Option> options) {
        Optional<KeyedPath> fact =
                path.startsWith(Saving.NOTES) ? Optional.empty() : Optional.of(KeyedPath.parse(path));
        Optional<FactPath> real = fact.flatMap(one -> one.find(draft));
        String value =
                fact.isPresent() ? real.map(draft::text).orElse("") : draft.note(path.substring(Saving.NOTES.length()));
        List<Option> choices = new ArrayList<>(options);
        if (look == Look.CHOICE
                && !value.isBlank()
                && options.stream().noneMatch(one -> one.value().equals(value))) {
            // what stands in the visit is shown, also if nobody would choose it here
            choices.add(new Option(value, value));
        }
        return new Field(
                path,
                label,
                look,
                choices,
                (hint + " " + remembered(path, fact, choices)).strip(),
                Typing.shown(path, value, frame.figures()),
                value,
                proposal(path, fact),
                real.flatMap(one -> Optional.ofNullable(problems.get(one.toString())))
                        .map(problem -> new Complaint(problem.message(), problem.remedy())),
                "",
                false);
    }

    private Optional<String> proposal(String path, Optional<KeyedPath> fact) {
        if (fact.isPresent()) {
            return earlier.flatMap(before -> before.find(fact.get(), draft));
        }
        String note = path.substring(Saving.NOTES.length());
        boolean isLasting =
                note.startsWith(Running.LENGTH) || note.startsWith(Running.PLATEAU) || note.startsWith(LIST);
        return machines().stream()
                .map(Machine::key)
                .filter(key -> isLasting && (note.endsWith("/" + key) || note.contains("/" + key + "/")))
                .findFirst()
                .flatMap(key -> earlier.flatMap(before -> before.note(note, key)))
                .filter(then -> !then.equals(draft.note(note)));
    }

    /** What was found the last time, to be looked at and not taken over. */
    private String remembered(String path, Optional<KeyedPath> fact, List<Option> choices) {
        return earlier.flatMap(before -> fact.flatMap(one -> before.remembered(one, draft)))
                .map(text -> choices.stream()
                        .filter(choice -> choice.value().equals(text))
                        .map(Option::label)
                        .findFirst()
                        .orElse(Typing.shown(path, text, frame.figures())))
                .map(text -> say("last-found", text))
                .orElse("");
    }

    /** Buttons for what was in a list the last time and is not yet. */
    private Block.Maker offering(String list, Block.Maker maker) {
        earlier.map(before -> before.offers(FactPath.parse(list), draft))
                .orElse(List.of())
                .forEach(offer -> offer(maker, "offer", list, offer));
        return maker;
    }

    private void offer(Block.Maker maker, String words, String list, Earlier.Offer offer) {
        maker.button(
                say(words, Typing.shownAll(offer.words(), frame.figures())),
                "offers",
                Map.of("list", list, "mark", offer.mark()));
    }

    private String text(Object... steps) {
        return draft.text(FactPath.of(steps));
    }

    private int count(Object... steps) {
        return draft.count(FactPath.of(steps));
    }

    /** A sterilizer of the visit: its place, its key, and how people call it. */
    private record Machine(int place, String key, String words) {}

    private List<Machine> machines() {
        List<Machine> machines = new ArrayList<>();
        for (int i = 1; i <= count("sterilizers"); i++) {
            String key = text("sterilizers", i, "key");
            String serial = text("sterilizers", i, "serial");
            if (!key.isBlank()) {
                machines.add(new Machine(i, key, say("machine", key, serial)));
            }
        }
        return machines;
    }

    private List<String> keys() {
        return machines().stream().map(Machine::key).toList();
    }

    private List<String> cycles() {
        List<String> names = new ArrayList<>();
        for (int i = 1; i <= count("sterilizers"); i++) {
            for (int j = 1; j <= count("sterilizers", i, "cycles"); j++) {
                String name = text("sterilizers", i, "cycles", j, "name");
                if (!name.isBlank() && !names.contains(name)) {
                    names.add(name);
                }
            }
        }
        return names;
    }

    private List<String> instruments() {
        return draft.subject()
                .fact("instruments")
                .map(list -> {
                    List<String> ids = new ArrayList<>();
                    list.node().forEach(id -> ids.add(id.asText()));
                    return ids;
                })
                .orElse(new ArrayList<>());
    }

    private Block.Maker section(String key) {
        return new Block.Maker(Part.SECTION, say("block." + key))
                .note(frame.words().find("path.note." + key).orElse(""));
    }

    private Block.Maker entry(String heading) {
        return new Block.Maker(Part.ENTRY, heading);
    }

    private Block.Maker removable(Block.Maker maker, String path) {
        return maker.button(say("remove"), "removals", Map.of("path", path, "seen", Saving.mark(draft, path)));
    }

    private static Map<String, String> adding(String list, String... keysAndValues) {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("list", list);
        for (int i = 0; i < keysAndValues.length; i += 2) {
            values.put("with." + keysAndValues[i], keysAndValues[i + 1]);
        }
        return values;
    }

    // ---- identity

    private void identity(List<Block> blocks) {
        for (int i = 1; i <= count("sterilizers"); i++) {
            blocks.add(gate(i));
        }
        blocks.add(section("visit")
                .field(field("report-number", "report-number", Look.TEXT, List.of()))
                .field(field("purpose", "purpose", Look.TEXT, List.of()))
                .field(field("date", "date", Look.DAY, List.of()))
                .field(field("zone", "zone", Look.TEXT, List.of()))
                .field(field(
                        "criteria-set",
                        "criteria-set",
                        Look.CHOICE,
                        new Presets()
                                .names().stream()
                                        .map(name -> new Option(name, name))
                                        .toList()))
                .field(field("company", "company", Look.TEXT, List.of()))
                .make());
        blocks.add(section("clinic")
                .field(field("clinic", "name"))
                .field(field("clinic", "address"))
                .field(field("clinic", "room"))
                .field(field("clinic", "contact"))
                .field(field("clinic", "reference"))
                .make());
        blocks.add(offering(
                        "people",
                        section("people")
                                .button(say("add.technician"), "entries", adding("people", "role", "technician"))
                                .button(
                                        say("add.clinic-person"),
                                        "entries",
                                        adding("people", "role", "representative of the clinic")))
                .make());
        for (int i = 1; i <= count("people"); i++) {
            String path = "people/" + i;
            blocks.add(removable(
                            entry(say("person", i))
                                    .field(field(path, "name"))
                                    .field(field(path, "role"))
                                    .folded(field(path, "organisation"))
                                    .folded(field(path, "authorisation"))
                                    .folded(field(path, "confirms", Look.LONG)),
                            path)
                    .make());
        }
        instrumentsOf(blocks);
        blocks.add(section("sterilizers")
                .button(say("add.sterilizer"), "entries", adding("sterilizers", "key", nextKey()))
                .make());
        for (int i = 1; i <= count("sterilizers"); i++) {
            sterilizer(i, blocks);
        }
    }

    /** Those of the register first; what the register has is not taken from the last visit, for its certificate may be older. */
    private void instrumentsOf(List<Block> blocks) {
        Block.Maker maker =
                new Block.Maker(Part.SECTION, say("block.instruments")).note(String.join(", ", instruments()));
        List<Earlier.Offer> last =
                earlier.map(before -> before.offers(FactPath.of("instruments"), draft)).orElse(List.of()).stream()
                        .filter(offer ->
                                !register.known().contains(offer.words().get("id")))
                        .toList();
        if (!register.offers().isEmpty()) {
            maker.note(say("note.register"));
        }
        register.notes().forEach(maker::note);
        register.offers().forEach(offer -> offer(maker, "offer-register", "instruments", offer));
        if (!last.isEmpty()) {
            maker.note(say("note.instruments"));
        }
        last.forEach(offer -> offer(maker, "offer", "instruments", offer));
        if (!last.isEmpty() || !register.offers().isEmpty() || !register.notes().isEmpty()) {
            blocks.add(maker.make());
        }
    }

    private String nextKey() {
        for (char key = 'A'; key <= 'Z'; key++) {
            if (!keys().contains(String.valueOf(key))) {
                return String.valueOf(key);
            }
        }
        return String.valueOf(count("sterilizers") + 1);
    }

    private Block gate(int place) {
        String serial = text("sterilizers", place, "serial");
        String key = text("sterilizers", place, "key");
        String read = draft.note(gateNote(key));
        Block.Maker maker =
                section("gate").field(field(Saving.NOTES + gateNote(key), "plate-serial", Look.TEXT, List.of()));
        if (read.isBlank()) {
            maker.note(say("gate.unread", serial));
        } else if (isSame(serial, read)) {
            maker.note(say("gate.match", serial));
        } else {
            maker.caution(say("gate.differs", read, serial));
        }
        return key.isBlank()
                ? maker.make()
                : photos(PhotoSubject.PLATE, key, maker).make();
    }

    /** Note that holds what was read off the name plate. */
    static String gateNote(String key) {
        return "plate-serial/" + key;
    }

    /** Whether two serial numbers are the same, blanks and case aside. */
    static boolean isSame(String stated, String read) {
        return stated.replaceAll("\\s", "")
                .toLowerCase(Locale.ROOT)
                .equals(read.replaceAll("\\s", "").toLowerCase(Locale.ROOT));
    }

    private void sterilizer(int place, List<Block> blocks) {
        String path = "sterilizers/" + place;
        blocks.add(offering(
                        path + "/cycles",
                        removable(
                                        entry(say(
                                                        "machine",
                                                        text("sterilizers", place, "key"),
                                                        text("sterilizers", place, "serial")))
                                                .field(field(path, "key"))
                                                .field(field(path, "serial"))
                                                .field(field(path, "maker"))
                                                .field(field(path, "model"))
                                                .field(field(path, "year"))
                                                .field(field(path, "chamber"))
                                                .field(field(path, "chamber-size"))
                                                .field(field(path, "tray-levels", Look.COUNT))
                                                .field(field(path, "firmware"))
                                                .field(field(path, "location"))
                                                .field(field(path, "pressure-papers")),
                                        path)
                                .button(say("add.cycle"), "entries", adding(path + "/cycles", "type", "B")))
                .make());
        for (int i = 1; i <= count("sterilizers", place, "cycles"); i++) {
            String cycle = path + "/cycles/" + i;
            blocks.add(removable(
                            entry(say("cycle", text("sterilizers", place, "key"), i))
                                    .field(field(cycle, "name"))
                                    .field(choice(cycle, "type", List.of("B", "N", "S")))
                                    .field(field(cycle, "sterilizing-temperature"))
                                    .field(field(cycle, "holding-time"))
                                    .folded(field(cycle, "air-removal-pulses", Look.COUNT))
                                    .folded(field(cycle, "pulse-depth"))
                                    .folded(field(cycle, "drying-time")),
                            cycle)
                    .make());
        }
    }

    // ---- as found

    private void asFound(List<Block> blocks) {
        blocks.add(section("conditions")
                .field(field("conditions", "barometer"))
                .field(field("conditions", "barometer-source"))
                .field(field("conditions", "altitude"))
                .field(field("conditions", "room-temperature"))
                .field(field("conditions", "room-humidity"))
                .folded(field("conditions", "supply-voltage"))
                .folded(field("conditions", "water-conductivity"))
                .make());
        for (Machine machine : machines()) {
            blocks.add(photos(
                            PhotoSubject.COUNTER,
                            machine.key,
                            new Block.Maker(Part.SECTION, machine.words)
                                    .note(say("note.as-found"))
                                    .field(field("sterilizers/" + machine.place, "counter-at-arrival", Look.COUNT)))
                    .make());
            AS_FOUND.forEach((id, title) -> {
                String item = "checklists/" + KeyedPath.entry("section", "as-found", "sterilizer", machine.key)
                        + "/items/" + KeyedPath.entry("title", title);
                blocks.add(new Block.Maker(Part.ROW, say("as-found." + id))
                        .field(choice(item, "result", ITEM_RESULTS))
                        .folded(field(item, "remark", Look.LONG))
                        .folded(field(item, "as-found"))
                        .folded(named(item, "instrument", instruments()))
                        .make());
            });
        }
        blocks.add(section("as-found-tests").link(say("to.runs"), "runs").make());
    }

    // ---- task lists

    private void installation(List<Block> blocks) {
        for (Machine machine : machines()) {
            String changes = "job-sheet/changes/" + KeyedPath.entry("sterilizer", machine.key);
            blocks.add(new Block.Maker(Part.SECTION, say("block.changes", machine.words))
                    .note(say("note.changes"))
                    .field(choice(changes, "moved", YES_NO))
                    .field(choice(changes, "added", YES_NO))
                    .field(choice(changes, "changed", YES_NO))
                    .field(field(changes + "/note", "changes-note", Look.LONG, List.of()))
                    .make());
        }
        tasks(TaskList.Part.INSTALLATION, blocks);
    }

    private void tasks(TaskList.Part part, List<Block> blocks) {
        String word = part.name().toLowerCase(Locale.ROOT);
        for (Machine machine : machines()) {
            Map<String, TaskList> lists = new LinkedHashMap<>();
            ShippedTaskLists.names()
                    .forEach(name -> ShippedTaskLists.find(name)
                            .filter(list -> list.part() == part)
                            .ifPresent(list -> lists.put(name, list)));
            Block.Maker head = new Block.Maker(Part.SECTION, machine.words);
            String chosen = chosen(machine, word, lists);
            TaskList list = Optional.ofNullable(lists.get(chosen)).orElseThrow();
            head.note(say(
                    "note.tasks",
                    frame.heard(list.family()),
                    frame.heard(list.interval()),
                    frame.heard(list.provenance().strip())));
            if (lists.size() > 1) {
                head.field(field(
                        Saving.NOTES + LIST + word + "/" + machine.key,
                        "task-list",
                        Look.CHOICE,
                        lists.keySet().stream()
                                .map(name -> new Option(name, name))
                                .toList()));
            }
            blocks.add(head.make());
            String tasks =
                    "job-sheet/tasks/" + KeyedPath.entry("list", chosen, "sterilizer", machine.key) + "/entries/";
            list.tasks().forEach(task -> blocks.add(task(tasks + KeyedPath.entry("task", task.id()), task)));
        }
        if (machines().isEmpty()) {
            blocks.add(section("no-sterilizer")
                    .link(say("to.identity"), "identity")
                    .make());
        }
    }

    private String chosen(Machine machine, String part, Map<String, TaskList> lists) {
        String noted = draft.note(LIST + part + "/" + machine.key);
        if (lists.containsKey(noted)) {
            return noted;
        }
        for (int i = 1; i <= count("job-sheet", "tasks"); i++) {
            String name = text("job-sheet", "tasks", i, "list");
            if (text("job-sheet", "tasks", i, "sterilizer").equals(machine.key) && lists.containsKey(name)) {
                return name;
            }
        }
        boolean hasVacuum = false;
        for (int j = 1; j <= count("sterilizers", machine.place, "cycles"); j++) {
            hasVacuum |=
                    !text("sterilizers", machine.place, "cycles", j, "type").equals("N");
        }
        String wanted = hasVacuum ? "vacuum" : "gravity";
        return lists.keySet().stream()
                .filter(name -> name.contains(wanted))
                .findFirst()
                .orElseGet(() -> lists.keySet().iterator().next());
    }

    private Block task(String path, Task task) {
        Block.Maker row = new Block.Maker(Part.ROW, frame.heard(task.title()))
                .caution(frame.heard(task.caution()))
                .field(choice(path, "outcome", List.of("done", "not-due", "not-applicable", "not-possible")));
        task.limit()
                .ifPresentOrElse(
                        limit -> row.field(field(
                                path + "/reading",
                                say("label.reading"),
                                say(
                                        limit.comparison().name().equals("AT_LEAST") ? "hint.at-least" : "hint.at-most",
                                        frame.figures().of(String.valueOf(limit.value())),
                                        limit.unit(),
                                        frame.heard(limit.source())),
                                Look.TEXT,
                                List.of())),
                        () -> row.folded(choice(path, "condition", List.of("good", "worn", "failed")))
                                .folded(field(path, "before"))
                                .folded(field(path, "after")));
        return row.folded(field(path + "/why", "why", Look.TEXT, List.of()))
                .folded(field(path + "/part/number", "part-number", Look.TEXT, List.of()))
                .folded(field(path + "/part/lot", "part-lot", Look.TEXT, List.of()))
                .folded(named(path, "instrument", instruments()))
                .make();
    }

    // ---- runs

    private void runs(List<Block> blocks) {
        Block.Maker head = section("runs");
        for (Machine machine : machines()) {
            for (String kind : List.of("air-leakage", "empty-chamber", "reference-load")) {
                head.button(
                        say("add.run", say("word." + kind), machine.key),
                        "entries",
                        cycles().size() == 1 && !kind.equals("air-leakage")
                                ? adding("runs", "kind", kind, "sterilizer", machine.key, "cycle", cycles().get(0))
                                : adding("runs", "kind", kind, "sterilizer", machine.key));
            }
        }
        blocks.add(head.make());
        for (int i = 1; i <= count("runs"); i++) {
            blocks.add(run(i));
        }
        lengths(blocks);
        blocks.add(section("penetration")
                .button(
                        say("add.penetration"),
                        "entries",
                        adding("job-sheet/penetration", "sterilizer", firstKey(), "kind", "hollow"))
                .make());
        for (int i = 1; i <= count("job-sheet", "penetration"); i++) {
            String path = "job-sheet/penetration/" + i;
            blocks.add(removable(
                            entry(say("penetration", i))
                                    .field(named(path, "sterilizer", keys()))
                                    .field(named(path, "cycle", cycles()))
                                    .field(field(path, "machine-cycle", Look.COUNT))
                                    .field(choice(path, "kind", List.of("hollow", "porous")))
                                    .field(field(path, "device"))
                                    .field(field(path, "lot"))
                                    .field(field(path, "expires", Look.DAY))
                                    .field(choice(path, "result", List.of("pass", "fail", "unclear")))
                                    .field(field(path, "read-by"))
                                    .folded(choice(path, "when", List.of("as-found", "as-left")))
                                    .folded(field(path, "note", Look.LONG)),
                            path)
                    .make());
        }
        blocks.add(section("other-cycles")
                .button(
                        say("add.other-cycles"),
                        "entries",
                        adding("job-sheet/other-cycles", "sterilizer", firstKey(), "kind", "warm-up"))
                .make());
        for (int i = 1; i <= count("job-sheet", "other-cycles"); i++) {
            String path = "job-sheet/other-cycles/" + i;
            blocks.add(removable(
                            entry(say("other-cycles", i))
                                    .field(named(path, "sterilizer", keys()))
                                    .field(choice(
                                            path,
                                            "kind",
                                            List.of(
                                                    "warm-up",
                                                    "own-test",
                                                    "service",
                                                    "clinic",
                                                    "stopped",
                                                    "failed",
                                                    "other")))
                                    .field(field(path, "first", Look.COUNT))
                                    .field(field(path, "last", Look.COUNT))
                                    .field(field(path, "note")),
                            path)
                    .make());
        }
        for (Machine machine : machines()) {
            blocks.add(new Block.Maker(Part.SECTION, say("block.departure", machine.words))
                    .field(field("sterilizers/" + machine.place, "counter-at-departure", Look.COUNT))
                    .make());
        }
    }

    /** How long cycles take, once for each sort of run, so that the strip can say when somebody has to be there. */
    private void lengths(List<Block> blocks) {
        Block.Maker maker = section("lengths");
        List<String> sorts = new ArrayList<>();
        for (int run = 1; run <= count("runs"); run++) {
            String sort = Running.sort(draft, run);
            if (!sorts.contains(sort) && !sort.startsWith("/") && !sort.endsWith("/")) {
                sorts.add(sort);
                String words = Running.sortWords(draft, run, frame);
                maker.folded(length(Running.LENGTH + sort, say("label.cycle-length", words)))
                        .folded(length(Running.PLATEAU + sort, say("label.cycle-plateau", words)));
            }
        }
        if (!sorts.isEmpty()) {
            blocks.add(maker.make());
        }
    }

    private Field length(String note, String label) {
        return field(Saving.NOTES + note, label, say("hint.cycle-length"), Look.TEXT, List.of());
    }

    private String firstKey() {
        return keys().isEmpty() ? "A" : keys().get(0);
    }

    private Block run(int number) {
        String path = "runs/" + number;
        String kind = text("runs", number, "kind");
        Block.Maker maker = entry(say("run", number, kindWords(kind)));
        if (Running.is(draft, number)) {
            maker.button(say("running.ended"), "running", Map.of("run", String.valueOf(number), "ended", "yes"));
        } else {
            maker.button(say("running.start"), "running", Map.of("run", String.valueOf(number)));
        }
        maker.field(choice(path, "kind", List.of("air-leakage", "empty-chamber", "reference-load")))
                .field(named(path, "sterilizer", keys()))
                .field(named(path, "cycle", cycles()))
                .field(field(path, "machine-cycle", Look.COUNT))
                .field(field(path, "barometer"))
                .field(field(path, "machine-verdict"));
        if (kind.equals("air-leakage")) {
            maker.field(choice(path, "stage", List.of("as-found", "without-sensors", "with-sensors", "after")));
        }
        maker.folded(field(path, "start-condition")).folded(field(path, "note", Look.LONG));
        String recording = draft.find(FactPath.of("runs", number, "recording"))
                .map(value -> value instanceof String name ? name : say("recordings"))
                .orElse("");
        maker.note(recording.isBlank() ? say("recording.none") : say("recording", recording))
                .link(say("to.recordings"), "runs/" + number + "/recordings")
                .link(say("to.run"), "runs/" + number);
        if (kind.equals("reference-load")) {
            maker.link(say("to.load"), "load").link(say("to.indicators"), "indicators");
        }
        return removable(maker, path).make();
    }

    private String kindWords(String kind) {
        return frame.words().find("path.word." + kind).orElse(kind);
    }

    // ---- load and indicators

    private List<Integer> loaded() {
        List<Integer> loaded = new ArrayList<>();
        for (int i = 1; i <= count("runs"); i++) {
            if (text("runs", i, "kind").equals("reference-load")) {
                loaded.add(i);
            }
        }
        return loaded;
    }

    private void load(List<Block> blocks) {
        blocks.add(section("load").caution(say("note.privacy")).make());
        for (Machine machine : machines()) {
            String frameOfLoads = "job-sheet/loads/" + KeyedPath.entry("sterilizer", machine.key);
            blocks.add(new Block.Maker(Part.ROW, say("block.loads", machine.words))
                    .folded(field(frameOfLoads, "maximum"))
                    .folded(field(frameOfLoads, "maximum-source"))
                    .folded(field(frameOfLoads, "owned", Look.LONG))
                    .folded(field(frameOfLoads, "too-little-accepted", Look.LONG))
                    .make());
        }
        List<Integer> loaded = loaded();
        if (loaded.isEmpty()) {
            blocks.add(section("no-loaded-run").link(say("to.runs"), "runs").make());
        }
        int described = 0;
        for (int run : loaded) {
            String path = "runs/" + run + "/load";
            Block.Maker maker = new Block.Maker(Part.SECTION, say("run", run, say("word.reference-load")));
            boolean isDescribed = draft.find(FactPath.parse(path)).isPresent();
            if (!isDescribed && described > 0) {
                maker.note(say("note.same-load", described))
                        .button(
                                say("take.load", described),
                                "copies",
                                Map.of(
                                        "from",
                                        "runs/" + described + "/load",
                                        "to",
                                        path,
                                        "seen-from",
                                        Saving.mark(draft, "runs/" + described + "/load"),
                                        "seen-to",
                                        Saving.mark(draft, path)));
            }
            described = isDescribed && described == 0 ? run : described;
            maker.field(field(path, "description", Look.LONG))
                    .field(field(path, "packaging"))
                    .field(field(path, "mass"))
                    .field(field(path, "challenge-pack", Look.LONG))
                    .field(field(path + "/challenge-place", "challenge-place", Look.TEXT, places(run)))
                    .field(choice(path, "slowest-because", List.of("mapped", "measured", "instructions", "judged")))
                    .button(say("add.item"), "entries", adding(path + "/items", "count", "1"));
            offering(path + "/items", maker);
            photos(run, maker);
            blocks.add(maker.make());
            for (int i = 1; i <= count("runs", run, "load", "items"); i++) {
                String item = path + "/items/" + i;
                blocks.add(removable(
                                entry(say("item", i))
                                        .field(field(item, "name"))
                                        .field(field(item, "count", Look.COUNT))
                                        .field(choice(
                                                item, "family", List.of("solid", "hollow-a", "hollow-b", "porous")))
                                        .field(field(item, "packaging"))
                                        .folded(field(item, "mass"))
                                        .folded(field(item, "tray")),
                                item)
                        .make());
            }
            blocks.add(photos(PhotoSubject.POSITIONS, String.valueOf(run), entry(say("block.positions", run)))
                    .make());
            blocks.add(statement(run));
        }
    }

    /** Where a pack can lie: where the sensors of the run are, and what the chamber has. */
    private List<Option> places(int run) {
        List<Option> places = new ArrayList<>();
        ChamberPlaces.sensors(draft, run).forEach((letter, place) -> {
            if (!place.isBlank()) {
                places.add(new Option(place, letter));
            }
        });
        ChamberPlaces.places(trayLevels(run))
                .forEach(steps -> places.add(new Option(
                        String.join(", ", steps),
                        steps.stream()
                                .map(step -> ChamberPlaces.said(
                                        step, frame::say, number -> frame.say("runs.step.tray", number)))
                                .collect(Collectors.joining(", ")))));
        return places;
    }

    /** Letters on the plan of the chamber, each with its place. */
    private List<Option> letters(int run) {
        return ChamberPlaces.sensors(draft, run).entrySet().stream()
                .map(sensor -> new Option(sensor.getKey(), sensor.getValue()))
                .toList();
    }

    private int trayLevels(int run) {
        String key = Running.machine(draft, run);
        return machines().stream()
                .filter(machine -> machine.key.equals(key))
                .map(machine -> text("sterilizers", machine.place, "tray-levels"))
                .filter(levels -> levels.matches("[1-9]|1[0-2]"))
                .map(Integer::valueOf)
                .findFirst()
                .orElse(0);
    }

    private void photos(int run, Block.Maker maker) {
        Optional<Object> photos = draft.find(FactPath.of("runs", run, "load", "photos"));
        if (photos.isPresent() && photos.get() instanceof List<?> names) {
            for (Object name : names) {
                maker.picture(String.valueOf(name), say("photo", name), true);
            }
        }
        maker.upload(say("add.photo"), "photos", Map.of("run", String.valueOf(run)), Block.Upload.PHOTO);
    }

    /** Photos of what is no load: they are kept with the visit and are no part of the report. */
    private Block.Maker photos(PhotoSubject subject, String of, Block.Maker maker) {
        subject.of(draft, of).forEach(name -> maker.picture(name, say("photo." + subject.word(), of), true));
        return maker.upload(
                say("add.photo." + subject.word(), of),
                "photos",
                Map.of("of", subject.word(), "which", of),
                Block.Upload.PHOTO);
    }

    private Block statement(int run) {
        String path = "runs/" + run + "/load";
        String ink = DrawnSignature.name(run);
        Block.Maker maker = new Block.Maker(Part.ENTRY, say("block.statement", run))
                .note(say("statement"))
                .field(field(path, "agreed-by"));
        boolean isDrawn = draft.files().containsKey(ink);
        if (isDrawn) {
            maker.picture(ink, say("ink.there"), false);
        } else if (!draft.note(RunFiles.unsignedNote(run)).isBlank()) {
            maker.caution(say("ink.gone"));
        }
        return maker.upload(
                        say(isDrawn ? "ink.anew" : "ink.keep"),
                        "ink",
                        Map.of("run", String.valueOf(run)),
                        Block.Upload.INK)
                .make();
    }

    private void indicators(List<Block> blocks) {
        List<Integer> loaded = loaded();
        if (loaded.isEmpty()) {
            blocks.add(section("no-loaded-run").link(say("to.runs"), "runs").make());
        }
        for (int run : loaded) {
            String path = "runs/" + run + "/indicators";
            String chemical = "runs/" + run + "/chemical-indicators";
            blocks.add(offering(
                            path,
                            offering(
                                    chemical,
                                    new Block.Maker(Part.SECTION, say("run", run, say("word.reference-load")))
                                            .note(say("note.indicators"))
                                            .field(field(
                                                    Saving.NOTES + ReadOut.note(run), "read-at", Look.DAY, List.of()))
                                            .button(
                                                    say("add.exposed"),
                                                    "entries",
                                                    adding(path, "control", "no", "result", "awaited"))
                                            .button(
                                                    say("add.control"),
                                                    "entries",
                                                    adding(path, "control", "yes", "result", "awaited"))
                                            .button(say("add.chemical"), "entries", adding(chemical, "type", "5"))))
                    .make());
            blocks.add(photos(PhotoSubject.INDICATORS, String.valueOf(run), entry(say("block.indicator-photos", run)))
                    .make());
            for (int i = 1; i <= count("runs", run, "indicators"); i++) {
                String one = path + "/" + i;
                boolean isControl =
                        text("runs", run, "indicators", i, "control").equals("yes");
                blocks.add(removable(
                                entry(say(isControl ? "control" : "exposed", i))
                                        .field(field(one, "id"))
                                        .field(field(one, "lot"))
                                        .field(field(one, "expires", Look.DAY))
                                        .field(field(one + "/position", "position", Look.TEXT, letters(run)))
                                        .field(choice(one, "result", List.of("awaited", "no-growth", "growth")))
                                        .field(field(one, "incubation"))
                                        .field(field(one, "incubated-until"))
                                        .field(field(one, "read-on"))
                                        .field(field(one, "read-by"))
                                        .folded(field(one, "product"))
                                        .folded(choice(one, "control", YES_NO))
                                        .folded(field(one, "population"))
                                        .folded(field(one, "d-value"))
                                        .folded(field(one, "d-value-at"))
                                        .folded(field(one, "z")),
                                one)
                        .make());
            }
            for (int i = 1; i <= count("runs", run, "chemical-indicators"); i++) {
                String one = "runs/" + run + "/chemical-indicators/" + i;
                blocks.add(removable(
                                entry(say("chemical", i))
                                        .field(field(one, "id"))
                                        .field(choice(one, "type", List.of("1", "2", "3", "4", "5", "6")))
                                        .field(field(one, "lot"))
                                        .field(field(one, "expires", Look.DAY))
                                        .field(field(one + "/position", "position", Look.TEXT, letters(run)))
                                        .field(choice(one, "result", List.of("reached", "not-reached", "unclear")))
                                        .folded(field(one, "product")),
                                one)
                        .make());
            }
        }
    }

    // ---- the sterilizer's own indication

    private void indication(List<Block> blocks) {
        blocks.add(section("indication")
                .button(
                        say("add.indication"),
                        "entries",
                        adding(
                                "job-sheet/indications",
                                "run",
                                String.valueOf(Math.max(1, count("runs"))),
                                "shown-by",
                                "display"))
                .make());
        for (int i = 1; i <= count("job-sheet", "indications"); i++) {
            String path = "job-sheet/indications/" + i;
            blocks.add(removable(
                            entry(say("indication", i))
                                    .field(field(path, "run", Look.COUNT))
                                    .field(field(path, "shown-by"))
                                    .field(field(path, "at"))
                                    .field(field(path, "temperature"))
                                    .field(field(path, "pressure"))
                                    .field(field(path, "last-digit"))
                                    .field(field(path, "tolerance"))
                                    .field(field(path, "tolerance-source"))
                                    .field(choice(path, "when", List.of("as-found", "as-left"))),
                            path)
                    .make());
        }
    }

    // ---- close

    private void close(List<Block> blocks) {
        for (String list : List.of("deviations", "recommendations", "next-due", "not-tested")) {
            Block.Maker maker = section(list);
            int entries = count(list);
            for (int i = 1; i <= entries; i++) {
                maker.field(field(list + "/" + i, say("line", i), "", Look.LONG, List.of()));
            }
            if (entries == 0 && !text(list).isBlank()) {
                maker.field(field(list, say("line", 1), "", Look.LONG, List.of()));
            } else {
                maker.upload(say("add.line"), "lines", Map.of("list", list), Block.Upload.LINE);
            }
            blocks.add(maker.make());
        }
    }
}
