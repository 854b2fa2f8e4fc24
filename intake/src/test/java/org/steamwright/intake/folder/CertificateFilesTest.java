package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.certificate.DccSample;
import org.steamwright.intake.certificate.InventedSigners;
import org.steamwright.visit.Visit;

/** Digital certificates beside a visit file. */
class CertificateFilesTest {

    @TempDir
    Path folder;

    private VisitFixture with(String certificate) {
        return VisitFixture.tenLines(folder)
                .replace(
                        "runs:",
                        "instruments:\n  - {id: TL-07, measures: temperature, certificate: " + certificate + "}\nruns:")
                .file("logger.xml", new DccSample().text());
    }

    private static CalibrationCertificate certificate(Visit visit) {
        return visit.instruments().get("TL-07").certificate().orElseThrow();
    }

    @Test
    void a_file_takes_the_place_of_typed_points() throws Exception {
        Visit visit = with("{file: logger.xml, due-on: 2027-02-10}").read();
        assertThat(certificate(visit).points()).hasSize(2);
        assertThat(certificate(visit).file().orElseThrow().sha256()).matches("[0-9a-f]{64}");
        assertThat(visit.remarks()).isEmpty();
    }

    @Test
    void what_the_file_leaves_open_is_a_problem_at_its_line() {
        assertThat(with("{file: logger.xml}").problems())
                .singleElement()
                .asString()
                .startsWith(
                        "VISIT-045 visit.yaml, line 8, instruments[1].certificate.file: CERTIFICATE-014 logger.xml: it states no"
                                + " day by which the instrument is to be calibrated again");
        assertThat(with("{item: SN-2207}").problems())
                .singleElement()
                .asString()
                .contains("found no \"file\"");
        assertThat(with("{file: nothing.xml}").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-022");
        assertThat(with("{file: ../logger.xml}").problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-021");
        assertThat(with("{file: run-1.csv}").problems())
                .singleElement()
                .asString()
                .contains("VISIT-045", "CERTIFICATE-003 run-1.csv, line 1: expected a complete XML document");
    }

    @Test
    void a_typed_certificate_stays_as_it_was() {
        assertThat(with("{number: K-1}").problems())
                .as("pairs of reference and indicated value, never a sign")
                .hasSize(4)
                .allSatisfy(problem -> assertThat(problem).startsWith("VISIT-008"));
        assertThat(with("{number: K-1, error: 0.07 K}").problems())
                .anySatisfy(problem -> assertThat(problem).contains("VISIT-006", "found the unknown key \"error\""));
    }

    @Test
    void a_changed_file_leaves_the_instrument_without_a_certificate() throws Exception {
        byte[] signed = InventedSigners.sign(
                new DccSample().text().getBytes(StandardCharsets.UTF_8), "lab", "2026-02-11T09:00:00Z");
        byte[] changed = new String(signed, StandardCharsets.UTF_8)
                .replace("134.08", "134.00")
                .getBytes(StandardCharsets.UTF_8);
        Visit visit = with("{file: signed.xml, due-on: 2027-02-10}")
                .file("signed.xml", changed)
                .read();
        assertThat(visit.instruments().get("TL-07").certificate()).isEmpty();
        assertThat(visit.remarks())
                .extracting(remark -> remark.rank() + " " + remark.id())
                .contains("UNUSABLE CERTIFICATE-039");
    }

    @Test
    void the_folder_of_trust_decides_who_the_signer_is() throws Exception {
        byte[] signed = InventedSigners.sign(
                new DccSample().text().getBytes(StandardCharsets.UTF_8), "lab", "2026-02-11T09:00:00Z");
        VisitFixture fixture = with("{file: signed.xml, due-on: 2027-02-10}").file("signed.xml", signed);
        assertThat(certificate(fixture.read()).file().orElseThrow().signature())
                .isEqualTo(CertificateFile.Signature.UNKNOWN_SIGNER);
        fixture.replace("runs:", "trust: laboratories\nruns:");
        assertThat(fixture.problems()).singleElement().asString().startsWith("VISIT-022");
        fixture.file(
                "laboratories/root.crt", InventedSigners.certificate("root").getEncoded());
        Visit visit = fixture.read();
        assertThat(certificate(visit).file().orElseThrow().signature()).isEqualTo(CertificateFile.Signature.GOOD);
        assertThat(visit.remarks()).isEmpty();
    }

    @Test
    void one_certificate_may_serve_several_instruments_and_is_remarked_once() throws Exception {
        Visit visit = VisitFixture.tenLines(folder)
                .replace(
                        "runs:",
                        "instruments:\n  - {id: A, measures: temperature, certificate: {file: logger.xml, item: SN-2207, due-on: 2027-02-10}}\n"
                                + "  - {id: B, measures: temperature, certificate: {file: logger.xml, item: SN-2207, due-on: 2027-02-10}}\nruns:")
                .file(
                        "logger.xml",
                        new DccSample().text().replace("schemaVersion=\"3.1.1\"", "schemaVersion=\"3.3.0\""))
                .read();
        List<String> ids = visit.remarks().stream().map(Remark::id).toList();
        assertThat(ids).containsExactly("CERTIFICATE-031");
    }
}
