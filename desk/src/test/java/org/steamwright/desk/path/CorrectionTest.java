package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.Filing;
import org.steamwright.filing.StatedVisit;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.picture.Pictures;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.state.VisitState;

/** An interim report whose indicators are read later, a report that is corrected, and one that is withdrawn. */
class CorrectionTest {

    private static final String NAME = "Kim Sample (invented)";
    private static final Author KIM = new Author(NAME, "technician");
    private static final String NUMBER = "DEMO-2026-001";
    private static final Pattern SEEN = Pattern.compile("name=\"seen\" value=\"([0-9a-f]{64})\"");
    private static final String SECRET = "open sesame 1 again";

    @TempDir
    static Path year;

    @TempDir
    Path folder;

    private Records records;
    private Filing filing;

    @BeforeAll
    static void write_the_year_as_if_it_were_real() throws IOException {
        for (Path visit : DemoVisit.writeYear(year)) {
            try (Stream<Path> all = Files.list(visit.resolve("recordings"))) {
                for (Path recording : all.toList()) {
                    List<String> lines = Files.readAllLines(recording);
                    Files.write(recording, lines.subList(1, lines.size()));
                }
            }
        }
    }

    private OpenDesk desk(String now) throws IOException {
        records = Records.open(
                Place.folder(folder.resolve("record")),
                Clock.fixed(Instant.parse(now), ZoneOffset.UTC),
                DueInRecord.RULE);
        filing = new Filing(records);
        return OpenDesk.with(records, folder);
    }

    private String signed(OpenDesk desk, String step) throws Exception {
        filing.take(year.resolve(step), KIM, "");
        Subject visit = filing.visit(NUMBER).visit();
        String address = "/visits/" + visit.id();
        assertThat(desk.post(address + "/keys", Map.of("name", NAME, "secret", SECRET, "again", SECRET))
                        .statusCode())
                .isEqualTo(303);
        sign(desk, address);
        return address;
    }

    private static void sign(OpenDesk desk, String address) throws Exception {
        Map<String, String> signature =
                new HashMap<>(Map.of("name", NAME, "meaning", "performed and recorded", "secret", SECRET));
        Matcher seen = SEEN.matcher(desk.get(address + "/close").body());
        if (seen.find()) {
            signature.put("seen", seen.group(1));
        }
        HttpResponse<String> answer = desk.post(address + "/signatures", signature);
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
    }

