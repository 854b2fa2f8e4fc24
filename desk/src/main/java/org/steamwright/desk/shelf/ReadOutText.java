package org.steamwright.desk.shelf;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.ReadOut;

/** What is said of indicators that want to be read. */
public final class ReadOutText {

    /** From here on days and hours are counted. */
    private static final int HOURS_TOLD = 48;

    private static final int HOURS_OF_A_DAY = 24;

    private ReadOutText() {}

    /**
     * When they are read, or since when they could be, and what it means that they were not.
     *
     * @param together those of one moment, at least one
     */
    public static String of(Frame frame, List<ReadOut> together, Instant now) {
        ReadOut first = together.get(0);
        String key = first.isLate(now) ? "today.read-late" : first.isDue(now) ? "today.read-now" : "today.read-on";
        String runs = together.stream().map(one -> String.valueOf(one.run())).collect(Collectors.joining(", "));
        return frame.say(together.size() == 1 ? key : key + "-many", runs, when(frame, first));
    }

    /** Day, and hour where there is one, by the clock of the site. */
    public static String when(Frame frame, ReadOut readOut) {
        return readOut.at().time().isPresent()
                ? frame.figures().moment(readOut.due().atZone(readOut.zone()))
                : frame.figures().day(readOut.at().day());
    }

    /** Hours and minutes that are left, from two days on days and hours; begun minutes are counted whole. */
    public static String left(Frame frame, ReadOut readOut, Instant now) {
        long minutes =
                Math.max(0, Duration.between(now, readOut.due()).plusSeconds(59).toMinutes());
        long hours = minutes / 60;
        return hours < HOURS_TOLD
                ? frame.say("today.countdown", hours, minutes % 60)
                : frame.say("today.countdown-days", hours / HOURS_OF_A_DAY, hours % HOURS_OF_A_DAY);
    }
}
