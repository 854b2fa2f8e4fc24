package org.steamwright.intake.folder;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.alignment.Alignment;
import org.steamwright.assessment.alignment.ClockOffset;
import org.steamwright.assessment.alignment.Clocks;
import org.steamwright.assessment.alignment.CommonEvent;
import org.steamwright.assessment.alignment.EventSignal;
import org.steamwright.assessment.alignment.RecordingClock;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.intake.folder.ClockStatement.ByCheck;
import org.steamwright.intake.folder.ClockStatement.ByEvent;
import org.steamwright.intake.folder.ClockStatement.ByStatement;
import org.steamwright.intake.folder.ClockStatement.IsReference;
import org.steamwright.intake.folder.ClockStatement.SameAs;

/** Brings the recordings of one run to one clock, as far as somebody said how their clocks compare. */
final class RunClocks {

    /**
     * A trace and its clocks.
     *
     * @param trace on one clock as far as possible
     * @param clocks with what was added
     */
    record Aligned(Trace trace, Clocks clocks) {}

    private final List<Assignment.Named> files;
    private final Trace stamped;
    private final Map<String, ClockStatement> ofInstruments;
    private final double sterilizingCelsius;
    private final double ambientKilopascal;
    private final Spot run;

    RunClocks(
            List<Assignment.Named> files,
            Trace stamped,
            Map<String, ClockStatement> ofInstruments,
            double sterilizingCelsius,
            double ambientKilopascal,
            Spot run) {
        this.files = List.copyOf(files);
        this.stamped = stamped;
        this.ofInstruments = Map.copyOf(ofInstruments);
        this.sterilizingCelsius = sterilizingCelsius;
        this.ambientKilopascal = ambientKilopascal;
        this.run = run;
    }

    /** The run on one clock; empty after a problem was added. */
    Optional<Aligned> align() {
        Map<String, ClockStatement> statements = new LinkedHashMap<>();
        boolean isGood = true;
        for (Assignment.Named file : files) {
            Set<ClockStatement> said = said(file);
            if (said.size() > 1) {
                run.problem(
                        Mistake.CLOCK,
                        Flaw.of("found more than one statement about the clock of " + file.name()
                                        + " at its instruments, expected one, since one logger has one clock.")
                                .inFile("Write it at the recording: {file: " + file.name() + ", clock: …}"));
                isGood = false;
            }
            said.forEach(statement -> statements.put(file.name(), statement));
        }
        if (isGood && statements.isEmpty() && files.size() == 1) {
            return Optional.of(new Aligned(stamped, Clocks.ONE));
        }
        Assignment.Named base = base();
        Map<String, RecordingClock> clocks = new LinkedHashMap<>();
        List<Remark> remarks = new ArrayList<>(stamped.remarks());
        Optional<ClockOffset> ofBase = Optional.empty();
        // the recording with the reference point first: events count from its clock
        List<Assignment.Named> inTurn = new ArrayList<>(files);
        inTurn.remove(base);
        inTurn.add(0, base);
        for (Assignment.Named file : inTurn) {
            ClockStatement statement = statements.get(file.name());
            Optional<RecordingClock> clock = clock(file, Optional.ofNullable(statement), base, ofBase, clocks, remarks);
            isGood &= clock.isPresent();
            clock.ifPresent(read -> clocks.put(file.name(), read));
            if (file.name().equals(base.name())) {
                ofBase = clock.flatMap(RecordingClock::offset);
            }
        }
        if (!isGood) {
            return Optional.empty();
        }
        List<RecordingClock> ordered =
                files.stream().map(file -> clocks.get(file.name())).toList();
        Clocks all = new Clocks(base.name(), ordered);
        remarkNotCompared(all, base.name(), remarks);
        Trace aligned = Alignment.aligned(stamped, all);
        return Optional.of(new Aligned(
                new Trace(aligned.start(), aligned.zone(), aligned.channels(), aligned.files(), remarks), all));
    }

