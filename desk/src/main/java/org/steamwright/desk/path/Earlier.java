package org.steamwright.desk.path;

import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.TiedMachines;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Subject;

/**
 * The visits before this one, each steriliser's own. What was written then is a proposal, taken over one by one and never by
 * itself; what was found or read then is only remembered.
 *
 * @param visits by the key of the steriliser in this visit, in the order of its sterilisers
 */
public record Earlier(Map<String, Before> visits) {

    /**
     * The visit before this one of one machine.
     *
     * @param visit as it stands
     * @param key that the machine has there
     */
    public record Before(Draft visit, String key) {}

    private static final Set<String> OF_THE_HOUSE = Set.of("clinic", "company", "criteria-set");
    private static final String INSTRUMENTS = "instruments";
    private static final Pattern MACHINE = Pattern.compile("(?<=[?&]sterilizer=)[^&/]*");

    /** What is found and read anew at each visit. */
    private static final Set<String> FOUND = Set.of(
            "result",
            "remark",
            "as-found",
            "answer",
            "outcome",
            "reading",
            "condition",
            "why",
            "before",
            "after",
            "number",
            "lot");

    private static final Set<String> WAYS_OF_CHECKING = Set.of("method", "against", "tolerance");

    /** Facts of an entry that are the same the next time, by list. */
    private static final Map<String, List<String>> LASTING = Map.of(
            "people", List.of("name", "role", "organisation", "authorisation"),
            "cycles",
                    List.of(
                            "name",
                            "type",
                            "sterilizing-temperature",
                            "holding-time",
                            "air-removal-pulses",
                            "pulse-depth",
                            "drying-time"),
            "items", List.of("name", "count", "family", "packaging", "mass", "tray"),
            "indicators", List.of("product", "control", "position"),
            "chemical-indicators", List.of("type", "product", "position"));

    /** By which an entry is known again, by list. */
    private static final Map<String, List<String>> KNOWN_BY = Map.of(
            "people", List.of("name"),
            "cycles", List.of("name"),
            "items", List.of("name", "tray"),
            "indicators", List.of("product", "control", "position"),
            "chemical-indicators", List.of("type", "product", "position"));

    public Earlier {
        visits = Collections.unmodifiableMap(new LinkedHashMap<>(visits));
    }

    /** The visit before this one of each of its sterilizers. */
    public static Optional<Earlier> of(Draft draft, Office office) {
        VisitStates states = new VisitStates(office.records());
        TiedMachines tied = TiedMachines.of(draft, office.records());
        Map<String, Before> visits = new LinkedHashMap<>();
        for (int i = 1; i <= draft.count(FactPath.of("sterilizers")); i++) {
            String key = draft.text(FactPath.of("sterilizers", i, "key"));
            Optional<Subject> machine = tied.find(key).filter(unused -> !visits.containsKey(key));
            machine.flatMap(one -> states.before(draft.subject(), one.id()))
                    .map(one -> office.drafts().of(one.visit().id()))
                    .flatMap(then -> TiedMachines.of(then, office.records())
                            .key(machine.get().id())
                            .map(keyThen -> new Before(then, keyThen)))
                    .ifPresent(before -> visits.put(key, before));
        }
        return visits.isEmpty() ? Optional.empty() : Optional.of(new Earlier(visits));
    }

    /** A fact of an earlier visit. */
    private record Place(Draft visit, FactPath path) {

        Optional<String> text() {
            return Optional.of(visit.text(path)).filter(text -> !text.isBlank());
        }

        Place further(String step) {
            return new Place(visit, path.then(step));
        }
    }

    /** What stood then where this path leads now, if it is the same until somebody changes it. */
    Optional<String> find(KeyedPath path, Draft now) {
        return isFound(path.toString()) ? Optional.empty() : then(path, now);
    }

    /** What was found or read then where this path leads now. */
    Optional<String> remembered(KeyedPath path, Draft now) {
        return isFound(path.toString()) ? then(path, now) : Optional.empty();
    }

    private static boolean isFound(String path) {
        return path.contains("?") && FOUND.contains(path.substring(path.lastIndexOf('/') + 1));
    }

    private Optional<String> then(KeyedPath path, Draft now) {
        if (CheckFacts.isOne(path.toString())) {
            return checked(path).filter(one -> !one.equals(path.text(now)));
        }
        Optional<String> text = path.toString().contains("?")
                ? keyed(path)
                : path.find(now).flatMap(real -> counterpart(real, now)).flatMap(Place::text);
        return text.filter(one -> !one.equals(path.text(now)));
    }

    /** How an instrument was checked the last time, never what it showed. */
    private Optional<String> checked(KeyedPath path) {
        String written = path.toString();
        return WAYS_OF_CHECKING.contains(written.substring(written.lastIndexOf('/') + 1))
                ? visits.values().stream()
                        .map(before -> path.text(before.visit))
                        .filter(text -> !text.isBlank())
                        .findFirst()
                : Optional.empty();
    }

