package org.steamwright.assessment.criteria;

import java.util.Optional;

/** The kinds of criteria. The word stays for ever; a changed meaning gets a new word. */
public enum CriterionId {
    // whether the evidence can carry a verdict at all
    RECORDING_COMPLETE("recording-complete", Group.EVIDENCE, "Recording covers the whole test"),
    SAMPLING_INTERVAL("sampling-interval", Group.EVIDENCE, "Sampling interval"),
    SENSORS_ALIVE("sensors-alive", Group.EVIDENCE, "Sensors alive"),
    CALIBRATION_VALID("calibration-valid", Group.EVIDENCE, "Calibration in date"),
    CALIBRATION_RANGE("calibration-range", Group.EVIDENCE, "Calibrated range covers the readings"),
    FIELD_CHECK_AFTER("field-check-after", Group.EVIDENCE, "Instruments checked after the runs"),
    PRESSURE_KIND("pressure-kind", Group.EVIDENCE, "Pressure agrees with the open door"),
    // thermometric run
    AIR_REMOVAL_PULSES("air-removal-pulses", Group.RUN, "Air removal pulses"),
    MINIMUM_HOLDING_TIME("minimum-holding-time", Group.RUN, "Holding time"),
    LOWEST_TEMPERATURE("lowest-temperature", Group.RUN, "Lowest temperature in the holding time"),
    HIGHEST_TEMPERATURE("highest-temperature", Group.RUN, "Highest temperature in the plateau"),
    EQUILIBRATION_TIME("equilibration-time", Group.RUN, "Equilibration time"),
    PENETRATION_TIME("penetration-time", Group.RUN, "Penetration time of the challenge pack"),
    TEMPERATURE_SPREAD("temperature-spread", Group.RUN, "Spread between points at one instant"),
    TEMPERATURE_FLUCTUATION("temperature-fluctuation", Group.RUN, "Fluctuation of each point"),
    SATURATION_DIFFERENCE("saturation-difference", Group.RUN, "Measured against theoretical temperature"),
    FREE_CHAMBER_EXCESS("free-chamber-excess", Group.RUN, "Free chamber above the reference point"),
    PRESSURE_CHANGE_RATE("pressure-change-rate", Group.RUN, "Rate of pressure change"),
    DRYING_TIME("drying-time", Group.RUN, "Drying time"),
    // leak test
    LEAK_RATE("leak-rate", Group.LEAK, "Leak rate"),
    LEAK_START_PRESSURE("leak-start-pressure", Group.LEAK, "Pressure at isolation"),
    LEAK_SETTLING("leak-settling", Group.LEAK, "Rise while settling (wet chamber sign)"),
    LEAK_PERIOD("leak-period", Group.LEAK, "Settling and measuring periods"),
    // load and indicators
    LOAD_DRYNESS("load-dryness", Group.LOAD, "Moisture left in the load"),
    BIOLOGICAL_INDICATORS("biological-indicators", Group.LOAD, "Biological indicators");

    /** Which test a criterion belongs to. */
    public enum Group {
        EVIDENCE,
        RUN,
        LEAK,
        LOAD
    }

    private final String word;
    private final Group group;
    private final String title;

    CriterionId(String word, Group group, String title) {
        this.word = word;
        this.group = group;
        this.title = title;
    }

    /** The word used in data files and results. */
    public String word() {
        return word;
    }

    public Group group() {
        return group;
    }

    /** Whether every criteria set has to let it decide: without it no evidence carries a verdict. */
    public boolean isIndispensable() {
        return group == Group.EVIDENCE && this != FIELD_CHECK_AFTER;
    }

    /** Heading for people. */
    public String title() {
        return title;
    }

    /** The criterion of that word. */
    public static Optional<CriterionId> find(String word) {
        for (CriterionId id : values()) {
            if (id.word.equals(word)) {
                return Optional.of(id);
            }
        }
        return Optional.empty();
    }

    @Override
    public String toString() {
        return word;
    }
}
