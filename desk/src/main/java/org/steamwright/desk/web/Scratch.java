package org.steamwright.desk.web;

import java.io.IOException;
import java.nio.file.Path;
import org.eclipse.jetty.util.component.LifeCycle;
import org.steamwright.filing.TemporaryFolder;

/**
 * A folder for uploads that are on their way, which goes with its server: at every ordinary end, be it that the server is
 * closed, that the program is told to stop, or that the start failed. What is killed leaves it to the next to delete.
 */
final class Scratch implements LifeCycle.Listener {

    private final TemporaryFolder folder;

    private Scratch(TemporaryFolder folder) {
        this.folder = folder;
    }

    static Scratch in(Path temporary, boolean isTraining) throws IOException {
        return new Scratch(TemporaryFolder.create(temporary, isTraining ? "training" : "desk"));
    }

    Path folder() {
        return folder.path();
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
        try {
            folder.close();
        } catch (IOException stays) {
            // the next desk deletes it
        }
    }
}
