package org.steamwright.desk.clinic;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.RealVisit;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;

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
            String certificate = text(bytes(desk, address + "/certificates/A"));
            assertThat(certificate).contains("issue1,signed", "EX-1001", NUMBER, "Whatmayberun");
            assertThat(desk.get(address + "/certificates/Z").statusCode()).isEqualTo(404);

            assertThat(desk.get(clinicPage).body()).contains(NUMBER, report, "/reports/" + visit.id() + "/EX-1001");
            assertThat(text(bytes(desk, report + "/EX-1001"))).isEqualTo(certificate);
            assertThat(desk.get(report + "/EX-9").statusCode()).isEqualTo(404);

            assertThat(text(bytes(desk, address + "/report.pdf?language=de")))
                    .contains("Ausgabe1,unterschrieben", "DieAufzeichnungwirdaufEnglisch");
            assertThat(text(bytes(desk, report + "?language=fr"))).contains("édition1,signée");
            assertThat(text(bytes(desk, report + "/EX-1001?language=de"))).contains("Wasbetriebenwerdendarf");
            assertThat(text(bytes(desk, report + "/EX-1001?language=xx")))
                    .as("a language in which there is none")
                    .isEqualTo(certificate);
            desk.post("/language", Map.of("language", "de", "from", "/today"));
            assertThat(desk.get(clinicPage).body())
                    .as("the reader's language and the English document beside it")
                    .contains(
                            "href=\"" + report + "?language=de\"",
                            "href=\"" + report + "/EX-1001?language=de\"",
                            "href=\"" + report + "\"",
                            "href=\"" + report + "/EX-1001\"",
                            "Bericht auf Englisch");
            assertThat(desk.get(address + "/close").body())
                    .contains(
                            "href=\"" + address + "/report.pdf?language=de\"",
                            "href=\"" + address + "/report.pdf\"",
                            "href=\"" + address + "/certificates/A?language=de\"",
                            "href=\"" + address + "/certificates/A\"");

            filing.withdraw(
                    filing.visit(NUMBER),
                    NAME,
                    "another machine",
                    "open sesame 1 again".toCharArray(),
                    new Author(NAME, "technician"));
            assertThat(text(bytes(desk, report + "/EX-1001")))
                    .contains("issue1,nolongerinforce", "Withdrawn:anothermachine.Nobodymayrelyonit.");
        }
    }
}
