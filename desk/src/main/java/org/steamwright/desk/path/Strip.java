package org.steamwright.desk.path;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;

/**
 * The strip at the head of every page while cycles are under way: their time, when somebody has to be there next, and what can
 * be done meanwhile.
 *
 * @param visit identity of the visit
 * @param number of its report
 * @param now the desk's own time, which a tablet's clock need not share
 * @param cycles under way, the earliest first
 * @param jobs that need no chamber and are not done yet
 */
public record Strip(String visit, String number, Instant now, List<Cycle> cycles, List<Block.Link> jobs) {

    /**
     * A cycle under way.
     *
     * @param run number
     * @param words what runs where
     * @param since when it was started
     * @param minutes whole minutes since
     * @param length that is stated, in words; blank if none is
     * @param next when somebody has to be there, in words; blank if nothing is stated
     * @param until that moment, while it has not passed or when nothing comes after it
     * @param isDue whether it has come
     */
    public record Cycle(
            int run,
            String words,
            Instant since,
            long minutes,
            String length,
            String next,
            Optional<Instant> until,
            boolean isDue) {}

    public Strip {
        cycles = List.copyOf(cycles);
        jobs = List.copyOf(jobs);
    }

    /** The strip of a visit; none if nothing runs or it is signed. */
    public static List<Strip> of(Draft draft, Frame frame, Office office) {
        List<Running> running = Running.all(draft);
        if (running.isEmpty() || draft.isSigned()) {
            return List.of();
        }
        Instant now = office.clock().instant();
        ZoneId zone = zone(draft, office);
        return List.of(new Strip(
                draft.id().toString(),
                draft.number(),
                now,
                running.stream().map(one -> cycle(one, draft, frame, now, zone)).toList(),
                jobs(draft, frame)));
    }

    /** Strips of several visits. */
    public static List<Strip> of(Stream<Draft> drafts, Frame frame, Office office) {
        return drafts.flatMap(draft -> of(draft, frame, office).stream()).toList();
    }

    /** Zone of the site; that of the desk while none is stated. */
    static ZoneId zone(Draft draft, Office office) {
        try {
            return ZoneId.of(draft.text(FactPath.of("zone")));
        } catch (DateTimeException unknown) {
            return office.clock().getZone();
        }
    }

    private static Cycle cycle(Running running, Draft draft, Frame frame, Instant now, ZoneId zone) {
        String sort = Running.sort(draft, running.run());
        Optional<Duration> length = Running.length(draft.note(Running.LENGTH + sort));
        Optional<Instant> plateau =
                Running.length(draft.note(Running.PLATEAU + sort)).map(running.since()::plus);
        Optional<Instant> end = length.map(running.since()::plus);
        boolean isPlateauNext = plateau.isPresent() && plateau.get().isAfter(now);
        Optional<Instant> until = isPlateauNext ? plateau : end;
        String key = isPlateauNext ? "path.strip.plateau" : "path.strip.end";
        return new Cycle(
                running.run(),
                Running.sortWords(draft, running.run(), frame),
                running.since(),
                Duration.between(running.since(), now).toMinutes(),
                length.map(one -> frame.say("path.strip.length", one.toMinutes()))
                        .orElse(""),
                until.map(moment -> frame.say(key, frame.figures().time(moment.atZone(zone))))
                        .orElse(""),
                until,
                until.filter(moment -> !moment.isAfter(now)).isPresent());
    }

    // ---- what can be done meanwhile

    private static List<Block.Link> jobs(Draft draft, Frame frame) {
        Sheets sheets = new Sheets(draft, frame, Optional.empty(), List.of());
        String visit = Context.address(draft);
        List<Block.Link> jobs = new ArrayList<>();
        for (Stage stage : List.of(Stage.AS_FOUND, Stage.INSTALLATION, Stage.SAFETY)) {
            long open = sheets.of(stage).open();
            if (open > 0) {
                jobs.add(job(frame.say("path.job." + stage.word(), open), visit, stage));
            }
        }
        for (int run = 1; run <= draft.count(FactPath.of("runs")); run++) {
            if (draft.text(FactPath.of("runs", run, "kind")).equals("reference-load")) {
                loaded(draft, frame, visit, run, jobs);
            }
        }
        if (sheets.of(Stage.CLOSE).filled() == 0) {
            jobs.add(job(frame.say("path.job.close"), visit, Stage.CLOSE));
        }
        return jobs;
    }

    private static void loaded(Draft draft, Frame frame, String visit, int run, List<Block.Link> jobs) {
        FactPath load = FactPath.of("runs", run, "load");
        boolean isDescribed = !draft.text(load.then("description")).isBlank() || draft.count(load.then("items")) > 0;
        if (!isDescribed) {
            jobs.add(job(frame.say("path.job.load", run), visit, Stage.LOAD));
        }
        if (draft.count(load.then("photos")) == 0) {
            jobs.add(job(frame.say("path.job.photos", run), visit, Stage.LOAD));
        }
        FactPath indicators = FactPath.of("runs", run, "indicators");
        boolean isWritten = draft.count(indicators) > 0;
        for (int i = 1; i <= draft.count(indicators); i++) {
            isWritten &= !draft.text(indicators.then(i).then("lot")).isBlank()
                    && !draft.text(indicators.then(i).then("expires")).isBlank();
        }
        if (!isWritten) {
            jobs.add(job(frame.say("path.job.indicators", run), visit, Stage.INDICATORS));
        }
    }

    private static Block.Link job(String words, String visit, Stage stage) {
        return new Block.Link(words, visit + "/" + stage.word());
    }
}