    private static String location(HttpResponse<String> answer) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
        return answer.headers().firstValue("Location").orElse("");
    }

    @Test
    void the_read_out_of_an_interim_report_is_entered_at_the_desk_and_signed_as_a_new_issue() throws Exception {
        try (OpenDesk desk = desk("2026-03-10T09:00:00Z")) {
            String address = signed(desk, "1-interim");
            assertThat(desk.get("/today").body())
                    .contains("Indicators to read", NUMBER, "Interim report, good up to and including 16 Mar 2026.")
                    .contains("action=\"" + address + "/corrections\"")
                    .as("runs of one moment in one line")
                    .contains("Indicators of runs 6, 7, 8, 13 were not read in time:"
                            + " they were to be read on 9 Mar 2026, 17:00.");
            assertThat(desk.get(address + "/close").body())
                    .contains("Still awaited", "What holds now that it is signed")
                    .doesNotContain("before anybody signs", "Nothing is awaited.");
            assertThat(desk.get(address + "/indicators").body())
                    .contains("Signed: issue 1, an interim report, good up to and including 16 Mar 2026.")
                    .contains("Enter the read-out");
            String read = location(desk.post(address + "/corrections", Map.of("for", "read-out")));
            assertThat(read).endsWith("/indicators").doesNotStartWith(address);
            assertThat(location(desk.post(address + "/corrections", Map.of("for", "read-out"))))
                    .as("one correction is open at a time")
                    .isEqualTo(read);
            assertThat(desk.get(address).body()).contains("A correction of this report is open.");
            assertThat(desk.get(read).body())
                    .contains("which stands until this one is signed. Reason: Indicators were read after the interim")
                    .contains("name=\"value\"");
            assertThat(desk.get("/today").body())
                    .contains("Correction of an earlier issue: Indicators were read after the interim report")
                    .doesNotContain(address + "/corrections");
            assertThat(filing.visit(NUMBER).state()).isEqualTo(VisitState.INTERIM);

            String correction = read.substring(0, read.lastIndexOf('/'));
            filing.take(year.resolve("2-final"), KIM, "indicators were read");
            sign(desk, correction);
            StatedVisit now = filing.visit(NUMBER);
            assertThat(now.state()).isEqualTo(VisitState.ISSUED);
            assertThat(now.issue().orElseThrow().number()).isEqualTo(2);
            assertThat(desk.get("/today").body()).doesNotContain(NUMBER);
            assertThat(desk.get(address).body())
                    .contains(
                            "Issue 1 was replaced by a later one. Reason: Indicators were read after the interim report")
                    .contains("href=\"" + correction + "\"");
            assertThat(desk.post(address + "/corrections", Map.of("reason", "too late"))
                            .statusCode())
                    .isEqualTo(409);
        }
    }

    @Test
    void the_next_visit_is_proposed_for_the_last_good_day_and_planned_with_one_button() throws Exception {
        try (OpenDesk desk = desk("2026-03-10T09:00:00Z")) {
            String address = signed(desk, "2-final");
            LocalDate until =
                    filing.assess(filing.visit(NUMBER).visit()).validUntil().orElseThrow();
            String page = desk.get(address + "/close").body();
            assertThat(page).contains("What this visit qualified holds up to and including ");
            String form = page.substring(page.indexOf("action=\"/visits\""));
            Map<String, String> sent = new HashMap<>();
            Matcher field = Pattern.compile("name=\"([a-z-]+)\" value=\"([^\"]*)\"")
                    .matcher(form.substring(0, form.indexOf("</form>")));
            while (field.find()) {
                sent.put(field.group(1), field.group(2));
            }
            assertThat(sent)
                    .containsEntry("date", until.toString())
                    .containsEntry("number", "R-2026-0001")
                    .containsEntry("technician", NAME);
            assertThat(form).contains("<option value=\"EX-1001\">", "<option value=\"EX-2002\">");
            sent.put("machine", "EX-1001");
            sent.remove("token");
            sent.put("date", "2027-02-15");
            String planned = location(desk.post("/visits", sent));
            Subject next = filing.visit("R-2026-0001").visit();
            assertThat(planned).isEqualTo("/visits/" + next.id() + "/identity");
            assertThat(next.text("date")).isEqualTo("2027-02-15");
            assertThat(next.text("clinic-name")).isEqualTo("Example Dental Practice (invented)");
            assertThat(desk.get("/today").body()).contains(">Planned<", "R-2026-0001", "15 Feb 2027");
            assertThat(desk.get("/plan").body()).as("60 days ahead").doesNotContain("R-2026-0001");
            assertThat(desk.get("/plan?days=366").body()).contains("R-2026-0001", "15 Feb 2027");
            assertThat(desk.get(address + "/close").body()).contains("Planned: R-2026-0001 on 15 Feb 2027");
        }
    }

    @Test
    void an_interim_report_that_ended_unread_says_that_nothing_is_qualified() throws Exception {
        try (OpenDesk desk = desk("2026-03-10T09:00:00Z")) {
            signed(desk, "1-interim");
        }
        try (OpenDesk desk = desk("2026-03-17T09:00:00Z")) {
            assertThat(desk.get("/today").body())
                    .contains("The interim report ended with 16 Mar 2026 and nothing was read:"
                            + " nothing is qualified by this visit.");
        }
    }

    @Test
    void a_signed_report_is_corrected_with_a_reason_or_withdrawn_by_a_signature() throws Exception {
        try (OpenDesk desk = desk("2026-03-10T09:00:00Z")) {
            String address = signed(desk, "2-final");
            assertThat(desk.get(address + "/close").body())
                    .contains("Correct this report", "Withdraw this report")
                    .contains("What holds now that it is signed", "Issue 1 was signed by " + NAME + " on 10 Mar 2026, ")
                    .contains("performed and recorded. Facts, files and results stand as they were then.")
                    .contains("Nothing is awaited.", "Begin a correction below")
                    .doesNotContain("Enter the read-out", "before anybody signs", "What is missing");
            assertThat(desk.post(address + "/corrections", Map.of("reason", " "))
                            .statusCode())
                    .isEqualTo(422);
            String identity = location(desk.post(address + "/corrections", Map.of("reason", "lot read wrongly")));
            assertThat(identity).endsWith("/identity");
            assertThat(desk.get(identity).body()).contains("signed. Reason: lot read wrongly");
            String correction = identity.substring(0, identity.lastIndexOf('/'));
            String close = location(desk.post(correction + "/given-up", Map.of("reason", "nothing was wrong")));
            assertThat(desk.get(close).body())
                    .contains("Given up before anybody signed it", "Reason: nothing was wrong")
                    .doesNotContain("/signatures", "/given-up", "before anybody signs");

            Map<String, String> wrong = Map.of("name", NAME, "reason", "another machine", "secret", "not this one");
            assertThat(desk.post(address + "/withdrawals", wrong).statusCode()).isGreaterThanOrEqualTo(400);
            assertThat(desk.post(address + "/withdrawals", Map.of("name", NAME, "secret", SECRET))
                            .statusCode())
                    .as("without a reason")
                    .isEqualTo(422);
            assertThat(filing.visit(NUMBER).state()).isEqualTo(VisitState.ISSUED);
            Map<String, String> right = Map.of("name", NAME, "reason", "another machine", "secret", SECRET);
            assertThat(location(desk.post(address + "/withdrawals", right))).isEqualTo(address + "/close");
            assertThat(desk.get(address + "/close").body())
                    .contains("Issue 1 was withdrawn; nobody may rely on it. Reason: another machine")
                    .contains("Nobody may rely on this issue any more")
                    .doesNotContain("Correct this report", "Withdraw this report", "/signatures")
                    .doesNotContain("Begin a correction below", "before anybody signs");
            assertThat(desk.post(address + "/withdrawals", right).statusCode()).isEqualTo(409);
        }
    }

    @Test
    void a_correction_tells_what_it_changes_and_nobody_types_it() throws Exception {
        try (OpenDesk desk = desk("2026-03-10T09:00:00Z")) {
            String address = signed(desk, "1-interim");
            String first = address.substring("/visits/".length());
            assertThat(desk.get("/review/" + first).body())
                    .as("a first issue corrects nothing, and once it is signed it waits for nobody")
                    .contains("signed; nobody reviewed it here before")
                    .doesNotContain("What this correction changes", "waits for review");
            String read = location(desk.post(address + "/corrections", Map.of("for", "read-out")));
            String correction = read.substring(0, read.lastIndexOf('/'));
            String review = "/review/" + correction.substring("/visits/".length());
            assertThat(desk.get(address + "/failures").body())
                    .as("a heading with nothing under it says so once nothing can be added")
                    .contains("Nothing is stated here.");
            assertThat(desk.get(correction + "/failures").body()).doesNotContain("Nothing is stated here.");
            assertThat(desk.get(review).body())
                    .contains("What this correction changes against issue 1")
                    .contains("Indicators were read after the interim report")
                    .contains("No fact, file or result differs from the issue before.");
            StatedVisit open = filing.open(NUMBER);
            assertThat(filing.issued(open, filing.assess(open.visit())).differences())
                    .as("nothing is changed yet")
                    .isEmpty();

            filing.take(year.resolve("2-final"), KIM, "indicators were read");
            String page = desk.get(review).body();
            assertThat(page)
                    .doesNotContain("No fact, file or result differs")
                    .contains("steriliser EX-1001, 134 wrapped, Performance qualification (PQ)")
                    .contains("pass; Passes in a row: runs 6, 7 and 8; 3 asked for.")
                    .contains(
                            "result: run 6, indicator 1; run 6, indicator 2; run 6, indicator 3; run 7, indicator 1;");
            StatedVisit draft = filing.open(NUMBER);
            List<Issued.Difference> before =
                    filing.issued(draft, filing.assess(draft.visit())).differences();
            sign(desk, correction);
            StatedVisit now = filing.visit(NUMBER);
            List<Issued.Difference> after = filing.issued(now).differences();
            assertThat(after).as("as signed as it was to be signed").isEqualTo(before);
            assertThat(after)
                    .contains(new Issued.Difference(
                            true,
                            List.of(List.of("EX-1001: 134 wrapped", "qualified cycle")),
                            List.of(),
                            List.of("qualified")))
                    .contains(new Issued.Difference(
                            false, List.of(List.of("job sheet", "interim until")), List.of("2026-03-16"), List.of()));
            assertThat(after)
                    .as("what is the same is not told")
                    .noneMatch(one -> one.before().equals(one.after()))
                    .noneMatch(one -> one.places().toString().contains("purpose"));
            assertThat(desk.get(review).body())
                    .as("a signed correction tells it too")
                    .contains("result: run 6, indicator 1; run 6, indicator 2;");
            ByteArrayOutputStream pdf = new ByteArrayOutputStream();
            ReportPdf.write(filing.assess(now.visit()), filing.issued(now), Pictures.NONE, pdf);
            try (PDDocument document = Loader.loadPDF(pdf.toByteArray())) {
                assertThat(new PDFTextStripper().getText(document).replaceAll("\\s+", ""))
                        .contains("Whatthiscorrectionchanges")
                        .contains("result:run6,indicator1;run6,indicator2;");
            }
            assertThat(filing.issued(filing.visit(NUMBER, 1)).differences())
                    .as("the first issue tells nothing of the kind")
                    .isEmpty();
        }
    }
}
