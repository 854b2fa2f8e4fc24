package org.steamwright.intake.folder;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.intake.MeasuringUnit;

/** Makes a trace of recordings and of what somebody said about their columns. */
final class Assignment {

    /**
     * What somebody said about a column.
     *
     * @param column name as said, or {@code file/column}
     * @param role what it stands for
     * @param position where the sensor sat
     * @param instrument id; empty if not said
     * @param reference absolute or gauge; empty if not said
     * @param name of the channel; empty takes the column's
     * @param spot where it was said
     */
    record Wish(
            String column,
            ChannelRole role,
            Position position,
            Optional<String> instrument,
            Optional<PressureReference> reference,
            Optional<String> name,
            Spot spot) {}

    /**
     * A recording of the run.
     *
     * @param name as it was written, with its subfolder
     * @param recording as read
     * @param spot where it was named
     * @param clock what was said about its clock; empty if nothing was
     * @param head its first lines
     */
    record Named(String name, Recording recording, Spot spot, Optional<ClockStatement> clock, List<String> head) {

        Named {
            head = List.copyOf(head);
        }

        Named(String name, Recording recording, Spot spot) {
            this(name, recording, spot, Optional.empty(), List.of());
        }
    }

    private record Found(Named file, Column column) {}

    private final List<Named> files;
    private final Spot run;

    Assignment(List<Named> files, Spot run) {
        this.files = List.copyOf(files);
        this.run = run;
    }

    /** Roles that need nobody to say them: the only temperature is the reference point, the only pressure the pressure. */
    Optional<List<Wish>> obvious() {
        List<Wish> wishes = new ArrayList<>();
        for (Quantity quantity : Quantity.values()) {
            List<Column> columns = columns(quantity);
            if (columns.size() > 1) {
                return Optional.empty();
            }
            for (Column column : columns) {
                wishes.add(new Wish(
                        column.name(),
                        quantity == Quantity.PRESSURE ? ChannelRole.PRESSURE : ChannelRole.REFERENCE_POINT,
                        Position.UNSTATED,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty(),
                        run));
            }
        }
        return Optional.of(wishes);
    }

    private List<Column> columns(Quantity quantity) {
        List<Column> columns = new ArrayList<>();
        for (Named file : files) {
            for (Column column : file.recording().columns()) {
                if (column.quantity() == quantity) {
                    columns.add(column);
                }
            }
        }
        return columns;
    }

    /** Whether a column of that name is there. */
    boolean hasColumn(String name) {
        return !matches("", name).isEmpty();
    }

    /** All columns with their units, for messages. */
    String listing() {
        StringBuilder listing = new StringBuilder();
        for (Named file : files) {
            for (Column column : file.recording().columns()) {
                listing.append(listing.isEmpty() ? "" : ", ");
                if (files.size() > 1) {
                    listing.append(file.name()).append('/');
                }
                listing.append(column.name())
                        .append(" (")
                        .append(column.unitInFile())
                        .append(')');
            }
        }
        return listing.isEmpty() ? "none" : listing.toString();
    }

    /**
     * The trace; empty after a problem was added.
     *
     * @param wishes what was said about the columns
     * @param isSaid whether somebody said it, or it was obvious
     * @param kind of the run
     * @param zone of the site
     */
    Optional<Trace> trace(List<Wish> wishes, boolean isSaid, TestKind kind, ZoneId zone) {
        List<Remark> remarks = new ArrayList<>();
        Optional<Instant> start = start();
        IdentityHashMap<Recording, TimeAxis> axes = new IdentityHashMap<>();
        List<Trace.SourceFile> sources = new ArrayList<>();
        for (Named file : files) {
            Recording recording = file.recording();
            axes.put(recording, axis(recording, start));
            sources.add(new Trace.SourceFile(
                    recording.fileName(), recording.bytes(), recording.sha256(), recording.isSimulated()));
            remarks.addAll(recording.remarks());
        }
        boolean isGood = checkStarts();
        List<Channel> channels = new ArrayList<>();
        Set<String> names = new HashSet<>();
        Set<Column> used = new HashSet<>();
        for (Wish wish : wishes) {
            Optional<Found> found = find(wish);
            if (found.isEmpty()) {
                isGood = false;
                continue;
            }
            Column column = found.get().column();
            if (!used.add(column)) {
                wish.spot()
                        .problem(
                                Mistake.NAME_TWICE,
                                Flaw.of(
                                        "found the column \"" + column.name()
                                                + "\" again under another spelling, expected each column once.",
                                        "Remove one of the two."));
                isGood = false;
                continue;
            }
            Optional<Channel> channel = channel(
                    wish,
                    column,
                    axes.getOrDefault(
                            found.get().file().recording(),
                            found.get().file().recording().axis()));
            if (channel.isEmpty()) {
                isGood = false;
            } else if (names.add(channel.get().name())) {
                channels.add(channel.get());
            } else {
                wish.spot()
                        .problem(
                                Mistake.NAME_TWICE,
                                Flaw.of("found a second channel called \""
                                                + channel.get().name() + "\", expected a name of its own.")
                                        .inFile("Add a line like: name: "
                                                + channel.get().name() + "-2"));
                isGood = false;
            }
        }
        isGood = isGood && checkRoles(channels, kind);
        if (!isGood || channels.isEmpty()) {
            return Optional.empty();
        }
        remarkLeftOut(used, remarks);
        if (!isSaid) {
            remarks.add(new Remark(
                    Mistake.OBVIOUS_ROLES.id(),
                    Rank.NOTE,
                    files.get(0).name(),
                    "Nobody said what the columns stand for; the only temperature was taken as the reference measurement"
                            + " point and the only pressure as the chamber pressure."));
        }
        return Optional.of(new Trace(start, zone, channels, sources, remarks));
    }

