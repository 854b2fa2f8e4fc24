package org.steamwright.intake.table;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.DecimalMark;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.UnreadableFileException;

/**
 * A table with one row for each reading (time, channel, value), shown with the channels side by side.
 *
 * <p>Where the channels take turns, rows stream: those that follow one another with the same time become one. Where one
 * channel stands behind another as a whole, the readings are kept, and their number is limited. Whatever is no reading
 * (lines before, between and behind) is handed on as it stands. The number of a row is that of its first reading.
 */
final class LongTable implements Table {

    /** Channels of one file; more different words are no channels. */
    private static final int MOST_CHANNELS = 200;

    /** Readings that are kept where channels stand one behind another, about 100 MB. */
    static final int MOST_KEPT = 1_000_000;

    private static final int SHOWN = 8;

    private final Table inner;
    private final LongShape shape;
    private final Looked looked;

    private LongTable(Table inner, LongShape shape, Looked looked) {
        this.inner = inner;
        this.shape = shape;
        this.looked = looked;
    }

    /**
     * The table with its channels side by side, after a pass over all of it; empty if it has one channel only, and is
     * read as it stands.
     *
     * @throws UnreadableFileException if a channel has two readings for one time, or two units
     */
    static Optional<LongTable> of(Table inner, LongShape shape) throws IOException, UnreadableFileException {
        Looked looked = new Looked(inner.fileName(), shape);
        Ending ending = inner.each(looked);
        if (looked.channels.size() < 2 || looked.isNoLongTable) {
            return Optional.empty();
        }
        looked.finish(ending == Ending.OPEN);
        return Optional.of(new LongTable(inner, shape, looked));
    }

    /** One channel of the file. */
    private static final class Member {
        final int place;
        final String unit;
        final int firstLine;
        int readings;
        int lastLine;
        int decimals = -1;

        Member(int place, String unit, int firstLine) {
            this.place = place;
            this.unit = unit;
            this.firstLine = firstLine;
        }
    }

    /** The first pass: which channels there are, how they stand, what is missing or doubled. */
    private static final class Looked implements RowTaker {
        final Map<String, Member> channels = new LinkedHashMap<>();
        private final String file;
        private final LongShape shape;
        private final List<Remark> remarks = new ArrayList<>();
        private final Map<String, String> group = new HashMap<>();
        private String time = "";
        private String channel = "";
        private int switches;
        private int sharedTimes;
        private int times;
        private int firstIncompleteLine;
        private int incomplete;
        private int groupLine;
        private int repeated;
        private int firstRepeatedLine;
        private int readings;
        private int lastDecimals = -1;
        private int decimalsBefore = -1;
        private Optional<UnreadableFileException> contradiction = Optional.empty();
        boolean isNoLongTable;
        int cutLine;

        Looked(String file, LongShape shape) {
            this.file = file;
            this.shape = shape;
        }

        @Override
        public boolean take(Row row) throws UnreadableFileException {
            if (row.line < shape.firstDataLine() || !isReading(row, shape)) {
                return true;
            }
            String name = row.text(shape.channel());
            String unit = shape.unit() < 0 ? "" : row.text(shape.unit());
            Member member = channels.get(name);
            if (member == null) {
                if (channels.size() == MOST_CHANNELS) {
                    isNoLongTable = true;
                    return false;
                }
                member = new Member(channels.size(), unit, row.line);
                channels.put(name, member);
            } else if (!member.unit.equals(unit) && !unit.isEmpty()) {
                throw new UnreadableFileException(
                        IntakeMessage.CHANNEL_CONTRADICTS_ITSELF,
                        file,
                        "row " + row.line,
                        Sentence.of(
                                "channel \"%s\" is in \"%s\" here and in \"%s\" in row %s. Each channel may have one"
                                        + " unit. Export again with one setting.",
                                name, unit, member.unit, member.firstLine));
            }
            String moment = shape.time(row);
            if (!moment.equals(time)) {
                endGroup();
                time = moment;
                groupLine = row.line;
                times++;
            } else if (!name.equals(channel)) {
                sharedTimes++;
            }
            switches += name.equals(channel) ? 0 : 1;
            channel = name;
            String value = row.text(shape.value());
            String before = group.putIfAbsent(name, value);
            if (before != null) {
                repeat(row.line, name, moment, before, value);
            }
            readings++;
            member.readings += before == null ? 1 : 0;
            member.lastLine = row.line;
            decimalsBefore = member.decimals;
            lastDecimals = decimals(value);
            member.decimals = lastDecimals;
            return true;
        }

        private void repeat(int line, String name, String moment, String before, String value) {
            if (before.equals(value)) {
                repeated++;
                firstRepeatedLine = firstRepeatedLine == 0 ? line : firstRepeatedLine;
            } else if (contradiction.isEmpty()) {
                contradiction = Optional.of(new UnreadableFileException(
                        IntakeMessage.CHANNEL_CONTRADICTS_ITSELF,
                        file,
                        "row " + line,
                        Sentence.of(
                                "channel \"%s\" reads %s at %s here and %s in a row before. Each channel may have one"
                                        + " reading at a time. Export with fractions of a second, or one file per"
                                        + " logger.",
                                name, value, moment, before)));
            }
        }