    /** What was said at the recording; otherwise at the instruments that its channels were measured with. */
    private Set<ClockStatement> said(Assignment.Named file) {
        if (file.clock().isPresent()) {
            return Set.of(file.clock().get());
        }
        Set<ClockStatement> said = new HashSet<>();
        for (Channel channel : channels(file)) {
            channel.instrument().map(ofInstruments::get).ifPresent(said::add);
        }
        return said;
    }

    private List<Channel> channels(Assignment.Named file) {
        return stamped.channels().stream()
                .filter(channel -> file.recording().columns().contains(channel.column()))
                .toList();
    }

    private Assignment.Named base() {
        return files.stream()
                .filter(file ->
                        channels(file).stream().anyMatch(channel -> channel.role() == ChannelRole.REFERENCE_POINT))
                .findFirst()
                .orElse(files.get(0));
    }

    private Optional<RecordingClock> clock(
            Assignment.Named file,
            Optional<ClockStatement> statement,
            Assignment.Named base,
            Optional<ClockOffset> ofBase,
            Map<String, RecordingClock> before,
            List<Remark> remarks) {
        if (statement.isEmpty()) {
            return Optional.of(clock(file, file.name(), Optional.empty(), ""));
        }
        ClockStatement said = statement.get();
        if (said instanceof IsReference) {
            return Optional.of(clock(file, file.name(), Optional.of(ClockOffset.reference()), ""));
        }
        if (said instanceof ByStatement stated) {
            return Optional.of(clock(file, file.name(), Optional.of(stated.offset()), ""));
        }
        if (said instanceof SameAs same) {
            return sameAs(file, same, before);
        }
        if (said instanceof ByCheck read) {
            return checked(file, read);
        }
        return byEvent(file, (ByEvent) said, base, ofBase, remarks);
    }

    private RecordingClock clock(Assignment.Named file, String clock, Optional<ClockOffset> offset, String note) {
        return new RecordingClock(
                file.name(),
                clock,
                channels(file).stream().map(Channel::name).toList(),
                file.recording().start(),
                offset,
                note);
    }

    private Optional<RecordingClock> sameAs(Assignment.Named file, SameAs same, Map<String, RecordingClock> before) {
        RecordingClock other = before.get(same.file());
        if (other == null || same.file().equals(file.name())) {
            same.spot()
                    .problem(
                            Mistake.UNKNOWN_NAME,
                            Flaw.of(
                                    "found same-as: " + same.file()
                                            + ", expected another recording of this run that was named before.",
                                    "The one with the" + " reference point counts as named first; the recordings are "
                                            + String.join(
                                                    ", ",
                                                    files.stream()
                                                            .map(Assignment.Named::name)
                                                            .toList()) + "."));
            return Optional.empty();
        }
        return Optional.of(clock(file, other.clock(), other.offset(), "Written by the logger of " + same.file() + "."));
    }

    private Optional<RecordingClock> checked(Assignment.Named file, ByCheck read) {
        Recording recording = file.recording();
        if (recording.start().isEmpty()) {
            file.spot()
                    .problem(
                            Mistake.NO_START,
                            Flaw.of("found elapsed time only in " + file.name()
                                            + ", expected time stamps, since its clock was compared.")
                                    .inFile(
                                            "Write under its reading the moment of its beginning, for example: start: 2026-03-02T09:14:05"));
            return Optional.empty();
        }
        Instant first = recording.start().get();
        double length = recording.axis().last() - recording.axis().first();
        Instant last = first.plusMillis(Math.round(length * 1000));
        ZoneId site = stamped.zone();
        return read.check(recording.zone(), site, first)
                .map(check -> clock(file, file.name(), Optional.of(check.offset(first, last, read.author())), ""));
    }

