package org.steamwright.fuzz;

import java.io.IOException;

/** Entry for the fuzzer: a workbook. */
public final class XlsxTarget {

    private XlsxTarget() {}

    /** One input. */
    public static void fuzzerTestOneInput(byte[] input) throws IOException {
        Doors.XLSX.enter(input);
    }
}
