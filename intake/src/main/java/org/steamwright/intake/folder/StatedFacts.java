package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What a visit file states, as texts, lists and maps, for a record that keeps facts and does not interpret them. */
public final class StatedFacts {

    private StatedFacts() {}

    /**
     * The facts by path: each first key, and for a list each of its entries, such as {@code runs/3}. Scalars are the texts that
     * were typed; aliases are written out.
     *
     * @param yaml visit file
     * @throws VisitFolderException if it is no YAML within the limits
     * @throws IOException if the disk fails
     */
    public static Map<String, Object> of(Path yaml) throws IOException, VisitFolderException {
        return of(Files.readAllBytes(yaml), String.valueOf(yaml.getFileName()));
    }

    /**
     * The same of a file that was read already.
     *
     * @param bytes of the file
     * @param name for messages
     * @throws VisitFolderException if it is no YAML within the limits
     */
    public static Map<String, Object> of(byte[] bytes, String name) throws VisitFolderException {
        Problems problems = new Problems(name);
        Map<String, Object> facts = new TreeMap<>();
        YamlSource.parse(bytes, problems)
                .flatMap(Entry::entries)
                .ifPresent(keys -> keys.forEach((key, entry) -> add(key, plain(entry), facts)));
        problems.throwIfAny();
        return facts;
    }

    private static void add(String key, Object value, Map<String, Object> facts) {
        if (value instanceof List<?> list) {
            for (int i = 0; i < list.size(); i++) {
                facts.put(key + "/" + (i + 1), list.get(i));
            }
        } else {
            facts.put(key, value);
        }
    }

    private static Object plain(Entry entry) {
        if (entry.isMapping()) {
            Map<String, Object> map = new LinkedHashMap<>();
            entry.entries().ifPresent(entries -> entries.forEach((key, value) -> map.put(key, plain(value))));
            return map;
        }
        if (entry.isList()) {
            List<Object> list = new ArrayList<>();
            entry.list().forEach(item -> list.add(plain(item)));
            return list;
        }
        return entry.text().orElse("");
    }
}
