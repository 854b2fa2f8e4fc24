package org.steamwright.desk.runs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.filing.FactPath;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.records.KeptFile;

/** Reads the recordings of a run as the visit will read them; what the page shows of the last ones is remembered. */
final class FileReading {

    private static final int REMEMBERED = 32;
    private static final List<String> PLAIN =
            List.of("delimiter", "decimal-mark", "date-order", "time-unit", "clock", "from", "to", "sheet");

    private record Key(String sha256, Map<String, Object> reading, ZoneId zone) {}

    private record Outcome(Optional<ReadSummary> recording, Optional<UnreadableFileException> why, String told) {}

    private final Map<Key, Outcome> remembered = new LinkedHashMap<>(REMEMBERED, 0.75f, true);

    /** Every recording that a run names. */
    List<ReadFile> all(RunFacts facts) throws IOException {
        List<ReadFile> read = new ArrayList<>();
        for (String name : facts.files()) {
            read.add(one(facts, name));
        }
        return read;
    }

    private ReadFile one(RunFacts facts, String name) throws IOException {
        Optional<KeptFile> kept = Optional.ofNullable(facts.draft().files().get(name));
        if (kept.isEmpty()) {
            return ReadFile.unread(
                    facts,
                    name,
                    0,
                    Optional.empty(),
                    "The run names " + name
                            + ", but the visit has no such file. Put it in again, or take the name away.");
        }
        Outcome outcome = outcome(facts, name, kept.get());
        long bytes = kept.get().size();
        Optional<ReadSummary> recording = outcome.recording();
        return recording.isPresent()
                ? ReadFile.of(facts, name, bytes, recording.get())
                : ReadFile.unread(facts, name, bytes, outcome.why(), outcome.told());
    }

    /** How a recording was read; empty if it was not. */
    Optional<ReadSummary> summary(RunFacts facts, String name) throws IOException {
        Optional<KeptFile> kept = Optional.ofNullable(facts.draft().files().get(name));
        return kept.isEmpty()
                ? Optional.empty()
                : outcome(facts, name, kept.get()).recording();
    }

    private Outcome outcome(RunFacts facts, String name, KeptFile kept) throws IOException {
        Map<String, Object> reading = facts.reading(name);
        Key key = new Key(kept.sha256().hex(), reading, zone(facts, reading));
        Outcome outcome;
        synchronized (remembered) {
            outcome = Optional.ofNullable(remembered.get(key))
                    .orElse(new Outcome(Optional.empty(), Optional.empty(), ""));
        }
        if (outcome.recording().isEmpty() && outcome.told().isEmpty()) {
            outcome = read(facts, name, key);
            synchronized (remembered) {
                remembered.put(key, outcome);
                if (remembered.size() > REMEMBERED) {
                    remembered.remove(remembered.keySet().iterator().next());
                }
            }
        }
        return outcome;
    }

    private static Outcome read(RunFacts facts, String name, Key key) throws IOException {
        Path folder = Files.createTempDirectory("steamwright-reading");
        Path file = folder.resolve("recording");
        try {
            facts.draft().copy(name, file);
            return new Outcome(
                    Optional.of(ReadSummary.of(Recordings.readRun(file, choices(key.reading(), key.zone())))),
                    Optional.empty(),
                    "");
        } catch (UnreadableFileException why) {
            return new Outcome(Optional.empty(), Optional.of(why), why.text());
        } catch (IllegalArgumentException unknown) {
            return new Outcome(Optional.empty(), Optional.empty(), String.valueOf(unknown.getMessage()));
        } finally {
            Files.deleteIfExists(file);
            Files.deleteIfExists(folder);
        }
    }

    private static ZoneId zone(RunFacts facts, Map<String, Object> reading) {
        String said = RunFacts.text(reading, "zone");
        String site = facts.draft().text(FactPath.of("zone"));
        try {
            return ZoneId.of(said.isEmpty() ? site : said);
        } catch (DateTimeException unknown) {
            return ZoneId.of("UTC");
        }
    }

    private static ReadingChoices choices(Map<String, Object> reading, ZoneId zone) {
        ReadingChoices.Builder builder = RunFacts.text(reading, "zone").isEmpty()
                ? ReadingChoices.supposingZone(zone)
                : ReadingChoices.inZone(zone);
        for (String key : PLAIN) {
            answer(builder, key, RunFacts.text(reading, key));
        }
        answer(builder, "charset", RunFacts.text(reading, "encoding"));
        String start = RunFacts.text(reading, "start");
        if (!start.isEmpty()) {
            builder.start(moment(start, zone));
        }
        if (reading.get("units") instanceof Map<?, ?> units) {
            units.forEach((column, unit) -> answer(builder, "unit:" + column, String.valueOf(unit)));
        }
        return builder.build();
    }

    private static java.time.Instant moment(String start, ZoneId zone) {
        try {
            return LocalDateTime.parse(start).atZone(zone).toInstant();
        } catch (DateTimeException other) {
            throw new IllegalArgumentException(
                    "start: found \"" + start + "\", expected a time such as 2026-03-02T09:14:05", other);
        }
    }

    private static void answer(ReadingChoices.Builder builder, String key, String value) {
        if (!value.isEmpty()) {
            builder.answer(key, value);
        }
    }
}
