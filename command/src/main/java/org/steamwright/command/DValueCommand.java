package org.steamwright.command;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.DoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.assessment.indicator.Estimate;
import org.steamwright.assessment.indicator.FractionNegative;
import org.steamwright.assessment.indicator.SurvivorCurve;

/** Finds the D-value of a lot from a laboratory's raw figures. */
final class DValueCommand implements Command {

    private static final Pattern NUMBER = Pattern.compile("\\d{1,12}(?:\\.\\d+)?(?:[eE]\\d{1,2})?");

    private static final Pattern EXPOSURE =
            Pattern.compile("(\\d+(?:\\.\\d+)?) *(min|s)=(\\d{1,6})/(\\d{1,6})", Pattern.CASE_INSENSITIVE);

    private static final Pattern SURVIVORS =
            Pattern.compile("(\\d+(?:\\.\\d+)?) *(min|s)=(\\d+(?:\\.\\d+)?(?:e\\d{1,2})?)", Pattern.CASE_INSENSITIVE);

    private static final double SECONDS = 60;

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Find the D-value of a lot of indicators from raw figures.",
                "Give either groups exposed for rising times and how many stayed clear, or survivors counted.",
                "Every method that fits the figures answers, with its 95 %% interval. Decides nothing.");
        usage.footer(
                "",
                "If the methods disagree by more than their intervals, the row is not log-linear or the population",
                "is not the one stated.");
        usage.value("--population", "NUMBER", "Spores per unit before exposure: 1e6.");
        usage.values("--exposure", "TIME=CLEAR/ALL", "Of so many exposed, so many stayed clear: '8 min=3/20'.");
        usage.values("--survivors", "TIME=NUMBER", "So many were counted after that time: '4 min=2.1e3'.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright dvalue --population 1e6 --exposure '8 min=0/20' --exposure '9 min=3/20'"
                + " --exposure '10 min=20/20'");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal {
        List<String> exposures = typed.all("--exposure");
        List<String> survivors = typed.all("--survivors");
        if (exposures.isEmpty() == survivors.isEmpty()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "give either --exposure or --survivors, each once for every time.",
                    "See 'steamwright dvalue --help'.");
        }
        Optional<Double> population = population(typed);
        try {
            surroundings.say(exposures.isEmpty() ? curve(survivors, population) : row(exposures, population));
        } catch (IllegalArgumentException unusable) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "these figures give no D-value: " + unusable.getMessage() + ".",
                    "Look the figures up again in the laboratory's record.");
        }
        return ExitStatus.PASS;
    }

    private static Optional<Double> population(Typed typed) throws Refusal {
        Optional<String> text = typed.find("--population");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (!NUMBER.matcher(text.get()).matches() || !(Double.parseDouble(text.get()) > 1)) {
            throw unreadable("--population", text.get(), "1e6");
        }
        return Optional.of(Double.parseDouble(text.get()));
    }

    private static Refusal unreadable(String option, String text, String like) {
        return new Refusal(
                ExitStatus.USAGE, option + ": '" + text + "' can't be read.", "Write it like '" + like + "'.");
    }

    private static List<String> row(List<String> texts, Optional<Double> population) throws Refusal {
        List<FractionNegative.Exposure> exposures = new ArrayList<>();
        for (String text : texts) {
            Matcher matcher = EXPOSURE.matcher(text.trim());
            if (!matcher.matches()) {
                throw unreadable("--exposure", text, "8 min=3/20");
            }
            exposures.add(new FractionNegative.Exposure(
                    minutes(matcher), Integer.parseInt(matcher.group(4)), Integer.parseInt(matcher.group(3))));
        }
        if (population.isEmpty()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "--population is missing: without it clear units say nothing about D.",
                    "It stands on the certificate of the lot.");
        }
        exposures.sort(Comparator.comparingDouble(FractionNegative.Exposure::minutes));
        FractionNegative row = new FractionNegative(exposures);
        List<String> lines = new ArrayList<>();
        method(lines, "Spearman and Kärber", row::spearmanKarber, population.get());
        method(lines, "Spearman and Kärber, limited", row::limitedSpearmanKarber, population.get());
        method(lines, "Stumbo, Murphy and Cochran", row::stumboMurphyCochran, population.get());
        method(lines, "Maximum likelihood", row::mostLikely, population.get());
        return lines;
    }

    private static void method(List<String> lines, String name, DoubleFunction<Estimate> method, double population) {
        try {
            lines.add("%-30s %s".formatted(name, words(method.apply(population))));
        } catch (IllegalArgumentException unfit) {
            lines.add("%-30s does not fit: %s".formatted(name, unfit.getMessage()));
        }
    }

    private static List<String> curve(List<String> texts, Optional<Double> population) throws Refusal {
        List<SurvivorCurve.Count> counts = new ArrayList<>();
        for (String text : texts) {
            Matcher matcher = SURVIVORS.matcher(text.trim());
            if (!matcher.matches() || !(Double.parseDouble(matcher.group(3)) > 0)) {
                throw unreadable("--survivors", text, "4 min=2.1e3");
            }
            counts.add(
                    new SurvivorCurve.Count(minutes(matcher), StrictMath.log10(Double.parseDouble(matcher.group(3)))));
        }
        SurvivorCurve curve = new SurvivorCurve(counts);
        List<String> lines = new ArrayList<>();
        line(lines, "Line with a free start", curve.line());
        population.ifPresent(
                number -> line(lines, "Line from the population", curve.lineFrom(StrictMath.log10(number))));
        return lines;
    }

    private static void line(List<String> lines, String name, SurvivorCurve.Line line) {
        lines.add("%-30s %s".formatted(name, words(line.minutes())));
        lines.add(String.format(
                Locale.ROOT,
                "  starts at 10^%.2f, counts lie %.2f decades about it: %s",
                line.startDecades(),
                line.residual(),
                line.shape().words()));
    }

    private static double minutes(Matcher matcher) {
        double time = Double.parseDouble(matcher.group(1));
        return matcher.group(2).equalsIgnoreCase("s") ? time / SECONDS : time;
    }

    private static String words(Estimate estimate) {
        return String.format(
                Locale.ROOT,
                "D = %.3f min, 95 %% from %.3f to %s min",
                estimate.value(),
                estimate.low(),
                Double.isInfinite(estimate.high())
                        ? "any length of"
                        : String.format(Locale.ROOT, "%.3f", estimate.high()));
    }
}
