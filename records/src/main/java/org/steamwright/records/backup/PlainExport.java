package org.steamwright.records.backup;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.steamwright.records.Author;
import org.steamwright.records.Blobs;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.JournalHead;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Frontier;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.TreeHead;

/**
 * The record as plain files: {@code journal.jsonl} (one canonical JSON entry a line), {@code subjects/<kind>/<id>.json}, a
 * table {@code <kind>.csv} for each kind, {@code files/} with the original bytes under their hash, and {@code head.txt}.
 * The journal and the files are the record; the rest is there to be read. Private keys are not in it.
 */
public final class PlainExport {

    private static final String JOURNAL = "journal.jsonl";
    private static final String HEAD = "head.txt";
    private static final int PAGE = 1_000;

    private PlainExport() {}

    /**
     * Writes everything to a new folder.
     *
     * @throws RecordsException if something stands there, or can't be written
     */
    public static JournalHead write(Records records, Path target) {
        if (Files.exists(target)) {
            throw new RecordsException(
                    RecordsMessage.BACKUP_TARGET_EXISTS,
                    target + ": there is something already. Name a new folder; nothing is written over.");
        }
        try {
            Files.createDirectories(target);
            JournalHead head = records.head();
            writeJournal(records, target.resolve(JOURNAL), head.tree().size());
            for (Kind kind : Kind.values()) {
                writeSubjects(records, target, kind);
            }
            Path files = target.resolve("files");
            for (Hash sha256 : records.files().all()) {
                Path copy = new Blobs(files).path(sha256);
                Files.createDirectories(files.resolve(sha256.hex().substring(0, 2)));
                Files.write(copy, records.files().get(sha256), StandardOpenOption.CREATE_NEW);
            }
            Files.writeString(target.resolve(HEAD), head.tree().text() + "\n", StandardCharsets.UTF_8);
            return head;
        } catch (IOException e) {
            throw new RecordsException(
                    RecordsMessage.BACKUP_NOT_GOOD,
                    "%s: the export could not be written to its end: %s. Is the disk full?".formatted(target, e),
                    e);
        }
    }

    private static void writeJournal(Records records, Path file, long size) throws IOException {
        try (BufferedWriter out = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            for (long from = 0; from < size; from += PAGE) {
                for (JournalEntry entry : records.entries(from, (int) Math.min(PAGE, size - from))) {
                    out.write(entry.toJson().text());
                    out.write('\n');
                }
            }
        }
    }

    private static void writeSubjects(Records records, Path target, Kind kind) throws IOException {
        List<Subject> subjects = new ArrayList<>();
        TreeSet<String> properties = new TreeSet<>();
        records.eachSubject(kind, subject -> {
            subjects.add(subject);
            properties.addAll(subject.facts().keySet());
        });
        if (subjects.isEmpty()) {
            return;
        }
        Path folder = target.resolve("subjects").resolve(kind.word());
        Files.createDirectories(folder);
        try (BufferedWriter table =
                Files.newBufferedWriter(target.resolve(kind.word() + ".csv"), StandardCharsets.UTF_8)) {
            List<String> head = new ArrayList<>(List.of("id"));
            head.addAll(properties);
            writeRow(table, head);
            for (Subject subject : subjects) {
                Files.writeString(
                        folder.resolve(subject.id() + ".json"), subject.toJson().text() + "\n", StandardCharsets.UTF_8);
                List<String> row = new ArrayList<>(List.of(subject.id().toString()));
                properties.forEach(property -> row.add(subject.text(property)));
                writeRow(table, row);
            }
        }
    }

    private static void writeRow(BufferedWriter out, List<String> cells) throws IOException {
        List<String> written = new ArrayList<>();
        for (String cell : cells) {
            written.add(cell(cell));
        }
        out.write(String.join(",", written));
        out.write("\r\n");
    }

    /**
     * A cell as RFC 4180 wants it; a text that a spreadsheet would take for a formula begins with an apostrophe. Numbers
     * stay numbers. The exact text stands in the JSON beside it.
     *
     * @source RFC 4180; OWASP Application Security Verification Standard 5.0.0, V1.2.10 (formula injection)
     */
    static String cell(String text) {
        boolean isNumber = text.matches("[-+]?\\d+(\\.\\d+)?");
        String shown = !isNumber && text.matches("(?s)[\\s\u00A0]*[=+\\-@\\t\\r].*") ? "'" + text : text;
        return shown.matches("(?s).*[\",\\r\\n].*") ? '"' + shown.replace("\"", "\"\"") + '"' : shown;
    }

