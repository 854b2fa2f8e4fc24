package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.words;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.report.language.Sentence;
import org.steamwright.visit.Visit;

/** How the figures came about, where the limits come from, and the usual cautions. */
final class MethodSection {

    private final Sheet sheet;
    private final CriteriaSet set;

    MethodSection(Sheet sheet, Visit visit) {
        this.sheet = sheet;
        this.set = visit.criteriaSet();
    }

    void write() {
        sheet.chapter("Method", true);
        Sheet.Facts facts = sheet.facts();
        facts.add("Algorithms", Sentence.of("version %s", Assessment.ALGORITHM_VERSION));
        facts.add(
                "Readings",
                "Used as recorded. Nothing is filtered, smoothed, averaged or left out. Missing values stay missing.");
        facts.add(
                "Correction",
                "Each reading is corrected by its certificate, in straight lines between the calibrated points. Beyond the "
                        + "last point the correction of that point is kept and the reading counts as not covered: it is never "
                        + "extrapolated.");
        facts.add(
                "Pressure",
                "Gauge readings are made absolute with the ambient pressure printed under 'Conditions of the day'. Before "
                        + "the cycle and after it an open chamber has to read about ambient; a channel that does not is named.");
        facts.add(
                "Theoretical temperature",
                Sentence.of(
                        set.isTheoreticalInBand()
                                ? "%s, at each pressure sample. %s. It has to stay inside the band."
                                : "%s, at each pressure sample. %s. It is not judged against the band.",
                        set.curve().title(),
                        Wording.cite(set.curveSource())));
        facts.add(
                "Boundaries",
                "Begin and end of plateau and hold are moments of real samples. Between two samples nobody knows what the "
                        + "temperature was, so a hold is taken as long as its samples show: it can come out up to two "
                        + "intervals short, and it is too long only where a dip hid between two samples. Interpolated moments "
                        + "stand beside them and decide nothing.");
        facts.add(
                "Plateau",
                "Begins with the first sample of the reference point at or above the lower limit. Equilibration time is "
                        + "from there until every point stands at or above it. Holding time is the longest unbroken stretch in "
                        + "which every point is inside the band; two stretches are never added up.");
        facts.add(
                "Three times",
                "Plateau and hold are found for the corrected readings, and again with every channel lowered and raised by "
                        + "its expanded uncertainty. The interval of the holding time comes from there.");
        facts.add(
                "Gaps",
                "A step longer than 1.6 usual steps is a gap. A hold ends at a gap; nothing is filled in, and a criterion that "
                        + "needs what is missing is invalid, never met.");
        facts.add(
                "Rounding",
                "Figures are compared unrounded. Printed, they are cut towards the side that looks worse, with one decimal "
                        + "more than the limit: 179.96 s against ≥ 180 s is printed as 179.9 s, never as 180.");
        facts.add(
                "Simple rule",
                "The figure as measured decides. The chance of a wrong answer at the limit itself is up to one half.");
        facts.add(
                "Guarded rule",
                "The limit is drawn in by the expanded uncertainty. A figure inside the limit by less than that is undecided.");
        facts.add(
                "Words",
                "A run is pass, fail or invalid. Invalid means that the evidence cannot carry a verdict: it counts neither as "
                        + "pass nor as fail and is kept. Not assessed means not asked, or nothing was recorded that could answer; "
                        + "it never counts as met.");
        facts.add(
                "OQ and PQ",
                "Operational qualification here means leak test and thermometric runs of the empty chamber at the settings in "
                        + "use. Performance qualification means consecutive runs with the reference load. Installation, electrical "
                        + "and pressure safety stand in the checklists as the technician entered them.");
        facts.add(
                "Short code",
                "The code at the foot of each page is the beginning of a SHA-256 over everything this report says. The same "
                        + "visit gives the same code and the same bytes.");
        facts.end();
        limits();
        cautions();
    }

    private void limits() {
        sheet.heading("Where the limits come from");
        sheet.paragraph(Sentence.of(
                "Criteria set %s. 'Text seen' means that the wording was read; everything else says how the value was "
                        + "come by and how sure it is.",
                set.identity()));
        sheet.table(words("Limit", 48), words("Value", 22), words("Rule, use", 24), words("From, and how sure", 80));
        for (CriteriaSet.CycleLimits cycle : set.cycles()) {
            String temperature = Wording.plain(cycle.sterilizingCelsius()) + " °C";
            row(
                    Sentence.of("Holding time at %s", temperature),
                    Optional.of(cycle.holdingTime()),
                    "",
                    cycle.holdingTime().source());
            cycle.bandWidth()
                    .ifPresent(width ->
                            row(Sentence.of("Band above %s", temperature), Optional.of(width), "", width.source()));
        }
        List<Requirement> asked = set.requirements().values().stream()
                .filter(requirement -> requirement.use() != Use.OFF)
                .sorted(Comparator.comparing(Requirement::id))
                .toList();
        for (Requirement requirement : asked) {
            row(
                    requirement.id().title(),
                    requirement.limit(),
                    Wording.join(
                            ", ", requirement.rule().word(), requirement.use().word()),
                    requirement.limit().map(Limit::source).orElse(requirement.source()));
            requirement
                    .secondLimit()
                    .ifPresent(second -> row(secondTitle(requirement), Optional.of(second), "", second.source()));
        }
        set.revalidation()
                .ifPresent(months ->
                        period("Requalification after", Sentence.of("%s months", months), set.revalidationSource()));
        period("Loaded runs in a row", String.valueOf(set.consecutiveRuns()), set.consecutiveRunsSource());
        sheet.endTable();
    }

    private static String secondTitle(Requirement requirement) {
        return Wording.join(
                ", ",
                requirement.id().title(),
                switch (requirement.id()) {
                    case LOAD_DRYNESS -> "porous load";
                    case FREE_CHAMBER_EXCESS -> "first 60 s";
                    case LEAK_PERIOD -> "settling";
                    case FIELD_CHECK_AFTER -> "pressure instruments";
                    default -> "second limit";
                });
    }

    private void period(String name, String value, Optional<Source> source) {
        String from = source.map(s -> Wording.join("; ", Wording.cite(s), Wording.confidence(s.confidence())))
                .orElse("not stated");
        sheet.cells(name, value, "", from);
    }

    private void row(String name, Optional<Limit> limit, String use, Source source) {
        Html html = sheet.html();
        html.open("tr");
        html.element("td", "", name);
        html.element("td", "", limit.map(Limit::toString).orElse("–"));
        html.element("td", "", use);
        html.open("td", "class", "last")
                .text(Wording.join("; ", Wording.cite(source), Wording.confidence(source.confidence())));
        if (!source.note().isBlank()) {
            html.element("span", "under", source.note());
        }
        html.close().close();
    }

    private void cautions() {
        sheet.heading("Cautions");
        sheet.bullets(List.of(
                "Steam, hot surfaces and a chamber under pressure or vacuum injure. Let the steriliser cool and vent before "
                        + "reaching in, and never defeat a door interlock or a safety valve.",
                "Electrical and pressure work belongs to people licensed for it, by the local codes and the maker's "
                        + "instructions. Where this report and those differ, they come first.",
                "Used instruments can infect. Sensors and loggers that touched a load are cleaned and disinfected before they "
                        + "leave the premises.",
                "The technician supplies evidence about a machine. Whether a load may be used, and what a failed test means for "
                        + "patients, is decided by the clinic. This report holds no patient data."));
    }
}
