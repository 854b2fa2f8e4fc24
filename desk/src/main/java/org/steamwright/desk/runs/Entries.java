package org.steamwright.desk.runs;

import jakarta.servlet.http.Part;
import java.io.IOException;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.path.Earlier;
import org.steamwright.desk.web.Ask;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;

/** What is typed, chosen and dropped on the page of the recordings, put into the draft. */
final class Entries {

    private static final List<String> NAMED = List.of("position", "place", "instrument", "reference");
    private static final String RECORDING = "recording";
    private static final String FILE = "file";

    private Entries() {}

    /** What an entry was refused for, in words of the desk. */
    static final class Refused extends Exception {

        private static final long serialVersionUID = 1L;

        private final String key;

        Refused(String key) {
            super(key);
            this.key = key;
        }

        /** Key of the words. */
        String key() {
            return key;
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
            try (InputStream bytes = part.getInputStream()) {
                change.putFile(name, bytes);
            }
            if (!facts.files().contains(name)) {
                entries.add(name);
            }
        }
        change.set(facts.path(RECORDING), Optional.of(listed(entries))).keep(ask.author(), "");
    }

    /** The last part of a name, whatever folder the sender had it in. */
    private static String name(String submitted) {
        String name = submitted.replace('\\', '/');
        return name.substring(name.lastIndexOf('/') + 1).strip();
    }

    private static Object listed(List<Object> entries) {
        return entries.size() == 1 ? entries.get(0) : entries;
    }

    /** Takes a recording away from the run, and from the visit if no other run names it. */
    static void remove(RunFacts facts, Ask ask) throws DraftRefusal, Refused {
        String file = known(facts, ask);
        List<Object> entries = facts.entries();
        entries.removeIf(entry -> RunFacts.file(entry).equals(file));
        DraftChange change = facts.draft()
                .change()
                .set(facts.path(RECORDING), entries.isEmpty() ? Optional.empty() : Optional.of(listed(entries)));
        if (facts.draft().files().containsKey(file) && !isNamedElsewhere(facts, file)) {
            change.removeFile(file);
        }
        change.keep(ask.author(), "");
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
            channel(facts, file, key.substring("reference:".length()), Map.of("role", "pressure", "reference", value))
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
            change.set(facts.path("reading"), Optional.of(reading));
        } else {
            change.set(facts.path(RECORDING), Optional.of(facts.with(file, "reading", reading)));
        }
        change.keep(ask.author(), "");
    }

    /**
     * Says for every column of a file what it stands for and where its sensor sat.
     *
     * @param earlier of which one column is taken over, if that is asked for
     */
    static void channels(RunFacts facts, Ask ask, Optional<Earlier> earlier) throws DraftRefusal, Refused {
        String file = known(facts, ask);
        List<String> columns = ask.chosen("column");
        DraftChange change = facts.draft().change();
        for (int i = 0; i < columns.size(); i++) {
            if (ask.typed("take").equals(String.valueOf(i))) {
                String column = columns.get(i);
                Map<String, Object> then = new LinkedHashMap<>();
                earlier.ifPresent(before -> then.putAll(before.channel(facts.draft(), facts.number(), column)));
                put(change, facts, file, column, then);
                continue;
            }
            String role = ask.typed("role-" + i);
            if (!role.isEmpty() && !RoleWord.ofFiles().contains(role)) {
                throw new Refused("runs.no-role");
            }
            Map<String, Object> said = new LinkedHashMap<>();
            if (!role.isEmpty()) {
                said.put("role", role);
                for (String key : NAMED) {
                    said.put(key, ask.typed(key + "-" + i));
                }
            }
            put(change, facts, file, columns.get(i), said);
        }
        change.keep(ask.author(), "");
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
        Object value = kept.size() == 1 && kept.containsKey("role") ? kept.getOrDefault("role", "") : kept;
        if (kept.isEmpty() && !isFull && !isShort) {
            return;
        }
        change.set(facts.path("channels", key), kept.isEmpty() ? Optional.empty() : Optional.of(value));
    }

    /** Says how the clock of a file compares with the others. */
    static void clock(RunFacts facts, Ask ask) throws DraftRefusal, Refused {
        String file = known(facts, ask);
        Map<String, Object> clock = new LinkedHashMap<>();
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
                    throw new Refused("runs.clock-incomplete");
                }
            }
            case "" -> {}
            default -> throw new Refused("runs.clock-incomplete");
        }
        facts.draft()
                .change()
                .set(facts.path(RECORDING), Optional.of(facts.with(file, "clock", clock)))
                .keep(ask.author(), "");
    }

    /** Seconds with their unit, as the reader's language writes them; blank if they may be meant otherwise. */
    private static String seconds(Ask ask, String key) {
        String figure = ask.frame().figures().typed(ask.typed(key)).orElse("");
        return figure.matches("[+-]?[0-9.]+") ? figure + " s" : figure;
    }

    private static String known(RunFacts facts, Ask ask) throws Refused {
        String file = ask.typed(FILE);
        if (!facts.files().contains(file)) {
            throw new Refused("runs.no-such-file");
        }
        return file;
    }
}
