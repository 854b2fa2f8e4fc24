package org.steamwright.intake.table;

import java.io.IOException;
import java.io.InputStream;
import org.steamwright.intake.UnreadableFileException;

/** Bytes with a name that can be read from the first on as often as needed. */
public interface ByteSource {

    /** File name without folder. */
    String name();

    /** How many bytes there were when the source was looked at first; reading goes no further. */
    long size();

    /** How many bytes there are now: more if somebody is still writing. */
    long sizeNow() throws IOException;

    /**
     * Opens the bytes at the first one.
     *
     * @throws UnreadableFileException if the system does not give them
     * @throws IOException if the disk fails
     */
    InputStream open() throws IOException, UnreadableFileException;
}
