package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.certificate.CertificateChoice;
import org.steamwright.intake.certificate.DigitalCertificate;
import org.steamwright.intake.certificate.DigitalCertificates;
import org.steamwright.intake.certificate.TrustAnchors;
import org.steamwright.intake.certificate.UnreadableCertificateException;

/** Digital certificates of a visit folder, and whose signatures the visit trusts. */
final class CertificateFiles {

    private final FolderFiles files;
    private final List<Remark> remarks;
    private final TrustAnchors trust;

    /**
     * @param files of the folder
     * @param trustEntry names the folder of trusted certificates; empty if nobody is trusted
     * @param remarks to which those of the certificates are added
     */
    CertificateFiles(FolderFiles files, Optional<Entry> trustEntry, List<Remark> remarks) throws IOException {
        this.files = files;
        this.remarks = remarks;
        Optional<Path> folder = Optional.empty();
        if (trustEntry.isPresent()) {
            Optional<String> name = trustEntry.get().text();
            folder = name.isPresent() ? files.findFolder(name.get(), trustEntry.get()) : Optional.empty();
        }
        trust = folder.isPresent() ? TrustAnchors.of(folder.get()) : TrustAnchors.NONE;
    }

    /**
     * The certificate that an instrument's entry names as a file; empty after a problem was added, and for a file whose
     * signature is bad: the instrument then has no certificate, and a remark says why.
     */
    Optional<CalibrationCertificate> read(Fields fields, String instrument, Quantity quantity, Measure size) {
        Optional<Entry> fileEntry = fields.need("file", "certificates/TL-07.xml");
        Optional<String> item = fields.find("item").flatMap(Entry::text);
        Optional<String> result = fields.find("result").flatMap(Entry::text);
        Optional<LocalDate> dueOn = fields.date("due-on");
        Optional<Double> expanded = fields.quantity("U", size);
        Optional<Double> factor = fields.find("k").flatMap(Entry::positiveNumber);
        Optional<String> name = fileEntry.flatMap(Entry::text);
        if (name.isEmpty()) {
            return Optional.empty();
        }
        Entry place = fileEntry.orElseThrow();
        try {
            Optional<Path> path = files.find(name.get(), place);
            if (path.isEmpty()) {
                return Optional.empty();
            }
            DigitalCertificate certificate = DigitalCertificates.read(path.get(), trust);
            if (certificate.signature().answer() == CertificateFile.Signature.BAD) {
                add(certificate.remarks());
                return Optional.empty();
            }
            CertificateChoice.Chosen chosen =
                    new CertificateChoice(instrument, quantity, item, result, dueOn, expanded, factor).of(certificate);
            add(chosen.remarks());
            return Optional.of(chosen.certificate());
        } catch (UnreadableCertificateException unreadable) {
            place.problem(Mistake.UNREADABLE_CERTIFICATE, Flaw.of(String.valueOf(unreadable.getMessage())));
            return Optional.empty();
        } catch (IOException disk) {
            place.problem(
                    Mistake.UNREADABLE_CERTIFICATE,
                    Flaw.of(
                            "found \"" + name.get() + "\" but the system can't read it: " + disk.getMessage() + ".",
                            "Is the drive still there?"));
            return Optional.empty();
        }
    }

    /** One certificate may serve several instruments; what is odd about it is said once. */
    private void add(List<Remark> found) {
        for (Remark remark : found) {
            if (!remarks.contains(remark)) {
                remarks.add(remark);
            }
        }
    }
}
