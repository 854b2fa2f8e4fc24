package org.steamwright.desk.training;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Distribution;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.simulator.SimulatedRun;

/** What a training visit begins with, as a visit file would state it: clinic, machine, instruments and one run, all invented. */
final class TrainingFacts {

    private static final String MACHINE = "A";

    private TrainingFacts() {}

    /** The first facts of a visit with that run, without its recordings. */
    static Map<String, Object> of(SimulatedRun simulated, String trainee) {
        TestRun run = simulated.testRun();
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("purpose", "training on a simulated machine (invented)");
        facts.put(
                "date",
                run.trace()
                        .start()
                        .orElseThrow()
                        .atZone(run.trace().zone())
                        .toLocalDate()
                        .toString());
        facts.put("zone", run.trace().zone().getId());
        facts.put("criteria-set", "au-as5369");
        facts.put("clinic", Map.of("name", "Training room (invented)", "room", "simulated steriliser"));
        facts.put("sterilizers", List.of(machine(run.cycle())));
        facts.put("people", List.of(Map.of("name", trainee, "role", "technician")));
        facts.put(
                "conditions",
                Map.of(
                        "barometer",
                        plain(run.ambient().pressure().kilopascal()) + " kPa",
                        "barometer-source",
                        "simulated barometer (invented)"));
        facts.put(
                "instruments",
                run.instruments().values().stream()
                        .sorted((one, other) -> one.id().compareTo(other.id()))
                        .map(TrainingFacts::instrument)
                        .toList());
        facts.put("runs", List.of(run(run)));
        return facts;
    }

    private static Map<String, Object> machine(CycleDefinition cycle) {
        Map<String, Object> declared = new LinkedHashMap<>();
        declared.put("name", cycle.name());
        declared.put("type", cycle.type().name());
        declared.put(
                "sterilizing-temperature", plain(cycle.sterilizingTemperature().celsius()) + " °C");
        cycle.holdingTime().ifPresent(time -> declared.put("holding-time", seconds(time.toMillis())));
        cycle.airRemovalPulses().ifPresent(pulses -> declared.put("air-removal-pulses", String.valueOf(pulses)));
        cycle.pulseDepth().ifPresent(depth -> declared.put("pulse-depth", plain(depth) + " kPa absolute"));
        cycle.dryingTime().ifPresent(time -> declared.put("drying-time", seconds(time.toMillis())));
        Map<String, Object> machine = new LinkedHashMap<>();
        machine.put("key", MACHINE);
        machine.put("maker", "Example Works (invented)");
        machine.put("model", "Simulated bench (invented)");
        machine.put("serial", "SIMULATED-1");
        machine.put("chamber", "18 L");
        machine.put("chamber-size", "250 x 370 mm");
        machine.put("tray-levels", "3");
        machine.put("cycles", List.of(declared));
        return machine;
    }

    private static Map<String, Object> instrument(ReferenceInstrument instrument) {
        boolean isTemperature = instrument.quantity() == Quantity.TEMPERATURE;
        String unit = isTemperature ? " °C" : " kPa";
        String difference = isTemperature ? " K" : " kPa";
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("id", instrument.id());
        facts.put("description", instrument.description());
        facts.put("measures", instrument.quantity().name().toLowerCase(Locale.ROOT));
        facts.put(
                "range",
                Map.of("from", plain(instrument.rangeLow()) + unit, "to", plain(instrument.rangeHigh()) + unit));
        instrument
                .certificate()
                .ifPresent(certificate -> facts.put("certificate", certificate(certificate, unit, difference)));
        List<Object> contributions = new ArrayList<>();
        for (Contribution contribution : instrument.contributions()) {
            if (contribution.distribution() == Distribution.RECTANGULAR) {
                facts.put("drift", "±" + plain(contribution.stated()) + difference);
            } else {
                contributions.add(Map.of(
                        "name",
                        contribution.name(),
                        "size",
                        plain(contribution.stated()) + difference,
                        "distribution",
                        "standard",
                        "per-reading",
                        "yes",
                        "origin",
                        contribution.origin()));
            }
        }
        if (!contributions.isEmpty()) {
            facts.put("contributions", contributions);
        }
        return facts;
    }

    private static Map<String, Object> certificate(CalibrationCertificate certificate, String unit, String difference) {
        CalibrationPoint first = certificate.points().get(0);
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("number", certificate.number());
        facts.put("laboratory", certificate.laboratory());
        facts.put("calibrated-on", certificate.calibratedOn().toString());
        facts.put("due-on", certificate.dueOn().toString());
        facts.put("U", plain(first.expandedUncertainty()) + difference);
        facts.put("k", plain(first.coverageFactor()));
        facts.put(
                "points",
                certificate.points().stream()
                        .map(point -> List.of(plain(point.reference()) + unit, plain(point.indicated()) + unit))
                        .toList());
        return facts;
    }

    private static Map<String, Object> run(TestRun run) {
        Map<String, Object> channels = new LinkedHashMap<>();
        for (Channel channel : run.trace().channels()) {
            Map<String, Object> facts = new LinkedHashMap<>();
            facts.put("role", channel.role().name().toLowerCase(Locale.ROOT).replace('_', '-'));
            channel.instrument().ifPresent(id -> facts.put("instrument", id));
            channel.reference()
                    .ifPresent(
                            reference -> facts.put("reference", reference.name().toLowerCase(Locale.ROOT)));
            channels.put(channel.column().name(), facts);
        }
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("kind", run.kind() == TestKind.LOADED ? "reference-load" : "empty-chamber");
        facts.put("sterilizer", MACHINE);
        facts.put("cycle", run.cycle().name());
        facts.put("channels", channels);
        return facts;
    }

    private static String seconds(long millis) {
        return BigDecimal.valueOf(millis, 3).stripTrailingZeros().toPlainString() + " s";
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }
}
