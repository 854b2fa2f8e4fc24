package org.steamwright.intake.profile;

import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.api.Dump;
import org.snakeyaml.engine.v2.api.DumpSettings;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileKind;

/**
 * What was answered for one kind of file.
 *
 * @param name also that of its file, without {@code .yaml}
 * @param kind by what the files are known again
 * @param answers by key, as {@link ReadingChoices.Builder#answer} takes them, and {@code zone}; in the order of their keys
 */
public record ReadingProfile(String name, FileKind kind, Map<String, String> answers) {

    private static final String FORMAT = "steamwright-reading";
    private static final int VERSION = 1;
    private static final int LARGEST = 65_536;

    /** Keys whose answers belong to a kind of file; the others belong to one run. */
    private static final Set<String> PLAIN_KEYS =
            Set.of("delimiter", "decimal-mark", "charset", "sheet", "date-order", "time-unit", "clock", "zone");

    public ReadingProfile {
        answers = new TreeMap<>(answers);
        if (!isName(name)) {
            throw new IllegalArgumentException("\"" + name
                    + "\" is no name for a reading profile; expected small letters, digits and hyphens, such"
                    + " as kitchen-logger");
        }
        for (Map.Entry<String, String> answer : answers.entrySet()) {
            check(answer.getKey(), answer.getValue());
        }
    }

    /** Whether a name can be that of a profile: small letters, digits and hyphens, at most 60. */
    public static boolean isName(String name) {
        return name.matches("[a-z0-9][a-z0-9-]{0,59}") && !name.equals("none");
    }

    /** Whether an answer to that key holds for all files of a kind; the moment a run began does not. */
    public static boolean isKept(String key) {
        return PLAIN_KEYS.contains(key) || key.startsWith("unit:") || key.startsWith("reference:");
    }

    private static void check(String key, String value) {
        if (!isKept(key)) {
            throw new IllegalArgumentException("\"" + key + "\" is no answer that holds for every file of a kind");
        }
        if (key.equals("zone")) {
            try {
                ZoneId.of(value);
            } catch (DateTimeException unknown) {
                throw new IllegalArgumentException(
                        "zone: found \"" + value
                                + "\", expected a zone such as Australia/Sydney or an offset such as +10:00",
                        unknown);
            }
            return;
        }
        ReadingChoices.inZone(ZoneId.of("UTC")).answer(key, value);
    }

    /** The profile as the text of its file. */
    public String text() {
        Map<String, Object> recognition = new LinkedHashMap<>();
        recognition.put("delimiter", kind.delimiter());
        recognition.put("columns", kind.columns());
        if (!kind.units().isEmpty()) {
            recognition.put("units", kind.units());
        }
        if (!kind.preamble().isEmpty()) {
            recognition.put("before-the-header", kind.preamble());
        }
        Map<String, Object> said = new LinkedHashMap<>();
        Map<String, Object> units = new LinkedHashMap<>();
        Map<String, Object> references = new LinkedHashMap<>();
        answers.forEach((key, value) -> {
            int colon = key.indexOf(':');
            if (colon < 0) {
                said.put(key.equals("charset") ? "encoding" : key, value);
            } else {
                (key.startsWith("unit:") ? units : references).put(key.substring(colon + 1), value);
            }
        });
        if (!units.isEmpty()) {
            said.put("units", units);
        }
        if (!references.isEmpty()) {
            said.put("references", references);
        }
        Map<String, Object> file = new LinkedHashMap<>();
        file.put(FORMAT, VERSION);
        file.put("recognised-by", recognition);
        file.put("answers", said);
        DumpSettings settings = DumpSettings.builder()
                .setDefaultFlowStyle(FlowStyle.BLOCK)
                .setDefaultScalarStyle(ScalarStyle.PLAIN)
                .setWidth(120)
                .build();
        return "# How files of one logger are read; see docs/reference/reading-profile.md\n"
                + new Dump(settings).dumpToString(file);
    }

