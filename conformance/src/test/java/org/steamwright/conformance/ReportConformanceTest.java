package org.steamwright.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.language.Language;
import org.steamwright.report.picture.Pictures;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Sterilizer;
import org.verapdf.core.VeraPDFException;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.ValidationResult;
import org.verapdf.pdfa.validation.profiles.RuleId;

/**
 * The report against the published formats that it claims: PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1), judged by
 * veraPDF with its own profiles.
 */
final class ReportConformanceTest {

    @TempDir
    private static Path folder;

    @BeforeAll
    static void wake() {
        VeraGreenfieldFoundryProvider.initialise();
    }

    @Test
    void the_report_of_the_demo_visit_keeps_to_both_formats() throws Exception {
        Path visit = folder.resolve("demo");
        DemoVisit.write(visit);
        AssessedVisit assessed = Visits.assess(VisitFolder.read(visit, new Presets()));
        holds(print(assessed));
        holds(print(Visits.assess(withForeignNames(assessed.visit()))));
    }

    @Test
    void each_certificate_of_the_demo_visit_keeps_to_both_formats() throws Exception {
        Path visit = folder.resolve("demo-of-certificates");
        DemoVisit.write(visit);
        AssessedVisit assessed = Visits.assess(VisitFolder.read(visit, new Presets()));
        for (Sterilizer sterilizer : assessed.visit().sterilizers()) {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            CertificatePdf.write(assessed, sterilizer.key(), Issued.NOT_SIGNED, out);
            holds(out.toByteArray());
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = Language.class,
            names = {"GERMAN", "FRENCH"})
    void report_and_certificates_in_other_languages_keep_to_both_formats(Language language) throws Exception {
        Path visit = folder.resolve("demo-in-" + language.code());
        DemoVisit.write(visit);
        AssessedVisit assessed = Visits.assess(VisitFolder.read(visit, new Presets()));
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ReportPdf.write(assessed, Issued.NOT_SIGNED, Pictures.NONE, language, out);
        holds(out.toByteArray());
        for (Sterilizer sterilizer : assessed.visit().sterilizers()) {
            out.reset();
            CertificatePdf.write(assessed, sterilizer.key(), Issued.NOT_SIGNED, language, out);
            holds(out.toByteArray());
        }
    }

    @Test
    void photos_and_a_drawn_signature_keep_to_both_formats() throws Exception {
        Path visit = folder.resolve("demo-with-photos");
        DemoVisit.write(visit);
        BufferedImage photo = new BufferedImage(400, 300, BufferedImage.TYPE_INT_RGB);
        ImageIO.write(photo, "jpeg", visit.resolve("load.jpg").toFile());
        Path facts = visit.resolve("visit.yaml");
        String text = Files.readString(facts);
        Files.writeString(
                facts, text.replace("      mass: 2.4 kg\n", "      mass: 2.4 kg\n      photos: [load.jpg]\n"));
        AssessedVisit assessed = Visits.assess(VisitFolder.read(visit, new Presets()));
        byte[] jpeg = Files.readAllBytes(visit.resolve("load.jpg"));
        byte[] ink = "<polyline points=\"10,10 20,30 600,200\"/>".getBytes(StandardCharsets.UTF_8);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ReportPdf.write(assessed, Issued.NOT_SIGNED, name -> Optional.of(name.equals("load.jpg") ? jpeg : ink), out);
        assertThat(new String(out.toByteArray(), StandardCharsets.ISO_8859_1))
                .as("a picture")
                .contains("/DCTDecode");
        holds(out.toByteArray());
    }

    /** One run, with names in letters that the type face does not have. */
    private static Visit withForeignNames(Visit visit) {
        return new Visit(
                "R-\u65e5\u672c",
                "\uD83D\uDE00 <b>&",
                Optional.empty(),
                visit.zone(),
                "\u05e9\u05dc\u05d5\u05dd",
                Optional.of(new Clinic("\u0645\u0631\u062d\u0628\u0627", "", "", "", "")),
                visit.sterilizers(),
                List.of(),
                visit.conditions(),
                Map.of(),
                List.of(),
                visit.runs().subList(0, 1),
                visit.criteriaSet(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of());
    }

    private static void holds(byte[] pdf) throws IOException, VeraPDFException {
        for (PDFAFlavour flavour : List.of(PDFAFlavour.PDFA_3_A, PDFAFlavour.PDFUA_1)) {
            try (PDFAParser parser = Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour);
                    PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false)) {
                ValidationResult result = validator.validate(parser);
                Map<RuleId, Integer> failed = result.getFailedChecks();
                assertThat(failed).as(flavour.toString()).isEmpty();
                assertThat(result.isCompliant()).as(flavour.toString()).isTrue();
                assertThat(result.getTotalAssertions()).as("rules looked at").isPositive();
            }
        }
    }

    private static byte[] print(AssessedVisit assessed) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ReportPdf.write(assessed, out);
        return out.toByteArray();
    }
}
