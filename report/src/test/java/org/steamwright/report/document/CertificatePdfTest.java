package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.steamwright.report.SampleVisits;
import org.steamwright.visit.AssessedVisit;
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
                points);
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

    @Test
    void a_steriliser_that_is_not_in_the_visit_is_refused() {
        assertThatThrownBy(() -> CertificatePdf.write(visit, "Z", Issued.NOT_SIGNED, new ByteArrayOutputStream()))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no steriliser Z");
    }
}
