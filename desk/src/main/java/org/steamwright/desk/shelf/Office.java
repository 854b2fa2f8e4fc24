package org.steamwright.desk.shelf;

import java.time.Clock;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.Filing;
import org.steamwright.records.Records;

/**
 * What every room works with.
 *
 * @param records open
 * @param filing of that record
 * @param visits assessed
 * @param drafts visits that are being written
 * @param clock of the machine, with its zone
 */
public record Office(Records records, Filing filing, AssessedVisits visits, Drafts drafts, Clock clock) {

    /** An office that works with an open record. */
    public static Office with(Records records) {
        Filing filing = new Filing(records);
        return new Office(records, filing, new AssessedVisits(filing), new Drafts(records), records.clock());
    }
}
