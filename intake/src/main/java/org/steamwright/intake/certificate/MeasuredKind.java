package org.steamwright.intake.certificate;

import java.util.Optional;
import org.steamwright.assessment.trace.Quantity;

/** What a table of results is about, as far as its units tell. */
public enum MeasuredKind {
    TEMPERATURE("temperature", "°C", "K", Optional.of(Quantity.TEMPERATURE)),
    PRESSURE("pressure", "kPa", "kPa", Optional.of(Quantity.PRESSURE)),
    /** A resistance over temperature: the sensor alone was calibrated, without the instrument that shows degrees. */
    RESISTANCE("resistance", "Ω", "Ω", Optional.empty()),
    /** A plain ratio; in the certificates of this trade it is relative humidity. */
    HUMIDITY("humidity", "%", "%", Optional.empty()),
    OTHER("another quantity", "", "", Optional.empty());

    private final String title;
    private final String unit;
    private final String differenceUnit;
    private final Optional<Quantity> quantity;

    MeasuredKind(String title, String unit, String differenceUnit, Optional<Quantity> quantity) {
        this.title = title;
        this.unit = unit;
        this.differenceUnit = differenceUnit;
        this.quantity = quantity;
    }

    /** In words. */
    public String title() {
        return title;
    }

    /** Unit in which its values are kept. */
    public String unit() {
        return unit;
    }

    /** Unit in which differences and uncertainties are kept. */
    public String differenceUnit() {
        return differenceUnit;
    }

    /** The measured quantity of a recording that it can correct; empty if it corrects none. */
    public Optional<Quantity> quantity() {
        return quantity;
    }
}
