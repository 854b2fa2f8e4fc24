package org.steamwright.desk.shelf;

import java.time.Clock;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.Filing;
import org.steamwright.filing.KeptResults;
import org.steamwright.records.Records;

/**
 * What every room works with.
 *
 * @param records open
 * @param filing of that record
 * @param visits assessed
 * @param drafts visits that are being written
 * @param results what lists over all visits show
 * @param counts over the whole record
 * @param clock of the machine, with its zone
 * @param rules that the office has settled
 */
public record Office(
        Records records,
        Filing filing,
        AssessedVisits visits,
        Drafts drafts,
        KeptResults results,
        WholeCounts counts,
        Clock clock,
        Rules rules) {

    /** An office that works with an open record. */
    public static Office with(Records records) {
        return with(records, Rules.USUAL);
    }

    /** The same with what the office has settled. */
    public static Office with(Records records, Rules rules) {
        Filing filing = new Filing(records);
        Drafts drafts = new Drafts(records);
        AssessedVisits visits = new AssessedVisits(drafts);
        return new Office(
                records,
                filing,
                visits,
                drafts,
                new KeptResults(records, visits::of),
                new WholeCounts(records),
                records.clock(),
                rules);
    }
}
