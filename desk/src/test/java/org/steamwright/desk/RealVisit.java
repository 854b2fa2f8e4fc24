package org.steamwright.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.simulator.DemoVisit;

/** The invented visit as if its recordings were real, which only a test may do: such a visit can be signed. */
public final class RealVisit {

    /** Its technician. */
    public static final String TECHNICIAN = "Kim Sample (invented)";

    /** Its report number. */
    public static final String NUMBER = "DEMO-2026-001";

    private RealVisit() {}

    /** Writes it to a folder. */
    public static void write(Path folder) throws IOException {
        DemoVisit.write(folder);
        withoutMark(folder);
    }

    /** Writes the visits of the invented year below a folder, as if they were real too. */
    public static void writeYear(Path folder) throws IOException {
        DemoVisit.writeYear(folder);
        withoutMark(folder);
    }

    /** Takes the line away that says of a recording that it was simulated. */
    private static void withoutMark(Path folder) throws IOException {
        List<Path> recordings = new ArrayList<>();
        try (Stream<Path> files = Files.walk(folder)) {
            files.filter(one -> one.toString().endsWith(".csv")).forEach(recordings::add);
        }
        for (Path file : recordings) {
            String text = Files.readString(file);
            if (text.startsWith("# Steamwright simulated")) {
                Files.writeString(file, text.substring(text.indexOf('\n') + 1));
            }
        }
    }

    /** Takes it into a record. */
    public static Subject take(Path folder, Records records) throws Exception {
        Filing filing = new Filing(records);
        filing.take(folder, new Author(TECHNICIAN, "technician"), "");
        return filing.visit(NUMBER).visit();
    }
}
