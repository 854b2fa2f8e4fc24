package org.steamwright.desk.tablet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.steamwright.records.proof.Hash;

/**
 * The certificate of this laptop for tablets, signed by itself: there is no network in the basement to ask an authority. Made
 * once by the keytool of the running Java, for the addresses that the laptop has then, and kept beside the record.
 *
 * @param store key and certificate, PKCS 12
 * @param secret of the store
 * @param fingerprint SHA-256 of the certificate, in pairs of hexadecimal digits
 */
public record OwnCertificate(Path store, String secret, String fingerprint) {

    private static final String ALIAS = "desk";
    private static final int SECRET_BYTES = 24;
    private static final int SECONDS = 60;
    private static final Set<PosixFilePermission> OWNER_ONLY =
            Set.of(PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE);

    /**
     * The certificate for these addresses; the one that is kept, if it was made for them.
     *
     * @param folder beside the record; made if it is not there
     * @param addresses IP addresses of this laptop
     * @throws IOException if it can't be made or read, saying why
     */
    public static OwnCertificate in(Path folder, List<String> addresses) throws IOException {
        Path store = folder.resolve("tablet.p12");
        Path secretFile = folder.resolve("tablet.secret");
        Path madeFor = folder.resolve("tablet.addresses");
        String wanted = String.join("\n", addresses);
        boolean isKept = Files.exists(store)
                && Files.exists(secretFile)
                && Files.exists(madeFor)
                && Files.readString(madeFor).equals(wanted);
        if (!isKept) {
            Files.createDirectories(folder);
            Files.deleteIfExists(store);
            byte[] random = new byte[SECRET_BYTES];
            new SecureRandom().nextBytes(random);
            Files.deleteIfExists(secretFile);
            // nobody else may read it, not even between its making and its writing
            emptyFile(secretFile);
            Files.writeString(secretFile, HexFormat.of().formatHex(random));
            make(store, secretFile, addresses);
            ownerOnly(store);
            Files.writeString(madeFor, wanted);
        }
        String secret = Files.readString(secretFile);
        return new OwnCertificate(store, secret, fingerprint(store, secret));
    }

    private static void emptyFile(Path file) throws IOException {
        if (Files.getFileStore(file.toAbsolutePath().getParent()).supportsFileAttributeView("posix")) {
            Files.createFile(file, PosixFilePermissions.asFileAttribute(OWNER_ONLY));
        } else {
            Files.createFile(file);
        }
    }

    private static void ownerOnly(Path file) throws IOException {
        if (Files.getFileStore(file).supportsFileAttributeView("posix")) {
            Files.setPosixFilePermissions(file, OWNER_ONLY);
        }
    }

    private static void make(Path store, Path secretFile, List<String> addresses) throws IOException {
        String names = addresses.stream().map(address -> "ip:" + address).collect(Collectors.joining(",", "san=", ""));
        Process keytool = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "keytool")
                                .toString(),
                        "-genkeypair",
                        "-alias",
                        ALIAS,
                        "-keyalg",
                        "EC",
                        "-groupname",
                        "secp256r1",
                        "-validity",
                        "825",
                        "-dname",
                        "CN=Steamwright desk",
                        "-ext",
                        names,
                        "-storetype",
                        "PKCS12",
                        "-keystore",
                        store.toString(),
                        "-storepass:file",
                        secretFile.toString())
                .redirectErrorStream(true)
                .start();
        keytool.getOutputStream().close();
        try (InputStream said = keytool.getInputStream()) {
            String words = new String(said.readAllBytes(), StandardCharsets.UTF_8);
            if (!keytool.waitFor(SECONDS, TimeUnit.SECONDS) || keytool.exitValue() != 0) {
                throw new IOException("no certificate could be made for tablets; keytool says: " + words.strip());
            }
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new IOException("making a certificate for tablets was interrupted", stopped);
        }
    }

    private static String fingerprint(Path store, String secret) throws IOException {
        try (InputStream in = Files.newInputStream(store)) {
            KeyStore keys = KeyStore.getInstance("PKCS12");
            keys.load(in, secret.toCharArray());
            Hash hash = Hash.ofContent(keys.getCertificate(ALIAS).getEncoded());
            return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(hash.toBytes());
        } catch (GeneralSecurityException broken) {
            throw new IOException(
                    store + " can't be read: " + broken.getMessage() + ". Delete it; a new one is made.", broken);
        }
    }

    @Override
    public String toString() {
        return "certificate with the fingerprint " + fingerprint;
    }
}
