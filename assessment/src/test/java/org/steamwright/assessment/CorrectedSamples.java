package org.steamwright.assessment;

import java.util.Optional;
import org.steamwright.assessment.calibration.CorrectedChannel;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.TimeAxis;

/** Temperature channels from plain numbers, without instrument and without doubt. */
public final class CorrectedSamples {

    private CorrectedSamples() {}

    /** A channel of degree Celsius on an axis. */
    public static CorrectedChannel of(String name, ChannelRole role, TimeAxis axis, double... celsius) {
        Column column = new Column(name, Quantity.TEMPERATURE, Optional.empty(), "°C", celsius, 0);
        Channel channel = new Channel(name, role, Position.UNSTATED, Optional.empty(), Optional.empty(), axis, column);
        return new CorrectedChannel(channel, celsius, Optional.empty(), Optional.empty());
    }
}
