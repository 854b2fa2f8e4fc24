package org.steamwright.assessment.calibration;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.steam.SaturationCurve;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Correlation;

/**
 * From indicated to corrected: certificates applied, gauge pressures made absolute, theoretical temperature computed,
 * a budget for each channel.
 *
 * <p>The certificate in force at the last sample counts. A channel without a certificate is taken over as indicated and gets no budget; that its doubt is unknown is for the
 * criteria to say. No value is smoothed, filled or left out.
 */
public final class TraceCorrection {

    /** Name of the computed channel. */
    public static final String THEORETICAL_NAME = "theoretical";

    private final Map<String, ReferenceInstrument> instruments;
    private final double ambientKilopascal;
    private final double ambientHalfWidthKilopascal;
    private final SaturationCurve curve;

    /**
     * @param instruments by id
     * @param ambientKilopascal ambient pressure of the day
     * @param ambientHalfWidthKilopascal half-width within which it is known
     * @param curve formula of the theoretical temperature
     */
    public TraceCorrection(
            Map<String, ReferenceInstrument> instruments,
            double ambientKilopascal,
            double ambientHalfWidthKilopascal,
            SaturationCurve curve) {
        this.instruments = Map.copyOf(instruments);
        this.ambientKilopascal = ambientKilopascal;
        this.ambientHalfWidthKilopascal = ambientHalfWidthKilopascal;
        this.curve = curve;
    }

    /**
     * Corrects a trace.
     *
     * @param trace as indicated
     * @param nominalCelsius temperature for which the temperature budgets are made
     * @param nominalKilopascal absolute pressure for which the pressure budgets are made
     */
    public CorrectedTrace correct(Trace trace, double nominalCelsius, double nominalKilopascal) {
        List<CorrectedChannel> channels = new ArrayList<>();
        Optional<LocalDate> day = trace.lastDay();
        for (Channel channel : trace.channels()) {
            double nominal = channel.column().quantity() == Quantity.TEMPERATURE ? nominalCelsius : nominalKilopascal;
            channels.add(correct(channel, nominal, day));
        }
        for (CorrectedChannel channel : List.copyOf(channels)) {
            if (channel.role() == ChannelRole.PRESSURE) {
                channels.add(theoretical(channel, nominalKilopascal));
                break;
            }
        }
        return new CorrectedTrace(trace, channels);
    }

    private CorrectedChannel correct(Channel channel, double nominal, Optional<LocalDate> day) {
        Optional<ReferenceInstrument> instrument = channel.instrument()
                .flatMap(id -> Optional.ofNullable(instruments.get(id)))
                .map(named -> day.map(named::on).orElse(named));
        Optional<CalibrationCertificate> certificate = instrument.flatMap(ReferenceInstrument::certificate);
        boolean isGauge =
                channel.reference().filter(r -> r == PressureReference.GAUGE).isPresent();
        double offset = isGauge ? ambientKilopascal : 0;
        double[] values = channel.column().toArray();
        Optional<Budget> budget = Optional.empty();
        if (certificate.isPresent()) {
            Correction correction = Correction.of(certificate.get());
            for (int i = 0; i < values.length; i++) {
                values[i] = correction.correct(values[i]);
            }
            budget = Optional.of(budget(channel, instrument.get(), certificate.get(), nominal - offset, isGauge, day));
        }
        if (isGauge) {
            for (int i = 0; i < values.length; i++) {
                values[i] += offset;
            }
        }
        return new CorrectedChannel(channel, values, instrument, budget);
    }

    private Budget budget(
            Channel channel,
            ReferenceInstrument instrument,
            CalibrationCertificate certificate,
            double nominal,
            boolean isGauge,
            Optional<LocalDate> day) {
        Correction correction = Correction.of(certificate);
        List<Contribution> lines = new ArrayList<>();
        String origin = "certificate " + certificate.number();
        double k = Budget.USUAL_COVERAGE_FACTOR;
        lines.add(Contribution.expanded(
                "calibration of the instrument", k * correction.standardUncertaintyAt(nominal), k, origin));
        double between = correction.interpolationHalfWidthAt(nominal);
        if (between > 0) {
            lines.add(Contribution.rectangular("straight line between calibration points", between, origin));
        }
        if (channel.column().resolution() > 0) {
            lines.add(Contribution.resolution(
                    "resolution of the recording", channel.column().resolution(), "steps seen in the file"));
        }
        lines.addAll(day.map(date -> instrument.contributionsOn(date, nominal)).orElse(instrument.contributions()));
        if (isGauge) {
            lines.add(Contribution.rectangular(
                            "ambient pressure added to the gauge reading",
                            ambientHalfWidthKilopascal,
                            "ambient pressure")
                    .shared(Correlation.full("ambient pressure")));
        }
        Quantity quantity = channel.column().quantity();
        String unit = quantity == Quantity.TEMPERATURE ? "K" : "kPa";
        return Budget.of("one corrected reading of " + channel.name(), unit, lines);
    }

    private CorrectedChannel theoretical(CorrectedChannel pressure, double nominalKilopascal) {
        double[] celsius = new double[pressure.size()];
        for (int i = 0; i < celsius.length; i++) {
            celsius[i] = curve.celsiusAt(pressure.at(i));
        }
        Column column = new Column(THEORETICAL_NAME, Quantity.TEMPERATURE, Optional.empty(), "°C", celsius, 0);
        Channel channel = new Channel(
                THEORETICAL_NAME,
                ChannelRole.THEORETICAL,
                Position.UNSTATED,
                pressure.channel().instrument(),
                Optional.empty(),
                pressure.axis(),
                column);
        double kelvinPerKilopascal = 1 / curve.kilopascalPerKelvinAt(curve.celsiusAt(nominalKilopascal));
        Optional<Budget> budget = pressure.budget()
                .map(p -> Budget.of(
                        "theoretical temperature",
                        "K",
                        p.contributions().stream()
                                .map(line -> line.withSensitivity(line.sensitivity() * kelvinPerKilopascal))
                                .toList()));
        return new CorrectedChannel(channel, celsius, pressure.instrument(), budget);
    }
}
