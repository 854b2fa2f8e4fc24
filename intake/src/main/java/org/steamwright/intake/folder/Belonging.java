package org.steamwright.intake.folder;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
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
                                "runs[" + run.number() + "], " + file.name(),
                                "The same bytes were part of an earlier visit: " + place
                                        + ". Was the wrong file copied? A recording is evidence of one run only.")));
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
                        "runs[" + run.number() + "]",
                        "The recording began on " + day.get() + ", most of the others on " + usual.get()
                                + ". Was the wrong file copied, or is the clock of the logger wrong?"));
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
                            "runs[" + runs.get(i).number() + "], runs["
                                    + runs.get(j).number() + "]",
                            "By their stamps these runs went on at the same time, and both were measured with "
                                    + String.join(", ", shared)
                                    + ". Was a recording of another run copied, or is a clock wrong?"));
                }
            }
        }
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

    /** A serial number in the file that is another instrument's than the assigned ones. */
    static Optional<Remark> serial(
            String file, List<String> head, Set<String> assigned, Map<String, ReferenceInstrument> instruments) {
        List<String> others = new ArrayList<>();
        for (String line : head) {
            Matcher matcher = SERIAL.matcher(line);
            while (matcher.find()) {
                String serial = matcher.group(1);
                for (ReferenceInstrument instrument : instruments.values()) {
                    if (isOf(serial, instrument)) {
                        if (assigned.contains(instrument.id())) {
                            return Optional.empty();
                        }
                        others.add(serial + ", which is " + instrument.id());
                    }
                }
            }
        }
        return assigned.isEmpty() || others.isEmpty()
                ? Optional.empty()
                : Optional.of(new Remark(
                        Mistake.OTHER_INSTRUMENT.id(),
                        Rank.DOUBT,
                        file,
                        "The file names the serial number " + String.join("; ", others)
                                + ", but its columns are assigned to " + String.join(", ", new TreeSet<>(assigned))
                                + ". Were two loggers or files swapped? Compare the label with the file."));
    }

    /** Whether a serial number is an instrument's: its id, or a word of its description. */
    private static boolean isOf(String serial, ReferenceInstrument instrument) {
        String wanted = serial.toLowerCase(Locale.ROOT);
        if (instrument.id().toLowerCase(Locale.ROOT).equals(wanted)) {
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
