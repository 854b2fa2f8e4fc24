package org.steamwright.intake.certificate;

/** Every message about a digital calibration certificate, with its stable identity and a page in docs/messages. */
public enum CertificateMessage {
    NO_FILE(1),
    TOO_LARGE(2),
    NOT_XML(3),
    REFUSED_XML(4),
    NOT_A_CERTIFICATE(5),
    OTHER_MAJOR_VERSION(6),
    PART_MISSING(7),
    NO_DATE(8),

    ITEM_OPEN(11),
    RESULT_OPEN(12),
    NOTHING_USABLE(13),
    NO_DUE_DATE(14),
    UNCERTAINTY_MISSING(15),
    AS_LEFT_MISSING(16),
    CONTRADICTION(17),
    TRUST_FOLDER(18),

    NEWER_SCHEMA(31),
    TABLE_NOT_USED(32),
    NOT_UNDERSTOOD(33),
    VALUES_DISAGREE(34),
    POINTS_MERGED(35),
    OUTSIDE_VALIDITY(36),
    ATTACHMENT(37),
    NOT_REAL(38),
    SIGNATURE_BAD(39),
    SIGNER_UNKNOWN(40),
    SIGNATURE_NOT_CHECKED(41),
    DUE_EARLIER(42),
    UNCERTAINTY_ELSEWHERE(43),
    EARLIER_REPORT(44),
    NOT_CONFORMING(45),
    OTHER_NUMBER(46);

    private final int number;

    CertificateMessage(int number) {
        this.number = number;
    }

    /** Such as {@code CERTIFICATE-011}; never changes its meaning. */
    public String id() {
        return (number < 10 ? "CERTIFICATE-00" : "CERTIFICATE-0") + number;
    }
}
