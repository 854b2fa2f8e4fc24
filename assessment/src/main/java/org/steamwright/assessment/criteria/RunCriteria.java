package org.steamwright.assessment.criteria;

import java.util.List;
import org.steamwright.assessment.steam.SaturationCurve;

/** The criteria of a thermometric run, those about its evidence first. */
public final class RunCriteria {

    private RunCriteria() {}

    /**
     * All of them, in the order of their ids.
     *
     * @param curve formula of the theoretical temperature
     */
    public static List<Criterion<RunEvidence>> all(SaturationCurve curve) {
        return List.of(
                new RecordingComplete(),
                new SamplingIntervalShortEnough(),
                new SensorsAlive(),
                new CalibrationValid(),
                new CalibrationRange(),
                new FieldCheckAfter(),
                new PressureAgreesWithOpenDoor(),
                new AirRemovalPulses(),
                new MinimumHoldingTime(),
                new LowestTemperature(),
                new HighestTemperature(),
                new EquilibrationTime(),
                new PenetrationTime(),
                new TemperatureSpread(),
                new TemperatureFluctuation(),
                new SaturationDifference(curve),
                new FreeChamberExcess(),
                new PressureChangeRate(),
                new DryingTime());
    }
}
