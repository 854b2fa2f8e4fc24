package org.steamwright.desk.path;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Complaint;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.desk.shelf.ChamberPlaces;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.ReadOut;
import org.steamwright.report.picture.PhotoSubject;
import org.steamwright.visit.CheckItem;
import org.steamwright.visit.CheckResult;
import org.steamwright.visit.CheckWords;
import org.steamwright.visit.Checklist;

/** What all sheets are written with: words, fields, buttons, and what the visit lists. */
abstract class StageSheet {

    /** Notes of which task list was chosen begin with this. */
    static final String LIST = "list/";

    static final List<String> YES_NO = List.of("yes", "no");

    /** Words of the program in a file; a key of texts is made of nothing else. */
    private static final Pattern PLAIN_WORDS = Pattern.compile("[a-z]+(?:[ -][a-z]+)*");

    final Draft draft;
    final Frame frame;
    final Optional<Earlier> earlier;
    final Equipment equipment;
    private final Map<String, DraftProblem> problems = new LinkedHashMap<>();

    StageSheet(Seen seen) {
        this.draft = seen.draft;
        this.frame = seen.frame;
        this.earlier = seen.earlier;
        this.equipment = seen.equipment;
        seen.problems.forEach(
                problem -> problem.path().ifPresent(path -> this.problems.putIfAbsent(path.toString(), problem)));
    }

    /**
     * A visit as somebody looks at it.
     *
     * @param draft what is known of it
     * @param frame words and figures of the reader
     * @param earlier the visit before; empty if there is none, or if it is not asked
     * @param problems what can't be used as it stands
     * @param equipment instruments and lots; none where they are not asked for
     */
    record Seen(
            Draft draft, Frame frame, Optional<Earlier> earlier, List<DraftProblem> problems, Equipment equipment) {}

    /** What stands on the sheet, in order. */
    abstract List<Block> blocks();

    String say(String key, Object... parts) {
        return frame.say("path." + key, parts);
    }

    Field field(Object list, String key) {
        return field(list + "/" + key, key, Look.TEXT, List.of());
    }

    Field field(Object list, String key, Look look) {
        return field(list + "/" + key, key, look, List.of());
    }

    Field choice(Object list, String key, List<String> words) {
        return field(list + "/" + key, key, Look.CHOICE, options(words));
    }

    Field named(Object list, String key, List<String> names) {
        return field(
                list + "/" + key,
                key,
                Look.CHOICE,
                names.stream().map(name -> new Option(name, name)).toList());
    }

    List<Option> options(List<String> words) {
        return words.stream()
                .map(word -> new Option(word, say("word." + word.replace(' ', '-'))))
                .toList();
    }

    Field field(String path, String key, Look look, List<Option> options) {
        return field(
                path,
                say("label." + key),
                frame.words().find("path.hint." + key).orElse(""),
                look,
                options);
    }

    Field field(String path, String label, String hint, Look look, List<Option> options) {
        Optional<KeyedPath> fact =
                path.startsWith(Saving.NOTES) ? Optional.empty() : Optional.of(KeyedPath.parse(path));
        Optional<FactPath> real = fact.flatMap(one -> one.find(draft));
        String value = TaskAnswer.isOne(path)
                ? TaskAnswer.text(draft, path)
                : fact.isPresent()
                        ? real.map(draft::text).orElse("")
                        : draft.note(path.substring(Saving.NOTES.length()));
        List<Option> choices = new ArrayList<>(options);
        if (look == Look.CHOICE
                && !value.isBlank()
                && options.stream().noneMatch(one -> one.value().equals(value))) {
            // what stands in the visit is shown, also if nobody would choose it here
            choices.add(new Option(value, word(value)));
        }
        return new Field(
                path,
                label,
                look,
                choices,
                (hint + " " + remembered(path, fact, choices)).strip(),
                Typing.shown(path, value, frame),
                value,
                proposal(path, fact),
                real.flatMap(one -> Optional.ofNullable(problems.get(one.toString())))
                        .map(Complaint::of),
                "",
                false,
                List.of());
    }

    private String word(String value) {
        return PLAIN_WORDS.matcher(value).matches()
                ? frame.words().find("path.word." + value.replace(' ', '-')).orElse(value)
                : value;
    }

