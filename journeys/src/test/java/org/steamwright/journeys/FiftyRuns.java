package org.steamwright.journeys;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.simulator.Logging;
import org.steamwright.simulator.MeasuringPoint;
import org.steamwright.simulator.Scenario;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.simulator.Simulation;

/** An invented visit with many runs of one cycle, each of about 3,000 samples of five temperatures and a pressure. */
final class FiftyRuns {

    private static final double INTERVAL = 0.3;
    private static final Author AUTHOR = new Author("Alex Sample (invented)", "technician");

    private FiftyRuns() {}

    /**
     * Writes the visit and takes it into the record {@code record} below a folder.
     *
     * @return its id
     */
    static String into(Path folder, int runs) {
        try {
            Path visit = folder.resolve("many-runs");
            DemoVisit.write(visit);
            Path sheet = visit.resolve(DemoVisit.VISIT_FILE);
            String demo = Files.readString(sheet, StandardCharsets.UTF_8);
            StringBuilder text = new StringBuilder(demo.substring(0, demo.indexOf("checklists:"))).append("runs:\n");
            for (int run = 1; run <= runs; run++) {
                text.append(entry(run, visit.relativize(recording(visit.resolve("recordings"), run))));
            }
            Files.writeString(sheet, text, StandardCharsets.UTF_8);
            Clock clock = Clock.fixed(Instant.parse("2026-03-03T07:30:00Z"), ZoneOffset.UTC);
            try (Records records = Records.open(Place.folder(folder.resolve("record")), clock)) {
                return new Filing(records).take(visit, AUTHOR, "").visit().id().toString();
            }
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        } catch (FilingException | VisitFolderException broken) {
            throw new AssertionError("the invented visit was refused: " + broken.getMessage(), broken);
        }
    }

    /** Writes the recording of a run; every number gives another one. */
    static Path recording(Path folder, int run) throws IOException {
        List<MeasuringPoint> points = new ArrayList<>(Scenario.emptyChamber().points());
        points.add(MeasuringPoint.steam("T4", ChannelRole.FREE_CHAMBER, "C", "rear, bottom", "TL-04")
                .withOffset(-0.15));
        points.add(MeasuringPoint.steam("T5", ChannelRole.FREE_CHAMBER, "D", "door, bottom", "TL-05")
                .withOffset(-0.2));
        SimulatedRun simulated = Simulation.run(
                Scenario.emptyChamber()
                        .withId("run-" + run)
                        .withPoints(TestKind.EMPTY_CHAMBER, points)
                        .withLogging(Logging.everySecond().withInterval(INTERVAL)),
                run);
        return simulated.writeCsv(folder).get(0);
    }

    private static String entry(int run, Path recording) {
        return """
                  - kind: empty-chamber
                    sterilizer: A
                    cycle: 134 wrapped
                    machine-cycle: %d
                    machine-verdict: cycle complete
                    recording: %s
                    channels:
                      T1: {role: reference-point, position: R, place: "beside the sensor", instrument: TL-01}
                      T2: {role: free-chamber, position: A, place: "front, top", instrument: TL-02}
                      T3: {role: free-chamber, position: B, place: "centre", instrument: TL-03}
                      T4: {role: free-chamber, position: C, place: "rear, bottom", instrument: TL-04}
                      T5: {role: free-chamber, position: D, place: "door, bottom", instrument: TL-05}
                      P: {role: pressure, position: P, place: "chamber connection", instrument: PL-01}
                """.formatted(1500 + run, recording.toString().replace('\\', '/'));
    }
}