        private void endGroup() {
            if (!group.isEmpty() && group.size() < channels.size()) {
                incomplete++;
                firstIncompleteLine = firstIncompleteLine == 0 ? groupLine : firstIncompleteLine;
            }
            group.clear();
        }

        /** Whether every channel stands as a whole behind another. */
        boolean isInBlocks() {
            return switches == channels.size() && sharedTimes < channels.size();
        }

        void finish(boolean isOpen) throws UnreadableFileException {
            endGroup();
            if (contradiction.isPresent()) {
                throw contradiction.get();
            }
            Member last = channels.get(channel);
            if (isOpen && last != null && lastDecimals < decimalsBefore) {
                cutLine = last.lastLine;
                remarks.add(new Remark(
                        IntakeMessage.LAST_LINE_CUT.id(),
                        Rank.DOUBT,
                        file + ", row " + cutLine,
                        "The last line has no end of line, and its number has fewer digits than the one before of the"
                                + " same channel: it was cut, as in a file that is still being written or was not"
                                + " copied to the end. The recording is read up to the row before. Copy the file again"
                                + " if the logger has more."));
            }
            if (repeated > 0) {
                remarks.add(new Remark(
                        IntakeMessage.READING_REPEATED.id(),
                        Rank.DOUBT,
                        file + ", row " + firstRepeatedLine,
                        Sentence.of(
                                "%s row%s, the first in row %s, %s channel, time and reading of a row before and %s"
                                        + " taken once. Was the file joined from parts that overlap?",
                                repeated,
                                repeated == 1 ? "" : "s",
                                firstRepeatedLine,
                                repeated == 1 ? "repeats" : "repeat",
                                repeated == 1 ? "is" : "are")));
            }
            if (isInBlocks() && readings > MOST_KEPT) {
                throw new UnreadableFileException(
                        IntakeMessage.FILE_TOO_LARGE,
                        file,
                        "",
                        Sentence.of(
                                "the file has %s readings, one channel behind another; at most %s are put side by side"
                                        + " from such a file. Export the channels side by side, or one file per channel.",
                                readings, MOST_KEPT));
            }
            if (!isInBlocks() && incomplete > 0) {
                remarks.add(missing(
                        firstIncompleteLine,
                        Sentence.of(
                                "At %s of %s times, the first in row %s, some channel of the file has no row.",
                                incomplete, times, firstIncompleteLine)));
            }
            if (isInBlocks()) {
                int all = channels.values().iterator().next().readings;
                for (Map.Entry<String, Member> other : channels.entrySet()) {
                    if (other.getValue().readings < all) {
                        remarks.add(missing(
                                other.getValue().firstLine,
                                Sentence.of(
                                        "Channel \"%s\" has %s rows, and the first channel of the file has %s.",
                                        other.getKey(), other.getValue().readings, all)));
                    }
                }
            }
        }

        private Remark missing(int line, String what) {
            return new Remark(
                    IntakeMessage.READINGS_MISSING.id(),
                    Rank.DOUBT,
                    file + ", row " + line,
                    what + " There is no reading of it at these moments; nothing was filled in.");
        }
    }

    private static int decimals(String value) {
        int mark = Math.max(value.lastIndexOf('.'), value.lastIndexOf(','));
        return mark < 0 ? 0 : value.length() - mark - 1;
    }

    private static boolean isReading(Row row, LongShape shape) {
        return shape.hasTime(row) && !row.isEmpty(shape.channel()) && !isComment(row) && !isHeader(row, shape);
    }

    private static boolean isComment(Row row) {
        return row.to[0] - row.from[0] > 1 && row.chars[row.from[0]] == '#';
    }

    private static boolean isHeader(Row row, LongShape shape) {
        return !shape.header().isEmpty() && Arrays.asList(row.texts()).equals(shape.header());
    }

    /** How the table was understood. */
    String explanation() {
        List<String> names = new ArrayList<>();
        for (String name : looked.channels.keySet()) {
            if (names.size() == SHOWN) {
                names.add("…");
                break;
            }
            names.add("\"" + title(name) + "\"");
        }
        return Sentence.of(
                "one row for each reading: channel in column %s, reading in column %s%s; %s channels, %s, are put side by"
                        + " side as columns of their own: %s",
                shape.name(shape.channel()),
                shape.name(shape.value()),
                shape.unit() < 0 ? "" : ", unit in column " + shape.name(shape.unit()),
                looked.channels.size(),
                looked.isInBlocks() ? "one behind another" : "in turn",
                String.join(", ", names));
    }

    /** What is missing, doubled or cut. */
    List<Remark> remarks() {
        return List.copyOf(looked.remarks);
    }

    private String title(String channel) {
        return shape.channelName().isEmpty() ? channel : shape.channelName() + " " + channel;
    }

