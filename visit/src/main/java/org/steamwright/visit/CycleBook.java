package org.steamwright.visit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.cycles.CycleLedger.NumberedRun;
import org.steamwright.visit.register.Sterilizer;

/** The steriliser's own cycle numbers of a visit, from its facts. */
public final class CycleBook {

    private static final Pattern WHOLE_NUMBER = Pattern.compile("\\d+");

    /** Days, times of day, decimals and quantities, which are no numbers of cycles. */
    private static final Pattern OTHER_NUMBER = Pattern.compile("\\d{4}-\\d{2}-\\d{2}|\\d+(?:[.,:]\\d+)+"
            + "|\\d+\\s*(?:hPa|kPa|Pa|mbar|bar|°C|K|s|min|h|g|kg|mm|cm|mL|ml|L|l|V|mA|µA|Ω|%)(?![\\p{L}\\p{N}])");

    private CycleBook() {}

    /** The ledger of one steriliser. */
    public static CycleLedger of(Visit visit, Sterilizer sterilizer) {
        List<NumberedRun> runs = Stream.concat(
                        visit.runs().stream()
                                .filter(run -> run.sterilizer().equals(sterilizer.key()))
                                .map(CycleBook::numbered),
                        visit.unrecorded().stream()
                                .filter(run -> run.sterilizer().equals(sterilizer.key()))
                                .map(run -> new NumberedRun(
                                        run.number(), run.machineCycle(), words(run.kind(), run.cycle()))))
                .sorted(Comparator.comparingInt(NumberedRun::run))
                .toList();
        Set<String> named = named(visit);
        return new CycleLedger(
                sterilizer.counterAtArrival(),
                sterilizer.counterAtDeparture(),
                runs,
                visit.job().otherCycles().stream()
                        .filter(other -> other.sterilizer().equals(sterilizer.key()))
                        .toList(),
                (first, last) -> named.contains(String.valueOf(first)) && named.contains(String.valueOf(last)));
    }

    /** A run as the ledger sees it. */
    static NumberedRun numbered(VisitRun run) {
        String kind = words(run.test().kind(), run.test().cycle().name());
        return new NumberedRun(run.number(), run.machineCycle(), kind + (run.isAsFound() ? ", as found" : ""));
    }

    private static String words(TestKind kind, String cycle) {
        return switch (kind) {
            case LEAK -> "air leakage test";
            case EMPTY_CHAMBER -> "empty chamber, " + cycle;
            case LOADED -> "reference load, " + cycle;
        };
    }

    /** Whole numbers that notes and deviations name. */
    private static Set<String> named(Visit visit) {
        List<String> texts = new ArrayList<>(visit.deviations());
        visit.runs().forEach(run -> texts.add(run.note()));
        Set<String> named = new TreeSet<>();
        texts.forEach(text -> WHOLE_NUMBER
                .matcher(OTHER_NUMBER.matcher(text).replaceAll(" "))
                .results()
                .map(MatchResult::group)
                .forEach(named::add));
        return named;
    }
}
