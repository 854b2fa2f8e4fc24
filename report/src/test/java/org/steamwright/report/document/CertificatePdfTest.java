package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.report.SampleJob;
import org.steamwright.report.SampleVisits;
import org.steamwright.report.picture.Pictures;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.OpenPoint;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.Visits;
import org.steamwright.visit.Where;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.validity.ValidatedState;

final class CertificatePdfTest {

    private static final Issued.Signature SIGNATURE = new Issued.Signature(
            "Kim Sample (invented)",
            "technician",
            "performed and assessed",
            OffsetDateTime.parse("2026-03-02T17:31:08+10:30"),
            "key-1",
            "ab".repeat(32),
            417,
            "cd".repeat(32));

    private final AssessedVisit visit = SampleVisits.full();
    private final ValidatedState state = ValidatedState.of(visit).get(0);

    private byte[] print(AssessedVisit assessed, Issued issued) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        CertificatePdf.write(assessed, state.sterilizer(), issued, out);
        return out.toByteArray();
    }

    private static String text(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return squeezed(new PDFTextStripper().getText(document));
        }
    }

    private static int pages(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return document.getNumberOfPages();
        }
    }

    private static String squeezed(String words) {
        return words.replaceAll("\\s+", "");
    }

    private AssessedVisit withOpenPoints(List<String> points) {
        return new AssessedVisit(
                visit.visit(),
                visit.runs(),
                visit.qualifications(),
                visit.standing(),
                visit.summary(),
                visit.qualifiedCycles(),
                visit.validUntil(),
                points.stream()
                        .map(point -> OpenPoint.of(Where.of(Where.Part.RUNS), point))
                        .toList());
    }

    @Test
    void one_page_tells_machine_cycles_report_and_that_nobody_signed() throws IOException {
        byte[] pdf = print(visit, Issued.NOT_SIGNED);
        assertThat(pages(pdf)).isEqualTo(1);
        assertThat(text(pdf))
                .contains(state.serial(), squeezed(visit.visit().reportNumber()), "Notsigned", "nobodymayrelyonit");
        state.cycles().forEach(cycle -> {
            try {
                assertThat(text(pdf))
                        .contains(
                                squeezed(cycle.name()), squeezed(cycle.status().words()));
            } catch (IOException e) {
                throw new AssertionError(e);
            }
        });
    }

    @Test
    void same_visit_gives_the_same_bytes() throws IOException {
        assertThat(print(SampleVisits.full(), Issued.NOT_SIGNED)).isEqualTo(print(visit, Issued.NOT_SIGNED));
    }

    @Test
    void a_signed_issue_names_signer_time_key_document_and_journal() throws IOException {
        Issued issued = new Issued(2, Optional.of(SIGNATURE), Optional.empty(), "", "corrects an earlier issue: lot");
        assertThat(text(print(visit, issued)))
                .contains(
                        "issue2,signed",
                        "KimSample(invented),technician",
                        "performedandassessed",
                        "17:31:08+10:30",
                        "ab".repeat(32),
                        "417entries",
                        "correctsanearlierissue:lot")
                .doesNotContain("Notsigned");
    }

    @Test
    void the_receipt_of_the_clinic_is_printed_with_who_made_its_key_on_report_and_certificate() throws IOException {
        Issued.Receipt receipt = new Issued.Receipt(
                "Lee Placeholder (invented)",
                OffsetDateTime.parse("2026-03-02T17:20:00+10:30"),
                true,
                "Kim Sample (invented)",
                "Kim Sample (invented)");
        Issued issued = new Issued(
                2,
                Optional.of(SIGNATURE),
                Optional.empty(),
                "",
                "corrects an earlier issue: lot",
                Optional.of(receipt));
        ByteArrayOutputStream report = new ByteArrayOutputStream();
        ReportPdf.write(visit, issued, Pictures.NONE, report);
        for (byte[] document : List.of(print(visit, issued), report.toByteArray())) {
            assertThat(text(document))
                    .contains(
                            "Receivedandunderstood",
                            "LeePlaceholder(invented),2March2026,17:20:00+10:30",
                            "approvesnotechnicalresult",
                            "madebyKimSample(invented)",
                            "signedatthedeskofKimSample(invented)");
        }
        Issued before = new Issued(
                1,
                Optional.of(SIGNATURE),
                Optional.empty(),
                "",
                "",
                Optional.of(new Issued.Receipt(receipt.name(), receipt.at(), false, "", "")));
        assertThat(text(print(visit, before))).contains("anearlieranswer").doesNotContain("Keyofthereceipt");
    }

    @Test
    void what_is_interim_or_no_longer_in_force_says_so_at_the_head_and_in_words() throws IOException {
        Issued interim = new Issued(1, Optional.of(SIGNATURE), Optional.of(LocalDate.of(2026, 3, 16)), "", "");
        assertThat(text(print(visit, interim))).contains("issue1,interimuntil16March2026", "Itendsbyitselfafter");
        Issued withdrawn = new Issued(1, Optional.of(SIGNATURE), Optional.empty(), "Withdrawn: a training visit.", "");
        assertThat(text(print(visit, withdrawn))).contains("issue1,nolongerinforce", "Withdrawn:atrainingvisit.");
    }

    @Test
    void much_that_is_open_makes_the_type_smaller_and_then_takes_a_second_page_but_loses_nothing() throws IOException {
        List<String> some = new ArrayList<>();
        for (int i = 1; i <= 12; i++) {
            some.add("Point number " + i
                    + ": the drain strainer has to be cleaned before the next loaded cycle is run.");
        }
        byte[] dense = print(withOpenPoints(some), Issued.NOT_SIGNED);
        assertThat(pages(dense)).isEqualTo(1);
        List<String> many = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            many.addAll(some);
        }
        many.add("The very last point.");
        byte[] long_ = print(withOpenPoints(many), Issued.NOT_SIGNED);
        assertThat(pages(long_)).isGreaterThan(1);
        assertThat(text(long_)).contains("Theverylastpoint.", "Indailyuse");
    }

    /** The word of report and certificate for a visit of one steriliser, whatever became of it. */
    @ParameterizedTest(name = "asked for {0}, earth {1} Ω: {2}")
    @CsvSource({
        "ALL, 0.1, PASS",
        "ALL, 5, FAIL",
        "OPERATIONAL, 0.1, PASS",
        "OPERATIONAL, 5, FAIL",
    })
    void report_and_certificate_say_the_same_word(String part, double earth, Standing word) throws IOException {
        AssessedVisit assessed = asked(part, earth, SampleVisits.job().visit().runs());
        assertThat(assessed.standing()).as(assessed.openPoints().toString()).isEqualTo(word);
        assertSameWord(assessed);
        if (!part.equals("ALL")) {
            assertThat(text(print(assessed, Issued.NOT_SIGNED))).contains("Askedfor", "nothingelse", "anewseal");
        }
    }

    @Test
    void without_loaded_runs_the_word_follows_what_was_asked_for() throws IOException {
        List<VisitRun> runs = SampleVisits.job().visit().runs().subList(0, 4);
        AssessedVisit all = asked("ALL", 0.1, runs);
        assertThat(all.standing()).isEqualTo(Standing.INCOMPLETE);
        assertSameWord(all);
        assertThat(text(print(all, Issued.NOT_SIGNED))).contains("wastestedwithnoreferenceload");
    }

    private AssessedVisit asked(String part, double earth, List<VisitRun> runs) {
        Scope scope = part.equals("ALL")
                ? Scope.EVERYTHING
                : new Scope(
                        EnumSet.complementOf(EnumSet.of(Qualification.Kind.valueOf(part))), List.of(), "a new seal");
        JobSheet job = JobSheet.NONE.withTasks(List.of(SampleJob.safety(earth))).with(scope);
        return Visits.assess(SampleVisits.job().visit().withRuns(runs).withJob(job));
    }

    private void assertSameWord(AssessedVisit assessed) throws IOException {
        ByteArrayOutputStream report = new ByteArrayOutputStream();
        ReportPdf.write(assessed, report);
        String word = squeezed(assessed.standing().words());
        assertThat(text(report.toByteArray())).contains("Thevisitasawhole:" + word);
        assertThat(text(print(assessed, Issued.NOT_SIGNED))).contains("Thissteriliser:" + word);
    }

    @Test
    void a_pass_without_an_end_is_no_leave_to_run_anything() throws IOException {
        AssessedVisit good = asked("ALL", 0.1, SampleVisits.job().visit().runs());
        assertThat(text(print(good, Issued.NOT_SIGNED))).contains("mayberunwith", "uptoandincluding");
        AssessedVisit endless = new AssessedVisit(
                good.visit(),
                good.runs(),
                good.qualifications(),
                good.standing(),
                good.summary(),
                good.qualifiedCycles(),
                Optional.empty(),
                good.points());
        assertThat(text(print(endless, Issued.NOT_SIGNED)))
                .contains("nothingsaysuntilwhen", "noloadiscovered")
                .doesNotContain("mayberunwith");
        assertThat(ValidatedState.of(endless)
                        .get(0)
                        .reasonsAgainst("B 134 wrapped", LocalDate.of(2026, 12, 1), OptionalInt.empty()))
                .as("what the page by the machine says")
                .contains("Nothing says until when it stands: neither the criteria set nor the visit names an end.");
    }

    @Test
    void a_steriliser_that_is_not_in_the_visit_is_refused() {
        assertThatThrownBy(() -> CertificatePdf.write(visit, "Z", Issued.NOT_SIGNED, new ByteArrayOutputStream()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no steriliser Z");
    }
}
