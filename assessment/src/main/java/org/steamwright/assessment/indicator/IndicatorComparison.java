package org.steamwright.assessment.indicator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.SteamCondition;
import org.steamwright.assessment.indicator.BiologicalTest.Indicator;
import org.steamwright.assessment.indicator.BiologicalTest.Reading;

/**
 * One biological indicator beside the thermometry. It explains and asks; it never turns a fail into a pass nor a pass into a
 * fail: what an indicator decides, {@link BiologicalTest} decides.
 *
 * @param id of the indicator
 * @param agreement how growth and expectation fit
 * @param expected what the temperature lets expect; empty where it can't be told
 * @param sentence what was found, for people
 * @param hints what the trade would look at first; empty without a contradiction
 */
public record IndicatorComparison(
        String id, Agreement agreement, Optional<ExpectedReduction> expected, String sentence, List<String> hints) {

    /** Growth is unexpected if even the high end of its probability lies below this. Own choice. */
    private static final double HARDLY = 0.05;

    /** No growth is unexpected if even the low end of the probability of growth lies above this. Own choice. */
    private static final double NEARLY_SURE = 0.95;

    /** A point this much hotter than theory, in kelvin, points at superheat. Own choice. */
    private static final double HOT_KELVIN = 1.5;

    /** A point this much colder than theory, in kelvin, points at air. Own choice. */
    private static final double COLD_KELVIN = 1.0;

    public IndicatorComparison {
        hints = List.copyOf(hints);
    }

    /**
     * Compares one indicator of a test.
     *
     * @param indicator exposed or control
     * @param test it belongs to
     * @param expected from the temperature beside it; empty where it can't be told
     * @param obstacle why it can't, as a sentence; blank otherwise
     * @param steam condition of the steam in that run, for the hints
     */
    public static IndicatorComparison of(
            Indicator indicator,
            BiologicalTest test,
            Optional<ExpectedReduction> expected,
            String obstacle,
            Optional<SteamCondition> steam) {
        if (indicator.isControl()) {
            return control(indicator);
        }
        Reading reading = indicator.reading();
        if (reading == Reading.AWAITED) {
            return answer(indicator, Agreement.AWAITED, expected, "It has not been read to the end of incubation.");
        }
        if (reading == Reading.NO_GROWTH) {
            Optional<String> doubt = doubt(indicator, test);
            if (doubt.isPresent()) {
                return answer(indicator, Agreement.VOID, expected, doubt.get());
            }
            if (test.controls(indicator.lot()).stream().anyMatch(c -> c.reading() == Reading.AWAITED)) {
                return answer(
                        indicator,
                        Agreement.AWAITED,
                        expected,
                        "It did not grow; whether its lot can grow is not known until the control is read.");
            }
        }
        if (expected.flatMap(ExpectedReduction::growth).isEmpty()) {
            return answer(indicator, Agreement.NOT_COMPARED, expected, obstacle);
        }
        return compared(
                indicator,
                expected.get(),
                expected.flatMap(ExpectedReduction::growth).get(),
                steam);
    }

    private static IndicatorComparison control(Indicator control) {
        return switch (control.reading()) {
            case GROWTH -> answer(control, Agreement.AGREES, Optional.empty(), "The control grew: its lot is alive.");
            case NO_GROWTH ->
                new IndicatorComparison(
                        control.id(),
                        Agreement.VOID,
                        Optional.empty(),
                        "The control did not grow: its lot may be dead, so an indicator of it without growth proves nothing.",
                        List.of(
                                "a lot killed by age, heat or storage",
                                "incubation too short, too hot or too cold",
                                "a control that went through the steriliser by mistake"));
            case AWAITED ->
                answer(control, Agreement.AWAITED, Optional.empty(), "The control has not been read to the end.");
        };
    }

    private static Optional<String> doubt(Indicator indicator, BiologicalTest test) {
        if (test.expired().contains(indicator)) {
            return Optional.of(
                    "It did not grow, but its lot was out of date on the day: it may have been dead before.");
        }
        List<Indicator> controls = test.controls(indicator.lot());
        if (controls.isEmpty()) {
            return Optional.of("It did not grow, but no control of its lot was kept: it may have been dead before.");
        }
        return controls.stream().anyMatch(control -> control.reading() == Reading.NO_GROWTH)
                ? Optional.of("It did not grow, but neither did the control of its lot: it may have been dead before.")
                : Optional.empty();
    }

    private static IndicatorComparison compared(
            Indicator indicator, ExpectedReduction expected, Estimate growth, Optional<SteamCondition> steam) {
        boolean isGrown = indicator.reading() == Reading.GROWTH;
        boolean isWhole = expected.lethality().skippedSeconds() == 0;
        Optional<ExpectedReduction> shown = Optional.of(expected);
        if (growth.high() < HARDLY) {
            return isGrown
                    ? new IndicatorComparison(
                            indicator.id(),
                            Agreement.GROWTH_UNEXPECTED,
                            shown,
                            "It grew although hardly any spore should have lived at the temperature measured. The growth counts: the indicator fails whatever the thermometer says.",
                            causesOfGrowth(expected.channel(), steam))
                    : answer(indicator, Agreement.AGREES, shown, "It did not grow, as the temperature lets expect.");
        }
        if (!isWhole) {
            return answer(
                    indicator,
                    Agreement.CANNOT_TELL,
                    shown,
                    "Part of the temperature is missing, so more may have been killed than is counted.");
        }
        if (growth.low() > NEARLY_SURE) {
            return isGrown
                    ? answer(
                            indicator,
                            Agreement.AGREES,
                            shown,
                            "It grew, as the temperature lets expect: too little was done to the spores.")
                    : new IndicatorComparison(
                            indicator.id(),
                            Agreement.NO_GROWTH_UNEXPECTED,
                            shown,
                            "It did not grow although spores should have lived at the temperature measured. That mends nothing: the temperature decides.",
                            List.of(
                                    "a lot weaker than stated: fewer spores, a smaller D-value, old or badly stored",
                                    "incubation too short, too hot or too cold",
                                    "an indicator that lay elsewhere, or whose tag was exchanged",
                                    "a sensor that reads low or lags, such as one in a heavy body"));
        }
        return answer(
                indicator, Agreement.CANNOT_TELL, shown, "Growth and no growth would both have been no surprise.");
    }

    private static List<String> causesOfGrowth(String channel, Optional<SteamCondition> steam) {
        List<String> causes = new ArrayList<>();
        String air = "air left around the spores while the sensor beside them stood in steam: a lumen, a tight pack";
        String dry = "dry heat: superheated steam or a dry place is far slower at the same temperature";
        if (steam.filter(s -> s.hottestDifference() > HOT_KELVIN).isPresent()) {
            causes.add(dry + "; " + steam.get().hottestChannel() + " was hotter than saturated steam in this run");
            causes.add(air);
        } else {
            boolean isCold =
                    steam.filter(s -> s.coldestDifference() < -COLD_KELVIN).isPresent();
            causes.add(
                    isCold
                            ? air + "; " + steam.get().coldestChannel() + " was colder than saturated steam in this run"
                            : air);
            causes.add(dry);
        }
        causes.add("condensate that soaked the carrier or kept it cooler than " + channel);
        causes.add("growth from outside: a carrier soiled when it was taken out, or an exchanged tag");
        causes.add("a lot more resistant than stated");
        return causes;
    }

    private static IndicatorComparison answer(
            Indicator indicator, Agreement agreement, Optional<ExpectedReduction> expected, String sentence) {
        return new IndicatorComparison(indicator.id(), agreement, expected, sentence, List.of());
    }
}
