package org.steamwright.command;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.quantity.PressureUnit;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.steam.ShortFormula;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.whatif.Change;

/** The changed premises of a what-if, from the command line. */
final class Premises {
    /** NAME=±NUMBER UNIT; the name may hold an equals sign, the number may not. */
    private static final Pattern SHIFT =
            Pattern.compile("(.+)=\\s*([+\\-−±]?)\\s*(\\d+(?:\\.\\d+)?)\\s*([^\\s\\d.]\\S*)\\s*");

    /** So many values with both signs may be combined. */
    private static final int MOST_EITHER_WAY = 4;

    private static final Map<String, Double> SECONDS = Map.of("s", 1.0, "ms", 0.001, "min", 60.0, "h", 3600.0);
    private static final Map<String, Double> KELVIN = Map.of("K", 1.0, "mK", 0.001, "°C", 1.0, "°F", 5.0 / 9);

    private record Shift(String name, List<Double> signs, double number, String unit) {}

    private Premises() {}

    /** Every combination that was asked for; without ± exactly one. */
    static List<List<Change>> of(Typed typed, CriteriaSets sets, Surroundings surroundings)
            throws Refusal, IOException {
        List<List<Change>> all = new ArrayList<>();
        all.add(List.of());
        if (typed.find("--criteria").isPresent()) {
            Change set = new Change.OtherSet(
                    CriteriaChoice.of(typed.find("--criteria").get(), sets, surroundings));
            all = combined(all, List.of(set));
        }
        if (typed.find("--rule").isPresent()) {
            all = combined(
                    all, List.of(new Change.OtherRule(rule(typed.find("--rule").get()))));
        }
        if (typed.find("--formula").isPresent()) {
            all = combined(
                    all,
                    List.of(new Change.OtherFormula(
                            formula(typed.find("--formula").get()))));
        }
        int eitherWay = 0;
        for (String said : typed.all("--clock")) {
            Shift shift = shift("--clock", said, "'TL-07=+2 s'");
            Double seconds = SECONDS.get(shift.unit());
            if (seconds == null) {
                throw unit("--clock", said, "s, ms, min or h");
            }
            eitherWay += shift.signs().size() - 1;
            all = combined(all, either(shift, value -> new Change.ClockMoved(shift.name(), value * seconds)));
        }
        for (String said : typed.all("--error")) {
            Shift shift = shift("--error", said, "'TL-07=+0.3 K' or 'PL-02=±2 kPa'");
            eitherWay += shift.signs().size() - 1;
            all = combined(all, either(shift, error(said, shift)));
        }
        if (eitherWay > MOST_EITHER_WAY) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "± was given " + eitherWay + " times; at most " + MOST_EITHER_WAY + " can be combined.",
                    "Give the others one sign each, or ask more than once.");
        }
        if (all.get(0).isEmpty()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "nothing is changed.",
                    "Give --criteria, --rule, --formula, --clock or --error.",
                    "See 'steamwright whatif --help'.");
        }
        return all;
    }

    private static DoubleFunction<Change> error(String said, Shift shift) throws Refusal {
        Double kelvin = KELVIN.get(shift.unit());
        if (kelvin != null) {
            return value -> new Change.InstrumentError(shift.name(), value * kelvin, Quantity.TEMPERATURE);
        }
        for (PressureUnit unit : PressureUnit.values()) {
            if (unit.symbol().equals(shift.unit())) {
                return value -> new Change.InstrumentError(shift.name(), unit.toKilopascal(value), Quantity.PRESSURE);
            }
        }
        throw unit("--error", said, "K, mK, kPa, hPa, mbar, bar or psi");
    }

    private static List<Change> either(Shift shift, DoubleFunction<Change> change) {
        return shift.signs().stream()
                .map(sign -> change.apply(sign * shift.number()))
                .toList();
    }

    private static List<List<Change>> combined(List<List<Change>> all, List<Change> either) {
        List<List<Change>> combined = new ArrayList<>();
        for (List<Change> changes : all) {
            for (Change one : either) {
                List<Change> longer = new ArrayList<>(changes);
                longer.add(one);
                combined.add(longer);
            }
        }
        return combined;
    }

    private static DecisionRule rule(String word) throws Refusal {
        return DecisionRule.find(word)
                .orElseThrow(() -> new Refusal(
                        ExitStatus.USAGE,
                        "--rule " + word + ": there is no such decision rule.",
                        "Write simple, guarded or four-words."));
    }

    private static SaturationCurve formula(String word) throws Refusal {
        for (SaturationCurve curve : List.of(IapwsR797.INSTANCE, ShortFormula.INSTANCE)) {
            if (curve.id().equals(word)) {
                return curve;
            }
        }
        throw new Refusal(
                ExitStatus.USAGE,
                "--formula " + word + ": there is no such formula.",
                "Write iapws-r7-97 or short-formula.");
    }

    private static Shift shift(String option, String said, String example) throws Refusal {
        Matcher parts = SHIFT.matcher(said);
        if (!parts.matches()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    option + " " + said + ": expected a name, an equals sign, a number and its unit.",
                    "Write it like " + option + " " + example + "; decimals are parted by a point.");
        }
        List<Double> signs = switch (parts.group(2)) {
            case "±" -> List.of(1.0, -1.0);
            case "-", "−" -> List.of(-1.0);
            default -> List.of(1.0);
        };
        return new Shift(parts.group(1).strip(), signs, Double.parseDouble(parts.group(3)), parts.group(4));
    }

    private static Refusal unit(String option, String said, String units) {
        return new Refusal(
                ExitStatus.USAGE, option + " " + said + ": the unit is not known here.", "Write it in " + units + ".");
    }
}
