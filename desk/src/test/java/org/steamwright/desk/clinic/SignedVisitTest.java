package org.steamwright.desk.clinic;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.RealVisit;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.signing.Keys;

/** From the close of a visit to what the clinic keeps: signed at the desk, printed with the signature, read by the clinic. */
class SignedVisitTest {

    private static final String NAME = "Kim Sample (invented)";
    private static final String NUMBER = "DEMO-2026-001";

    @TempDir
    static Path year;

    @TempDir
    Path folder;

    @BeforeAll
    static void write_the_year_as_if_it_were_real() throws IOException {
        RealVisit.writeYear(year);
        Path visit = year.resolve("2-final/visit.yaml");
        Files.writeString(
                visit,
                Files.readString(visit)
                        .replaceAll("(?m)^( +)(agreed-by: .*)$", "$1$2\n$1trays: 2\n$1photos: [load.jpg]"));
        ImageIO.write(
                new BufferedImage(400, 300, BufferedImage.TYPE_INT_RGB),
                "jpeg",
                year.resolve("2-final/load.jpg").toFile());
    }

    private static byte[] bytes(OpenDesk desk, String path) throws IOException, InterruptedException {
        HttpResponse<byte[]> answer = java.net.http.HttpClient.newHttpClient()
                .send(HttpRequest.newBuilder(desk.address(path)).build(), HttpResponse.BodyHandlers.ofByteArray());
        assertThat(answer.statusCode()).as(path).isEqualTo(200);
        return answer.body();
    }

