package org.steamwright.desk.path;

import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.FactPath;

/**
 * A cycle that is under way. Several may be, one in each sterilizer.
 *
 * @param run number of the run
 * @param since when it was started
 */
public record Running(int run, Instant since) {

    /** Notes of what takes how long begin with this. */
    static final String LENGTH = "cycle-length/";

    /** Notes of when the plateau begins begin with this. */
    static final String PLATEAU = "cycle-plateau/";

    private static final String NOTE = "running/";
    /** One note for the only cycle under way, as older visits have it. */
    private static final String SINGLE = "running";

    private static final Pattern TIME =
            Pattern.compile("(?:([0-9]{1,2}) ?h)? ?(?:([0-9]{1,3})(?: ?min| ?mn)?)?", Pattern.CASE_INSENSITIVE);
    private static final Duration LONGEST = Duration.ofHours(24);

    /** What notes of the way say is under way, the earliest first. */
    static List<Running> all(Draft draft) {
        List<Running> all = new ArrayList<>();
        String[] single = draft.note(SINGLE).split(" ", 2);
        if (single.length == 2) {
            noted(single[0], single[1]).ifPresent(all::add);
        }
        draft.notes().forEach((name, since) -> {
            if (name.startsWith(NOTE)) {
                noted(name.substring(NOTE.length()), since)
                        .filter(one -> all.stream().noneMatch(other -> other.run == one.run))
                        .ifPresent(all::add);
            }
        });
        // what has its recording is over, also if nobody said so
        all.removeIf(
                one -> draft.find(FactPath.of("runs", one.run, "recording")).isPresent());
        all.sort(Comparator.comparing(Running::since));
        return List.copyOf(all);
    }

    private static Optional<Running> noted(String run, String since) {
        try {
            return Optional.of(new Running(Integer.parseInt(run), Instant.parse(since)));
        } catch (NumberFormatException | DateTimeException e) {
            // a note that somebody else wrote says nothing here
            return Optional.empty();
        }
    }

    /** Whether a run is under way. */
    static boolean is(Draft draft, int run) {
        return all(draft).stream().anyMatch(one -> one.run == run);
    }

    /** Notes that a cycle was started; what ran in the same sterilizer has ended by that. */
    static void start(Draft draft, DraftChange change, int run, Instant now) {
        List<Running> after = new ArrayList<>(all(draft));
        after.removeIf(one -> one.run == run || machine(draft, one.run).equals(machine(draft, run)));
        after.add(new Running(run, now));
        note(draft, change, after);
    }

    /** Notes that a cycle has ended. */
    static void end(Draft draft, DraftChange change, int run) {
        note(draft, change, all(draft).stream().filter(one -> one.run != run).toList());
    }

    /** A run was taken away: later ones follow in number. */
    static void renumber(Draft draft, DraftChange change, int gone) {
        note(
                draft,
                change,
                all(draft).stream()
                        .filter(one -> one.run != gone)
                        .map(one -> one.run > gone ? new Running(one.run - 1, one.since) : one)
                        .toList());
    }

    private static void note(Draft draft, DraftChange change, List<Running> all) {
        change.note(SINGLE, "");
        draft.notes().keySet().stream().filter(name -> name.startsWith(NOTE)).forEach(name -> change.note(name, ""));
        all.forEach(one -> change.note(NOTE + one.run, one.since.toString()));
    }

    /** Key of the sterilizer of a run; the only one if the run names none. */
    static String machine(Draft draft, int run) {
        String named = draft.text(FactPath.of("runs", run, "sterilizer"));
        return named.isBlank() && draft.count(FactPath.of("sterilizers")) == 1
                ? draft.text(FactPath.of("sterilizers", 1, "key"))
                : named;
    }

    /** What runs of a kind have in common for their length: sterilizer, and cycle or kind. */
    static String sort(Draft draft, int run) {
        String cycle = draft.text(FactPath.of("runs", run, "cycle"));
        return machine(draft, run) + "/" + (cycle.isBlank() ? draft.text(FactPath.of("runs", run, "kind")) : cycle);
    }

    /** The same in the words of the reader. */
    static String sortWords(Draft draft, int run, Frame frame) {
        String cycle = draft.text(FactPath.of("runs", run, "cycle"));
        String kind = draft.text(FactPath.of("runs", run, "kind"));
        return Stream.of(
                        machine(draft, run),
                        cycle.isBlank()
                                ? frame.words().find("path.word." + kind).orElse(kind)
                                : cycle)
                .filter(word -> !word.isBlank())
                .collect(Collectors.joining(", "));
    }

    /** A length as a note says it; empty if it says none. */
    static Optional<Duration> length(String text) {
        Matcher time = TIME.matcher(text.strip());
        if (!time.matches()) {
            return Optional.empty();
        }
        Duration length = Duration.ofHours(number(time.group(1))).plusMinutes(number(time.group(2)));
        return length.isZero() || length.compareTo(LONGEST) > 0 ? Optional.empty() : Optional.of(length);
    }

    private static long number(@Nullable String digits) {
        return digits == null ? 0 : Long.parseLong(digits);
    }
}