    private Optional<RecordingClock> byEvent(
            Assignment.Named file,
            ByEvent asked,
            Assignment.Named base,
            Optional<ClockOffset> ofBase,
            List<Remark> remarks) {
        if (file.name().equals(base.name())) {
            file.spot()
                    .problem(
                            Mistake.CLOCK,
                            Flaw.of(
                                    "found a common event at " + file.name()
                                            + ", expected it at the other recordings: this one holds the reference point, and they are"
                                            + " put on its clock.",
                                    "Move it there."));
            return Optional.empty();
        }
        CommonEvent event = CommonEvent.find(signals(base), signals(file), asked.author());
        double add = ofBase.map(ClockOffset::secondsAtStart).orElse(0.0);
        if (event.offset().isEmpty()) {
            remarks.add(new Remark(
                    Mistake.NO_COMMON_EVENT.id(),
                    Rank.DOUBT,
                    file.name(),
                    "No common event was good enough to put the recording on the clock of " + base.name() + ". "
                            + event.reason()
                            + " The approach to the plateau is never used, since that would take away a real delay."
                            + " Compare the clocks before and after the next visit."));
        }
        return Optional.of(clock(
                file,
                file.name(),
                event.offset().map(found -> found.movedBy(add)),
                event.offset().isPresent() ? "" : event.reason()));
    }

    /** Pressures whether or not they have a role, and temperatures in free steam. */
    private List<EventSignal> signals(Assignment.Named file) {
        List<Channel> channels = channels(file);
        List<EventSignal> signals = new ArrayList<>();
        if (channels.isEmpty()) {
            return signals;
        }
        TimeAxis axis = channels.get(0).axis();
        for (Column column : file.recording().columns()) {
            Optional<Channel> channel =
                    channels.stream().filter(one -> one.column() == column).findFirst();
            if (column.quantity() == Quantity.PRESSURE) {
                Optional<PressureReference> reference =
                        channel.flatMap(Channel::reference).or(column::reference);
                signals.add(new EventSignal(
                        column.name(), EventSignal.Kind.PRESSURE, axis, column.toArray(), plateau(reference)));
            } else if (channel.filter(
                            one -> one.role() == ChannelRole.REFERENCE_POINT || one.role() == ChannelRole.FREE_CHAMBER)
                    .isPresent()) {
                signals.add(new EventSignal(
                        channel.get().name(), EventSignal.Kind.FREE_STEAM, axis, column.toArray(), sterilizingCelsius));
            }
        }
        return signals;
    }

    private double plateau(Optional<PressureReference> reference) {
        double absolute = IapwsR797.INSTANCE.kilopascalAt(sterilizingCelsius);
        return reference
                .map(kind -> kind == PressureReference.ABSOLUTE ? absolute : absolute - ambientKilopascal)
                .orElse(Double.NaN);
    }

    private static void remarkNotCompared(Clocks clocks, String base, List<Remark> remarks) {
        List<String> loose = new ArrayList<>();
        for (RecordingClock one : clocks.recordings()) {
            boolean isLoose = clocks.recordings().stream()
                    .filter(other ->
                            !other.channels().isEmpty() && !one.channels().isEmpty())
                    .anyMatch(other -> Double.isInfinite(clocks.halfWidthBetween(
                            one.channels().get(0), other.channels().get(0))));
            if (isLoose && one.offset().isEmpty() && one.note().isEmpty()) {
                loose.add(one.file());
            }
        }
        // a recording that found no common event has its own remark
        if (!loose.isEmpty() && !loose.equals(List.of(base))) {
            remarks.add(new Remark(
                    Mistake.CLOCKS_NOT_CHECKED.id(),
                    Rank.DOUBT,
                    String.join(", ", loose),
                    "The clocks of these recordings were never compared with the others of the run, so they stand on one time axis"
                            + " by their own stamps, and every time and difference between them says nothing. Write under"
                            + " recording what the clocks showed before and after, or name a common event."));
        }
    }
}
