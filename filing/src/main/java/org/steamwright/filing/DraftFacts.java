package org.steamwright.filing;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.table.TableRecordings;
import org.steamwright.records.Records;
import org.steamwright.records.proof.Hash;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Person;

/** What a visit that is being written is found by, as far as it is stated by now. Nothing incomplete is refused here. */
final class DraftFacts {

    private final Records records;
    private final FactTree tree;
    private final NavigableMap<String, Hash> files;

    DraftFacts(Records records, FactTree tree, NavigableMap<String, Hash> files) {
        this.records = records;
        this.tree = tree;
        this.files = files;
    }

    FoundBy foundBy() {
        return new FoundBy(
                text("report-number"),
                text("purpose"),
                Optional.of(text("date")).filter(DraftFacts::isDate),
                Optional.of(text("zone")).filter(zone -> !zone.isBlank()),
                simulated(),
                criteriaSet(),
                clinic(),
                machines(),
                entries("people").stream()
                        .map(one -> new Person(text(one, "name"), text(one, "role"), "", "", ""))
                        .filter(one -> !one.name().isBlank() && FoundBy.isTechnician(one.role()))
                        .toList(),
                instruments(),
                entries("runs").stream()
                        .flatMap(run -> maps(run.get("indicators")).stream())
                        .map(indicator -> text(indicator, "lot"))
                        .filter(lot -> !lot.isBlank())
                        .distinct()
                        .sorted()
                        .toList());
    }

    /** Machines as name plates tell them, as far as they are stated by now. */
    List<FoundBy.Machine> machines() {
        return entries("sterilizers").stream()
                .map(Meant::machine)
                .filter(one -> !one.serial().isBlank())
                .toList();
    }

    private static boolean isDate(String text) {
        try {
            LocalDate.parse(text);
            return true;
        } catch (DateTimeParseException e) {
            return false;
        }
    }

    private String text(String key) {
        return text(tree.root(), key);
    }

    private static String text(Map<?, ?> map, String key) {
        return map.get(key) instanceof String text ? text.strip() : "";
    }

    private List<Map<?, ?>> entries(String key) {
        return maps(tree.root().get(key));
    }

    private static List<Map<?, ?>> maps(@Nullable Object list) {
        List<Map<?, ?>> maps = new ArrayList<>();
        if (list instanceof List<?> entries) {
            for (Object entry : entries) {
                if (entry instanceof Map<?, ?> map) {
                    maps.add(map);
                }
            }
        }
        return maps;
    }

    /** The clinic, as far as it is stated by now. */
    Optional<Clinic> clinic() {
        return tree.root().get("clinic") instanceof Map<?, ?> map
                        && !text(map, "name").isBlank()
                ? Optional.of(new Clinic(text(map, "name"), text(map, "address"), "", "", ""))
                : Optional.empty();
    }

    private Optional<String> criteriaSet() {
        return set().map(DraftFacts::words);
    }

    /** The criteria set that is chosen; empty if it can't be read. */
    Optional<CriteriaSet> set() {
        String name = text("criteria-set");
        try {
            Presets presets = new Presets();
            if (presets.names().contains(name)) {
                return Optional.of(presets.get(name));
            }
            Hash file = files.get(name);
            return file == null
                    ? Optional.empty()
                    : Optional.of(presets.read(records.files().get(file), name));
        } catch (IllegalArgumentException e) {
            // reading the visit tells what is wrong with the file
            return Optional.empty();
        }
    }

    private static String words(CriteriaSet set) {
        return set.name() + " " + set.version();
    }

    private List<String> instruments() {
        TreeSet<String> ids = new TreeSet<>();
        entries("instruments").forEach(one -> ids.add(text(one, "id")));
        Hash register = files.get(text("register"));
        if (register != null) {
            try {
                FactTree stated = FactTree.ofFacts(
                        StatedFacts.of("register", records.files().get(register)));
                maps(stated.root().get("instruments")).forEach(one -> ids.add(text(one, "id")));
            } catch (VisitFolderException e) {
                // reading the visit tells what is wrong with the file
                return List.copyOf(ids);
            }
        }
        ids.remove("");
        return List.copyOf(ids);
    }

    /** Whether a recording that the runs name is invented; empty while none of them is there. */
    private Optional<Boolean> simulated() {
        List<Hash> recordings = entries("runs").stream()
                .flatMap(run -> names(run.get("recording")))
                .flatMap(name -> Optional.ofNullable(files.get(name)).stream())
                .toList();
        return recordings.isEmpty()
                ? Optional.empty()
                : Optional.of(recordings.stream().anyMatch(this::isSimulated));
    }

    private static Stream<String> names(@Nullable Object recording) {
        if (recording instanceof List<?> list) {
            return list.stream().flatMap(DraftFacts::names);
        }
        if (recording instanceof Map<?, ?> map) {
            return Stream.of(text(map, "file"));
        }
        return recording instanceof String name ? Stream.of(name) : Stream.empty();
    }

    private boolean isSimulated(Hash file) {
        byte[] mark = TableRecordings.SIMULATED_MARK.getBytes(StandardCharsets.UTF_8);
        try (InputStream in = Files.newInputStream(records.files().path(file))) {
            return isMarked(in.readNBytes(mark.length + 3));
        } catch (IOException e) {
            // a file that is missing or unreadable is told when the visit is read
            return false;
        }
    }

    /** Whether a recording says at its beginning that it is invented. */
    static boolean isMarked(byte[] recording) {
        int length = TableRecordings.SIMULATED_MARK.getBytes(StandardCharsets.UTF_8).length + 3;
        return new String(recording, 0, Math.min(recording.length, length), StandardCharsets.UTF_8)
                .replace("\uFEFF", "")
                .startsWith(TableRecordings.SIMULATED_MARK);
    }
}
