package org.steamwright.filing;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

/** A program of its own that signs a visit and says so, to be killed at any moment. */
final class KilledSigner {

    static final String NAME = "Kim Sample (invented)";
    static final String NUMBER = "DEMO-2026-001";
    static final Author KIM = new Author(NAME, "technician");
    static final Clock CLOCK = Clock.fixed(Instant.parse("2026-03-04T09:00:00Z"), ZoneOffset.ofHours(10));

    private KilledSigner() {}

    static char[] secret() {
        return "open sesame 1".toCharArray();
    }

    /** Signs the visit of the record in a folder. */
    public static void main(String[] arguments) throws Exception {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        try (Records records = Records.open(Place.folder(Path.of(arguments[0])), CLOCK, DueInRecord.RULE)) {
            Filing filing = new Filing(records);
            out.println("open");
            filing.sign(filing.open(NUMBER).visit(), NAME, "performed and recorded", secret(), KIM);
            out.println("signed");
        }
    }
}