    /** Moment zero: the earliest first sample. */
    private Optional<Instant> start() {
        Optional<Instant> earliest = Optional.empty();
        for (Named file : files) {
            Optional<Instant> start = file.recording().start();
            if (start.isPresent() && (earliest.isEmpty() || start.get().isBefore(earliest.get()))) {
                earliest = start;
            }
        }
        return earliest;
    }

    private static TimeAxis axis(Recording recording, Optional<Instant> zero) {
        if (zero.isEmpty()
                || recording.start().isEmpty()
                || zero.get().equals(recording.start().get())) {
            return recording.axis();
        }
        Duration late = Duration.between(zero.get(), recording.start().get());
        return recording.axis().shifted(late.getSeconds() + late.getNano() / 1e9);
    }

    private boolean checkStarts() {
        boolean isGood = true;
        for (Named file : files) {
            if (files.size() > 1 && file.recording().start().isEmpty()) {
                file.spot()
                        .problem(
                                Mistake.NO_START,
                                Flaw.of("found elapsed time only in " + file.name()
                                                + ", expected a time stamp, since this run has several recordings.")
                                        .inFile(
                                                "Write under its reading the moment of its beginning, for example: start: 2026-03-02T09:14:05"));
                isGood = false;
            }
        }
        return isGood;
    }

    private Optional<Found> find(Wish wish) {
        List<Found> matches = matches("", wish.column());
        if (matches.isEmpty()) {
            int slash = wish.column().lastIndexOf('/');
            if (slash > 0) {
                matches =
                        matches(wish.column().substring(0, slash), wish.column().substring(slash + 1));
            }
        }
        if (matches.size() == 1) {
            return Optional.of(matches.get(0));
        }
        if (matches.isEmpty()) {
            List<String> names = new ArrayList<>();
            for (Named file : files) {
                file.recording().columns().forEach(column -> names.add(column.name()));
            }
            String near = Nearest.didYouMean(wish.column(), names);
            wish.spot()
                    .problem(
                            Mistake.UNKNOWN_COLUMN,
                            Flaw.of(
                                    "found the column name \"" + wish.column() + "\", expected one of the columns "
                                            + listing() + ".",
                                    (near.isEmpty() ? " Write the name as it stands in the file." : near)));
        } else {
            wish.spot()
                    .problem(
                            Mistake.AMBIGUOUS_COLUMN,
                            Flaw.of(
                                    "found \"" + wish.column()
                                            + "\" in more than one place, expected one column out of " + listing()
                                            + ".",
                                    "Write the file before it, for example: \""
                                            + matches.get(0).file().name() + "/" + wish.column() + "\""));
        }
        return Optional.empty();
    }

    private List<Found> matches(String fileName, String columnName) {
        List<Found> matches = new ArrayList<>();
        for (Named file : files) {
            if (!fileName.isEmpty() && !file.name().equalsIgnoreCase(fileName)) {
                continue;
            }
            for (Column column : file.recording().columns()) {
                if (isNamed(column, columnName)) {
                    matches.add(new Found(file, column));
                }
            }
        }
        return matches;
    }

    /** The name as the column has it, case and outer blanks aside; a unit behind it is welcome. */
    private static boolean isNamed(Column column, String said) {
        String name = column.name().strip().toLowerCase(Locale.ROOT);
        String lower = said.strip().toLowerCase(Locale.ROOT);
        return lower.equals(name)
                || (!name.isEmpty()
                        && lower.startsWith(name)
                        && MeasuringUnit.find(said.strip().substring(name.length()))
                                .isPresent());
    }

