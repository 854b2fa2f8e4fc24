package org.steamwright.desk.runs;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.TemporaryFolder;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.folder.ReadingFacts;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.profile.ReadingProfiles;
import org.steamwright.records.KeptFile;

/** Reads the recordings of a run as the visit will read them; what the page shows of the last ones is remembered. */
final class FileReading {

    private static final int REMEMBERED = 32;
    private static final String PROFILES = ReadingProfiles.FOLDER + "/";

    /** What an outcome depends on: the bytes, what was said, the zone of the visit, and its reading profiles. */
    private record Key(String sha256, Map<String, Object> reading, String zone, Map<String, KeptFile> profiles) {}

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
        Key key = new Key(kept.sha256().hex(), reading, facts.draft().text(FactPath.of("zone")), profiles(facts));
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

    private static Map<String, KeptFile> profiles(RunFacts facts) {
        Map<String, KeptFile> profiles = new TreeMap<>();
        facts.draft().files().forEach((name, file) -> {
            if (name.startsWith(PROFILES) && name.indexOf('/', PROFILES.length()) < 0) {
                profiles.put(name, file);
            }
        });
        return profiles;
    }

    private static Outcome read(RunFacts facts, String name, Key key) throws IOException {
        try (TemporaryFolder folder = TemporaryFolder.create("reading")) {
            Path file = folder.path().resolve("recording");
            facts.draft().copy(name, file);
            Path profiles = Files.createDirectory(folder.path().resolve(ReadingProfiles.FOLDER));
            for (String profile : key.profiles().keySet()) {
                // profiles are called by their names
                facts.draft().copy(profile, profiles.resolve(profile.substring(PROFILES.length())));
            }
            ReadingChoices choices =
                    ReadingProfiles.in(List.of(profiles)).complete(file, ReadingFacts.of(key.reading(), key.zone()));
            return new Outcome(Optional.of(ReadSummary.of(Recordings.readRun(file, choices))), Optional.empty(), "");
        } catch (UnreadableFileException why) {
            return new Outcome(Optional.empty(), Optional.of(why), why.text());
        } catch (VisitFolderException said) {
            return new Outcome(
                    Optional.empty(),
                    Optional.empty(),
                    said.problems().stream()
                            .map(problem -> problem.way() + ": "
                                    + DraftProblem.of(problem).said())
                            .collect(Collectors.joining(" ")));
        }
    }
}
