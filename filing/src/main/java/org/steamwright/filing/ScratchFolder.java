package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** A visit folder for the time of one computation. */
final class ScratchFolder implements AutoCloseable {

    private final Path folder;

    ScratchFolder(Map<String, byte[]> files) throws IOException, FilingException {
        folder = Files.createTempDirectory("steamwright-visit");
        boolean isWritten = false;
        try {
            VisitFiles.write(folder, files);
            isWritten = true;
        } finally {
            if (!isWritten) {
                close();
            }
        }
    }

    Path folder() {
        return folder;
    }

    @Override
    public void close() throws IOException {
        List<Path> all;
        try (Stream<Path> walked = Files.walk(folder)) {
            all = walked.sorted(Comparator.reverseOrder()).toList();
        }
        for (Path one : all) {
            Files.deleteIfExists(one);
        }
    }
}
