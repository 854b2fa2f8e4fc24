package org.steamwright.assessment.calibration;

import java.util.List;

/**
 * Where a certificate was read from, and what its file says about itself. The figures that count stand in
 * {@link CalibrationCertificate#points()}.
 *
 * @param name of the file, without folder
 * @param sha256 of its bytes, lower-case hexadecimal digits
 * @param schemaVersion of the format, as the file states it
 * @param item what was calibrated: name and numbers, as printed in the certificate
 * @param state in which the points were found
 * @param signature whether the file is still as the laboratory signed it
 * @param signatureText the answer in one sentence, with the signer as far as it is known
 * @param asFound points before an adjustment; empty if the instrument was not adjusted, or nothing was measured before
 */
public record CertificateFile(
        String name,
        String sha256,
        String schemaVersion,
        String item,
        State state,
        Signature signature,
        String signatureText,
        List<CalibrationPoint> asFound) {

    public CertificateFile {
        asFound = List.copyOf(asFound);
        if (name.isBlank() || !sha256.matches("[0-9a-f]{64}")) {
            throw new IllegalArgumentException("a certificate file needs a name and the SHA-256 of its bytes");
        }
    }

    /** State of the instrument when the points were measured. */
    public enum State {
        /** The certificate speaks of no adjustment: as found and as left are one. */
        AS_CALIBRATED("as calibrated, no adjustment stated"),
        /** After an adjustment or repair: how it was handed back. */
        AS_LEFT("as left, after adjustment");

        private final String title;

        State(String title) {
            this.title = title;
        }

        /** As printed. */
        public String title() {
            return title;
        }
    }

    /** What the check of the signature answered. */
    public enum Signature {
        /** Unchanged since it was signed, by somebody whose certificate leads to one that was chosen as trusted. */
        GOOD("signature good"),
        /** Unchanged since it was signed, but nothing tells who the signer is. */
        UNKNOWN_SIGNER("signature good, signer unknown"),
        /** Changed after it was signed, or signed in part only. */
        BAD("signature bad"),
        /** Signed in a way that this program can not check. */
        NOT_CHECKED("signed, signature not checked"),
        /** No signature in the file. */
        NOT_SIGNED("not signed");

        private final String title;

        Signature(String title) {
            this.title = title;
        }

        /** As printed. */
        public String title() {
            return title;
        }
    }
}
