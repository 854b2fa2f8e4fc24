package org.steamwright.assessment.calibration;

import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;

/**
 * A trace after correction, in degree Celsius and kilopascal absolute, with the theoretical temperature as a channel of
 * its own where pressure was recorded.
 *
 * @param indicated what was read; untouched
 * @param channels corrected, in the order of the trace, the theoretical temperature last
 */
public record CorrectedTrace(Trace indicated, List<CorrectedChannel> channels) {

    public CorrectedTrace {
        channels = List.copyOf(channels);
    }

    /** The first channel of a role. */
    public Optional<CorrectedChannel> find(ChannelRole role) {
        return channels.stream().filter(channel -> channel.role() == role).findFirst();
    }

    /** All temperatures that are measured in the chamber and judged against the band; not the theoretical one. */
    public List<CorrectedChannel> measuredInChamber() {
        return channels.stream()
                .filter(channel -> channel.role().isJudgedAgainstBand() && channel.role() != ChannelRole.THEORETICAL)
                .toList();
    }

    /** Chamber pressure, if it was recorded. */
    public Optional<CorrectedChannel> pressure() {
        return channels.stream()
                .filter(channel -> channel.channel().column().quantity() == Quantity.PRESSURE)
                .findFirst();
    }
}
