package org.steamwright.desk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.DeskServer;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import picocli.CommandLine;

/** Opens the desk on an invented record and looks at its first pages, so that the launcher learns which classes a start takes. */
final class WarmUp {

    /** First argument of a start that only warms up; the second names a folder to throw away. */
    static final String WORD = "warm-up";

    private static final List<String> PAGES = List.of("/today", "/static/desk.css", "/nowhere");

    private WarmUp() {}

    static void run(Path scratch) {
        new CommandLine(new Desk()).getCommandSpec();
        try (Records records = Records.open(Place.folder(scratch.resolve("desk")), Clock.system(ZoneOffset.UTC))) {
            DemoRecord.fill(records, scratch);
            try (DeskServer desk = DeskServer.start(
                    new DeskServer.Setup.Maker(Desk.routes(Office.with(records)), Doorkeeper.single(WORD), scratch)
                            .isInvented(() -> true)
                            .make())) {
                for (String page : PAGES) {
                    HttpClient.newHttpClient()
                            .send(
                                    HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + desk.port() + page))
                                            .build(),
                                    HttpResponse.BodyHandlers.discarding());
                }
            }
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
        }
    }
}