    /** A note of the way that names a sterilizer by its key. */
    Optional<String> note(String name, String key) {
        return Optional.ofNullable(visits.get(key))
                .map(before -> before.visit.note(Arrays.stream(name.split("/", -1))
                        .map(step -> step.equals(key) ? before.key : step)
                        .collect(Collectors.joining("/"))))
                .filter(text -> !text.isBlank());
    }

    /** The same entry of a list by its keys, of the same sterilizer. */
    private Optional<String> keyed(KeyedPath path) {
        String written = path.toString();
        Matcher machine = MACHINE.matcher(written);
        boolean isProposed = written.startsWith("checklists/")
                || written.startsWith("job-sheet/tasks/")
                || (written.startsWith("job-sheet/loads/") && !written.endsWith("too-little-accepted"));
        if (!isProposed || !machine.find()) {
            return Optional.empty();
        }
        String key = URLDecoder.decode(machine.group(), StandardCharsets.UTF_8);
        return Optional.ofNullable(visits.get(key))
                .map(before -> KeyedPath.parse(machine.replaceFirst(
                                Matcher.quoteReplacement(URLEncoder.encode(before.key, StandardCharsets.UTF_8))))
                        .answerOrText(before.visit))
                .filter(text -> !text.isBlank());
    }

    private static Optional<Integer> place(Draft visit, String list, Predicate<Integer> wanted) {
        for (int i = 1; i <= visit.count(FactPath.of(list)); i++) {
            if (wanted.test(i)) {
                return Optional.of(i);
            }
        }
        return Optional.empty();
    }

    /** The same place in an earlier visit: of the same sterilizer, of the same loaded run by its cycle. */
    private Optional<Place> counterpart(FactPath path, Draft now) {
        List<String> steps = path.steps();
        Draft first = visits.values().iterator().next().visit;
        String last = steps.get(steps.size() - 1);
        switch (steps.get(0)) {
            case "conditions" -> {
                return steps.contains("altitude") ? Optional.of(new Place(first, path)) : Optional.empty();
            }
            case "sterilizers" -> {
                // counters go on, they are not taken over; the entries of a list are offered as such
                return last.startsWith("counter") || steps.size() != 3
                        ? Optional.empty()
                        : sterilizer(steps.get(1), now).map(place -> place.further(last));
            }
            case "runs" -> {
                boolean isOfLoad = steps.size() == 4 && steps.get(2).equals("load") && !last.equals("agreed-by");
                return isOfLoad
                        ? run(steps.get(1), now)
                                .map(place -> place.further("load").further(last))
                        : Optional.empty();
            }
            default -> {
                return OF_THE_HOUSE.contains(steps.get(0)) ? Optional.of(new Place(first, path)) : Optional.empty();
            }
        }
    }

    private Optional<Place> sterilizer(String number, Draft now) {
        return Optional.ofNullable(visits.get(now.text(FactPath.of("sterilizers", number, "key"))))
                .flatMap(before -> place(
                                before.visit,
                                "sterilizers",
                                one -> before.visit
                                        .text(FactPath.of("sterilizers", one, "key"))
                                        .equals(before.key))
                        .map(place -> new Place(before.visit, FactPath.of("sterilizers", place))));
    }

    /** The run of the same kind with the same cycle of the same sterilizer. */
    private Optional<Place> run(String number, Draft now) {
        if (!number.matches("[1-9][0-9]{0,3}")) {
            return Optional.empty();
        }
        String cycle = now.text(FactPath.of("runs", number, "cycle"));
        String kind = now.text(FactPath.of("runs", number, "kind"));
        return Optional.ofNullable(visits.get(Running.machine(now, Integer.parseInt(number))))
                .flatMap(before -> place(
                                before.visit,
                                "runs",
                                run -> before.visit
                                                .text(FactPath.of("runs", run, "kind"))
                                                .equals(kind)
                                        && Running.machine(before.visit, run).equals(before.key)
                                        && (cycle.isBlank()
                                                || before.visit
                                                        .text(FactPath.of("runs", run, "cycle"))
                                                        .equals(cycle)))
                        .map(run -> new Place(before.visit, FactPath.of("runs", run))));
    }

    /** What was said then about a column of the recordings of the same kind of run: role, position, place, instrument. */
    public Map<String, String> channel(Draft now, int run, String column) {
        Map<String, String> said = new LinkedHashMap<>();
        Optional<Place> then = run(String.valueOf(run), now);
        if (then.isEmpty()
                || !(then.get().visit.find(then.get().path.then("channels")).orElse(Map.of())
                        instanceof Map<?, ?> channels)) {
            return said;
        }
        channels.forEach((name, value) -> {
            String key = String.valueOf(name);
            if (key.equals(column) || key.endsWith("/" + column)) {
                if (value instanceof Map<?, ?> map) {
                    map.forEach((fact, text) -> said.put(String.valueOf(fact), String.valueOf(text)));
                } else {
                    said.put("role", String.valueOf(value));
                }
            }
        });
        said.keySet().retainAll(Set.of("role", "position", "place", "instrument", "reference"));
        return said;
    }

