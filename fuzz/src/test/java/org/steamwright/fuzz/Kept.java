package org.steamwright.fuzz;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The inputs that are kept for a door: the cases of the readers, and whatever once went wrong. */
final class Kept {

    private static final Pattern EXAMPLE = Pattern.compile("```yaml\n(.*?)```", Pattern.DOTALL);

    private Kept() {}

    /** All of them, in the order of their names. */
    static List<byte[]> of(Path root, Doors door) throws IOException {
        Path cases = root.resolve("intake/src/test/resources");
        Path corpus = root.resolve("fuzz/src/test/resources/corpus");
        List<byte[]> kept = new ArrayList<>();
        switch (door) {
            case CSV -> addAll(cases.resolve("cases"), ".csv", kept);
            case XLSX -> addAll(cases.resolve("workbooks"), ".xlsx", kept);
            case DCC -> addAll(cases.resolve("certificates"), ".xml", kept);
            case YAML -> addExamples(root.resolve("docs/reference/visit-folder.md"), kept);
        }
        addAll(corpus.resolve(door.name().toLowerCase(Locale.ROOT)), "", kept);
        return kept;
    }

    /**
     * The examples in a page, each an input; and the first, which is small, with each part of the others in turn, so that most
     * inputs are short and about one thing.
     */
    private static void addExamples(Path page, List<byte[]> kept) throws IOException {
        List<Map<String, String>> examples = new ArrayList<>();
        Matcher example = EXAMPLE.matcher(Files.readString(page));
        while (example.find()) {
            examples.add(parts(example.group(1)));
        }
        for (Map<String, String> one : examples) {
            kept.add(bytes(one));
            one.forEach((key, part) -> {
                Map<String, String> small = new LinkedHashMap<>(examples.get(0));
                small.put(key, part);
                kept.add(bytes(small));
            });
        }
    }

    /** Top keys of a file with all that belongs to them, the key included. */
    private static Map<String, String> parts(String yaml) {
        Map<String, String> parts = new LinkedHashMap<>();
        for (String part : yaml.split("\n(?=[a-z])")) {
            parts.put(part.substring(0, Math.max(0, part.indexOf(':'))), part + "\n");
        }
        return parts;
    }

    private static byte[] bytes(Map<String, String> parts) {
        return String.join("", parts.values()).getBytes(StandardCharsets.UTF_8);
    }

    private static void addAll(Path folder, String ending, List<byte[]> kept) throws IOException {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
                if (file.toString().endsWith(ending)) {
                    kept.add(Files.readAllBytes(file));
                }
            }
        }
    }
}
