package org.steamwright.intake.table;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Optional;
import org.steamwright.intake.DateOrder;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.TimeMark;
import org.steamwright.intake.UnreadableFileException;

/**
 * The part of a file's time that somebody wants, compared row by row with the time as the file's clock shows it. In an
 * hour that the clocks show twice both passes belong to it.
 */
final class ChosenTime {

    private static final long SECOND = TimeCells.NANOS_PER_SECOND;

    private final String file;
    private final Layout.Time time;
    private final ReadingChoices choices;
    private final DateOrder order;
    private Optional<Edges> byClock = Optional.empty();
    private Optional<Edges> byMoment = Optional.empty();

    /** First and last wanted nanosecond on one axis. */
    private record Edges(long from, long to) {
        int sideOf(long nanos) {
            return nanos < from ? -1 : nanos > to ? 1 : 0;
        }
    }

    /**
     * @param order of the dates; any where the file has none
     */
    ChosenTime(String file, Layout.Time time, ReadingChoices choices, DateOrder order) {
        this.file = file;
        this.time = time;
        this.choices = choices;
        this.order = order;
    }

    /** Whether the last row lies before (-1), in (0) or behind (1) the wanted time. */
    int sideOfLast(TimeCells cells) throws UnreadableFileException {
        if (time.hasDate()) {
            long moment = cells.lastMoment(order);
            if (cells.hasLastOffset()) {
                if (byMoment.isEmpty()) {
                    byMoment = Optional.of(
                            new Edges(utc(choices.from(), Long.MIN_VALUE), utc(choices.to(), Long.MAX_VALUE)));
                }
                return byMoment.get().sideOf(moment);
            }
            if (byClock.isEmpty()) {
                byClock = Optional.of(
                        new Edges(local(choices.from(), Long.MIN_VALUE), local(choices.to(), Long.MAX_VALUE)));
            }
            return byClock.get().sideOf(moment);
        }
        if (byClock.isEmpty()) {
            byClock = Optional.of(withoutDate(cells.firstClock()));
        }
        return byClock.get().sideOf(cells.lastNanos());
    }

    private Edges withoutDate(long firstClock) throws UnreadableFileException {
        if (time.kind() == Layout.TimeKind.NUMBER && time.unit().isMoment()) {
            return new Edges(utc(choices.from(), Long.MIN_VALUE), utc(choices.to(), Long.MAX_VALUE));
        }
        boolean isClock = time.kind() == Layout.TimeKind.CLOCK;
        long zero = isClock ? firstClock : 0;
        long from = elapsed(choices.from(), Long.MIN_VALUE, zero);
        long to = elapsed(choices.to(), Long.MAX_VALUE, zero);
        if (isClock && choices.from().flatMap(TimeMark::seconds).isPresent() && from < firstClock) {
            from += TimeCells.NANOS_PER_DAY;
        }
        if (isClock && choices.to().flatMap(TimeMark::seconds).isPresent() && to < Math.max(from, firstClock)) {
            to += TimeCells.NANOS_PER_DAY;
        }
        return new Edges(from, to);
    }

    private long elapsed(Optional<TimeMark> mark, long open, long zero) throws UnreadableFileException {
        if (mark.isEmpty()) {
            return open;
        }
        if (mark.get().seconds().isPresent()) {
            return Math.round(mark.get().seconds().get() * SECOND);
        }
        if (choices.start().isEmpty()) {
            throw unfit(
                    mark.get(),
                    "the file tells no date. Write hours, minutes and seconds as its time column counts them, such as"
                            + " 00:10:00, or tell the start as well");
        }
        return Duration.between(choices.start().get(), moment(mark.get())).toNanos() + zero;
    }

    private long utc(Optional<TimeMark> mark, long open) throws UnreadableFileException {
        return mark.isEmpty() ? open : nanos(moment(mark.get()));
    }

    private Instant moment(TimeMark mark) throws UnreadableFileException {
        if (mark.moment().isPresent()) {
            return mark.moment().get();
        }
        LocalDateTime local = mark.local().orElseThrow(() -> dateNeeded(mark));
        return local.atZone(zone(local.toInstant(ZoneOffset.UTC))).toInstant();
    }

    private long local(Optional<TimeMark> mark, long open) throws UnreadableFileException {
        if (mark.isEmpty()) {
            return open;
        }
        Optional<Instant> moment = mark.get().moment();
        LocalDateTime local = moment.isPresent()
                ? LocalDateTime.ofInstant(moment.get(), zone(moment.get()))
                : mark.get().local().orElseThrow(() -> dateNeeded(mark.get()));
        return nanos(local.toInstant(ZoneOffset.UTC));
    }

    private ZoneId zone(Instant near) {
        if (time.isUtc()) {
            return ZoneOffset.UTC;
        }
        return choices.hasDaylightSaving() ? choices.zone() : TimeLine.standardTime(choices.zone(), near);
    }

    private static long nanos(Instant moment) {
        return moment.getEpochSecond() * SECOND + moment.getNano();
    }

    private UnreadableFileException dateNeeded(TimeMark mark) {
        return unfit(mark, "the file tells dates. Write date and time, such as 2026-03-02T" + mark);
    }

    private UnreadableFileException unfit(TimeMark mark, String why) {
        return new UnreadableFileException(
                IntakeMessage.CHOICE_DOES_NOT_FIT,
                file,
                "",
                Sentence.of("the chosen time %s can't be found in this file: %s.", mark, why));
    }
}