    // ---- entries of lists

    /**
     * An entry that an earlier visit had and this one has not.
     *
     * @param mark by which it is found again
     * @param words what it is, by its facts
     * @param entry what is taken over of it
     * @param files that it names and the earlier visit has
     */
    record Offer(String mark, Map<String, String> words, Map<String, Object> entry, Map<String, byte[]> files) {}

    /** What was in a list then and is not now; all of it at once, known again by what it is. */
    List<Offer> offers(FactPath list, Draft now) {
        if (list.toString().equals(INSTRUMENTS)) {
            return instruments(now);
        }
        String name = list.steps().get(list.steps().size() - 1);
        List<String> lasting = LASTING.getOrDefault(name, List.of());
        List<String> keys = KNOWN_BY.getOrDefault(name, List.of());
        Optional<Place> then = then(list, now);
        List<Offer> offers = new ArrayList<>();
        if (lasting.isEmpty() || then.isEmpty()) {
            return offers;
        }
        List<Map<String, String>> there = entries(now, list, keys);
        for (Map<String, String> entry : entries(then.get().visit, then.get().path, lasting)) {
            Map<String, String> known = new LinkedHashMap<>(entry);
            known.keySet().retainAll(keys);
            // three strips at three places are three entries: each that is there counts once
            if (!entry.isEmpty() && !there.remove(known)) {
                offers.add(new Offer(
                        Integer.toHexString(entry.hashCode()) + "-" + offers.size(),
                        entry,
                        new LinkedHashMap<>(entry),
                        Map.of()));
            }
        }
        return offers;
    }

    /** Reference instruments that stood in a visit before and not in this one, with their certificates. */
    private List<Offer> instruments(Draft now) {
        Set<String> there = new HashSet<>();
        now.subject().fact(INSTRUMENTS).ifPresent(ids -> ids.node().forEach(id -> there.add(id.asText())));
        List<Offer> offers = new ArrayList<>();
        for (Draft visit : visits.values().stream().map(Before::visit).toList()) {
            for (int i = 1; i <= visit.count(FactPath.of(INSTRUMENTS)); i++) {
                FactPath path = FactPath.of(INSTRUMENTS, i);
                String id = visit.text(path.then("id"));
                if (!id.isBlank() && there.add(id) && visit.find(path).orElse("") instanceof Map<?, ?> map) {
                    Map<String, Object> entry = new LinkedHashMap<>();
                    map.forEach((key, value) -> entry.put(String.valueOf(key), value));
                    // clocks are compared and instruments checked at each visit
                    entry.keySet().removeAll(Set.of("clock", "checks"));
                    Map<String, byte[]> files = new LinkedHashMap<>();
                    files(entry, visit, files);
                    Map<String, String> words = new LinkedHashMap<>();
                    words.put("id", id);
                    words.put("description", visit.text(path.then("description")));
                    words.values().removeIf(String::isBlank);
                    offers.add(new Offer(Integer.toHexString(entry.hashCode()), words, entry, files));
                }
            }
        }
        return offers;
    }

    private static void files(Object value, Draft visit, Map<String, byte[]> files) {
        if (value instanceof Map<?, ?> map) {
            map.values().forEach(one -> files(one, visit, files));
        } else if (value instanceof List<?> list) {
            list.forEach(one -> files(one, visit, files));
        } else if (value instanceof String name) {
            visit.bytes(name).ifPresent(bytes -> files.put(name, bytes));
        }
    }

    private Optional<Place> then(FactPath list, Draft now) {
        List<String> steps = list.steps();
        if (steps.size() == 1) {
            return Optional.of(new Place(visits.values().iterator().next().visit, list));
        }
        Optional<Place> begin = steps.get(0).equals("runs") ? run(steps.get(1), now) : sterilizer(steps.get(1), now);
        return begin.map(place -> {
            FactPath path = place.path;
            for (String step : steps.subList(2, steps.size())) {
                path = path.then(step);
            }
            return new Place(place.visit, path);
        });
    }

    private static List<Map<String, String>> entries(Draft visit, FactPath list, List<String> keys) {
        List<Map<String, String>> entries = new ArrayList<>();
        for (int i = 1; i <= visit.count(list); i++) {
            Map<String, String> entry = new LinkedHashMap<>();
            for (String key : keys) {
                String text = visit.text(list.then(i).then(key));
                if (!text.isBlank()) {
                    entry.put(key, text);
                }
            }
            entries.add(entry);
        }
        return entries;
    }
}