    /** What came of a check, as it is chosen. Words of before that decide nothing say so. */
    Field check(String item, Checklist.Section section) {
        Field field = choice(
                item,
                "result",
                section == Checklist.Section.MAINTENANCE ? CheckWords.CHOSEN : CheckWords.CHOSEN_OF_CHECKS);
        if (draft.isSigned() || field.value().isBlank()) {
            return field;
        }
        String remark = KeyedPath.parse(item + "/remark").text(draft);
        return switch (CheckResult.of(section, new CheckItem("a check", field.value(), remark, "", "", "", ""))) {
            case UNKNOWN -> field.complaining(say("check.unknown", field.value()), say("check.choose"));
            case NOT_SAID -> field.complaining(say("check.not-said", word(field.value())), say("check.choose"));
            case UNEXPLAINED -> field.complaining(say("check.unexplained"), "");
            case GOOD, LEFT_OUT, OPEN, FAILED -> field;
        };
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
                        .orElse(Typing.shown(path, text, frame)))
                .map(text -> say("last-found", text))
                .orElse("");
    }

    /** Buttons for what was in a list the last time and is not yet. */
    Block.Maker offering(String list, Block.Maker maker) {
        earlier.map(before -> before.offers(FactPath.parse(list), draft))
                .orElse(List.of())
                .forEach(offer -> offer(maker, "offer", list, offer));
        return maker;
    }

    void offer(Block.Maker maker, String words, String list, Earlier.Offer offer) {
        maker.button(
                say(words, Typing.shownAll(offer.words(), frame.figures())),
                "offers",
                Map.of("list", list, "mark", offer.mark()));
    }

    /** A button for the entries of the run before that has some, while this one has none. */
    Block.Maker again(int run, String list, Block.Maker maker) {
        Again.before(draft, run, list)
                .ifPresent(before -> maker.button(
                        say("again." + list, before),
                        "again",
                        Map.of("from", "runs/" + before + "/" + list, "to", "runs/" + run + "/" + list)));
        return maker;
    }

    /** The last day of an interim report, where something is awaited or it was set. */
    Optional<Block> interim() {
        List<ReadOut> awaited = ReadOut.of(draft);
        boolean isAwaiting = !awaited.isEmpty() || loaded().stream().anyMatch(this::isAwaiting);
        String kept = draft.text(FactPath.parse(IndicatorsSheet.INTERIM));
        if (!isAwaiting && kept.isBlank()) {
            return Optional.empty();
        }
        Block.Maker maker = section("interim").field(field("job-sheet", "interim-until", Look.DAY));
        if (!awaited.isEmpty()) {
            LocalDate after = awaited.get(awaited.size() - 1).at().day().plusDays(1);
            if (!kept.equals(after.toString())) {
                maker.button(
                        say("interim.propose", frame.figures().day(after)),
                        "facts",
                        Map.of("path", IndicatorsSheet.INTERIM, "value", after.toString(), "seen", kept));
            }
        }
        return Optional.of(maker.make());
    }

    private boolean isAwaiting(int run) {
        for (int i = 1; i <= count("runs", run, "indicators"); i++) {
            if (text("runs", run, "indicators", i, "result").equals("awaited")) {
                return true;
            }
        }
        return false;
    }

    String text(Object... steps) {
        return draft.text(FactPath.of(steps));
    }

    int count(Object... steps) {
        return draft.count(FactPath.of(steps));
    }

    /** A sterilizer of the visit: its place, its key, and how people call it. */
    record Machine(int place, String key, String words) {}

    List<Machine> machines() {
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

    List<String> keys() {
        return machines().stream().map(Machine::key).toList();
    }

    List<String> cycles() {
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

    List<String> instruments() {
        return draft.subject()
                .fact("instruments")
                .map(list -> {
                    List<String> ids = new ArrayList<>();
                    list.node().forEach(id -> ids.add(id.asText()));
                    return ids;
                })
                .orElse(new ArrayList<>());
    }

    /** Where the visit tells which instruments nobody has checked since, with the way there; nothing if none is left. */
    void unchecked(Block.Maker maker) {
        List<String> open = equipment.visit().map(DraftInstruments::unchecked).orElse(List.of());
        if (!open.isEmpty() && !draft.isSigned()) {
            maker.note(say("checked.left", String.join(", ", open))).link(say("to.instruments"), "instruments");
        }
    }

    Block.Maker section(String key) {
        return new Block.Maker(Part.SECTION, say("block." + key))
                .note(frame.words().find("path.note." + key).orElse(""));
    }

    Block.Maker entry(String heading) {
        return new Block.Maker(Part.ENTRY, heading);
    }

    Block.Maker removable(Block.Maker maker, String path) {
        return maker.at(path).button(say("remove"), "removals", Map.of("path", path, "seen", Saving.mark(draft, path)));
    }

    static Map<String, String> adding(String list, String... keysAndValues) {
        Map<String, String> values = new LinkedHashMap<>();
        values.put("list", list);
        for (int i = 0; i < keysAndValues.length; i += 2) {
            values.put("with." + keysAndValues[i], keysAndValues[i + 1]);
        }
        return values;
    }

    /** Photos of what is no load: they are kept with the visit, and printed where they belong. */
    Block.Maker photos(PhotoSubject subject, String of, Block.Maker maker) {
        subject.of(draft.files().keySet(), of)
                .forEach(name -> maker.picture(name, say("photo." + subject.word(), of), true));
        return maker.upload(
                say("add.photo." + subject.word(), of),
                "photos",
                Map.of("of", subject.word(), "which", of),
                Block.Upload.PHOTO);
    }

    /** Runs with a reference load, by their numbers. */
    List<Integer> loaded() {
        List<Integer> loaded = new ArrayList<>();
        for (int i = 1; i <= count("runs"); i++) {
            if (text("runs", i, "kind").equals("reference-load")) {
                loaded.add(i);
            }
        }
        return loaded;
    }

    /** Letters on the plan of the chamber, each with its place. */
    List<Option> letters(int run) {
        return ChamberPlaces.sensors(draft, run).entrySet().stream()
                .map(sensor -> new Option(sensor.getKey(), sensor.getValue()))
                .toList();
    }
}
