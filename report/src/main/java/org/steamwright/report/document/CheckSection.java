package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.report.language.Sentence;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.InstrumentDay;

/** Checks of the instruments in the field, before and after the runs of the day, and what follows from each. */
final class CheckSection {

    private static final int DECIMALS = 3;

    private final Sheet sheet;
    private final AssessedVisit assessed;

    CheckSection(Sheet sheet, AssessedVisit assessed) {
        this.sheet = sheet;
        this.assessed = assessed;
    }

    /** Nothing where nobody speaks of checks. */
    void write() {
        Map<String, InstrumentDay> days = new TreeMap<>();
        InstrumentDay.of(assessed.visit())
                .forEach(day -> days.put(day.instrument().id(), day));
        List<String> missing = new ArrayList<>();
        boolean isAny = false;
        for (InstrumentDay day : days.values()) {
            isAny |= !day.before().isEmpty() || !day.after().isEmpty();
            if (day.isCheckMissing()) {
                missing.add(day.instrument().id());
            }
        }
        if (isAny) {
            sheet.table(
                    words("Check of", 30),
                    words("Method", 40),
                    words("Reference", 22),
                    words("Reading, corrected", 36),
                    words("Allowed", 20),
                    words("Result", 26));
            for (InstrumentDay day : days.values()) {
                day.before().forEach(judged -> row(day.instrument(), judged));
                day.after().forEach(judged -> row(day.instrument(), judged));
            }
            sheet.endTable();
        }
        if (!missing.isEmpty()) {
            sheet.aside(
                    Sentence.of("No check after the runs: %s.", Wording.join(", ", missing.toArray(String[]::new))));
        }
    }

    private void row(ReferenceInstrument instrument, InstrumentDay.Judged judged) {
        FieldCheck check = judged.check();
        String unit = instrument.quantity().unit();
        String difference = instrument.quantity() == Quantity.TEMPERATURE ? "K" : unit;
        FieldCheck.Pair pair = judged.pair();
        String reading = judged.corrected()
                .map(corrected -> Wording.join(
                        ", ",
                        Figures.nearest(pair.indicated(), DECIMALS) + " " + unit,
                        Figures.nearest(corrected, DECIMALS) + " " + unit))
                .orElse(Figures.nearest(pair.indicated(), DECIMALS) + " " + unit);
        String when = check.moment() == FieldCheck.Moment.BEFORE
                ? Sentence.of("%s, before the runs", instrument.id())
                : Sentence.of("%s, after the runs", instrument.id());
        sheet.cells(
                when,
                Wording.join(", ", check.method(), check.against(), check.author(), Wording.day(check.day())),
                Figures.nearest(pair.reference(), DECIMALS) + " " + unit,
                reading,
                judged.allowed()
                        .map(allowed -> "±" + Wording.plain(allowed) + " " + difference)
                        .orElse(Wording.NOT_STATED),
                result(judged.isGood()));
    }

    private static String result(Optional<Boolean> isGood) {
        return isGood.map(good -> good ? "within what is allowed" : "failed").orElse("not assessed");
    }
}
