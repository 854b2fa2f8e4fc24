package org.steamwright.intake.certificate;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.remark.Remark;

/**
 * A digital calibration certificate as it was understood.
 *
 * @param file name without folder
 * @param sha256 of its bytes, lower-case hexadecimal digits
 * @param schemaVersion as the file states it
 * @param number unique identifier of the certificate
 * @param laboratory name, with its accreditation code where it is stated
 * @param identifications further numbers: of the order, of the laboratory
 * @param issuedOn day of issue; empty if not stated
 * @param calibratedOn last day of the measurements
 * @param recalibrateBy day by which it is to be calibrated again; empty if the certificate gives none
 * @param items what was calibrated, at least one
 * @param tables of results, in the order of the file
 * @param conditions ambient and other conditions, a line each
 * @param statements of the laboratory, a line each
 * @param isSimulated whether the file says of itself that it was invented by this program
 * @param signature answer of the check
 * @param remarks what was odd
 */
public record DigitalCertificate(
        String file,
        String sha256,
        String schemaVersion,
        String number,
        String laboratory,
        List<Identification> identifications,
        Optional<LocalDate> issuedOn,
        LocalDate calibratedOn,
        Optional<LocalDate> recalibrateBy,
        List<CalibratedItem> items,
        List<ResultTable> tables,
        List<String> conditions,
        List<String> statements,
        boolean isSimulated,
        CertificateSignature signature,
        List<Remark> remarks) {

    public DigitalCertificate {
        identifications = List.copyOf(identifications);
        items = List.copyOf(items);
        tables = List.copyOf(tables);
        conditions = List.copyOf(conditions);
        statements = List.copyOf(statements);
        remarks = List.copyOf(remarks);
    }
}
