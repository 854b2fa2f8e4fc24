package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.Results;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.verify.Verification;
import org.steamwright.records.verify.Verifier;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.Today;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.failure.LookBack;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.validity.InterimStanding;

/** The year of the invented clinic: an interim report, its end, a failure, the re-test, what is due, and the record of it. */
final class DemoYear {

    private static final Author OFFICE = new Author("Kim Sample (invented)", "technician");

    /** Days on which the office looks at each visit. */
    private static final List<LocalDate> DAYS =
            List.of(LocalDate.of(2026, 3, 4), LocalDate.of(2026, 3, 10), LocalDate.of(2026, 4, 1));

    private static final List<String> WHY = List.of("", "indicators read", "");
    private static final LocalDate LOOKING = LocalDate.of(2026, 8, 3);
    private static final LocalDate UNTIL = LocalDate.of(2027, 4, 30);

    private DemoYear() {}

    /** Writes the year into a folder, keeps it in a record there and tells the story. */
    static void tell(Path folder, Surroundings surroundings) throws Refusal, IOException {
        surroundings.progress("simulating the year of the clinic …");
        List<Path> visits = DemoVisit.writeYear(folder);
        surroundings.progress("");
        Path place = folder.resolve("record");
        RecordDoor.guarded(() -> {
            try (Records records =
                    Records.open(Place.folder(place), Clock.system(ZoneId.systemDefault()), DueInRecord.RULE)) {
                surroundings.say("The year of the clinic, kept in " + surroundings.shown(place));
                for (int i = 0; i < visits.size(); i++) {
                    chapter(records, visits.get(i), i, surroundings);
                }
                new RegisterFiling(records).take(folder.resolve("office"), OFFICE, "");
                due(records, surroundings);
                verified(records, surroundings);
                return ExitStatus.PASS;
            }
        });
    }

    private static void chapter(Records records, Path folder, int number, Surroundings surroundings)
            throws IOException, VisitFolderException, FilingException {
        Filing filing = new Filing(records);
        // taken in again, the interim folder would undo what was read since
        boolean isSuperseded = number == 0 && filing.find("DEMO-2026-001").isPresent();
        AssessedVisit assessed = isSuperseded
                ? filing.read(folder)
                : filing.take(folder, OFFICE, WHY.get(number)).assessed();
        LocalDate day = DAYS.get(number);
        surroundings.say("");
        surroundings.say(day + "  " + assessed.visit().reportNumber() + ", "
                + assessed.visit().purpose());
        List<String> lines = new ArrayList<>();
        InterimStanding interim = InterimStanding.of(assessed, day);
        lines.add("Indicators: " + interim.standing().words()
                + interim.until().map(last -> ", interim report until " + last).orElse(""));
        assessed.qualifiedCycles().forEach(cycle -> lines.add("May be run: " + cycle));
        if (assessed.qualifiedCycles().isEmpty()) {
            lines.add("Nothing may be run by this report yet.");
        }
        for (Failure failure : FailurePath.of(assessed)) {
            lines.add("Failure of steriliser %s, %s: %s"
                    .formatted(failure.sterilizer(), failure.kind().words(), failure.isClosed() ? "closed" : "open"));
            failure.outOfService().forEach(cycle -> lines.add("Out of service: " + cycle));
            failure.lookBack().map(LookBack::words).ifPresent(lines::add);
        }
        for (FailureNote note : assessed.visit().job().failures()) {
            lines.add("Failure of steriliser %s, %s: closed on %s. Cause: %s. Done: %s. Shown by: %s."
                    .formatted(
                            note.sterilizer(),
                            note.kind().words(),
                            note.closedOn().map(LocalDate::toString).orElse("no day yet"),
                            note.cause(),
                            note.action(),
                            note.effect()));
        }
        lines.forEach(line -> broken(line, surroundings));
    }

    private static void broken(String line, Surroundings surroundings) {
        List<String> lines = new ArrayList<>();
        VerdictText.broken("  ", line, lines);
        surroundings.say(lines);
    }

    private static void due(Records records, Surroundings surroundings)
            throws IOException, RegisterException, FilingException {
        surroundings.say("");
        surroundings.say(LOOKING + "  What is due");
        for (Due due : new DueInRecord(records)
                .list(DataFiles.dueRules(), true, Today.on(LOOKING), ZoneOffset.UTC, Optional.of(UNTIL))) {
            broken(due.subject().id() + "  " + due.title() + ": " + due.when(), surroundings);
        }
    }

    private static void verified(Records records, Surroundings surroundings) {
        Verification found = Verifier.verify(records, List.of(), new Results());
        surroundings.say("");
        surroundings.say("Verified: %d journal entries, %d files; %s"
                .formatted(
                        found.entries(),
                        found.files(),
                        found.isGood() ? "everything is as it was kept" : "NOT as it was kept"));
        found.differences().forEach(difference -> surroundings.say("DIFFERS " + difference));
        surroundings.say(
                "Invented visits are signed in no record of real ones; 'steamwright record --help' says how to keep your own.");
    }

    /** Where the year lies beside the demo. */
    static Path folder(Path demo) {
        Path name = Optional.ofNullable(demo.getFileName()).orElse(demo);
        return demo.resolveSibling(name + "-year");
    }
}
