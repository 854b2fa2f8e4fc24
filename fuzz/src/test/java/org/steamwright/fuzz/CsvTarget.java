package org.steamwright.fuzz;

import java.io.IOException;

/** Entry for the fuzzer: a recording as text. */
public final class CsvTarget {

    private CsvTarget() {}

    /** One input. */
    public static void fuzzerTestOneInput(byte[] input) throws IOException {
        Doors.CSV.enter(input);
    }
}
