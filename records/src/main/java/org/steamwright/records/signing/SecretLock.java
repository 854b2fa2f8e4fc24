package org.steamwright.records.signing;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Arrays;
import java.util.Optional;
import javax.crypto.AEADBadTagException;
import javax.crypto.Cipher;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.SecretKeySpec;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;
import org.steamwright.records.proof.Hash;

/**
 * Locks a private key with its owner's secret: Argon2id makes a key of the secret, AES-256-GCM locks with it. Argon2id is
 * used rather than the PBKDF2 of the JDK because a stolen laptop is the case to fear, and memory is what an attacker with
 * many processors lacks.
 *
 * @source RFC 9106, section 4, second recommended option: 64 MiB, 3 passes, 4 lanes; from memory
 */
final class SecretLock {

    private static final int KIBIBYTES = 64 * 1024;
    private static final int PASSES = 3;
    private static final int LANES = 4;
    private static final int SALT_BYTES = 16;
    private static final int NONCE_BYTES = 12;
    private static final int KEY_BYTES = 32;
    private static final int TAG_BITS = 128;

    private final byte[] salt;
    private final byte[] nonce;
    private final byte[] locked;

    SecretLock(byte[] salt, byte[] nonce, byte[] locked) {
        this.salt = salt.clone();
        this.nonce = nonce.clone();
        this.locked = locked.clone();
    }

    static SecretLock lock(byte[] content, char[] secret, String owner, SecureRandom random)
            throws GeneralSecurityException {
        byte[] salt = new byte[SALT_BYTES];
        byte[] nonce = new byte[NONCE_BYTES];
        random.nextBytes(salt);
        random.nextBytes(nonce);
        Cipher cipher = cipher(Cipher.ENCRYPT_MODE, secret, salt, nonce, owner);
        return new SecretLock(salt, nonce, cipher.doFinal(content));
    }

    /** The content; empty if the secret is another, or the lock was altered. */
    Optional<byte[]> unlock(char[] secret, String owner) throws GeneralSecurityException {
        try {
            return Optional.of(
                    cipher(Cipher.DECRYPT_MODE, secret, salt, nonce, owner).doFinal(locked));
        } catch (AEADBadTagException e) {
            return Optional.empty();
        }
    }

    private static Cipher cipher(int mode, char[] secret, byte[] salt, byte[] nonce, String owner)
            throws GeneralSecurityException {
        byte[] key = new byte[KEY_BYTES];
        Argon2BytesGenerator generator = new Argon2BytesGenerator();
        generator.init(new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
                .withVersion(Argon2Parameters.ARGON2_VERSION_13)
                .withMemoryAsKB(KIBIBYTES)
                .withIterations(PASSES)
                .withParallelism(LANES)
                .withSalt(salt)
                .build());
        generator.generateBytes(secret, key);
        Cipher cipher = Cipher.getInstance("AES/GCM/NoPadding");
        cipher.init(mode, new SecretKeySpec(key, "AES"), new GCMParameterSpec(TAG_BITS, nonce));
        cipher.updateAAD(owner.getBytes(StandardCharsets.UTF_8));
        Arrays.fill(key, (byte) 0);
        return cipher;
    }

    /** Hash over all parts, by which damage is found without the secret. */
    static Hash hash(String id, String owner, byte[] salt, byte[] nonce, byte[] locked) {
        MessageDigest digest = Hash.sha256();
        digest.update((id + "\n" + owner + "\n").getBytes(StandardCharsets.UTF_8));
        digest.update(salt);
        digest.update(nonce);
        return Hash.ofBytes(digest.digest(locked));
    }

    Hash hash(String id, String owner) {
        return hash(id, owner, salt, nonce, locked);
    }

    byte[] salt() {
        return salt.clone();
    }

    byte[] nonce() {
        return nonce.clone();
    }

    byte[] locked() {
        return locked.clone();
    }
}
