package org.steamwright.intake.spreadsheet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.HostileXml;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.PathNames;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;

/** Workbooks that try to make the reader open other files, connect, write, or eat memory: none comes to anything. */
class HostileWorkbooksTest {

    private static final ReadingChoices CHOICES =
            ReadingChoices.inZone(ZoneOffset.UTC).build();
    private static final String SECRET = "CANARY-7319";

    @TempDir
    Path folder;

    @Test
    void xml_opens_no_file_and_no_connection_through_any_part() throws IOException {
        Path secret = Files.writeString(folder.resolve("secret.txt"), SECRET);
        Map<String, String> honest = workbook().parts();
        List<String> doors = List.of(
                "_rels/.rels",
                "xl/workbook.xml",
                "xl/_rels/workbook.xml.rels",
                "xl/styles.xml",
                "xl/sharedStrings.xml",
                "xl/worksheets/sheet1.xml");
        try (ServerSocket server = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            server.setSoTimeout(1);
            String connection = "http://127.0.0.1:" + server.getLocalPort() + "/x";
            List<HostileXml.Payload> payloads =
                    HostileXml.all(connection, secret.toUri().toString());
            assertThat(payloads).hasSizeGreaterThanOrEqualTo(100);
            List<Path> before = everything();
            List<Long> cost = new ArrayList<>();
            Cost.ofReading(workbook().bytes());
            for (HostileXml.Payload payload : payloads) {
                for (String door : doors) {
                    HandZip zip = new HandZip();
                    honest.forEach((name, content) -> zip.stored(
                            name, name.equals(door) ? payload.in(content) : content.getBytes(StandardCharsets.UTF_8)));
                    Cost came = Cost.ofReading(zip.bytes());
                    cost.add(came.nanos());
                    assertThat(came.said()).as(payload.name() + " in " + door).doesNotContain(SECRET);
                    if (payload.hasDocumentType()) {
                        assertThat(came.refusedBy())
                                .as(payload.name() + " in " + door + ": " + came.said())
                                .contains(IntakeMessage.XML_WITH_DOCTYPE);
                    }
                }
            }
            cost.sort(null);
            assertThat(cost.get(cost.size() / 2))
                    .as("median, in nanoseconds of the processor")
                    .isLessThan(100_000_000L);
            assertThat(everything()).as("nothing was written").isEqualTo(before);
            assertThat(asked(server)).as("nobody asked the server").isFalse();
        }
    }

    @Test
    void fifty_bombs_are_refused_before_they_go_off() {
        List<ZipBombs.Bomb> bombs = ZipBombs.all();
        assertThat(bombs).hasSizeGreaterThanOrEqualTo(50);
        Cost.ofReading(workbook().bytes());
        List<String> slow = new ArrayList<>();
        for (ZipBombs.Bomb bomb : bombs) {
            Cost came = Cost.ofReading(bomb.bytes());
            assertThat(came.refusedBy()).as(bomb.name() + ": " + came.said()).isPresent();
            assertThat(came.allocated())
                    .as(bomb.name() + ": bytes allocated in all")
                    .isLessThan(64_000_000L);
            if (came.nanos() > 200_000_000L) {
                slow.add(bomb.name() + " " + came.nanos() / 1_000_000 + " ms, again "
                        + Cost.ofReading(bomb.bytes()).nanos() / 1_000_000 + " ms");
            }
        }
        assertThat(slow).as("refused in more than 200 ms of the processor").isEmpty();
    }

    @Test
    void a_thousand_names_of_parts_lead_nowhere() throws IOException {
        Path inside = Files.createDirectories(folder.resolve("a/b/inside"));
        Path outside = Files.writeString(folder.resolve("outside.csv"), SECRET);
        List<String> names = PathNames.of(1_000, outside.toString(), 20261125);
        Path file = inside.resolve("recording.xlsx");
        Files.write(file, workbook().bytes());
        List<Path> before = everything();
        int refused = 0;
        for (String name : names) {
            HandZip zip = workbook().zip().stored("x", "time,T1 (°C)\n");
            byte[] raw = name.getBytes(StandardCharsets.UTF_8);
            zip.but(part -> part.named(raw));
            Files.write(file, zip.bytes());
            try {
                Recording read = Recordings.read(file, CHOICES);
                assertThat(said(read)).doesNotContain(SECRET);
            } catch (UnreadableFileException why) {
                refused++;
                assertThat(why.getMessage()).doesNotContain(SECRET);
                assertThat(why.id()).isEqualTo(IntakeMessage.ARCHIVE_NOT_HONEST);
            }
        }
        assertThat(everything()).as("nothing was written").isEqualTo(before);
        assertThat(outside).hasContent(SECRET);
        assertThat(refused).as("names that lead out").isGreaterThan(500);
    }

    @Test
    void names_that_lead_elsewhere_are_followed_by_no_relation_of_a_workbook() throws IOException {
        Path outside = Files.writeString(folder.resolve("outside.csv"), SECRET);
        List<Path> before = everything();
        for (String name : PathNames.of(1_000, outside.toString(), 7)) {
            HandWorkbook book = new HandWorkbook();
            HandWorkbook.Sheet sheet = book.sheet("Data");
            sheet.row(book.text("time"));
            sheet.target = HandWorkbook.escaped(name.replaceAll("[\\x00-\\x1F\\uD800-\\uDFFF\\uFFFE\\uFFFF]", "_"));
            Cost came = Cost.ofReading(book.bytes());
            assertThat(came.refusedBy()).as(name).isPresent();
            assertThat(came.said()).doesNotContain(SECRET);
        }
        assertThat(everything()).isEqualTo(before);
    }

    private static HandWorkbook workbook() {
        HandWorkbook book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(HandWorkbook.inline("2026-03-02T09:00:00"), HandWorkbook.number("121.3"))
                .row(HandWorkbook.inline("2026-03-02T09:00:01"), HandWorkbook.number("121.4"));
        return book;
    }

    private static boolean asked(ServerSocket server) throws IOException {
        try {
            server.accept().close();
            return true;
        } catch (SocketTimeoutException nobody) {
            return false;
        }
    }

    private List<Path> everything() throws IOException {
        try (Stream<Path> all = Files.walk(folder);
                Stream<Path> here = Files.list(Path.of("").toAbsolutePath())) {
            return Stream.concat(all, here).sorted().toList();
        }
    }

    static String said(Recording read) {
        StringBuilder said = new StringBuilder(String.join("\n", read.explanation()));
        for (Remark remark : read.remarks()) {
            said.append(remark.text());
        }
        read.columns().forEach(column -> said.append(column.name()));
        return said.toString();
    }
}
