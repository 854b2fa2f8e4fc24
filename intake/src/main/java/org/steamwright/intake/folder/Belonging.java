package org.steamwright.intake.folder;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.register.Sterilizer;

/** Whether the recordings belong to this visit, to its days and to the instruments that they are said to be of. */
final class Belonging {

    private static final Pattern SERIAL = Pattern.compile(
            "(?:serial(?:\\s*(?:number|no\\.?|nr\\.?|#))?|s/n|sn|logger\\s*id|device\\s*id|seriennummer)\\s*[:=;,\\t ]\\s*\"?([A-Za-z0-9][A-Za-z0-9._/-]{2,})",
            Pattern.CASE_INSENSITIVE);

    private Belonging() {}

    /** Files that an earlier visit used. */
    static void remarkEarlier(List<VisitRun> runs, EarlierRecordings earlier, List<Remark> remarks) {
        for (VisitRun run : runs) {
            for (Trace.SourceFile file : run.test().trace().files()) {
                earlier.find(file.sha256())
                        .ifPresent(place -> remarks.add(new Remark(
                                Mistake.USED_BEFORE.id(),
                                Rank.DOUBT,
                                wayTo(run) + ", " + file.name(),
                                "The same bytes were part of an earlier visit: " + place
                                        + ". Was the wrong file copied? A recording is evidence of one run only.",
                                List.of(wayTo(run).steps()))));
            }
        }
    }

    /** Runs of another day than the others, where the visit itself states no day. */
    static void remarkOtherDays(List<VisitRun> runs, ZoneId zone, List<Remark> remarks) {
        Map<LocalDate, Integer> counts = new HashMap<>();
        for (VisitRun run : runs) {
            day(run, zone).ifPresent(day -> counts.merge(day, 1, Integer::sum));
        }
        Optional<LocalDate> usual = counts.keySet().stream()
                .max((a, b) -> Integer.compare(counts.getOrDefault(a, 0), counts.getOrDefault(b, 0)));
        for (VisitRun run : runs) {
            Optional<LocalDate> day = day(run, zone);
            if (usual.isPresent() && day.isPresent() && Math.abs(ChronoUnit.DAYS.between(usual.get(), day.get())) > 1) {
                remarks.add(new Remark(
                        Mistake.ANOTHER_DAY.id(),
                        Rank.DOUBT,
                        wayTo(run).written(),
                        "The recording began on " + day.get() + ", most of the others on " + usual.get()
                                + ". Was the wrong file copied, or is the clock of the logger wrong?",
                        List.of(wayTo(run).steps())));
            }
        }
    }

    private static Optional<LocalDate> day(VisitRun run, ZoneId zone) {
        return run.test().trace().start().map(start -> start.atZone(zone).toLocalDate());
    }

    /** One instrument can't be in two runs at once. */
    static void remarkOverlaps(List<VisitRun> runs, List<Remark> remarks) {
        for (int i = 0; i < runs.size(); i++) {
            for (int j = i + 1; j < runs.size(); j++) {
                Set<String> shared = instruments(runs.get(i));
                shared.retainAll(instruments(runs.get(j)));
                if (!shared.isEmpty() && overlap(runs.get(i), runs.get(j))) {
                    remarks.add(new Remark(
                            Mistake.RUNS_OVERLAP.id(),
                            Rank.DOUBT,
                            wayTo(runs.get(i)) + ", " + wayTo(runs.get(j)),
                            "By their stamps these runs went on at the same time, and both were measured with "
                                    + String.join(", ", shared)
                                    + ". Was a recording of another run copied, or is a clock wrong?",
                            List.of(
                                    wayTo(runs.get(i)).steps(),
                                    wayTo(runs.get(j)).steps())));
                }
            }
        }
    }

    /** The way to a run in the visit file. */
    static Way wayTo(VisitRun run) {
        return Way.of("runs").entry(run.number());
    }

    private static Set<String> instruments(VisitRun run) {
        Set<String> ids = new TreeSet<>();
        for (Channel channel : run.test().trace().channels()) {
            channel.instrument().ifPresent(ids::add);
        }
        return ids;
    }

    private static boolean overlap(VisitRun one, VisitRun two) {
        Trace a = one.test().trace();
        Trace b = two.test().trace();
        if (a.start().isEmpty() || b.start().isEmpty()) {
            return false;
        }
        Instant endOfA = a.start().get().plusMillis(Math.round(a.lastSeconds() * 1000));
        Instant endOfB = b.start().get().plusMillis(Math.round(b.lastSeconds() * 1000));
        return a.start().get().isBefore(endOfB) && b.start().get().isBefore(endOfA);
    }

