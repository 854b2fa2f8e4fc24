package org.steamwright.filing;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.steamwright.records.Subject;
import org.steamwright.visit.SiteMoment;

/**
 * Indicators of a run that want to be read.
 *
 * @param run number
 * @param at day by the clock of the site, with the hour where the incubation is told in hours
 * @param zone of the site
 */
public record ReadOut(int run, SiteMoment at, ZoneId zone) {

    private static final String NOTE = "read-at/";

    /** Name of the note that holds the day for all indicators of a run. */
    public static String note(int run) {
        return NOTE + run;
    }

    /** What is noted as the day of each run. */
    public static SortedMap<Integer, String> noted(Draft draft) {
        return noted(draft.notes());
    }

    private static SortedMap<Integer, String> noted(Map<String, String> notes) {
        SortedMap<Integer, String> noted = new TreeMap<>();
        notes.forEach((name, text) -> {
            if (name.matches(NOTE + "[0-9]{1,4}")) {
                noted.put(Integer.parseInt(name.substring(NOTE.length())), text);
            }
        });
        return noted;
    }

    /**
     * What is still to be read, the earliest first. An end of incubation that an indicator states goes before the day that is
     * noted for its run; a day is noted for indicators that are not entered yet, too.
     */
    public static List<ReadOut> of(Draft draft) {
        return of(draft.subject());
    }

    /** The same of a visit as the record has it. */
    public static List<ReadOut> of(Subject visit) {
        FactTree facts = Draft.tree(visit);
        ZoneId zone = zone(text(facts.root(), "zone"));
        SortedMap<Integer, String> noted = noted(Draft.notes(visit));
        List<ReadOut> readOuts = new ArrayList<>();
        List<?> runs = list(facts.root(), "runs");
        for (int run = 1; run <= runs.size(); run++) {
            List<?> indicators = list(runs.get(run - 1), "indicators");
            List<?> awaited = indicators.stream().filter(ReadOut::isAwaited).toList();
            if (!indicators.isEmpty() && awaited.isEmpty()) {
                continue;
            }
            int number = run;
            awaited.stream()
                    .flatMap(one -> SiteMoment.find(text(one, "incubated-until")).stream())
                    .min(Comparator.comparing(end -> instant(end, zone)))
                    .or(() -> SiteMoment.find(noted.getOrDefault(number, "")))
                    .ifPresent(at -> readOuts.add(new ReadOut(number, at, zone)));
        }
        readOuts.sort(Comparator.comparing(ReadOut::due));
        return readOuts;
    }

    /** From when on they can be read: the hour, or the beginning of the day where no hour is told. */
    public Instant due() {
        return instant(at, zone);
    }

    /** Whether they can be read. */
    public boolean isDue(Instant now) {
        return !due().isAfter(now);
    }

    /** Whether their day at the site is over. */
    public boolean isLate(Instant now) {
        return !at.day().plusDays(1).atStartOfDay(zone).toInstant().isAfter(now);
    }

    private static Instant instant(SiteMoment moment, ZoneId zone) {
        return moment.time()
                .map(time -> moment.day().atTime(time).atZone(zone))
                .orElseGet(() -> moment.day().atStartOfDay(zone))
                .toInstant();
    }

    private static ZoneId zone(String text) {
        try {
            return ZoneId.of(text);
        } catch (DateTimeException none) {
            // a visit without a zone can't be assessed, and says so elsewhere
            return ZoneOffset.UTC;
        }
    }

    /** Not read, or no growth was read before the incubation had ended. */
    private static boolean isAwaited(Object indicator) {
        Optional<SiteMoment> end = SiteMoment.find(text(indicator, "incubated-until"));
        boolean isEarly = SiteMoment.find(text(indicator, "read-on"))
                .filter(read -> end.filter(read::isBefore).isPresent())
                .isPresent();
        String result = text(indicator, "result");
        return result.equals("awaited") || (result.equals("no-growth") && isEarly);
    }

    private static List<?> list(Object entry, String key) {
        return entry instanceof Map<?, ?> map && map.get(key) instanceof List<?> entries ? entries : List.of();
    }

    private static String text(Object entry, String key) {
        return entry instanceof Map<?, ?> map && map.get(key) instanceof String text ? text : "";
    }
}
