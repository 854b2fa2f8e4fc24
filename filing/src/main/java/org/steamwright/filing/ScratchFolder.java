package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import org.steamwright.records.Blobs;
import org.steamwright.records.proof.Hash;

/** A visit folder for the time of one computation. */
final class ScratchFolder implements AutoCloseable {

    private final TemporaryFolder folder;

    /** Puts the files in. */
    @FunctionalInterface
    private interface Filling {
        void into(Path folder) throws IOException, FilingException;
    }

    ScratchFolder(Map<String, byte[]> files) throws IOException, FilingException {
        this(folder -> VisitFiles.write(folder, files));
    }

    /** With files of the record, which are copied without being held in memory. */
    ScratchFolder(Blobs from, Map<String, Hash> files) throws IOException, FilingException {
        this(folder -> VisitFiles.copy(folder, from, files));
    }

    private ScratchFolder(Filling filling) throws IOException, FilingException {
        folder = TemporaryFolder.create("visit");
        boolean isWritten = false;
        try {
            filling.into(folder.path());
            isWritten = true;
        } finally {
            if (!isWritten) {
                close();
            }
        }
    }

    Path folder() {
        return folder.path();
    }

    @Override
    public void close() throws IOException {
        folder.close();
    }
}
