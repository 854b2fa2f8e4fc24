package org.steamwright.desk.path;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.FactPath;

/** What was done with an instrument at the visit, as it is typed field by field: who did it is put in with the first value. */
final class CheckFacts {

    /** Key of the list. */
    static final String LIST = "instrument-checks";

    private static final String BY = "by";
    private static final Pattern NAMED = Pattern.compile(LIST + "/\\?instrument=([^/]+)/(.+)");
    private static final Pattern MOMENT = Pattern.compile("checks/\\?when=(before|after)/.+|clock/(before|after)/.+");

    /** What alone says nothing of a check. */
    private static final Set<String> FRAME_OF_CHECK = Set.of("when", "on", BY);

    private CheckFacts() {}

    /** The field of a check or a clock: of which instrument, and before or after the runs. */
    record Place(String instrument, FieldCheck.Moment moment) {}

    static boolean isOne(String path) {
        return path.startsWith(LIST + "/");
    }

    /** What was done with one instrument, by its id. */
    static String of(String id) {
        return LIST + "/" + KeyedPath.entry("instrument", id);
    }

    /** A field of the first check before or after the runs. */
    static String check(String id, FieldCheck.Moment moment, String key) {
        return of(id) + "/checks/" + KeyedPath.entry("when", moment.word()) + "/" + key;
    }

    /** What logger or reference clock showed. */
    static String clock(String id, FieldCheck.Moment moment, String key) {
        return of(id) + "/clock/" + moment.word() + "/" + key;
    }

    /** The place that a path of a page names. */
    static Optional<Place> place(String path) {
        Matcher named = NAMED.matcher(path);
        if (!named.matches()) {
            return Optional.empty();
        }
        Matcher moment = MOMENT.matcher(named.group(2));
        if (!moment.matches()) {
            return Optional.empty();
        }
        String word = moment.group(1) == null ? moment.group(2) : moment.group(1);
        return Optional.of(new Place(
                URLDecoder.decode(named.group(1), StandardCharsets.UTF_8),
                word.equals(FieldCheck.Moment.BEFORE.word()) ? FieldCheck.Moment.BEFORE : FieldCheck.Moment.AFTER));
    }

    /** The path of a page for a fact of the visit, which the page names by keys where it can. */
    static String shown(Draft draft, FactPath fact) {
        List<String> steps = fact.steps();
        if (steps.size() < 4) {
            return fact.toString();
        }
        String id = draft.text(FactPath.of(LIST, steps.get(1), "instrument"));
        if (steps.get(2).equals("clock")) {
            return of(id) + "/" + String.join("/", steps.subList(2, steps.size()));
        }
        String when = draft.text(FactPath.of(LIST, steps.get(1), "checks", steps.get(3), "when"));
        String keyed = of(id) + "/checks/" + KeyedPath.entry("when", when);
        FactPath check = new FactPath(steps.subList(0, 4));
        boolean isFirst = KeyedPath.parse(keyed).find(draft).equals(Optional.of(check));
        return isFirst
                ? keyed + (steps.size() > 4 ? "/" + String.join("/", steps.subList(4, steps.size())) : "")
                : fact.toString();
    }

    /** Adds what has to be done for that value to stand there. */
    static void set(Draft draft, DraftChange change, String path, String value, String seen, String author) {
        KeyedPath keyed = KeyedPath.parse(path);
        if (!value.isBlank()) {
            FactPath target = keyed.target(draft);
            FactPath by = holder(target).then(BY);
            keyed.set(draft, change, value, seen);
            if (draft.text(by).isBlank()) {
                change.set(by, Optional.of(author));
            }
            return;
        }
        Optional<FactPath> found = keyed.find(draft);
        if (found.isEmpty() || draft.find(found.get()).isEmpty()) {
            return;
        }
        FactPath holder = holder(found.get());
        change.expect(found.get(), seen.isBlank() ? Optional.empty() : Optional.of(seen));
        change.remove(isAlone(draft, holder, found.get()) ? holder : found.get());
    }

    /** What the first check of a moment has in common with others that are made in the same bath: all but what was shown. */
    static Map<String, String> frame(Draft draft, String id, FieldCheck.Moment moment) {
        Map<String, String> frame = new LinkedHashMap<>();
        for (String key : List.of("reference", "method", "against", "tolerance")) {
            String text = KeyedPath.parse(check(id, moment, key)).text(draft);
            if (!text.isBlank()) {
                frame.put(key, text);
            }
        }
        return frame.containsKey("reference") ? frame : Map.of();
    }

    /** Other instruments of the same kind that measured, or are looked at here, and have no check of that moment. */
    static List<String> without(
            Draft draft, DraftInstruments visit, ReferenceInstrument one, FieldCheck.Moment moment) {
        Set<String> others = new TreeSet<>(visit.used().keySet());
        for (int i = 1; i <= draft.count(FactPath.of(LIST)); i++) {
            others.add(draft.text(FactPath.of(LIST, i, "instrument")));
        }
        others.remove(one.id());
        return others.stream()
                .filter(id -> visit.find(id)
                        .filter(other -> other.quantity() == one.quantity())
                        .isPresent())
                .filter(id -> KeyedPath.parse(of(id) + "/checks/" + KeyedPath.entry("when", moment.word()))
                        .find(draft)
                        .isEmpty())
                .toList();
    }

    /** Begins the same check for other instruments; what they showed is typed for each. */
    static void same(
            Draft draft, DraftChange change, List<String> others, Map<String, String> frame, FieldCheck.Moment moment) {
        FactPath list = FactPath.of(LIST);
        change.expect(list, draft.find(list));
        for (String id : others) {
            Map<String, Object> check = new LinkedHashMap<>(frame);
            check.put("when", moment.word());
            FactPath entry = DraftInstruments.entry(draft, id);
            if (draft.find(entry).isPresent()) {
                change.add(entry.then("checks"), check);
            } else {
                change.add(list, Map.of("instrument", id, "checks", List.of(check)));
            }
        }
    }

    /** The check or the comparison of clocks in which a value stands. */
    private static FactPath holder(FactPath value) {
        List<String> steps = value.steps();
        boolean isClock = steps.get(2).equals("clock");
        return new FactPath(steps.subList(0, isClock ? 3 : 4));
    }

    /** Whether nothing that says anything is left there without the value. */
    private static boolean isAlone(Draft draft, FactPath holder, FactPath value) {
        return draft.find(holder).orElse("") instanceof Map<?, ?> map
                && map.keySet().stream().map(String::valueOf).allMatch(key -> {
                    FactPath there = holder.then(key);
                    return FRAME_OF_CHECK.contains(key)
                            || there.equals(value)
                            || (draft.find(there).orElse("") instanceof Map<?, ?> inner
                                    && inner.size() == 1
                                    && value.toString().startsWith(there + "/"));
                });
    }
}
