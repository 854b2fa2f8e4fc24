package org.steamwright.fuzz;

import java.io.IOException;

/** Entry for the fuzzer: a digital calibration certificate. */
public final class DccTarget {

    private DccTarget() {}

    /** One input. */
    public static void fuzzerTestOneInput(byte[] input) throws IOException {
        Doors.DCC.enter(input);
    }
}
