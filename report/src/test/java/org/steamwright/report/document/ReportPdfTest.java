package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.PDFTextStripperByArea;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Evidence;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Judgement;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.report.SampleVisits;
import org.steamwright.report.language.Speaker;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.OpenPoint;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.Where;
import org.steamwright.visit.register.Clinic;

final class ReportPdfTest {

    /** Right edge of the text on a page of 595 points with a margin of 16 mm, and half a point of slack. */
    static final double RIGHT_EDGE = 595.3 - 16 * 72 / 25.4 + 0.5;

    private static AssessedVisit visit = SampleVisits.full();
    private static byte[] pdf = {};
    private static String text = "";

    @BeforeAll
    static void printed() throws IOException {
        visit = SampleVisits.full();
        pdf = print(visit);
        text = squeezed(text(pdf));
    }

    @Test
    void same_visit_gives_the_same_bytes() throws IOException {
        assertThat(print(SampleVisits.full())).isEqualTo(pdf);
    }

    @Test
    void every_finding_is_there_with_its_figure_and_its_sentence() {
        for (AssessedRun run : visit.runs()) {
            for (Finding finding : run.evaluation().findings()) {
                assertThat(text).contains(squeezed(finding.id().title()), squeezed(finding.sentence()));
                if (finding.outcome() != Outcome.NOT_ASSESSED) {
                    assertThat(text).contains(squeezed(finding.printedMeasured()));
                }
            }
            assertThat(text).contains(squeezed(run.evaluation().verdict().cause()));
        }
        assertThat(text).as("the load").contains(squeezed("Trays 7"), squeezed("On levels, from below 1, 2, 4"));
        assertThat(text)
                .as("how it came out")
                .contains(
                        squeezed("Packs, to the eye dry"),
                        squeezed("Seals of the packs not intact"),
                        squeezed("Door closed after the cycle for 12 min"),
                        squeezed("Looked at by A. Sample"));
    }

    @Test
    void checks_of_the_instruments_are_printed_with_what_follows_and_those_that_are_missing() throws IOException {
        Visit bare = visit.visit();
        Map<String, ReferenceInstrument> checked = new TreeMap<>(bare.instruments());
        String first = checked.keySet().iterator().next();
        ReferenceInstrument one = checked.get(first);
        LocalDate day = bare.date().orElseThrow();
        FieldCheck good = new FieldCheck(
                day,
                FieldCheck.Moment.BEFORE,
                "melting ice",
                List.of(new FieldCheck.Pair(120, 120)),
                Optional.of(5.0),
                "RT-1",
                "Kim Sample (invented)");
        FieldCheck off = new FieldCheck(
                day, FieldCheck.Moment.AFTER, "melting ice", List.of(new FieldCheck.Pair(120, 130)), 0.2);
        checked.put(
                first,
                new ReferenceInstrument(
                        one.id(),
                        one.description(),
                        one.quantity(),
                        one.rangeLow(),
                        one.rangeHigh(),
                        one.certificate(),
                        one.contributions(),
                        new InstrumentHistory(List.of(), List.of(good, off), List.of())));
        String printed = squeezed(text(print(Visits.assess(new Visit(
                        bare.reportNumber(),
                        bare.purpose(),
                        bare.date(),
                        bare.zone(),
                        bare.company(),
                        bare.clinic(),
                        bare.sterilizers(),
                        bare.people(),
                        bare.conditions(),
                        checked,
                        bare.checklists(),
                        bare.runs(),
                        bare.criteriaSet(),
                        bare.deviations(),
                        bare.recommendations(),
                        bare.nextDue(),
                        bare.notTested(),
                        bare.remarks())
                .withJob(bare.job())))));
        assertThat(printed)
                .contains(
                        squeezed(first + ", before the runs"),
                        squeezed("melting ice, RT-1, Kim Sample (invented)"),
                        squeezed("within what is allowed"),
                        squeezed(first + ", after the runs"),
                        squeezed("±0.2"),
                        squeezed("No check after the runs: "));
        assertThat(text).as("where nobody speaks of checks").doesNotContain(squeezed("No check after the runs:"));
    }

