package org.steamwright.desk.runs;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.register.ChamberSize;

/**
 * What a visit that is being written says of one run's recordings.
 *
 * @param draft of the visit
 * @param number of the run
 */
record RunFacts(Draft draft, int number) {

    private static final String FILE = "file";
    private static final String READING = "reading";
    private static final String CLOCK = "clock";

    /** Way to a fact of the run. */
    FactPath path(Object... steps) {
        FactPath path = FactPath.of("runs", number);
        for (Object step : steps) {
            path = path.then(step);
        }
        return path;
    }

    /** What stands at a fact of the run. */
    Optional<Object> find(Object... steps) {
        return draft.find(path(steps));
    }

    /** Kind of the run. */
    String kind() {
        return draft.text(path("kind"));
    }

    /** Key of the sterilizer that it was made in; blank for the only one. */
    String machine() {
        return draft.text(path("sterilizer"));
    }

    /** Sides of the chamber that the run was made in; empty if they are not stated or not readable. */
    Optional<ChamberSize> chamberSize() {
        return ChamberSize.find(machine("chamber-size"));
    }

    /** Levels of trays in it; empty if they are not stated. */
    OptionalInt trayLevels() {
        String levels = machine("tray-levels");
        return levels.matches("[1-9]|1[0-2]") ? OptionalInt.of(Integer.parseInt(levels)) : OptionalInt.empty();
    }

    /** What lies in the chamber beside the sensors; an indicator whose place is not stated too. */
    List<ChamberPlan.Laid> laid() {
        List<ChamberPlan.Laid> laid = new ArrayList<>();
        String pack = draft.text(path("load", "challenge-place"));
        if (!pack.isBlank()) {
            laid.add(new ChamberPlan.Laid(ChamberPlan.Kind.PACK, "", pack));
        }
        laid(laid, "indicators");
        laid(laid, "chemical-indicators");
        return laid;
    }

    private void laid(List<ChamberPlan.Laid> laid, String list) {
        for (int i = 1; i <= draft.count(path(list)); i++) {
            String place = draft.text(path(list, i, "position"));
            String id = draft.text(path(list, i, "id"));
            // an unexposed control lies in no chamber
            if (!(id + place).isBlank() && !draft.text(path(list, i, "control")).equals("yes")) {
                laid.add(new ChamberPlan.Laid(ChamberPlan.Kind.INDICATOR, id, place));
            }
        }
    }

    /** A fact of the sterilizer that the run names, or of the only one. */
    private String machine(String key) {
        String named = draft.text(path("sterilizer"));
        int machines = draft.count(FactPath.of("sterilizers"));
        for (int i = 1; i <= machines; i++) {
            String known = draft.text(FactPath.of("sterilizers", i, "key"));
            String usual = String.valueOf((char) ('A' + i - 1));
            if (machines == 1 || named.equalsIgnoreCase(known.isBlank() ? usual : known)) {
                return draft.text(FactPath.of("sterilizers", i, key)).strip();
            }
        }
        return "";
    }

    /** Instruments of the visit, by their ids. */
    List<String> instruments() {
        List<String> ids = new ArrayList<>();
        draft.subject().fact("instruments").ifPresent(list -> list.node().forEach(id -> ids.add(id.asText())));
        return ids;
    }

    /** Whether there is such a run. */
    boolean isThere() {
        return number <= draft.count(FactPath.of("runs"));
    }

    /** The entries of its recordings as they stand: a name, or a mapping with the name. */
    List<Object> entries() {
        Object held = draft.find(path("recording")).orElse(List.of());
        return held instanceof List<?> list ? new ArrayList<>(list) : new ArrayList<>(List.of(held));
    }

    /** Names of its recordings. */
    List<String> files() {
        return entries().stream().map(RunFacts::file).toList();
    }

    /** Name in an entry. */
    static String file(Object entry) {
        return entry instanceof Map<?, ?> map ? String.valueOf(map.get(FILE)) : String.valueOf(entry);
    }

    /** What was said about reading a file: its own reading, or that of the run. */
    Map<String, Object> reading(String file) {
        return entries().stream()
                .filter(entry -> file(entry).equals(file))
                .flatMap(entry -> named(entry, READING).stream())
                .findFirst()
                .or(() -> draft.find(path(READING)).flatMap(RunFacts::mapping))
                .orElse(Map.of());
    }

    /** What was said about the clock of a file; empty if nothing was. */
    Map<String, Object> clock(String file) {
        return entries().stream()
                .filter(entry -> file(entry).equals(file))
                .flatMap(entry -> named(entry, CLOCK).stream())
                .findFirst()
                .orElse(Map.of());
    }

    /** The entries with a mapping of one file put in the place of another. */
    List<Object> with(String file, String key, Map<String, Object> value) {
        List<Object> changed = new ArrayList<>();
        for (Object entry : entries()) {
            if (!file(entry).equals(file)) {
                changed.add(entry);
                continue;
            }
            Map<String, Object> mapping = new LinkedHashMap<>();
            mapping.put(FILE, file);
            mapping(entry).ifPresent(mapping::putAll);
            mapping.remove(key);
            if (!value.isEmpty()) {
                mapping.put(key, value);
            }
            changed.add(mapping.size() == 1 ? file : mapping);
        }
        return changed;
    }

    /** What was said about a column: by its name, or by file and name. */
    Map<String, Object> channel(String file, String column) {
        Map<String, Object> channels =
                draft.find(path("channels")).flatMap(RunFacts::mapping).orElse(Map.of());
        return Optional.ofNullable(channels.get(file + "/" + column))
                .or(() -> Optional.ofNullable(channels.get(column)))
                .map(said -> mapping(said).orElseGet(() -> Map.of("role", said)))
                .orElse(Map.of());
    }

    private static Optional<Map<String, Object>> named(Object entry, String key) {
        return mapping(entry).flatMap(map -> Optional.ofNullable(map.get(key))).flatMap(RunFacts::mapping);
    }

    private static Optional<Map<String, Object>> mapping(Object value) {
        if (!(value instanceof Map<?, ?> map)) {
            return Optional.empty();
        }
        Map<String, Object> mapping = new LinkedHashMap<>();
        map.forEach((key, held) -> mapping.put(String.valueOf(key), held));
        return Optional.of(mapping);
    }

    /** A text of a mapping; blank if there is none. */
    static String text(Map<String, Object> mapping, String key) {
        return mapping.get(key) instanceof String text ? text : "";
    }
}
