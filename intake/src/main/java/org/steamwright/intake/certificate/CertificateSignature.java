package org.steamwright.intake.certificate;

import java.time.Instant;
import java.util.Optional;
import org.steamwright.assessment.calibration.CertificateFile;

/**
 * Answer of the check of a signature.
 *
 * @param answer good, bad, signer unknown, not checked or not signed
 * @param signer name in the signer's certificate; blank if there is none
 * @param signedAt moment that the signature claims; no time stamp of a third party is checked
 * @param text the answer in one or two sentences
 */
public record CertificateSignature(
        CertificateFile.Signature answer, String signer, Optional<Instant> signedAt, String text) {

    static final CertificateSignature NONE = new CertificateSignature(
            CertificateFile.Signature.NOT_SIGNED,
            "",
            Optional.empty(),
            "The file carries no signature. Nothing shows that it is still as the laboratory wrote it.");
}
