package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.folder.Flaw.Sort;
import org.steamwright.intake.profile.ReadingProfiles;

/** The recordings that the runs of a visit name, each read once and used once. */
final class Readings {

    private static final int HEAD_BYTES = 8_192;
    private static final int HEAD_LINES = 40;

    private final FolderFiles files;
    private final ZoneId zone;
    private final Map<String, Used> usedBy = new HashMap<>();

    /** A recording that was read already. */
    private record Used(String name, Entry spot) {

        /** As whoever wrote the file reads it, in a template. */
        String where() {
            return (name + " in " + spot.way() + " (line " + spot.line() + ")").replace("%", "%%");
        }

        /** Number of the run. */
        String run() {
            return spot.way().steps().get(1);
        }
    }

    private final ReadingProfiles profiles;

    Readings(FolderFiles files, ZoneId zone, ReadingProfiles profiles) {
        this.files = files;
        this.zone = zone;
        this.profiles = profiles;
    }

    /**
     * The recordings of a run; empty after a problem was added.
     *
     * @param entry value of the key recording: a name, a mapping of file and reading, or a list of both
     * @param reading value of the run's key reading
     */
    Optional<List<Assignment.Named>> read(Entry entry, Optional<Entry> reading) throws IOException {
        List<Entry> list = entry.listOrOne();
        Optional<ReadingChoices> shared = ReadingFacts.choices(reading, zone);
        boolean isGood = shared.isPresent();
        if (list.isEmpty()) {
            entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.empty("found an empty list, expected at least one recording.")
                            .with("Write its file name."));
            return Optional.empty();
        }
        List<Assignment.Named> recordings = new ArrayList<>();
        for (Entry one : list) {
            Optional<ReadingChoices> choices = shared;
            Entry nameEntry = one;
            Optional<ClockStatement> clock = Optional.empty();
            if (one.isMapping()) {
                Optional<Fields> fields = one.fields(Shape.RECORDING);
                Optional<Entry> file = fields.flatMap(opened -> opened.need("file", "run-1.csv"));
                Optional<Entry> own = fields.flatMap(opened -> opened.find("reading"));
                if (own.isPresent()) {
                    choices = ReadingFacts.choices(own, zone);
                }
                Optional<Entry> clockEntry = fields.flatMap(opened -> opened.find("clock"));
                clock = clockEntry.flatMap(ClockFacts::read);
                isGood &= clockEntry.isEmpty() || clock.isPresent();
                if (file.isEmpty()) {
                    isGood = false;
                    continue;
                }
                nameEntry = file.get();
            }
            Optional<Assignment.Named> recording = Optional.empty();
            Optional<String> name = nameEntry.text();
            if (name.isPresent()) {
                Optional<Path> file = files.find(name.get(), nameEntry);
                if (file.isPresent() && choices.isPresent()) {
                    recording = read(name.get(), file.get(), choices.get(), nameEntry, clock);
                }
            }
            recording.ifPresent(recordings::add);
            isGood &= recording.isPresent();
        }
        return isGood ? Optional.of(recordings) : Optional.empty();
    }

    private Optional<Assignment.Named> read(
            String name, Path file, ReadingChoices choices, Entry spot, Optional<ClockStatement> clock)
            throws IOException {
        Recording recording;
        try {
            recording = Recordings.readRun(file, profiles.complete(file, choices));
        } catch (UnreadableFileException e) {
            addProblems(name, e, spot);
            return Optional.empty();
        }
        Used before = usedBy.putIfAbsent(recording.sha256(), new Used(name, spot));
        if (before != null) {
            spot.problem(
                    Mistake.RECORDING_TWICE,
                    Flaw.found(
                                    Sort.SAME_RECORDING,
                                    "found in %s the same bytes as in " + before.where()
                                            + ", expected a recording of its own for each run.",
                                    name)
                            .expecting(before.name(), before.run())
                            .with("Was the wrong file copied or named?"));
            return Optional.empty();
        }
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(EditedOutside.MOST_BYTES);
        }
        return Optional.of(new Assignment.Named(name, withSigns(recording, name, bytes), spot, clock, head(bytes)));
    }

    /** The recording with a remark if something besides the logger seems to have written part of it. */
    private static Recording withSigns(Recording recording, String name, byte[] bytes) {
        List<String> signs = EditedOutside.signs(bytes);
        if (signs.isEmpty()) {
            return recording;
        }
        List<Remark> remarks = new ArrayList<>(recording.remarks());
        remarks.add(new Remark(
                Mistake.EDITED_OUTSIDE.id(),
                Rank.DOUBT,
                name,
                "Edited outside? In this file " + String.join("; ", signs)
                        + ". A logger writes one way throughout; a spreadsheet that saved it does not."
                        + " Export it from the logger again, or say what was done."));
        return new Recording(
                recording.fileName(),
                recording.bytes(),
                recording.sha256(),
                recording.start(),
                recording.zone(),
                recording.axis(),
                recording.columns(),
                remarks,
                recording.explanation(),
                recording.isSimulated());
    }

    private static List<String> head(byte[] bytes) {
        String text = new String(bytes, 0, Math.min(bytes.length, HEAD_BYTES), StandardCharsets.ISO_8859_1);
        return text.lines().limit(HEAD_LINES).toList();
    }

    private static void addProblems(String name, UnreadableFileException e, Spot spot) {
        if (e.questions().isEmpty()) {
            spot.problem(
                    Mistake.UNREADABLE_RECORDING,
                    Flaw.of("found " + name + " but can't read it: " + e.id().id()
                            + (e.where().isEmpty() ? "" : ", " + e.where()) + ": " + e.text()));
        }
        for (Question question : e.questions()) {
            spot.problem(
                    Mistake.UNREADABLE_RECORDING,
                    Flaw.of("found " + name + " but it leaves something open: " + question.text() + " "
                            + question.evidence() + " " + remedy(question)));
        }
    }

    /** Where in the visit file the answer to a question about a recording is written. */
    private static String remedy(Question question) {
        String key = question.key();
        String options = String.join(" or ", question.options());
        String first = question.options().isEmpty() ? "…" : question.options().get(0);
        int colon = key.indexOf(':');
        if (key.startsWith("unit:")) {
            return "Write under reading: units: {" + key.substring(colon + 1) + ": " + first + "} (" + options + ").";
        }
        if (key.startsWith("reference:")) {
            return "Write under channels: " + key.substring(colon + 1) + ": {role: pressure, reference: " + first
                    + "} (" + options + ").";
        }
        String inFile = key.equals("charset") ? "encoding" : key;
        return "Write under reading: " + inFile + ": " + first + " (" + options + ").";
    }
}
