package org.steamwright.intake.certificate;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import javax.xml.stream.XMLStreamException;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.intake.xml.XmlElement;
import org.steamwright.intake.xml.XmlLimits;
import org.steamwright.intake.xml.XmlRefusedException;

/**
 * Reads digital calibration certificates.
 *
 * <p>Reading is all it does: nothing is written, nothing fetched, no schema is asked. A file that is no certificate is
 * refused whole; of a certificate, everything that is not used is named in its remarks.
 */
public final class DigitalCertificates {

    /** Largest certificate that is read, in bytes. */
    public static final long LARGEST_FILE_BYTES = XmlLimits.DOCUMENT.bytes();

    /** As much of a file as tells whether it is XML. */
    private static final int HEAD = 64;

    private DigitalCertificates() {}

    /**
     * The certificate in a file.
     *
     * @param path an XML file
     * @param trust whose signatures are trusted
     * @throws UnreadableCertificateException if it gives no certificate, with what would mend it
     * @throws IOException if the disk fails
     */
    public static DigitalCertificate read(Path path, TrustAnchors trust)
            throws IOException, UnreadableCertificateException {
        Path last = path.getFileName();
        String name = last == null ? path.toString() : last.toString();
        if (!Files.isRegularFile(path)) {
            throw new UnreadableCertificateException(
                    CertificateMessage.NO_FILE,
                    name,
                    "",
                    Files.isDirectory(path)
                            ? "this is a folder, expected a certificate. Name the XML file inside it."
                            : "there is no such file, expected a certificate. Check the name and the folder.");
        }
        long size = Files.size(path);
        if (size > LARGEST_FILE_BYTES) {
            throw new UnreadableCertificateException(
                    CertificateMessage.TOO_LARGE,
                    name,
                    "",
                    "the file has " + size + " bytes, a certificate may have up to " + LARGEST_FILE_BYTES
                            + ". Ask the laboratory for it without pictures and films inside.");
        }
        try {
            return read(Files.readAllBytes(path), name, trust);
        } catch (AccessDeniedException denied) {
            throw new UnreadableCertificateException(
                    CertificateMessage.NO_FILE,
                    name,
                    "",
                    "the system does not let the program read this file. Is it open in another program, or does it belong"
                            + " to another user?");
        }
    }

    /**
     * The certificate in some bytes.
     *
     * @param bytes of the file
     * @param name of the file without folder
     * @param trust whose signatures are trusted
     * @throws UnreadableCertificateException if it gives no certificate, with what would mend it
     */
    public static DigitalCertificate read(byte[] bytes, String name, TrustAnchors trust)
            throws UnreadableCertificateException {
        XmlElement.Document document = parse(bytes, name);
        Notes notes = new Notes(name);
        CertificateSignature signature = new SignatureCheck(trust).check(bytes, document.root());
        remark(signature, trust, notes);
        return new DccReader(name, document, notes).read(FileBytes.sha256(bytes), signature);
    }

    /** Whether a file is XML by its name or its first bytes, and so no recording of text. */
    public static boolean isXml(Path path) throws IOException {
        if (path.toString().toLowerCase(Locale.ROOT).endsWith(".xml")) {
            return true;
        }
        if (!Files.isRegularFile(path)) {
            return false;
        }
        try (InputStream in = Files.newInputStream(path)) {
            String head = new String(in.readNBytes(HEAD), StandardCharsets.ISO_8859_1);
            return head.replaceFirst("^\\u00ef\\u00bb\\u00bf", "")
                    .stripLeading()
                    .startsWith("<?xml");
        }
    }

    private static XmlElement.Document parse(byte[] bytes, String name) throws UnreadableCertificateException {
        try {
            return XmlElement.read(bytes, XmlLimits.DOCUMENT);
        } catch (XmlRefusedException refused) {
            boolean isTooLarge = refused.reason() == XmlRefusedException.Reason.TOO_LARGE;
            throw new UnreadableCertificateException(
                    isTooLarge ? CertificateMessage.TOO_LARGE : CertificateMessage.REFUSED_XML,
                    name,
                    where(refused),
                    "found " + said(refused)
                            + ". No certificate needs that; nothing of the file was read. Ask the laboratory for the"
                            + " original, or type the certificate from paper.");
        } catch (XMLStreamException broken) {
            throw new UnreadableCertificateException(
                    CertificateMessage.NOT_XML,
                    name,
                    where(broken),
                    bytes.length == 0
                            ? "the file has 0 bytes. Copy the certificate again."
                            : "expected a complete XML document, but it breaks off or is damaged there (" + said(broken)
                                    + "). Copy the certificate again from where it came.");
        }
    }

    private static String where(XMLStreamException e) {
        return e.getLocation() == null || e.getLocation().getLineNumber() < 1
                ? ""
                : "line " + e.getLocation().getLineNumber();
    }

    /** The message of the parser without the place, which is told beside it. */
    private static String said(XMLStreamException e) {
        String text = String.valueOf(e.getMessage());
        int at = text.indexOf("Message: ");
        return DccText.oneLine(at < 0 ? text : text.substring(at + "Message: ".length()));
    }

    private static void remark(CertificateSignature signature, TrustAnchors trust, Notes notes) {
        if (signature.answer() == CertificateFile.Signature.BAD) {
            notes.add(CertificateMessage.SIGNATURE_BAD, Rank.UNUSABLE, signature.text());
        }
        if (signature.answer() == CertificateFile.Signature.UNKNOWN_SIGNER) {
            notes.add(CertificateMessage.SIGNER_UNKNOWN, trust.isEmpty() ? Rank.NOTE : Rank.DOUBT, signature.text());
        }
        if (signature.answer() == CertificateFile.Signature.NOT_CHECKED) {
            notes.add(CertificateMessage.SIGNATURE_NOT_CHECKED, Rank.DOUBT, signature.text());
        }
        trust.unreadable().forEach(text -> notes.add(CertificateMessage.TRUST_FOLDER, Rank.DOUBT, text));
    }
}
