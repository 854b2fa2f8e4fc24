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
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;

/**
 * The visits before this one, each steriliser's own. What was written then is a proposal, taken over one by one and never by
 * itself; what was found or read then is only remembered.
 *
 * @param visits by serial number, in the order of the sterilizers of this visit
 */
public record Earlier(Map<String, Draft> visits) {

    private static final Set<String> OF_THE_HOUSE = Set.of("clinic", "company", "criteria-set");
    private static final String INSTRUMENTS = "instruments";
    private static final Pattern MACHINE = Pattern.compile("(?<=[?&]sterilizer=)[^&/]*");

    /** What is found and read anew at each visit. */
    private static final Set<String> FOUND = Set.of(
            "result",
            "remark",
            "as-found",
            "outcome",
            "reading",
            "condition",
            "why",
            "before",
            "after",
            "number",
            "lot");

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
        List<String> meant = new ArrayList<>();
        draft.subject().fact("sterilizer").ifPresent(all -> all.node().forEach(one -> meant.add(one.asText())));
        Map<String, Draft> visits = new LinkedHashMap<>();
        for (int i = 1; i <= draft.count(FactPath.of("sterilizers")); i++) {
            String serial = draft.text(FactPath.of("sterilizers", i, "serial"));
            if (!serial.isBlank() && !visits.containsKey(serial)) {
                office.records().exactly(Kind.STERILIZER, "serial", serial).stream()
                        .filter(one -> meant.contains(one.id().toString()))
                        .findFirst()
                        .map(Subject::id)
                        .flatMap(machine -> states.before(draft.subject(), machine))
                        .map(StatedVisit::visit)
                        .ifPresent(visit -> visits.put(serial, office.drafts().of(visit.id())));
            }
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
        Optional<String> text = path.toString().contains("?")
                ? keyed(path, now)
                : path.find(now).flatMap(real -> counterpart(real, now)).flatMap(Place::text);
        return text.filter(one -> !one.equals(path.text(now)));
    }

    /** A note of the way that names a sterilizer by its key. */
    Optional<String> note(String name, String key, Draft now) {
        return serial(key, now)
                .flatMap(serial -> Optional.ofNullable(visits.get(serial))
                        .flatMap(visit -> key(serial, visit)
                                .map(then -> visit.note(Arrays.stream(name.split("/", -1))
                                        .map(step -> step.equals(key) ? then : step)
                                        .collect(Collectors.joining("/"))))))
                .filter(text -> !text.isBlank());
    }

    /** The same entry of a list by its keys, of the same sterilizer by its serial number. */
    private Optional<String> keyed(KeyedPath path, Draft now) {
        String written = path.toString();
        Matcher machine = MACHINE.matcher(written);
        boolean isProposed = written.startsWith("checklists/")
                || written.startsWith("job-sheet/tasks/")
                || (written.startsWith("job-sheet/loads/") && !written.endsWith("too-little-accepted"));
        if (!isProposed || !machine.find()) {
            return Optional.empty();
        }
        String key = URLDecoder.decode(machine.group(), StandardCharsets.UTF_8);
        return serial(key, now)
                .flatMap(serial -> Optional.ofNullable(visits.get(serial))
                        .flatMap(visit -> key(serial, visit)
                                .map(then -> KeyedPath.parse(machine.replaceFirst(Matcher.quoteReplacement(
                                                URLEncoder.encode(then, StandardCharsets.UTF_8))))
                                        .text(visit))))
                .filter(text -> !text.isBlank());
    }

    private static Optional<String> serial(String key, Draft visit) {
        return machine(
                        visit,
                        one -> visit.text(FactPath.of("sterilizers", one, "key"))
                                .equals(key))
                .map(place -> visit.text(FactPath.of("sterilizers", place, "serial")));
    }

    private static Optional<String> key(String serial, Draft visit) {
        return machine(
                        visit,
                        one -> visit.text(FactPath.of("sterilizers", one, "serial"))
                                .equals(serial))
                .map(place -> visit.text(FactPath.of("sterilizers", place, "key")));
    }

    private static Optional<Integer> machine(Draft visit, Predicate<Integer> wanted) {
        return place(visit, "sterilizers", wanted);
    }

    private static Optional<Integer> place(Draft visit, String list, Predicate<Integer> wanted) {
        for (int i = 1; i <= visit.count(FactPath.of(list)); i++) {
            if (wanted.test(i)) {
                return Optional.of(i);
            }
        }
        return Optional.empty();
    }

    /** The same place in an earlier visit: of the same sterilizer by its serial number, of the same loaded run by its cycle. */
    private Optional<Place> counterpart(FactPath path, Draft now) {
        List<String> steps = path.steps();
        Draft first = visits.values().iterator().next();
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
        String serial = now.text(FactPath.of("sterilizers", number, "serial"));
        return Optional.ofNullable(visits.get(serial))
                .flatMap(visit -> machine(
                                visit,
                                one -> visit.text(FactPath.of("sterilizers", one, "serial"))
                                        .equals(serial))
                        .map(place -> new Place(visit, FactPath.of("sterilizers", place))));
    }

    /** The run of the same kind with the same cycle of the same sterilizer. */
    private Optional<Place> run(String number, Draft now) {
        if (!number.matches("[1-9][0-9]{0,3}")) {
            return Optional.empty();
        }
        String cycle = now.text(FactPath.of("runs", number, "cycle"));
        String kind = now.text(FactPath.of("runs", number, "kind"));
        return serial(Running.machine(now, Integer.parseInt(number)), now)
                .flatMap(serial -> Optional.ofNullable(visits.get(serial))
                        .flatMap(visit -> key(serial, visit)
                                .flatMap(key -> place(
                                        visit,
                                        "runs",
                                        run -> visit.text(FactPath.of("runs", run, "kind"))
                                                        .equals(kind)
                                                && Running.machine(visit, run).equals(key)
                                                && (cycle.isBlank()
                                                        || visit.text(FactPath.of("runs", run, "cycle"))
                                                                .equals(cycle))))
                                .map(run -> new Place(visit, FactPath.of("runs", run)))));
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
        for (Draft visit : visits.values()) {
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
            return Optional.of(new Place(visits.values().iterator().next(), list));
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