    @Test
    void every_page_says_that_it_is_simulated_and_not_signed_and_which_page_it_is() throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            int pages = document.getNumberOfPages();
            PDFTextStripper stripper = new PDFTextStripper();
            for (int page = 1; page <= pages; page++) {
                stripper.setSortByPosition(true);
                stripper.setStartPage(page);
                stripper.setEndPage(page);
                assertThat(squeezed(stripper.getText(document)))
                        .contains(
                                squeezed(Wording.SIMULATED),
                                "notsigned",
                                squeezed("Steriliser test report R-2026-0117"),
                                "SN-48213",
                                squeezed("page " + page + " of " + pages));
            }
        }
    }

    @Test
    void nothing_runs_over_the_right_margin() throws IOException {
        assertThat(farthestRight(pdf)).isLessThan(RIGHT_EDGE);
    }

    @Test
    void a_failed_figure_is_never_printed_as_if_it_met_the_limit() {
        Sheet sheet = new Sheet(Speaker.ENGLISH);
        new FindingTable(sheet).write(List.of(holdingTime(179.999999)));
        assertThat(sheet.html().toString())
                .contains("≥ 180 s", "<b>179.9 s</b>", "margin −0.1 s", "word fail")
                .doesNotContain("180.0", "word pass");
    }

    @Test
    void a_figure_on_the_limit_meets_it() {
        Sheet sheet = new Sheet(Speaker.ENGLISH);
        new FindingTable(sheet).write(List.of(holdingTime(180)));
        assertThat(sheet.html().toString()).contains("<b>180.0 s</b>", "margin 0.0 s", "word pass");
    }

    private static Finding holdingTime(double seconds) {
        Source source = new Source("example", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "");
        Limit limit = new Limit(Comparison.AT_LEAST, 180, Unit.SECONDS, source);
        Figure figure = Figure.exact(seconds, Unit.SECONDS);
        Judgement judgement = Judgement.of(figure, limit, DecisionRule.SIMPLE);
        return new Finding(
                CriterionId.MINIMUM_HOLDING_TIME,
                Use.DECIDES,
                judgement.decided(),
                Optional.of(judgement),
                Optional.of(figure),
                Optional.of(limit),
                DecisionRule.SIMPLE,
                source,
                Evidence.NONE,
                "An example.");
    }

    @Test
    void a_digital_certificate_is_printed_with_its_fingerprint_item_state_and_signature() {
        assertThat(text).contains("SHA-2560123456789abcdef", "asleft,afteradjustment", "Thefilecarriesnosignature.");
    }

    @Test
    void lethality_is_printed_with_its_reference_and_z_and_said_to_decide_nothing() {
        assertThat(text).contains("supportingfigure,decidesnothing", "121.1°C,10K");
    }

    @Test
    void a_stated_border_is_printed_beside_the_found_one_with_its_author_and_reason() throws IOException {
        assertThat(squeezed(text(print(SampleVisits.borders()))))
                .contains("KimSample(invented)", "theprintoutshowsitearlier", "outsideoftherecording");
    }

    @Test
    void the_plate_a_run_set_aside_a_recording_taken_away_and_another_set_are_printed_with_their_reasons()
            throws IOException {
        AssessedVisit changed = SampleVisits.reasoned(visit);
        assertThat(squeezed(text(print(changed))))
                .contains(
                        "saysEX-9999:notthesteriliserofthisvisit;readbyKimSample(invented);photophotos/plate-A-1.jpg,SHA-2560123456789abcdef…",
                        "SetasidebyKimSample(invented):thedoorwasopenedtooearly.",
                        "Recordingother.csvwastakenawaybyKimSample(invented):recordingoftheothersteriliser.",
                        "Thecriteriasetwaschangedfromau-as5369tous-cdcbyKimSample(invented)afterrecordingswerethere:theclinicworksbyotherrules.");
    }

    @Test
    void hostile_texts_neither_break_the_pages_nor_leave_them() throws IOException {
        for (String hostile : List.of(
                "<script>alert('x')</script> & \"quotes\" ]]> <!-- -->",
                "\u202Eright to left \u05e9\u05dc\u05d5\u05dd \u0645\u0631\u062d\u0628\u0627",
                "emoji \uD83D\uDE00 and half a character \uD83D and \u0000 control \u0007",
                "long text ".repeat(400),
                "W".repeat(400),
                "日本語の名前")) {
            Visit facts = visit.visit();
            AssessedVisit changed = new AssessedVisit(
                    new Visit(
                            "R-7",
                            hostile,
                            facts.date(),
                            facts.zone(),
                            hostile,
                            Optional.of(new Clinic(hostile, hostile, hostile, hostile, hostile)),
                            facts.sterilizers(),
                            facts.people(),
                            facts.conditions(),
                            facts.instruments(),
                            facts.checklists(),
                            facts.runs().subList(0, 1),
                            facts.criteriaSet(),
                            List.of(hostile),
                            List.of(hostile),
                            List.of(hostile),
                            List.of(hostile),
                            facts.remarks()),
                    visit.runs().subList(0, 1),
                    visit.qualifications(),
                    visit.standing(),
                    List.of(hostile, hostile),
                    List.of(hostile),
                    visit.validUntil(),
                    List.of(OpenPoint.of(Where.of(Where.Part.RUNS), hostile)));
            byte[] printed = print(changed);
            assertThat(farthestRight(printed)).as(hostile).isLessThan(RIGHT_EDGE);
            assertThat(squeezed(text(printed))).contains("Whatisopen", "Leakrate");
        }
    }

    private static byte[] print(AssessedVisit assessed) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ReportPdf.write(assessed, out);
        return out.toByteArray();
    }

    /** All text between head and foot of the pages, so that a sentence may run over a page. */
    static String text(byte[] bytes) throws IOException {
        try (PDDocument document = Loader.loadPDF(bytes)) {
            PDFTextStripperByArea stripper = new PDFTextStripperByArea();
            stripper.addRegion("body", new Rectangle2D.Double(0, 55, 596, 735));
            StringBuilder all = new StringBuilder();
            for (PDPage page : document.getPages()) {
                stripper.extractRegions(page);
                all.append(stripper.getTextForRegion("body"));
            }
            return all.toString();
        }
    }

    static double farthestRight(byte[] bytes) throws IOException {
        double[] farthest = {0};
        try (PDDocument document = Loader.loadPDF(bytes)) {
            new PDFTextStripper() {
                @Override
                protected void processTextPosition(TextPosition position) {
                    if (!position.getUnicode().isBlank()) {
                        farthest[0] = Math.max(farthest[0], position.getXDirAdj() + position.getWidthDirAdj());
                    }
                    super.processTextPosition(position);
                }
            }.getText(document);
        }
        return farthest[0];
    }

    /** Without any blank, so that line ends do not matter. */
    static String squeezed(String words) {
        return words.replaceAll("\\s+", "");
    }
}
