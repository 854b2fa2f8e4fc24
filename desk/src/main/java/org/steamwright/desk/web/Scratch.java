package org.steamwright.desk.web;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.eclipse.jetty.util.IO;
import org.eclipse.jetty.util.component.LifeCycle;

/**
 * A folder for uploads that are on their way, which goes with its server: at every ordinary end, be it that the server is
 * closed, that the program is told to stop, or that the start failed. What is killed leaves it behind.
 */
final class Scratch implements LifeCycle.Listener {

    private final Path folder;

    private Scratch(Path folder) {
        this.folder = folder;
    }

    static Scratch in(Path temporary, boolean isTraining) throws IOException {
        Files.createDirectories(temporary);
        return new Scratch(
                Files.createTempDirectory(temporary, isTraining ? "steamwright-training" : "steamwright-desk"));
    }

    Path folder() {
        return folder;
    }

    @Override
    public void lifeCycleStopped(LifeCycle server) {
        delete();
    }

    @Override
    public void lifeCycleFailure(LifeCycle server, Throwable cause) {
        delete();
    }

    void delete() {
        IO.delete(folder);
    }
}
