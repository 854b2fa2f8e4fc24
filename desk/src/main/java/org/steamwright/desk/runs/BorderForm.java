package org.steamwright.desk.runs;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.report.plot.Moments;

/**
 * The borders of a run's phases that can be stated, as the page of the run offers them.
 *
 * @param mayState whether the reader may state one now
 * @param choices borders that can be stated, of found phases first in the order of time
 * @param stated borders that are stated
 * @param first first moment of the recording in seconds, as a number field takes it
 * @param last last moment
 */
public record BorderForm(boolean mayState, List<Choice> choices, List<Stated> stated, String first, String last) {

    private static final int DECIMALS = 3;

    public BorderForm {
        choices = List.copyOf(choices);
        stated = List.copyOf(stated);
    }

    /**
     * A border that can be stated.
     *
     * @param name such as {@code drying/to}
     * @param words such as {@code end of drying}
     * @param found moment in seconds where it was found; empty text if it was not
     * @param foundMinutes the same in minutes and seconds
     * @param at moment where it stands now: as stated, or as found
     */
    public record Choice(String name, String words, String found, String foundMinutes, String at) {}

    /**
     * A border that is stated.
     *
     * @param name such as {@code drying/to}
     * @param words such as {@code end of drying}
     * @param at moment in minutes and seconds
     * @param found where it was found; empty text if it was not
     * @param by who states it
     * @param because why
     */
    public record Stated(String name, String words, String at, String found, String by, String because) {}

    static BorderForm of(RunEvaluation evaluation, boolean mayState) {
        Optional<Phases> phases = evaluation.phases();
        Trace trace = evaluation.run().trace();
        if (phases.isEmpty()) {
            return new BorderForm(false, List.of(), List.of(), "", "");
        }
        List<StatedBorder> borders = evaluation.run().statedBorders();
        List<Choice> found = new ArrayList<>();
        List<Choice> absent = new ArrayList<>();
        for (Phase.Kind kind : Phase.Kind.values()) {
            for (StatedBorder.End end : StatedBorder.End.values()) {
                if (StatedBorder.isStatable(kind)) {
                    Choice choice = choice(kind, end, phases.get(), borders);
                    (choice.found().isEmpty() ? absent : found).add(choice);
                }
            }
        }
        found.addAll(absent);
        return new BorderForm(
                mayState,
                found,
                borders.stream().map(border -> stated(border, phases.get())).toList(),
                seconds(trace.firstSeconds()),
                seconds(trace.lastSeconds()));
    }

    private static Choice choice(Phase.Kind kind, StatedBorder.End end, Phases phases, List<StatedBorder> borders) {
        Optional<Double> found = phases.foundBorder(kind, end);
        Optional<Double> at = borders.stream()
                .filter(border -> border.isOf(kind, end))
                .map(StatedBorder::atSeconds)
                .findFirst()
                .or(() -> found);
        return new Choice(
                name(kind, end),
                end.words() + " of " + kind.words(),
                found.map(BorderForm::seconds).orElse(""),
                found.map(Moments::minutes).orElse(""),
                at.map(BorderForm::seconds).orElse(""));
    }

    private static Stated stated(StatedBorder border, Phases phases) {
        return new Stated(
                name(border.phase(), border.end()),
                border.words(),
                Moments.minutes(border.atSeconds()),
                phases.foundBorder(border.phase(), border.end())
                        .map(Moments::minutes)
                        .orElse(""),
                border.by(),
                border.because());
    }

    /** Name of a border in a form, made of the words of a visit file. */
    static String name(Phase.Kind kind, StatedBorder.End end) {
        return word(kind) + "/" + word(end);
    }

    private static String word(Enum<?> one) {
        return one.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static String seconds(double value) {
        BigDecimal rounded = BigDecimal.valueOf(value)
                .setScale(DECIMALS, RoundingMode.HALF_EVEN)
                .stripTrailingZeros();
        return rounded.scale() < 0
                ? rounded.setScale(0, RoundingMode.UNNECESSARY).toPlainString()
                : rounded.toPlainString();
    }
}
