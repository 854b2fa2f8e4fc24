package org.steamwright.desk.training;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;
import org.steamwright.desk.shelf.Alarms;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.TrainingRecord;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

/**
 * The training record and the desk that it is shown on: another folder, another port of this machine alone, another session.
 * Opened when somebody wants it, and deleted in one act.
 */
public final class TrainingGround implements AutoCloseable {

    private final Path folder;
    private final int port;
    private final Clock clock;
    private final RandomGenerator random;
    private final Function<Office, List<Route>> desk;
    private @Nullable Records records;
    private @Nullable DeskServer server;

    /**
     * @param folder of the training record; made when it is opened
     * @param port to listen on; 0 for any that is free
     * @param clock of the machine, with its zone
     * @param random draws faults and seeds
     * @param desk the routes of a desk on a record
     */
    public TrainingGround(
            Path folder, int port, Clock clock, RandomGenerator random, Function<Office, List<Route>> desk) {
        this.folder = folder;
        this.port = port;
        this.clock = clock;
        this.random = random;
        this.desk = desk;
    }

    /** Where the training of a record lies: in a folder beside it. */
    public static Path beside(Path record) {
        Path name = Optional.ofNullable(record.toAbsolutePath().normalize().getFileName())
                .orElse(Path.of("record"));
        return record.toAbsolutePath().normalize().resolveSibling(name + "-training");
    }

    /** Address of the open training desk; empty text if it is not open. */
    public synchronized String address() {
        return server == null ? "" : "http://127.0.0.1:" + server.port() + "/training";
    }

    /**
     * Opens the training desk; nothing happens if it is open already.
     *
     * @param trainee whose name stands in its journal
     * @throws IOException if something else lies in its folder, or the port is taken
     */
    public synchronized void open(String trainee) throws IOException {
        if (server != null) {
            return;
        }
        TrainingRecord.prepare(folder);
        Records opened = Records.open(Place.folder(folder), clock, DueInRecord.RULE);
        boolean isOpen = false;
        try {
            Office office = Office.with(opened);
            server = DeskServer.start(new DeskServer.Setup.Maker(
                            TrainingRoutes.on(desk.apply(office), office, random, this::delete),
                            Doorkeeper.single(trainee),
                            DeskServer.temporary())
                    .port(port)
                    .training()
                    .alarm(() -> Alarms.of(office))
                    .make());
            records = opened;
            isOpen = true;
        } finally {
            if (!isOpen) {
                opened.close();
            }
        }
    }

    /** Waits until the training desk is closed. */
    public void join() throws InterruptedException {
        DeskServer running;
        synchronized (this) {
            running = server;
        }
        if (running != null) {
            running.join();
        }
    }

    /** Deletes every file of the training and closes its desk, once the answer that says so is on its way. */
    private void delete() {
        DeskServer closing;
        synchronized (this) {
            if (records != null) {
                records.close();
                records = null;
            }
            closing = server;
            server = null;
            try {
                TrainingRecord.delete(folder);
            } catch (IOException failed) {
                throw new UncheckedIOException(failed);
            }
        }
        if (closing != null) {
            // the server finishes the answer to this very request before it goes
            Thread closer = new Thread(() -> close(closing), "training-closes");
            closer.setDaemon(true);
            closer.start();
        }
    }

    private static void close(DeskServer server) {
        try {
            server.close();
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    @Override
    public synchronized void close() throws IOException {
        if (server != null) {
            server.close();
            server = null;
        }
        if (records != null) {
            records.close();
            records = null;
        }
    }
}