    private Row header(long line) {
        Row row = new Row();
        row.begin(line);
        for (int c : shape.time()) {
            boolean isDate = shape.time().size() > 1 && c == shape.time().get(0);
            row.add(c < shape.header().size() ? shape.header().get(c) : isDate ? "date" : "time");
        }
        for (Map.Entry<String, Member> channel : looked.channels.entrySet()) {
            String unit = channel.getValue().unit.isEmpty() ? shape.valueUnit() : channel.getValue().unit;
            row.add(title(channel.getKey()) + (unit.isEmpty() ? "" : " (" + unit + ")"));
        }
        return row;
    }

    @Override
    public String fileName() {
        return inner.fileName();
    }

    @Override
    public char delimiter() {
        return inner.delimiter();
    }

    @Override
    public Optional<DecimalMark> decimalMark() {
        return inner.decimalMark();
    }

    @Override
    public Fingerprint fingerprint() {
        return inner.fingerprint();
    }

    @Override
    public Ending each(RowTaker taker) throws IOException, UnreadableFileException {
        Sides sides = new Sides(taker);
        Ending ending = inner.each(sides);
        if (ending == Ending.STOPPED) {
            return ending;
        }
        boolean isWanted = looked.isInBlocks() ? sides.giveBlocks() : sides.give();
        // a cut last line was dropped, and told
        return isWanted ? Ending.COMPLETE : Ending.STOPPED;
    }

    /** Puts readings side by side and hands them on. */
    private final class Sides implements RowTaker {
        private final RowTaker taker;
        private final Row wide = new Row();
        private final String[] values = new String[looked.channels.size()];
        private final List<String> times = new ArrayList<>();
        private String time = "";
        private int line;
        private boolean isHeaderGiven;

        /** By time: the readings of all channels, where these stand one behind another. */
        private final Map<String, Kept> kept = new LinkedHashMap<>();

        Sides(RowTaker taker) {
            this.taker = taker;
            Arrays.fill(values, "");
        }

        @Override
        public boolean take(Row row) throws UnreadableFileException {
            if (row.line < shape.firstDataLine()) {
                if (row.line == shape.headerLine()) {
                    isHeaderGiven = true;
                    return taker.take(header(row.line));
                }
                return row.line == shape.unitLine() || taker.take(row);
            }
            if (!isHeaderGiven) {
                isHeaderGiven = true;
                if (!taker.take(header(0))) {
                    return false;
                }
            }
            if (!isReading(row, shape)) {
                boolean isHeader = isHeader(row, shape);
                return looked.isInBlocks()
                        ? isHeader || taker.take(row)
                        : give() && taker.take(isHeader ? header(row.line) : row);
            }
            if (row.line == looked.cutLine) {
                return true;
            }
            Member member = looked.channels.get(row.text(shape.channel()));
            if (member == null) {
                throw new UnreadableFileException(
                        IntakeMessage.FILE_CHANGED,
                        inner.fileName(),
                        "row " + row.line,
                        "the file was changed while it was being read: a channel is new. Wait until nothing writes to it"
                                + " any more, or make a copy and read that.");
            }
            String moment = shape.time(row);
            if (looked.isInBlocks()) {
                keep(row, member, moment);
                return true;
            }
            if (!moment.equals(time)) {
                if (!give()) {
                    return false;
                }
                begin(row, moment);
            }
            values[member.place] = row.text(shape.value());
            return true;
        }

        private void begin(Row row, String moment) {
            time = moment;
            line = row.line;
            times.clear();
            for (int c : shape.time()) {
                times.add(row.text(c));
            }
        }

        private void keep(Row row, Member member, String moment) throws UnreadableFileException {
            Kept moments = kept.get(moment);
            if (moments == null) {
                if (member.place > 0) {
                    throw new UnreadableFileException(
                            IntakeMessage.CHANNELS_HAVE_OTHER_TIMES,
                            inner.fileName(),
                            "row " + row.line,
                            Sentence.of(
                                    "channel \"%s\" has a reading at %s, and the first channel of the file has none."
                                            + " Channels that stand one behind another are put side by side only if"
                                            + " they share their times. Export one file per channel.",
                                    row.text(shape.channel()), moment));
                }
                begin(row, moment);
                moments = new Kept(row.line, List.copyOf(times), new String[values.length]);
                Arrays.fill(moments.values(), "");
                kept.put(moment, moments);
            }
            moments.values()[member.place] = row.text(shape.value());
        }

        /** Hands on the row that was begun. */
        boolean give() throws UnreadableFileException {
            if (time.isEmpty()) {
                return true;
            }
            time = "";
            boolean isWanted = give(line, times, values);
            Arrays.fill(values, "");
            return isWanted;
        }

        private boolean give(int number, List<String> moment, String[] readings) throws UnreadableFileException {
            wide.begin(number);
            for (String part : moment) {
                wide.add(part);
            }
            for (String reading : readings) {
                wide.add(reading);
            }
            return taker.take(wide);
        }

        boolean giveBlocks() throws UnreadableFileException {
            for (Kept moments : kept.values()) {
                if (!give(moments.line(), moments.times(), moments.values())) {
                    return false;
                }
            }
            return true;
        }
    }

    @SuppressWarnings("ArrayRecordComponent") // filled in place, one per moment
    private record Kept(int line, List<String> times, String[] values) {}
}
