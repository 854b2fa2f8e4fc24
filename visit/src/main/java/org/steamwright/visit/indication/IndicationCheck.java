package org.steamwright.visit.indication;

import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.calibration.CorrectedTrace;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Judgement;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.job.IndicationReading;

/**
 * One reading of the steriliser beside the reference at the same moment.
 *
 * <p>The reference is the corrected sample at the reference measurement point, or of the chamber pressure, at or just
 * before the stated moment. Its doubt is made of three parts, added as squares with k = 2: the expanded uncertainty of the
 * reference, half the last digit of the steriliser taken as rectangular, and how much the reference moved within
 * {@link #MOMENT_SECONDS} either way taken as rectangular, because nobody reads a display to the second.
 *
 * @source combination after JCGM 100:2008, 5.1 and 4.3.7 (from memory); moment of reading: own choice, no source
 * @param reading what was read
 * @param reference corrected, in °C or kPa absolute; empty if nothing was recorded at that moment
 * @param judgement how the difference stands to the tolerance; empty without a reference
 * @param figure size of the difference with its doubt; empty without a reference
 * @param outcome by the rule in force; invalid without a reference
 * @param sentence for people
 */
public record IndicationCheck(
        IndicationReading reading,
        Optional<Double> reference,
        Optional<Judgement> judgement,
        Optional<Figure> figure,
        Outcome outcome,
        String sentence) {

    /** How well the moment of a reading is known, either way, in seconds. */
    public static final double MOMENT_SECONDS = 2;

    private static final double COVERAGE = 2;

    /** Holds one reading against the corrected recording of the run it was taken in. */
    public static IndicationCheck of(IndicationReading reading, CorrectedTrace corrected) {
        Optional<CorrectedChannel> channel = reading.quantity() == Quantity.TEMPERATURE
                ? corrected.find(ChannelRole.REFERENCE_POINT)
                : corrected.pressure();
        String name = reading.quantity() == Quantity.TEMPERATURE
                ? "the reference measurement point"
                : "the pressure of the chamber";
        if (channel.isEmpty()) {
            return without(reading, "run %s did not record %s".formatted(reading.run(), name));
        }
        double reference = at(channel.get(), reading.atSeconds());
        if (Double.isNaN(reference)) {
            return without(
                    reading,
                    "run %s has no reading of %s at %s"
                            .formatted(reading.run(), name, Figures.moment(reading.atSeconds())));
        }
        double difference = reading.indicated() - reference;
        Unit unit = reading.quantity() == Quantity.TEMPERATURE ? Unit.KELVIN : Unit.KILOPASCAL;
        double expanded = COVERAGE * standard(reading, channel.get());
        Figure figure = new Figure(
                Math.abs(difference),
                Math.max(0, Math.abs(difference) - expanded),
                Math.abs(difference) + expanded,
                unit,
                "reference, last digit of the steriliser and moment of reading, k = 2");
        Limit limit = new Limit(
                Comparison.AT_MOST,
                reading.tolerance(),
                unit,
                new Source(
                        reading.toleranceSource(),
                        "",
                        "",
                        Source.Provenance.USER,
                        Source.Confidence.MEDIUM,
                        "stated with the reading"));
        Judgement judgement = Judgement.of(figure, limit, reading.rule());
        boolean isUnknownDoubt = channel.get().budget().isEmpty();
        String sentence =
                "%s showed %s %s where the reference had %s %s: %s%s %s, doubt ±%s %s (k = 2)%s; tolerance ±%s %s."
                        .formatted(
                                capital(reading.shownBy()),
                                Figures.nearest(reading.indicated(), 2),
                                reading.quantity().unit(),
                                Figures.nearest(reference, 2),
                                reading.quantity().unit(),
                                difference < 0 ? "" : "+",
                                Figures.nearest(difference, 2),
                                unit.symbol(),
                                Figures.highSide(expanded, 2),
                                unit.symbol(),
                                isUnknownDoubt ? ", the doubt of the reference itself is not known" : "",
                                Figures.plain(reading.tolerance(), unit),
                                unit.symbol());
        return new IndicationCheck(
                reading,
                Optional.of(reference),
                Optional.of(judgement),
                Optional.of(figure),
                judgement.decided(),
                sentence);
    }

    /** Indicated minus reference; NaN without a reference. */
    public double difference() {
        return reference.map(value -> reading.indicated() - value).orElse(Double.NaN);
    }

    private static IndicationCheck without(IndicationReading reading, String why) {
        return new IndicationCheck(
                reading,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Outcome.INVALID,
                "%s can't be checked: %s.".formatted(capital(reading.shownBy()), why));
    }

    /** The sample at or just before the moment; NaN before the first, after the last and within a gap. */
    private static double at(CorrectedChannel channel, double seconds) {
        int after = channel.axis().indexAtOrAfter(seconds);
        if (after == channel.size()) {
            return Double.NaN;
        }
        if (channel.axis().at(after) == seconds) {
            return channel.at(after);
        }
        return after == 0 || channel.axis().isGapBefore(after) ? Double.NaN : channel.at(after - 1);
    }

    private static double standard(IndicationReading reading, CorrectedChannel channel) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = channel.axis().indexAtOrAfter(reading.atSeconds() - MOMENT_SECONDS - channel.interval());
                i < channel.size() && channel.axis().at(i) <= reading.atSeconds() + MOMENT_SECONDS;
                i++) {
            if (!Double.isNaN(channel.at(i))) {
                low = Math.min(low, channel.at(i));
                high = Math.max(high, channel.at(i));
            }
        }
        double moved = high > low ? (high - low) / 2 : 0;
        double reference = channel.expanded().standard();
        double digit = reading.resolution() / 2 / Math.sqrt(3);
        double moment = moved / Math.sqrt(3);
        return Math.sqrt(reference * reference + digit * digit + moment * moment);
    }

    private static String capital(String text) {
        return text.isEmpty() ? "The steriliser" : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
