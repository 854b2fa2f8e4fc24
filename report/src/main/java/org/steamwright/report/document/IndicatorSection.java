package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.figures;
import static org.steamwright.report.document.Sheet.Column.words;

import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.indicator.Agreement;
import org.steamwright.assessment.indicator.ChemicalComparison;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.Estimate;
import org.steamwright.assessment.indicator.ExpectedReduction;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.indicator.SporeKinetics;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.plot.Moments;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.SiteMoment;
import org.steamwright.visit.VisitRun;

/** The indicators of a run: what they are, what they showed, and how that fits the thermometry beside them. */
final class IndicatorSection {

    /** Below this a probability is printed as 'below', and an expected number with its power of ten. */
    private static final double SMALL = 0.001;

    private static final double MANY = 10_000;

    private final Sheet sheet;
    private final AssessedRun assessed;
    private final VisitRun run;
    private final Optional<LocalDate> lastDay;

    /** @param lastDay on which indicators that are awaited may still be read; empty if none is stated */
    IndicatorSection(Sheet sheet, AssessedRun assessed, Optional<LocalDate> lastDay) {
        this.sheet = sheet;
        this.assessed = assessed;
        this.lastDay = lastDay;
        this.run = assessed.run();
    }

    void write() {
        if (!run.chemicalIndicators().isBlank() || !run.chemicalEntries().isEmpty()) {
            sheet.keep(this::chemical);
        }
        if (!run.indicators().isEmpty()) {
            sheet.keep(this::biological);
        }
        if (!assessed.indicators().isEmpty()) {
            sheet.keep(this::beside);
        }
    }

    private void chemical() {
        sheet.heading("Chemical indicators");
        if (!run.chemicalIndicators().isBlank()) {
            sheet.paragraph(run.chemicalIndicators());
        }
        if (run.chemicalEntries().isEmpty()) {
            return;
        }
        sheet.table(
                words("Indicator", 22),
                words("Type, product", 46),
                words("Lot, expiry", 32),
                words("Place", 14),
                words("Result", 26),
                words("Fits the temperature beside it", 34));
        for (int i = 0; i < run.chemicalEntries().size(); i++) {
            ChemicalIndicator entry = run.chemicalEntries().get(i);
            Optional<ChemicalComparison> compared = i < assessed.chemicals().size()
                    ? Optional.of(assessed.chemicals().get(i))
                    : Optional.empty();
            sheet.cells(
                    entry.id(),
                    Wording.join(", ", entry.type().words(), entry.product(), stated(entry)),
                    lot(entry.lot(), entry.expires().map(Wording::day)),
                    entry.position(),
                    entry.result().words(),
                    compared.map(c -> Wording.join(
                                    ": ", c.channel(), c.agreement().words()))
                            .orElse(""));
        }
        sheet.endTable();
        List<String> lines = assessed.chemicals().stream()
                .filter(c -> c.isQuestion() && !c.sentence().isBlank())
                .map(c -> Sentence.of("%s: %s", c.id(), c.sentence()))
                .toList();
        if (!lines.isEmpty()) {
            sheet.bullets(lines);
        }
        sheet.aside("Chemical indicators are evidence beside the measured values and decide nothing here.");
    }

    private static String stated(ChemicalIndicator entry) {
        List<String> values = entry.statedValues().stream()
                .map(v -> Sentence.of("%s at %s", Moments.length(v.seconds()), Wording.plain(v.celsius()) + " °C"))
                .toList();
        return values.isEmpty() ? "" : Sentence.of("stated %s", Sentence.list(", ", values));
    }

    private static String lot(String lot, Optional<String> day) {
        return Wording.join(", ", lot, day.orElse(""));
    }

    private void biological() {
        sheet.heading("Biological indicators");
        sheet.table(
                words("Indicator", 24),
                words("Product", 42),
                words("Lot, expiry", 28),
                words("Place", 12),
                words("Incubation", 36),
                words("Result", 32));
        for (IndicatorUse use : run.indicators()) {
            sheet.cells(
                    Wording.join(", ", use.id(), use.isControl() ? "control, not exposed" : ""),
                    Wording.join(
                            ", ",
                            use.product(),
                            use.population()
                                    .map(n -> Sentence.of("%s spores", Wording.plain(n)))
                                    .orElse(""),
                            use.resistance().map(IndicatorSection::resistance).orElse("")),
                    lot(use.lot(), use.expires().map(Wording::day)),
                    use.position(),
                    Wording.join(
                            "; ",
                            use.incubation(),
                            use.incubatedUntil()
                                    .map(end -> Sentence.of("to be read from %s on", moment(end)))
                                    .orElse("")),
                    result(use));
        }
        sheet.endTable();
    }

    private String result(IndicatorUse use) {
        return use.grown().isEmpty() && lastDay.isPresent()
                ? Sentence.of("awaited; last day %s", Wording.day(lastDay.get()))
                : Wording.join(", ", growth(use), read(use));
    }

    private static String read(IndicatorUse use) {
        if (use.grown().isEmpty()) {
            return "";
        }
        if (use.readOn().isEmpty()) {
            return use.readBy().isBlank()
                    ? "day of reading not stated"
                    : Sentence.of("read by %s, day not stated", use.readBy());
        }
        String when = moment(use.readOn().get());
        String read = use.readBy().isBlank()
                ? Sentence.of("read %s", when)
                : Sentence.of("read %s by %s", when, use.readBy());
        return Wording.join(
                ", ", read, use.isReadEarly() ? "before the end of incubation, so it does not count yet" : "");
    }

