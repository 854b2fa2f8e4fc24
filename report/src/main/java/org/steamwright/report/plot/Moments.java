package org.steamwright.report.plot;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.steamwright.assessment.criteria.Figures;

/** Moments and lengths of time as they are printed. */
public final class Moments {

    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

    private Moments() {}

    /** Minutes and seconds from the start, such as 12:05; with a tenth where the moment is no whole second. */
    public static String minutes(double seconds) {
        double cleaned = Figures.cleaned(seconds);
        boolean whole = cleaned == Math.rint(cleaned);
        long tenths = Math.round(Math.abs(cleaned) * 10);
        long inMinute = tenths % 600;
        String text = tenths / 600 + (inMinute < 100 ? ":0" : ":") + inMinute / 10;
        return (cleaned < 0 ? "−" : "") + text + (whole ? "" : "." + inMinute % 10);
    }

    /** A length of time cut to whole seconds, such as 3 min 32 s: never longer than it was. */
    public static String length(double seconds) {
        long whole = (long) Math.floor(Figures.cleaned(seconds));
        return whole < 60 ? whole + " s" : whole / 60 + " min " + whole % 60 + " s";
    }

    /** The wall clock of a site. */
    public static String clock(Instant moment, ZoneId zone) {
        return CLOCK.format(moment.atZone(zone));
    }
}
