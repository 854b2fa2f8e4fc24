package org.steamwright.records.store;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;

/** A program that opens a record once a file is there, and writes one clinic. Arguments: folder, that file, name. */
public final class OpenedAtOnce {

    private OpenedAtOnce() {}

    /** The program. */
    public static void main(String[] arguments) {
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        out.println("ready");
        while (!Files.exists(Path.of(arguments[1]))) {
            LockSupport.parkNanos(200_000);
        }
        write(Place.folder(Path.of(arguments[0])), arguments[2]);
        out.println("written");
    }

    static void write(Place place, String name) {
        try (Records records = Records.open(place, Clock.systemUTC())) {
            records.append(
                    new Author("Alex Example", "office"),
                    List.of(Change.set(Kind.CLINIC, records.newSubject(), "name", name)));
        }
    }
}
