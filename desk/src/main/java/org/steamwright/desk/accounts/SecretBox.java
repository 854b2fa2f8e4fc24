package org.steamwright.desk.accounts;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.SecureRandom;
import java.util.Arrays;
import java.util.Base64;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import javax.crypto.AEADBadTagException;
import javax.crypto.Cipher;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.SecretKeySpec;

/**
 * Seals secrets that the program itself has to read again, with a key that lies in a file of its own beside the database. A
 * copy of the tables alone then gives nothing away.
 *
 * @source NIST SP 800-38D for AES-GCM; from memory
 */
public final class SecretBox {

    /** Bytes of a key. */
    static final int KEY_BYTES = 32;

    private static final int NONCE_BYTES = 12;
    private static final int TAG_BITS = 128;

    private final SecretKeySpec key;
    private final SecureRandom random = new SecureRandom();

    private SecretBox(byte[] key) {
        this.key = new SecretKeySpec(key, "AES");
    }

    /**
     * The box whose key lies in that file; the key is made, readable by its owner only, if there is none.
     *
     * @throws IOException if the disk fails, or the file holds no key
     */
    public static SecretBox open(Path file) throws IOException {
        if (!Files.exists(file)) {
            byte[] key = new byte[KEY_BYTES];
            new SecureRandom().nextBytes(key);
            Set<PosixFilePermission> owner =
                    EnumSet.of(PosixFilePermission.OWNER_READ, PosixFilePermission.OWNER_WRITE);
            if (Files.getFileStore(file.toAbsolutePath().getParent()).supportsFileAttributeView("posix")) {
                Files.createFile(file, PosixFilePermissions.asFileAttribute(owner));
                Files.write(file, key);
            } else {
                Files.write(file, key, StandardOpenOption.CREATE_NEW);
            }
        }
        byte[] key = Files.readAllBytes(file);
        if (key.length != KEY_BYTES) {
            throw new IOException(
                    "%s: a key of %d bytes is expected here, found are %d. Put the file back from the backup; without it second factors have to be set up again."
                            .formatted(file, KEY_BYTES, key.length));
        }
        return new SecretBox(key);
    }

    /**
     * A secret, sealed for one purpose.
     *
     * @param owner whose it is; needed again for opening, so that it can't be moved to somebody else
     */
    public String seal(byte[] secret, String owner) {
        byte[] nonce = new byte[NONCE_BYTES];
        random.nextBytes(nonce);
        try {
            byte[] sealed = cipher(Cipher.ENCRYPT_MODE, nonce, owner).doFinal(secret);
            return Base64.getEncoder()
                    .encodeToString(ByteBuffer.allocate(NONCE_BYTES + sealed.length)
                            .put(nonce)
                            .put(sealed)
                            .array());
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("AES-GCM belongs to every Java", e);
        }
    }

    /** The secret; empty if it was sealed with another key or for another owner. */
    public Optional<byte[]> unseal(String sealed, String owner) {
        byte[] bytes = Base64.getDecoder().decode(sealed);
        try {
            return Optional.of(cipher(Cipher.DECRYPT_MODE, Arrays.copyOf(bytes, NONCE_BYTES), owner)
                    .doFinal(bytes, NONCE_BYTES, bytes.length - NONCE_BYTES));
        } catch (AEADBadTagException e) {
            return Optional.empty();
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("AES-GCM belongs to every Java", e);
        }
    }

    private Cipher cipher(int mode, byte[] nonce, String owner) throws GeneralSecurityException {
        Cipher cipher = Cipher.getInstance("AES/GCM/NoPadding");
        cipher.init(mode, key, new GCMParameterSpec(TAG_BITS, nonce));
        cipher.updateAAD(owner.getBytes(StandardCharsets.UTF_8));
        return cipher;
    }
}
