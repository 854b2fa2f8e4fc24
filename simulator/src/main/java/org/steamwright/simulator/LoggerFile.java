package org.steamwright.simulator;

import java.nio.charset.StandardCharsets;

/**
 * The file that a simulated logger leaves behind: comma separated values in UTF-8 whose first line says that it is
 * simulated.
 */
public final class LoggerFile {
    /** First line of every simulated recording. */
    public static final String MARK = "# Steamwright simulated recording - invented data, not a real cycle";

    private final String name;
    private final byte[] bytes;

    LoggerFile(String name, byte[] bytes) {
        this.name = name;
        this.bytes = bytes;
    }

    /** Name without folder. */
    public String name() {
        return name;
    }

    /** Content as a new array. */
    public byte[] bytes() {
        return bytes.clone();
    }

    /** Size in bytes. */
    public long size() {
        return bytes.length;
    }

    /** Content as text. */
    public String text() {
        return new String(bytes, StandardCharsets.UTF_8);
    }
}
