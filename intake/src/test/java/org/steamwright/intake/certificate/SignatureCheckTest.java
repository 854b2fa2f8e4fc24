package org.steamwright.intake.certificate;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.calibration.CertificateFile.Signature;
import org.steamwright.assessment.remark.Rank;

class SignatureCheckTest {

    private static final String IN_DATE = "2026-02-11T09:00:00Z";

    @TempDir
    Path folder;

    private static byte[] sample() {
        return new DccSample().due("2027-02-10").bytes();
    }

    private static CertificateSignature check(byte[] bytes, TrustAnchors trust) throws Exception {
        return DigitalCertificates.read(bytes, "logger.xml", trust).signature();
    }

    @Test
    void a_file_without_a_signature_is_told_as_such() throws Exception {
        assertThat(check(sample(), TrustAnchors.NONE)).isEqualTo(CertificateSignature.NONE);
    }

    @Test
    void good_names_the_signer_and_whom_the_trust_comes_from() throws Exception {
        CertificateSignature answer =
                check(InventedSigners.sign(sample(), "lab", IN_DATE), InventedSigners.trusting(folder, "root"));
        assertThat(answer.answer()).isEqualTo(Signature.GOOD);
        assertThat(answer.signer()).isEqualTo("Example Calibration (invented)");
        assertThat(answer.signedAt()).contains(Instant.parse(IN_DATE));
        assertThat(answer.text())
                .isEqualTo(
                        "The file is as Example Calibration (invented) signed it; trusted through Example Calibration Root"
                                + " (invented). Its certificate runs from 2025-01-01 to 2028-01-01, signed on 2026-02-11 as the signature"
                                + " itself claims. Whether it was withdrawn is not asked.");
    }

    @Test
    void the_signers_own_certificate_may_be_the_trusted_one() throws Exception {
        assertThat(check(InventedSigners.sign(sample(), "lab", ""), InventedSigners.trusting(folder, "lab"))
                        .text())
                .startsWith(
                        "The file is as Example Calibration (invented) signed it; trusted through its own certificate.")
                .contains("when it was signed is not stated");
    }

    @Test
    void an_unknown_signer_is_an_answer_of_its_own() throws Exception {
        byte[] signed = InventedSigners.sign(sample(), "stranger", IN_DATE);
        DigitalCertificate nobody = DigitalCertificates.read(signed, "logger.xml", TrustAnchors.NONE);
        assertThat(nobody.signature().answer()).isEqualTo(Signature.UNKNOWN_SIGNER);
        assertThat(nobody.signature().text()).contains("No folder of trusted certificates was given.");
        assertThat(nobody.remarks())
                .extracting(remark -> remark.id() + remark.rank())
                .containsExactly("CERTIFICATE-040NOTE");
        DigitalCertificate others =
                DigitalCertificates.read(signed, "logger.xml", InventedSigners.trusting(folder, "root"));
        assertThat(others.signature().text()).contains("leads to none of the trusted ones");
        assertThat(others.remarks())
                .extracting(remark -> remark.id() + remark.rank())
                .containsExactly("CERTIFICATE-040DOUBT");
    }

    @Test
    void any_changed_figure_makes_it_bad() throws Exception {
        byte[] signed = InventedSigners.sign(sample(), "lab", IN_DATE);
        String text = new String(signed, StandardCharsets.UTF_8);
        byte[] changed = text.replace("134.08", "134.00").getBytes(StandardCharsets.UTF_8);
        DigitalCertificate certificate =
                DigitalCertificates.read(changed, "logger.xml", InventedSigners.trusting(folder, "root"));
        assertThat(certificate.signature().answer()).isEqualTo(Signature.BAD);
        assertThat(certificate.signature().text()).contains("the content was changed after it was signed");
        assertThat(certificate.remarks())
                .anySatisfy(
                        remark -> assertThat(remark.id() + remark.rank()).isEqualTo("CERTIFICATE-039" + Rank.UNUSABLE));
        byte[] later = text.replace(IN_DATE, "2026-12-11T09:00:00Z").getBytes(StandardCharsets.UTF_8);
        assertThat(check(later, TrustAnchors.NONE).text())
                .contains("the particulars of the signature were changed after it was signed");
    }

    @Test
    void a_signature_over_a_part_is_bad() throws Exception {
        byte[] part = InventedSigners.sign(
                new DccSample().items(DccSample.item("part", "SN-1", "TL-1")).bytes(),
                "lab",
                InventedSigners.certificate("lab"),
                "",
                "#part");
        CertificateSignature answer = check(part, InventedSigners.trusting(folder, "root"));
        assertThat(answer.answer()).isIn(Signature.BAD, Signature.NOT_CHECKED);
    }

    @Test
    void somebody_elses_certificate_beside_it_is_bad() throws Exception {
        byte[] signed = InventedSigners.sign(sample(), "stranger", InventedSigners.certificate("lab"), IN_DATE, "");
        CertificateSignature answer = check(signed, InventedSigners.trusting(folder, "root"));
        assertThat(answer.answer()).isEqualTo(Signature.BAD);
    }

    @Test
    void a_certificate_out_of_date_when_it_was_signed_is_not_trusted() throws Exception {
        CertificateSignature answer = check(
                InventedSigners.sign(sample(), "lab", "2028-06-01T09:00:00Z"),
                InventedSigners.trusting(folder, "root", "lab"));
        assertThat(answer.answer()).isEqualTo(Signature.UNKNOWN_SIGNER);
        assertThat(answer.text()).contains("The signer's certificate was not in date when it was signed.");
    }

    @Test
    void an_unreadable_or_empty_folder_of_trust_is_said() throws Exception {
        Files.writeString(folder.resolve("broken.crt"), "no certificate");
        Files.writeString(folder.resolve("notes.txt"), "left alone");
        assertThat(TrustAnchors.of(folder).unreadable())
                .singleElement()
                .asString()
                .startsWith("The file \"broken.crt\" of the folder of trusted certificates can't be read");
        Path empty = Files.createDirectory(folder.resolve("empty"));
        assertThat(DigitalCertificates.read(sample(), "logger.xml", TrustAnchors.of(empty))
                        .remarks())
                .extracting(remark -> remark.id() + remark.rank())
                .containsExactly("CERTIFICATE-018DOUBT");
    }

    @Test
    void nothing_outside_the_file_is_fetched_for_it() throws Exception {
        String signed = new String(InventedSigners.sign(sample(), "lab", ""), StandardCharsets.UTF_8);
        byte[] outside =
                signed.replace("URI=\"\"", "URI=\"file:///etc/hostname\"").getBytes(StandardCharsets.UTF_8);
        CertificateSignature answer = check(outside, TrustAnchors.NONE);
        assertThat(answer.answer()).isIn(Signature.NOT_CHECKED, Signature.BAD);
    }
}
