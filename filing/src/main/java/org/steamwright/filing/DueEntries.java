package org.steamwright.filing;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueStart;
import org.steamwright.records.Records;

/**
 * Entries of the due list that make a page, and where the pages beside it begin.
 *
 * @param entries in the order of the list
 * @param earlier where the page before it begins, if there is one
 * @param later where the page behind it begins, if there is one
 */
public record DueEntries(List<DueDate> entries, Optional<DueStart> earlier, Optional<DueStart> later) {

    /**
     * Reads a page.
     *
     * @param until what falls due up to this day
     * @param length how many entries make a page
     */
    public static DueEntries read(Records records, LocalDate until, DueStart start, int length) {
        List<DueDate> read = records.due(until, start, length + 1);
        List<DueDate> page = read.subList(0, Math.min(length, read.size()));
        Optional<DueStart> earlier = start.isFirst()
                ? Optional.empty()
                : Optional.of(
                        page.isEmpty()
                                ? DueStart.counted(Math.max(0, start.from() - length))
                                : records.earlier(start, DueStart.At.of(page.get(0)), length));
        Optional<DueStart> later = read.size() > length
                ? Optional.of(start.later(length, DueStart.At.of(read.get(length))))
                : Optional.empty();
        return new DueEntries(List.copyOf(page), earlier, later);
    }
}
