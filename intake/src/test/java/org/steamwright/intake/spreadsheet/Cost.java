package org.steamwright.intake.spreadsheet;

import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.time.ZoneOffset;
import java.util.Optional;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.table.FileBytes;

/**
 * What reading a workbook came to and what it took: time of the processor, so that a busy machine does not count, and all
 * bytes ever allocated, which is more than were held at once.
 */
record Cost(Optional<IntakeMessage> refusedBy, String said, long nanos, long allocated) {

    private static final ReadingChoices CHOICES =
            ReadingChoices.inZone(ZoneOffset.UTC).build();

    static Cost ofReading(byte[] workbook) {
        ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
        long allocated = threads.getCurrentThreadAllocatedBytes();
        long nanos = threads.getCurrentThreadCpuTime();
        Optional<IntakeMessage> refusedBy = Optional.empty();
        String said;
        try {
            said = HostileWorkbooksTest.said(
                    SpreadsheetRecordings.read(FileBytes.of("recording.xlsx", workbook), CHOICES));
        } catch (UnreadableFileException refused) {
            refusedBy = Optional.of(refused.id());
            said = String.valueOf(refused.getMessage());
        } catch (IOException disk) {
            throw new UncheckedIOException(disk);
        }
        return new Cost(
                refusedBy,
                said,
                threads.getCurrentThreadCpuTime() - nanos,
                threads.getCurrentThreadAllocatedBytes() - allocated);
    }
}