    private static String text(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", "");
        }
    }

    /** What hangs beside the steriliser: the loads with their trays and photos. */
    private static void cards(OpenDesk desk, String clinicPage, Subject visit) throws Exception {
        String photo = clinicPage + "/photos/" + visit.id() + "?name=load.jpg";
        assertThat(desk.get(clinicPage + "/cards/EX-1001").body())
                .contains("Trays: 2 at most.", "src=\"" + photo + "\"", "alt=\"The tested load: ");
        assertThat(ImageIO.read(new ByteArrayInputStream(bytes(desk, photo))).getWidth())
                .isEqualTo(400);
        assertThat(desk.get(clinicPage + "/photos/" + visit.id() + "?name=visit.yaml")
                        .statusCode())
                .as("photos of loads and nothing else")
                .isEqualTo(404);
        String asked = clinicPage + "/load?serial=EX-1001&cycle=134+wrapped&tests=passed&mass=1"
                + "&name-1=cassette&count-1=1&family-1=solid&packaging-1=pouch";
        assertThat(desk.get(asked + "&trays=3").body())
                .contains("More trays than tested: 3 today, 2 in the tested load.");
        assertThat(desk.get(asked).body()).contains("State the trays.");
        assertThat(desk.get(asked + "&trays=two").body()).contains("The number of trays ‘two’ is no whole number");
    }

    /** Today's load is asked for by counting what was tested. */
    private static void countedFromWhatWasTested(OpenDesk desk, String clinicPage, SubjectId machine) throws Exception {
        String asked = clinicPage + "/load?machine=" + machine + "&cycle=134+wrapped";
        String begun = desk.get(asked).body();
        assertThat(desk.get(clinicPage).body()).contains("load?machine=" + machine + "&amp;cycle=134%20wrapped");
        assertThat(begun).contains("Leave it empty if there is none today.").doesNotContain("<h2>Answer</h2>");
        String all = desk.get(asked + "&all=yes").body();
        Matcher counted = Pattern.compile("name=\"(name|family|packaging|tested|count)-(\\d+)\" value=\"([^\"]*)\"")
                .matcher(all.replaceAll("id=\"[^\"]*\" ", ""));
        StringBuilder load = new StringBuilder(asked + "&tests=passed&mass=1&trays=2");
        int rows = 0;
        while (counted.find()) {
            rows = Math.max(rows, Integer.parseInt(counted.group(2)));
            load.append('&')
                    .append(counted.group(1))
                    .append('-')
                    .append(counted.group(2))
                    .append('=')
                    .append(URLEncoder.encode(counted.group(3), StandardCharsets.UTF_8));
        }
        assertThat(rows).isGreaterThan(2);
        assertThat(desk.get(load.toString()).body()).contains("<h2>Answer</h2>", "Yes: covered");
        assertThat(desk.get(load.toString().replaceFirst("&count-1=\\d+", "&count-1="))
                        .body())
                .as("none of the first item today")
                .contains("Yes: covered");
        assertThat(desk.get(load.toString().replaceFirst("&count-1=\\d+", "&count-1=99"))
                        .body())
                .contains("<h2>Answer</h2>")
                .doesNotContain("Yes: covered");
    }

    private static void induction(OpenDesk desk, String clinicPage) throws Exception {
        assertThat(desk.get(clinicPage).body()).contains("href=\"" + clinicPage + "/induction\"");
        assertThat(desk.get(clinicPage + "/induction").body())
                .contains("What the label means", "What the load card means", "Who to call")
                .contains("who made report " + NUMBER, "the maker's instructions", "the clinic decides")
                .doesNotContain("method=\"post\" action=\"/clinic");
        assertThat(desk.get("/clinic/nothing/induction").statusCode()).isEqualTo(404);
    }

    @Test
    void a_signed_visit_that_can_not_be_read_is_named_and_the_rest_of_the_page_stands(@TempDir Path record)
            throws Exception {
        String page;
        Path lost;
        try (OpenDesk desk = OpenDesk.empty(record)) {
            Filing filing = new Filing(desk.records());
            Author author = new Author(NAME, "technician");
            filing.take(year.resolve("2-final"), author, "");
            Subject visit = filing.visit(NUMBER).visit();
            new Keys(desk.records()).make(filing.technician(NAME), "open sesame 1 again".toCharArray(), author);
            filing.sign(visit, NAME, "", "open sesame 1 again".toCharArray(), author);
            page = "/clinic/" + desk.records().subjects(Kind.CLINIC, 1).get(0).id();
            assertThat(desk.get(page).body()).contains("may be run", NUMBER, "/reports/");
            lost = desk.records()
                    .files()
                    .path(new Drafts(desk.records())
                            .of(visit.id()).files().entrySet().stream()
                                    .filter(one -> one.getKey().endsWith(".csv"))
                                    .findFirst()
                                    .orElseThrow()
                                    .getValue()
                                    .sha256());
        }
        Files.writeString(lost, "something else");
        try (OpenDesk desk = OpenDesk.empty(record)) {
            HttpResponse<String> answer = desk.get(page);
            assertThat(answer.statusCode()).isEqualTo(200);
            assertThat(answer.body())
                    .contains("Visit " + NUMBER + " of 2 Mar 2026 can’t be read by this program.")
                    .contains("can’t be read</td>")
                    .contains("Steriliser EX-2002", "When a cycle fails or a test does not pass")
                    .doesNotContain("may be run</td>", "/reports/");
            assertThat(desk.get(page + "/load?serial=EX-1001&cycle=134+wrapped&name-1=cassette&count-1=1"
                                    + "&family-1=solid&packaging-1=pouch")
                            .body())
                    .contains("No: not covered by what was tested.", "nobody can say what it found");
            for (String other : List.of("/load", "/induction", "/cards/EX-1001")) {
                assertThat(desk.get(page + other).statusCode()).as(other).isEqualTo(200);
            }
        }
    }

    @Test
    void what_was_signed_at_the_desk_is_printed_signed_and_can_be_relied_on_by_the_clinic() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Filing filing = new Filing(desk.records());
            filing.take(year.resolve("2-final"), new Author(NAME, "technician"), "");
            Subject visit = filing.visit(NUMBER).visit();
            String address = "/visits/" + visit.id();
            Subject clinic = desk.records().subjects(Kind.CLINIC, 1).get(0);
            String clinicPage = "/clinic/" + clinic.id();
            String report = clinicPage + "/reports/" + visit.id();
            SubjectId machine = desk.records()
                    .exactly(Kind.STERILIZER, "serial", "EX-1001")
                    .get(0)
                    .id();

            assertThat(text(bytes(desk, address + "/report.pdf"))).contains("notsigned");
            assertThat(desk.get(report).statusCode())
                    .as("nothing unsigned for the clinic")
                    .isEqualTo(404);

            Map<String, String> secret =
                    Map.of("name", NAME, "secret", "open sesame 1 again", "again", "open sesame 1 again");
            assertThat(desk.post(address + "/keys", secret).statusCode()).isLessThan(400);
            String seen = Filing.content(visit).hex();
            Map<String, String> wrong =
                    Map.of("name", NAME, "meaning", "performed and recorded", "secret", "another", "seen", seen);
            assertThat(desk.post(address + "/signatures", wrong).statusCode()).isGreaterThanOrEqualTo(400);
            assertThat(filing.visit(NUMBER).issue()).isEmpty();
            Map<String, String> right = Map.of(
                    "name", NAME, "meaning", "performed and recorded", "secret", "open sesame 1 again", "seen", seen);
            assertThat(desk.post(address + "/signatures", right).statusCode()).isLessThan(400);
            assertThat(filing.visit(NUMBER).issue()).isPresent();

            assertThat(text(bytes(desk, address + "/report.pdf")))
                    .contains("issue1,signed", "performedandrecorded", "KimSample(invented)")
                    .doesNotContain("notsigned");
            String certificate = text(bytes(desk, address + "/certificates?sterilizer=A"));
            assertThat(certificate).contains("issue1,signed", "EX-1001", NUMBER, "Whatmayberun");
            assertThat(desk.get(address + "/certificates?sterilizer=Z").statusCode())
                    .isEqualTo(404);

            assertThat(desk.get(clinicPage).body()).contains(NUMBER, report, "/reports/" + visit.id() + "/" + machine);
            assertThat(text(bytes(desk, report + "/" + machine))).isEqualTo(certificate);
            assertThat(text(bytes(desk, report + "/EX-1001")))
                    .as("an address that somebody kept")
                    .isEqualTo(certificate);
            assertThat(desk.get(report + "/EX-9").statusCode()).isEqualTo(404);
            cards(desk, clinicPage, visit);
            induction(desk, clinicPage);
            countedFromWhatWasTested(desk, clinicPage, machine);

            assertThat(text(bytes(desk, address + "/report.pdf?language=de")))
                    .contains("Ausgabe1,unterschrieben", "DieAufzeichnungwirdaufEnglisch");
            assertThat(text(bytes(desk, report + "?language=fr"))).contains("édition1,signée");
            assertThat(text(bytes(desk, report + "/EX-1001?language=de"))).contains("Wasgefahrenwerdendarf");
            assertThat(desk.get(clinicPage + "/load?machine=" + machine).body())
                    .as("cycles of the other machine were not tested in this one")
                    .contains("Tested: 134 wrapped")
                    .doesNotContain("134 universal");
            assertThat(text(bytes(desk, report + "/EX-1001?language=xx")))
                    .as("a language in which there is none")
                    .isEqualTo(certificate);
            desk.post("/language", Map.of("language", "de", "from", "/today"));
            assertThat(desk.get(clinicPage).body())
                    .as("the reader's language and the English document beside it")
                    .contains(
                            "href=\"" + report + "?language=de\"",
                            "href=\"" + report + "/" + machine + "?language=de\"",
                            "href=\"" + report + "\"",
                            "href=\"" + report + "/" + machine + "\"",
                            "Bericht auf Englisch");
            assertThat(desk.get(address + "/close").body())
                    .contains(
                            "href=\"" + address + "/report.pdf?language=de\"",
                            "href=\"" + address + "/report.pdf\"",
                            "href=\"" + address + "/certificates?sterilizer=A&amp;language=de\"",
                            "href=\"" + address + "/certificates?sterilizer=A\"");

            filing.withdraw(
                    filing.visit(NUMBER),
                    NAME,
                    "another machine",
                    "open sesame 1 again".toCharArray(),
                    new Author(NAME, "technician"));
            assertThat(text(bytes(desk, report + "/EX-1001")))
                    .contains("issue1,nolongerinforce", "Withdrawn:anothermachine.Nobodymayrelyonit.")
                    .contains("maynotberunbythispage", "Bythisreportnocycleisqualified.")
                    .doesNotContain("mayberunwith");
            assertThat(text(bytes(desk, report)))
                    .contains("Bythisreportnocycleisqualified.", "Withdrawn:anothermachine.Nobodymayrelyonit.")
                    .doesNotContain("mayberunwiththeloadthatwastested");
        }
    }
}
