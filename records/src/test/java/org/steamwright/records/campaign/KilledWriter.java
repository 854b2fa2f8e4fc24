package org.steamwright.records.campaign;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;

/**
 * A program that writes until it is killed. It says each number on its output once the submission with that number was
 * acknowledged. Arguments: folder, first number, last number, and the address of a server if there is one.
 */
public final class KilledWriter {

    private KilledWriter() {}

    /** The writer. */
    public static void main(String[] arguments) {
        Place place =
                new Place(Path.of(arguments[0]), arguments.length > 3 ? Optional.of(arguments[3]) : Optional.empty());
        int last = Integer.parseInt(arguments[2]);
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        try (Records records = Records.open(place, Clock.systemUTC())) {
            out.println("open");
            for (int number = Integer.parseInt(arguments[1]); number <= last; number++) {
                records.append(submission(records, number));
                out.println(number);
            }
        } catch (RecordsException e) {
            out.println("refused " + e.id());
        }
    }

    /** The submission with that number, the same in every program: four facts and a file. */
    static Submission submission(Records records, int number) {
        KeptFile file =
                records.files().put(("recording " + number + "\n").repeat(40).getBytes(StandardCharsets.UTF_8));
        SubjectId visit = new SubjectId(new UUID(0x0192_0000_0000_7000L, 0x8000_0000_0000_0000L | number));
        List<Change> changes = new ArrayList<>(Records.changes(
                Kind.VISIT,
                visit,
                Map.of(
                        "number",
                        "V-" + number,
                        "date",
                        "2026-03-02",
                        "instruments",
                        List.of("LOG-" + number % 3),
                        "files/run-1.csv",
                        Map.of("sha256", file.sha256().hex(), "size", file.size()))));
        return new Submission(
                new UUID(0x0193_0000_0000_7000L, 0x8000_0000_0000_0000L | number),
                new Author("Alex Example", "technician"),
                changes);
    }

    /** Entries of one submission. */
    static final int ENTRIES = 4;
}
