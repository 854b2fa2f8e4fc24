package org.steamwright.simulator;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import org.steamwright.assessment.verdict.TestRun;

/**
 * A simulated run: what an assessment gets, the files of the loggers and the truth.
 *
 * @param scenario as it ran, faults applied
 * @param seed it ran with
 * @param testRun ready to be assessed; its values are those of the files
 * @param files of the loggers, the one with the pressure first
 * @param truth what really happened
 */
public record SimulatedRun(Scenario scenario, long seed, TestRun testRun, List<LoggerFile> files, Truth truth) {

    public SimulatedRun {
        files = List.copyOf(files);
    }

    /**
     * Writes the loggers' files into a folder and never over an existing file.
     *
     * @return the files, in the order of {@link #files()}
     * @throws IOException if the folder can't be written to or holds a file of that name
     */
    public List<Path> writeCsv(Path folder) throws IOException {
        Files.createDirectories(folder);
        List<Path> written = new ArrayList<>();
        for (LoggerFile file : files) {
            Path path = folder.resolve(file.name());
            Files.write(path, file.bytes(), StandardOpenOption.CREATE_NEW);
            written.add(path);
        }
        return List.copyOf(written);
    }
}
