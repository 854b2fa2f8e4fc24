package org.steamwright.fuzz;

import java.io.IOException;

/** Entry for the fuzzer: the file of a visit. */
public final class YamlTarget {

    private YamlTarget() {}

    /** One input. */
    public static void fuzzerTestOneInput(byte[] input) throws IOException {
        Doors.YAML.enter(input);
    }
}