    private static Optional<Channel> channel(Wish wish, Column column, TimeAxis axis) {
        boolean isPressure = column.quantity() == Quantity.PRESSURE;
        if (isPressure != (wish.role() == ChannelRole.PRESSURE)) {
            wish.spot()
                    .problem(
                            Mistake.ROLE_DOES_NOT_FIT,
                            Flaw.of(
                                    "found the role " + Words.of(wish.role(), Words.ROLE) + " at the column \""
                                            + column.name()
                                            + "\" in " + column.unitInFile() + ", expected "
                                            + (isPressure ? "pressure." : "a role for a temperature."),
                                    isPressure
                                            ? "Write role: pressure, or name another column."
                                            : "Write another role, or name another column."));
            return Optional.empty();
        }
        if (!isPressure) {
            if (wish.reference().isPresent()) {
                wish.spot()
                        .problem(
                                Mistake.ROLE_DOES_NOT_FIT,
                                Flaw.of(
                                        "found a reference at the temperature \"" + column.name()
                                                + "\", expected it at a pressure only.",
                                        "Remove the reference."));
                return Optional.empty();
            }
            return Optional.of(make(wish, column, axis, Optional.empty()));
        }
        Optional<PressureReference> inFile = column.reference();
        if (inFile.isPresent()
                && wish.reference().isPresent()
                && inFile.get() != wish.reference().get()) {
            wish.spot()
                    .problem(
                            Mistake.PRESSURE_CONTRADICTS,
                            Flaw.of(
                                    "found reference: "
                                            + Words.of(wish.reference().get(), Words.REFERENCE) + " but the file says "
                                            + Words.of(inFile.get(), Words.REFERENCE) + " for the column \""
                                            + column.name() + "\"; expected both to agree.",
                                    openDoor(column)));
            return Optional.empty();
        }
        Optional<PressureReference> reference = wish.reference().or(() -> inFile);
        if (reference.isEmpty()) {
            wish.spot()
                    .problem(
                            Mistake.PRESSURE_UNSTATED,
                            Flaw.of(
                                    "found neither in the file nor here whether \"" + column.name()
                                            + "\" is absolute or gauge, expected one of the two.",
                                    openDoor(column) + " Write for example: {role: pressure, reference: absolute}"));
            return Optional.empty();
        }
        return Optional.of(make(wish, column, axis, reference));
    }

    /** How to tell absolute from gauge, with the figure that tells it. */
    static String openDoor(Column column) {
        String begins = "";
        for (int i = 0; i < column.size(); i++) {
            if (!Double.isNaN(column.at(i))) {
                begins = String.format(Locale.ROOT, "; this column begins with %.1f kPa", column.at(i));
                break;
            }
        }
        return "With the door open an absolute pressure shows the barometer, about 101 kPa at sea level, and a gauge pressure about 0"
                + begins + ".";
    }

    private static Channel make(Wish wish, Column column, TimeAxis axis, Optional<PressureReference> reference) {
        return new Channel(
                wish.name().orElse(column.name()),
                wish.role(),
                wish.position(),
                wish.instrument(),
                reference,
                axis,
                column);
    }

    private boolean checkRoles(List<Channel> channels, TestKind kind) {
        int references = 0;
        int pressures = 0;
        for (Channel channel : channels) {
            references += channel.role() == ChannelRole.REFERENCE_POINT ? 1 : 0;
            pressures += channel.role() == ChannelRole.PRESSURE ? 1 : 0;
        }
        if (kind == TestKind.LEAK && pressures != 1) {
            run.problem(
                    Mistake.ROLES,
                    Flaw.of(
                            "found " + pressures
                                    + " channels with the role pressure in an air leakage test, expected one.",
                            "Name the column of the chamber pressure; the columns are " + listing() + "."));
            return false;
        }
        if (kind != TestKind.LEAK && (references != 1 || pressures > 1)) {
            run.problem(
                    Mistake.ROLES,
                    Flaw.of(
                            "found " + references + " channels with the role reference-point and " + pressures
                                    + " with the role pressure, expected one reference-point and at most one pressure.",
                            "The reference point is the sensor beside the sterilizer's own; the columns are "
                                    + listing() + "."));
            return false;
        }
        return true;
    }

    private void remarkLeftOut(Set<Column> used, List<Remark> remarks) {
        for (Named file : files) {
            List<String> leftOut = new ArrayList<>();
            for (Column column : file.recording().columns()) {
                if (!used.contains(column)) {
                    leftOut.add(column.name());
                }
            }
            if (!leftOut.isEmpty()) {
                remarks.add(new Remark(
                        Mistake.COLUMNS_LEFT_OUT.id(),
                        Rank.NOTE,
                        file.name(),
                        "These columns have no role and were left out: " + String.join(", ", leftOut)
                                + ". Name them under channels if they belong to the test."));
            }
        }
    }
}
