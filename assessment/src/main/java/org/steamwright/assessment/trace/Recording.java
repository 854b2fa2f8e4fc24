package org.steamwright.assessment.trace;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.remark.Remark;

/**
 * One file as it was read.
 *
 * @param fileName name without folder
 * @param bytes size of the file
 * @param sha256 of the file's bytes, 64 lower-case hexadecimal digits
 * @param start moment of the first sample; empty if the file has elapsed time only
 * @param zone zone in which the file's clock was read
 * @param axis seconds from the first sample
 * @param columns in the order of the file
 * @param remarks what was odd
 * @param explanation how the file was understood, one line each (delimiter, decimal mark, encoding, …)
 * @param isSimulated whether the file says that it was simulated
 */
public record Recording(
        String fileName,
        long bytes,
        String sha256,
        Optional<Instant> start,
        ZoneId zone,
        TimeAxis axis,
        List<Column> columns,
        List<Remark> remarks,
        List<String> explanation,
        boolean isSimulated) {

    public Recording {
        columns = List.copyOf(columns);
        remarks = List.copyOf(remarks);
        explanation = List.copyOf(explanation);
        for (Column column : columns) {
            if (column.size() != axis.size()) {
                throw new IllegalArgumentException(
                        "column %s has %s values for %s samples".formatted(column.name(), column.size(), axis.size()));
            }
        }
    }

    /** The column of that name, ignoring case and outer blanks. */
    public Optional<Column> findColumn(String name) {
        return columns.stream()
                .filter(column -> column.name().strip().equalsIgnoreCase(name.strip()))
                .findFirst();
    }
}
