package org.steamwright.desk.shelf;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.steamwright.desk.web.Alarm;
import org.steamwright.records.AheadBook;
import org.steamwright.records.AheadVisit;

/** Tells when indicators are to be read; by index, so that every page can say it. */
public final class Alarms {

    /** No page stays open longer without being loaded anew. */
    private static final Duration AHEAD = Duration.ofDays(2);

    private static final int MOMENTS = 24;

    private Alarms() {}

    /** What is to be read now, and what soon. */
    public static Alarm of(Office office) {
        Instant now = office.clock().instant();
        AheadBook ahead = office.records().ahead();
        List<Instant> soon = ahead.awaitingAfter(now, MOMENTS).stream()
                .map(AheadVisit::awaits)
                .flatMap(Optional::stream)
                .filter(moment -> moment.isBefore(now.plus(AHEAD)))
                .toList();
        return new Alarm(now, ahead.countAwaiting(now), soon);
    }
}
