package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.Visit;

/** The certificate that the demo carries as a file, through the command and through the visit. */
class CertificateReadTest {

    @Test
    void the_visit_of_the_demo_takes_the_points_of_its_certificate_file(@TempDir Path folder) throws Exception {
        Visit visit = VisitFolder.read(DemoVisit.write(folder), new Presets());
        ReferenceInstrument digital = visit.instruments().values().stream()
                .filter(one ->
                        one.certificate().flatMap(CalibrationCertificate::file).isPresent())
                .findFirst()
                .orElseThrow();
        CalibrationCertificate certificate = digital.certificate().orElseThrow();
        assertThat(certificate.number()).isEqualTo("INVENTED-" + digital.id());
        assertThat(certificate.points()).hasSizeGreaterThan(2);
        CertificateFile file = certificate.file().orElseThrow();
        assertThat(file.name()).isEqualTo(digital.id() + ".xml");
        assertThat(file.item()).contains("Equipment no. " + digital.id());
        assertThat(file.signature()).isEqualTo(CertificateFile.Signature.NOT_SIGNED);
        assertThat(visit.remarks())
                .as("nothing odd about it")
                .noneMatch(remark -> remark.id().startsWith("CERTIFICATE"));
    }

    @Test
    void read_shows_the_certificate_of_the_demo(@TempDir Path folder) throws Exception {
        DemoVisit.write(folder);
        Session session = new Session(folder);
        Path file;
        try (Stream<Path> files = Files.list(folder.resolve("certificates"))) {
            file = files.findFirst().orElseThrow();
        }
        Session.Said said = session.run("read", "certificates/" + file.getFileName());
        assertThat(said.status()).isEqualTo(ExitStatus.PASS);
        assertThat(said.out())
                .contains("SIMULATED: invented data, not a real certificate.")
                .contains("Calibration certificate INVENTED-")
                .contains("Result 1 'Calibration points': temperature, as calibrated")
                .contains("The file carries no signature.");
    }

    @Test
    void a_file_that_is_no_certificate_is_refused_with_its_reason(@TempDir Path folder) throws Exception {
        Files.writeString(folder.resolve("page.xml"), "<html/>");
        Session session = new Session(folder);
        Session.Said said = session.run("read", "page.xml");
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(said.err()).contains("CERTIFICATE-005 page.xml, line 1: found XML that begins with <html>");
        assertThat(session.run("read", "page.xml", "--trust", "nowhere").status())
                .isEqualTo(ExitStatus.USAGE);
    }
}
