package org.steamwright.desk.shelf;

import java.time.Clock;
import org.steamwright.filing.Filing;
import org.steamwright.records.Records;

/**
 * What every room works with.
 *
 * @param records open
 * @param filing of that record
 * @param visits assessed
 * @param clock of the machine, with its zone
 */
public record Office(Records records, Filing filing, AssessedVisits visits, Clock clock) {

    /** An office that works with an open record. */
    public static Office with(Records records) {
        Filing filing = new Filing(records);
        return new Office(records, filing, new AssessedVisits(filing), records.clock());
    }
}
