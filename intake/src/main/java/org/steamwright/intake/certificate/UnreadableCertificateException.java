package org.steamwright.intake.certificate;

/** A file that gives no certificate: why, where, and what would mend it. Nothing of it was used. */
public final class UnreadableCertificateException extends Exception {

    private static final long serialVersionUID = 1L;

    private final CertificateMessage id;
    private final String file;
    private final String where;
    private final String text;

    /**
     * @param id stable identity of the message
     * @param file name without folder
     * @param where line as far as known, empty if the whole file is meant
     * @param text what was found, what was expected, how to mend it
     */
    public UnreadableCertificateException(CertificateMessage id, String file, String where, String text) {
        super(id.id() + " " + file + (where.isEmpty() ? "" : ", " + where) + ": " + text);
        this.id = id;
        this.file = file;
        this.where = where;
        this.text = text;
    }

    /** Identity of the message. */
    public CertificateMessage id() {
        return id;
    }

    /** Name of the file without folder. */
    public String file() {
        return file;
    }

    /** Line as far as known; empty if the whole file is meant. */
    public String where() {
        return where;
    }

    /** What was found, what was expected, how to mend it. */
    public String text() {
        return text;
    }
}
