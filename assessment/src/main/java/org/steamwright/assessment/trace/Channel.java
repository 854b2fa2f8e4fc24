package org.steamwright.assessment.trace;

import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;

/**
 * A column of a recording with its meaning: role, place and instrument.
 *
 * @param name short and unique within the run
 * @param role what it stands for
 * @param position where the sensor sat
 * @param instrument identity of the instrument, empty if none was declared
 * @param reference absolute or gauge as declared; present exactly for pressures
 * @param axis sampling moments on the run's clock
 * @param column the indicated values
 */
public record Channel(
        String name,
        ChannelRole role,
        Position position,
        Optional<String> instrument,
        Optional<PressureReference> reference,
        TimeAxis axis,
        Column column) {

    public Channel {
        if (reference.isPresent() != (column.quantity() == Quantity.PRESSURE)) {
            throw new IllegalArgumentException(
                    "channel " + name + ": a pressure is declared absolute or gauge, a temperature neither");
        }
        if ((role == ChannelRole.PRESSURE) != (column.quantity() == Quantity.PRESSURE)) {
            throw new IllegalArgumentException(
                    "channel " + name + ": role " + role + " does not fit a column of " + column.quantity());
        }
        if (axis.size() != column.size()) {
            throw new IllegalArgumentException("channel " + name + ": axis and column differ in length");
        }
    }

    /** The same readings at other moments. */
    public Channel onAxis(TimeAxis newAxis) {
        return new Channel(name, role, position, instrument, reference, newAxis, column);
    }
}
