package org.steamwright.assessment.trace;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.remark.Remark;

/**
 * All channels of one run, as indicated.
 *
 * @param start moment zero of every axis; empty if no file and nobody told it
 * @param zone zone of the site
 * @param channels at least one; names unique
 * @param files the recordings they came from
 * @param remarks of intake and assignment
 */
public record Trace(
        Optional<Instant> start, ZoneId zone, List<Channel> channels, List<SourceFile> files, List<Remark> remarks) {

    private static final double MILLISECONDS = 1000.0;

    /**
     * A recording that a trace came from.
     *
     * @param name file name without folder
     * @param bytes size
     * @param sha256 of the bytes
     * @param isSimulated whether the file says that it was simulated
     */
    public record SourceFile(String name, long bytes, String sha256, boolean isSimulated) {}

    public Trace {
        channels = List.copyOf(channels);
        files = List.copyOf(files);
        remarks = List.copyOf(remarks);
        if (channels.isEmpty()) {
            throw new IllegalArgumentException("a trace needs at least one channel");
        }
        Set<String> names = new HashSet<>();
        for (Channel channel : channels) {
            if (!names.add(channel.name())) {
                throw new IllegalArgumentException("two channels are called " + channel.name());
            }
            if (channel.axis().size() == 0) {
                throw new IllegalArgumentException("channel " + channel.name() + " has no sample");
            }
        }
    }

    /** Whether any of it was simulated; such a visit can't be signed. */
    public boolean isSimulated() {
        return files.stream().anyMatch(SourceFile::isSimulated);
    }

    /** The first channel of a role. */
    public Optional<Channel> find(ChannelRole role) {
        return channels.stream().filter(channel -> channel.role() == role).findFirst();
    }

    /** Day of the last sample at the site; empty if no moment of the run is known. */
    public Optional<LocalDate> lastDay() {
        return start.map(zero -> zero.plusMillis(Math.round(MILLISECONDS * lastSeconds()))
                .atZone(zone)
                .toLocalDate());
    }

    /** Earliest sample of any channel, in seconds. */
    public double firstSeconds() {
        return channels.stream().mapToDouble(c -> c.axis().first()).min().orElseThrow();
    }

    /** Latest sample of any channel, in seconds. */
    public double lastSeconds() {
        return channels.stream().mapToDouble(c -> c.axis().last()).max().orElseThrow();
    }
}
