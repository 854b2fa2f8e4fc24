package org.steamwright.desk.shelf;

import java.time.Duration;
import java.time.Instant;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.ReadOut;

/** What is said of indicators that want to be read. */
public final class ReadOutText {

    private ReadOutText() {}

    /** When they are read, or since when they could be, and what it means that they were not. */
    public static String of(Frame frame, ReadOut readOut, Instant now) {
        return frame.say(
                readOut.isLate(now) ? "today.read-late" : readOut.isDue(now) ? "today.read-now" : "today.read-on",
                readOut.run(),
                when(frame, readOut));
    }

    /** Day, and hour where there is one, by the clock of the site. */
    public static String when(Frame frame, ReadOut readOut) {
        return readOut.at().time().isPresent()
                ? frame.figures().moment(readOut.due().atZone(readOut.zone()))
                : frame.figures().day(readOut.at().day());
    }

    /** Hours and minutes that are left, begun minutes counted whole. */
    public static String left(Frame frame, ReadOut readOut, Instant now) {
        long minutes =
                Math.max(0, Duration.between(now, readOut.due()).plusSeconds(59).toMinutes());
        return frame.say("today.countdown", minutes / 60, minutes % 60);
    }
}
