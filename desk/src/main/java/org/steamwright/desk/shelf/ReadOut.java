package org.steamwright.desk.shelf;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import java.util.stream.IntStream;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.SiteMoment;

/**
 * Indicators of a run that want to be read.
 *
 * @param run number
 * @param day on which
 */
public record ReadOut(int run, LocalDate day) {

    private static final String NOTE = "read-at/";

    /** Name of the note that holds the day for all indicators of a run. */
    public static String note(int run) {
        return NOTE + run;
    }

    /** What is noted as the day of each run. */
    public static SortedMap<Integer, String> noted(Draft draft) {
        SortedMap<Integer, String> noted = new TreeMap<>();
        draft.notes().forEach((name, text) -> {
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
        SortedMap<Integer, String> noted = noted(draft);
        List<ReadOut> readOuts = new ArrayList<>();
        for (int run = 1; run <= draft.count(FactPath.of("runs")); run++) {
            FactPath indicators = FactPath.of("runs", run, "indicators");
            int count = draft.count(indicators);
            List<UnaryOperator<String>> awaited = IntStream.rangeClosed(1, count)
                    .mapToObj(indicators::then)
                    .map(one -> (UnaryOperator<String>) key -> draft.text(one.then(key)))
                    .filter(ReadOut::isAwaited)
                    .toList();
            if (count > 0 && awaited.isEmpty()) {
                continue;
            }
            int number = run;
            awaited.stream()
                    .flatMap(one -> SiteMoment.find(one.apply("incubated-until")).stream())
                    .map(SiteMoment::day)
                    .min(Comparator.naturalOrder())
                    .or(() -> day(noted.getOrDefault(number, "")))
                    .ifPresent(day -> readOuts.add(new ReadOut(number, day)));
        }
        readOuts.sort(Comparator.comparing(ReadOut::day));
        return readOuts;
    }

    /** Whether its day has come. */
    public boolean isDue(LocalDate today) {
        return !day.isAfter(today);
    }

    /** Not read, or no growth was read before the incubation had ended. */
    private static boolean isAwaited(UnaryOperator<String> indicator) {
        Optional<SiteMoment> end = SiteMoment.find(indicator.apply("incubated-until"));
        boolean isEarly = SiteMoment.find(indicator.apply("read-on"))
                .filter(read -> end.filter(read::isBefore).isPresent())
                .isPresent();
        String result = indicator.apply("result");
        return result.equals("awaited") || (result.equals("no-growth") && isEarly);
    }

    /** The day that a text says; empty if it says something else. */
    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }
}
