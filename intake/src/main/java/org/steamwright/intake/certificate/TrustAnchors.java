package org.steamwright.intake.certificate;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;

/** Certificates of laboratories and of those who vouch for them, chosen as trusted by whoever uses the program. */
public final class TrustAnchors {

    /** Nobody is trusted: a good signature is then one of an unknown signer. */
    public static final TrustAnchors NONE = new TrustAnchors(List.of(), List.of());

    private static final int MOST_FILES = 1000;
    private static final long LARGEST_BYTES = 1 << 20;

    private final List<X509Certificate> certificates;
    private final List<String> unreadable;

    private TrustAnchors(List<X509Certificate> certificates, List<String> unreadable) {
        this.certificates = List.copyOf(certificates);
        this.unreadable = List.copyOf(unreadable);
    }

    /**
     * The certificates of a folder: files ending in {@code .crt}, {@code .cer}, {@code .pem} or {@code .der}, each with one
     * certificate or several. Other files are left alone; one that can't be read is told with the first certificate checked.
     *
     * @throws IOException if the folder can't be read
     */
    public static TrustAnchors of(Path folder) throws IOException {
        List<Path> files;
        try (Stream<Path> all = Files.list(folder)) {
            files = all.filter(TrustAnchors::isCertificate)
                    .limit(MOST_FILES)
                    .sorted()
                    .toList();
        }
        List<X509Certificate> certificates = new ArrayList<>();
        List<String> unreadable = new ArrayList<>();
        for (Path file : files) {
            try {
                if (Files.size(file) > LARGEST_BYTES) {
                    throw new CertificateException("it has more than " + LARGEST_BYTES + " bytes");
                }
                CertificateFactory factory = CertificateFactory.getInstance("X.509");
                for (java.security.cert.Certificate one :
                        factory.generateCertificates(new ByteArrayInputStream(Files.readAllBytes(file)))) {
                    certificates.add((X509Certificate) one);
                }
            } catch (CertificateException e) {
                unreadable.add(
                        "The file \"" + file.getFileName() + "\" of the folder of trusted certificates can't be read ("
                                + DccText.oneLine(String.valueOf(e.getMessage()))
                                + "). Remove it, or copy the certificate again.");
            }
        }
        if (certificates.isEmpty() && unreadable.isEmpty()) {
            unreadable.add("The folder \"" + folder.getFileName()
                    + "\" holds no certificate (.crt, .cer, .pem, .der), so nobody is trusted. Put those of the laboratories"
                    + " into it.");
        }
        return new TrustAnchors(certificates, unreadable);
    }

    private static boolean isCertificate(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        return Files.isRegularFile(file)
                && Stream.of(".crt", ".cer", ".pem", ".der").anyMatch(name::endsWith);
    }

    boolean isEmpty() {
        return certificates.isEmpty();
    }

    List<X509Certificate> certificates() {
        return certificates;
    }

    /** What could not be read, a sentence each. */
    List<String> unreadable() {
        return unreadable;
    }
}