    /**
     * The serial numbers of this visit, to hold those against that a file names.
     *
     * @param instruments by id
     * @param serials stated for a logger, by the id of the instrument
     * @param sterilizers whose own serial numbers a file may name as well
     */
    record Loggers(
            Map<String, ReferenceInstrument> instruments, Map<String, String> serials, List<Sterilizer> sterilizers) {

        /** What is wrong if a file names other serial numbers than those stated for the instruments of its columns. */
        Optional<String> contradiction(String file, List<String> head, Set<String> assigned) {
            Set<String> named = named(head);
            List<String> expected = new ArrayList<>();
            for (String id : new TreeSet<>(assigned)) {
                String stated = serials.getOrDefault(id, "");
                if (stated.isEmpty() || holds(named, stated)) {
                    return Optional.empty();
                }
                expected.add(stated + " (" + id + ")");
            }
            if (expected.isEmpty() || named.isEmpty()) {
                return Optional.empty();
            }
            List<String> found = new ArrayList<>();
            for (String serial : named) {
                found.add(serial + owner(serial).map(id -> ", which is " + id).orElse(""));
            }
            return Optional.of("found the serial number " + String.join("; ", found) + " in " + file + ", expected "
                    + String.join(", ", expected)
                    + " by the instruments of its columns. Were two loggers or files swapped? Compare the label with"
                    + " the file, and correct instrument, recording or serial.");
        }

        /** That the serial number is the stated one, or that it seems to be another instrument's. */
        Optional<Remark> remark(String file, List<String> head, Set<String> assigned) {
            Set<String> named = named(head);
            List<String> confirmed = new ArrayList<>();
            List<String> others = new ArrayList<>();
            for (String id : new TreeSet<>(assigned)) {
                if (holds(named, serials.getOrDefault(id, ""))) {
                    confirmed.add(serials.getOrDefault(id, "") + " (" + id + ")");
                }
            }
            if (!confirmed.isEmpty()) {
                return Optional.of(new Remark(
                        Mistake.SERIAL_CONFIRMED.id(),
                        Rank.NOTE,
                        file,
                        "The file names the serial number that is stated for its logger: "
                                + String.join(", ", confirmed) + "."));
            }
            for (String serial : named) {
                Optional<String> owner = owner(serial);
                if (owner.isPresent() && isOf(serial, assigned)) {
                    return Optional.empty();
                }
                owner.ifPresent(id -> others.add(serial + ", which is " + id));
            }
            return assigned.isEmpty() || others.isEmpty()
                    ? Optional.empty()
                    : Optional.of(new Remark(
                            Mistake.OTHER_INSTRUMENT.id(),
                            Rank.DOUBT,
                            file,
                            "The file names the serial number " + String.join("; ", others)
                                    + ", but its columns are assigned to "
                                    + String.join(", ", new TreeSet<>(assigned))
                                    + ". Were two loggers or files swapped? Compare the label with the file."));
        }

        /** Serial numbers in the first lines, without those of the sterilizers. */
        private Set<String> named(List<String> head) {
            Set<String> named = new LinkedHashSet<>();
            for (String line : head) {
                Matcher matcher = SERIAL.matcher(line);
                while (matcher.find()) {
                    String serial = matcher.group(1);
                    if (sterilizers.stream().noneMatch(s -> s.serial().equalsIgnoreCase(serial))) {
                        named.add(serial);
                    }
                }
            }
            return named;
        }

        private static boolean holds(Set<String> named, String serial) {
            return named.stream().anyMatch(serial.strip()::equalsIgnoreCase);
        }

        private boolean isOf(String serial, Set<String> assigned) {
            return assigned.stream().anyMatch(id -> instruments.containsKey(id) && isOf(serial, instruments.get(id)));
        }

        private Optional<String> owner(String serial) {
            for (ReferenceInstrument instrument : instruments.values()) {
                if (isOf(serial, instrument)) {
                    return Optional.of(instrument.id());
                }
            }
            return Optional.empty();
        }

        /** Whether a serial number is an instrument's: the stated one, its id, or a word of its description. */
        private boolean isOf(String serial, ReferenceInstrument instrument) {
            String wanted = serial.toLowerCase(Locale.ROOT);
            if (instrument.id().toLowerCase(Locale.ROOT).equals(wanted)
                    || serials.getOrDefault(instrument.id(), "").strip().equalsIgnoreCase(serial)) {
                return true;
            }
            for (String word : instrument.description().toLowerCase(Locale.ROOT).split("[\\s,;()]+")) {
                if (word.equals(wanted)) {
                    return true;
                }
            }
            return false;
        }
    }
}