    /**
     * Brings an export into an empty record. The journal is the same afterwards, entry for entry.
     *
     * @param source folder of an export
     * @param records without entries
     * @throws RecordsException if there are entries already, or the export is damaged; the message names the line
     */
    public static JournalHead read(Path source, Records records) {
        if (records.head().tree().size() > 0) {
            throw new RecordsException(
                    RecordsMessage.STORE_NOT_EMPTY,
                    "%s: there are %s entries already. Import into an empty record; nothing is written over."
                            .formatted(
                                    records.database().name(),
                                    records.head().tree().size()));
        }
        try {
            TreeHead expected = TreeHead.parse(Files.readString(source.resolve(HEAD), StandardCharsets.UTF_8));
            List<JournalEntry> entries = readJournal(source.resolve(JOURNAL));
            Blobs files = new Blobs(source.resolve("files"));
            for (Hash sha256 : files.all()) {
                files.complaint(sha256).ifPresent(complaint -> {
                    throw unreadable(source, "file %s is %s".formatted(files.path(sha256), complaint), null);
                });
            }
            checkHead(source, entries, expected);
            for (Hash sha256 : files.all()) {
                records.files().put(files.path(sha256));
            }
            return records.replay(entries);
        } catch (NoSuchFileException e) {
            throw unreadable(source, e.getFile() + " is missing", e);
        } catch (IOException | IllegalArgumentException e) {
            throw unreadable(source, String.valueOf(e.getMessage()), e);
        }
    }

    private static void checkHead(Path source, List<JournalEntry> entries, TreeHead expected) {
        Frontier frontier = new Frontier();
        entries.forEach(entry -> frontier.add(entry.hash()));
        if (!frontier.head().equals(expected)) {
            throw new RecordsException(
                    RecordsMessage.HEADS_DIFFER,
                    "%s: its %s entries make the head %s, the export says %s. The journal was altered or cut; nothing was kept."
                            .formatted(source, entries.size(), frontier.head().shortText(), expected.shortText()));
        }
    }

    private static RecordsException unreadable(Path source, String what, @Nullable Exception cause) {
        return new RecordsException(
                RecordsMessage.EXPORT_UNREADABLE,
                "%s: the export can't be read: %s. Nothing was kept.".formatted(source, what),
                cause);
    }

    private static List<JournalEntry> readJournal(Path file) throws IOException {
        List<JournalEntry> entries = new ArrayList<>();
        try (BufferedReader in = Files.newBufferedReader(file, StandardCharsets.UTF_8)) {
            for (String line = in.readLine(); line != null; line = in.readLine()) {
                int number = entries.size() + 1;
                try {
                    JournalEntry entry = entry(JsonText.parse(line).node());
                    if (!entry.toJson().text().equals(line)) {
                        throw new IllegalArgumentException("is not written as an entry is");
                    }
                    entries.add(entry);
                } catch (IllegalArgumentException | DateTimeException e) {
                    throw new IllegalArgumentException(
                            "%s, line %s: %s".formatted(file.getFileName(), number, e.getMessage()), e);
                }
            }
        }
        return entries;
    }

    private static JournalEntry entry(JsonNode node) {
        return new JournalEntry(
                node.path("number").asLong(),
                UUID.fromString(node.path("submission").asText()),
                new Author(
                        node.path("author").path("name").asText(),
                        node.path("author").path("role").asText()),
                Instant.parse(node.path("at").asText()),
                ZoneOffset.of(node.path("offset").asText()),
                node.path("clockSetBack").asBoolean(),
                Kind.ofWord(node.path("kind").asText()),
                SubjectId.parse(node.path("subject").asText()),
                node.path("property").asText(),
                JsonText.of(node.path("old")),
                JsonText.of(node.path("new")),
                node.path("why").asText(),
                node.has("stated")
                        ? Optional.of(Instant.parse(node.path("stated").asText()))
                        : Optional.empty(),
                node.path("late").asBoolean());
    }
}
