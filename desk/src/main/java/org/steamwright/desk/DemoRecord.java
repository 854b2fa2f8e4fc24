package org.steamwright.desk;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.simulator.DemoVisit;

/** Fills a record with the year of an invented clinic. */
final class DemoRecord {

    private static final Author OFFICE = new Author("Kim Sample (invented)", "technician");
    private static final List<String> WHY = List.of("", "indicators read", "");

    private DemoRecord() {}

    /**
     * Takes the year in; a record that holds visits already is left as it is.
     *
     * @throws IOException if the disk fails
     */
    static void fill(Records records, Path folder) throws IOException {
        if (!records.subjects(Kind.VISIT, 1).isEmpty()) {
            return;
        }
        try {
            Filing filing = new Filing(records);
            Path year = folder.resolve("year");
            List<Path> visits = DemoVisit.writeYear(year);
            for (int i = 0; i < visits.size(); i++) {
                filing.take(visits.get(i), OFFICE, WHY.get(i));
            }
            new RegisterFiling(records).take(year.resolve("office"), OFFICE, "");
        } catch (FilingException | VisitFolderException | RegisterException broken) {
            throw new IllegalStateException("the invented year does not fit this version of the program", broken);
        }
    }
}