    private static String moment(SiteMoment moment) {
        return Wording.join(
                ", ",
                Wording.day(moment.day()),
                moment.time().map(Object::toString).orElse(""));
    }

    private static String growth(IndicatorUse use) {
        return use.grown().map(grown -> grown ? "growth" : "no growth").orElse("awaited");
    }

    private static String resistance(Resistance spores) {
        return Sentence.of(
                "D %s min at %s °C, z %s K",
                Wording.plain(spores.decimalReductionMinutes())
                        + spores.uncertainty()
                                .map(u -> " ± " + Wording.plain(u.value()))
                                .orElse(""),
                Wording.plain(spores.referenceCelsius()),
                Wording.plain(spores.z()));
    }

    private void beside() {
        sheet.heading("Indicators beside the thermometry – supporting, decides nothing");
        List<IndicatorComparison> compared = assessed.indicators();
        if (compared.stream().allMatch(c -> c.expected().isEmpty())) {
            Set<String> reasons = new LinkedHashSet<>();
            compared.stream()
                    .filter(c -> c.agreement() == Agreement.NOT_COMPARED)
                    .forEach(c -> reasons.add(c.sentence()));
            sheet.paragraph(
                    Wording.join(" ", "No expected reduction was computed.", Sentence.list(" ", List.copyOf(reasons))));
        } else {
            table(compared);
        }
        List<String> lines = compared.stream()
                .filter(c -> c.agreement() != Agreement.NOT_COMPARED && c.agreement() != Agreement.AGREES)
                .map(c -> c.hints().isEmpty()
                        ? Sentence.of("%s: %s", c.id(), c.sentence())
                        : Sentence.of("%s: %s Look for: %s.", c.id(), c.sentence(), Sentence.list("; ", c.hints())))
                .toList();
        if (!lines.isEmpty()) {
            sheet.bullets(lines);
        }
    }

    private void table(List<IndicatorComparison> compared) {
        sheet.table(
                words("Indicator", 22),
                words("Channel, F", 52),
                figures("Expected reduction, decades", 28),
                figures("Expected survivors, chance of growth", 32),
                words("Seen", 18),
                words("Fits", 22));
        for (int i = 0; i < compared.size(); i++) {
            IndicatorComparison one = compared.get(i);
            Optional<ExpectedReduction> expected = one.expected();
            sheet.cells(
                    one.id(),
                    expected.map(IndicatorSection::lethality)
                            .orElse(run.indicators().get(i).isControl() ? "control, not exposed" : one.sentence()),
                    expected.map(e -> decades(e.decades())).orElse("–"),
                    expected.flatMap(IndicatorSection::chance).orElse("–"),
                    growth(run.indicators().get(i)),
                    one.agreement().words());
        }
        sheet.endTable();
        Set<String> times = new LinkedHashSet<>();
        for (IndicatorUse use : run.indicators()) {
            if (use.population().isPresent() && use.resistance().isPresent()) {
                SporeKinetics spores =
                        use.resistance().get().kinetics(use.population().get());
                times.add(Sentence.of(
                        "Every unit of lot %s should survive %s min and none %s min at %s °C.",
                        use.lot().isBlank() ? "(not stated)" : use.lot(),
                        Figures.nearest(spores.survivalMinutes(), 1),
                        Figures.nearest(spores.killMinutes(), 1),
                        Wording.plain(spores.referenceCelsius())));
            }
        }
        boolean isCounted = compared.stream()
                .flatMap(c -> c.expected().stream())
                .allMatch(ExpectedReduction::isResistanceDoubtCounted);
        sheet.aside(Wording.join(
                " ",
                isCounted
                        ? "The reduction is F / D in decades, with an interval (about 95 %) from the doubt of the"
                                + " temperature and of the D-value."
                        : "The reduction is F / D in decades, with an interval (about 95 %) from the doubt of the"
                                + " temperature; the doubt of a D-value is in it where one is stated.",
                Sentence.list(" ", List.copyOf(times)),
                "A thermometer sees neither air nor dryness: an indicator that grew fails whatever stands here, and one that "
                        + "did not grow mends nothing."));
    }

    private static String lethality(ExpectedReduction expected) {
        return Wording.join(
                ", ",
                expected.channel(),
                Sentence.of(
                        "%s min at %s °C",
                        Figures.lowSide(expected.lethality().minutes(), 2),
                        Wording.plain(expected.lethality().referenceCelsius())),
                Sentence.of("z %s K", Wording.plain(expected.lethality().z())),
                expected.lethality().skippedSeconds() > 0
                        ? Sentence.of(
                                "%s without value",
                                Moments.length(expected.lethality().skippedSeconds()))
                        : "");
    }

    private static String decades(Estimate decades) {
        return Sentence.of(
                "%s, %s … %s",
                Figures.lowSide(decades.value(), 1),
                Figures.lowSide(decades.low(), 1),
                Figures.highSide(decades.high(), 1));
    }

    private static Optional<String> chance(ExpectedReduction expected) {
        return expected.survivors()
                .flatMap(n -> expected.growth().map(p -> Wording.join(", ", number(n.value()), percent(p.value()))));
    }

    private static String number(double survivors) {
        return survivors < SMALL || survivors >= MANY
                ? String.format(Locale.ROOT, "%.1E", survivors)
                : Figures.highSide(survivors, survivors < 1 ? 3 : 0);
    }

    private static String percent(double probability) {
        return probability < SMALL ? "below 0.1 %" : Figures.highSide(100 * probability, 1) + " %";
    }
}