    /**
     * Reads the text of a profile's file.
     *
     * @param name of the file without {@code .yaml}
     * @throws UnreadableFileException if it is not a profile, with the key that is wrong
     */
    public static ReadingProfile of(String name, String text) throws UnreadableFileException {
        if (text.length() > LARGEST) {
            throw wrong(name, "the file has more than " + LARGEST + " characters, expected a few lines");
        }
        LoadSettings settings = LoadSettings.builder()
                .setLabel(name)
                .setAllowDuplicateKeys(false)
                .setMaxAliasesForCollections(0)
                .setCodePointLimit(LARGEST)
                .build();
        @Nullable Object root;
        try {
            root = new Load(settings).loadFromString(text);
        } catch (YamlEngineException broken) {
            throw wrong(name, String.valueOf(broken.getMessage()).replace('\n', ' '));
        } catch (StackOverflowError deep) {
            throw wrong(name, "the brackets are nested too deep");
        }
        Map<?, ?> file = mapping(name, "the file", root, List.of(FORMAT, "recognised-by", "answers"));
        if (!Integer.valueOf(VERSION).equals(file.get(FORMAT))) {
            throw wrong(name, "found " + FORMAT + ": " + file.get(FORMAT) + ", expected " + VERSION);
        }
        Map<?, ?> recognition = mapping(
                name,
                "recognised-by",
                file.get("recognised-by"),
                List.of("delimiter", "columns", "units", "before-the-header"));
        FileKind kind = new FileKind(
                word(name, "recognised-by: delimiter", recognition.get("delimiter")),
                words(name, "recognised-by: columns", recognition.get("columns")),
                recognition.containsKey("units")
                        ? words(name, "recognised-by: units", recognition.get("units"))
                        : List.of(),
                recognition.containsKey("before-the-header")
                        ? words(name, "recognised-by: before-the-header", recognition.get("before-the-header"))
                        : List.of());
        try {
            return new ReadingProfile(name, kind, answers(name, file.get("answers")));
        } catch (IllegalArgumentException refused) {
            throw wrong(name, String.valueOf(refused.getMessage()));
        }
    }

    private static Map<String, String> answers(String name, @Nullable Object value) throws UnreadableFileException {
        List<String> keys = new ArrayList<>(List.of("encoding", "units", "references"));
        keys.addAll(PLAIN_KEYS);
        keys.remove("charset");
        keys.sort(null);
        Map<String, String> answers = new LinkedHashMap<>();
        for (Map.Entry<?, ?> entry : mapping(name, "answers", value, keys).entrySet()) {
            String key = String.valueOf(entry.getKey());
            if (key.equals("units") || key.equals("references")) {
                String prefix = key.equals("units") ? "unit:" : "reference:";
                for (Map.Entry<?, ?> column : mapping(name, "answers: " + key, entry.getValue(), List.of())
                        .entrySet()) {
                    answers.put(
                            prefix + column.getKey(),
                            word(name, "answers: " + key + ": " + column.getKey(), column.getValue()));
                }
            } else {
                answers.put(key.equals("encoding") ? "charset" : key, word(name, "answers: " + key, entry.getValue()));
            }
        }
        return answers;
    }

    /** A mapping with none but these keys; any keys where none are named. */
    private static Map<?, ?> mapping(String name, String where, @Nullable Object value, List<String> keys)
            throws UnreadableFileException {
        if (!(value instanceof Map<?, ?> found)) {
            throw wrong(name, where + ": found " + shown(value) + ", expected keys and values");
        }
        for (Object key : found.keySet()) {
            if (!keys.isEmpty() && !keys.contains(String.valueOf(key))) {
                throw wrong(
                        name,
                        where + ": found the key \"" + key + "\", which is not known; there are "
                                + String.join(", ", keys));
            }
        }
        return found;
    }

    private static List<String> words(String name, String where, @Nullable Object value)
            throws UnreadableFileException {
        if (!(value instanceof List<?> found)) {
            throw wrong(name, where + ": found " + shown(value) + ", expected a list");
        }
        List<String> words = new ArrayList<>();
        for (Object one : found) {
            words.add(word(name, where, one));
        }
        return words;
    }

    private static String word(String name, String where, @Nullable Object value) throws UnreadableFileException {
        if (value instanceof String || value instanceof Number || value instanceof Boolean) {
            return String.valueOf(value);
        }
        throw wrong(name, where + ": found " + shown(value) + ", expected a word");
    }

    private static String shown(@Nullable Object value) {
        return value instanceof Map ? "keys and values" : value instanceof List ? "a list" : "\"" + value + "\"";
    }

    static UnreadableFileException wrong(String name, String what) {
        return new UnreadableFileException(
                IntakeMessage.PROFILE_UNREADABLE,
                name + ".yaml",
                "",
                "this is no reading profile: " + what
                        + ". Mend the file, or take it out of the folder of reading profiles.");
    }
}
