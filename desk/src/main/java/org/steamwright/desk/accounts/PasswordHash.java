package org.steamwright.desk.accounts;

import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.concurrent.Semaphore;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;

/**
 * Hashes of passwords by Argon2id, written with their parameters and salt in the usual text form, so that dearer parameters
 * can be taken later.
 *
 * @source OWASP Password Storage Cheat Sheet, "Argon2id": 19 MiB, 2 passes, 1 lane at least (cheat sheet not seen itself, the
 *     figures as quoted by several projects); RFC 9106 for the function
 */
public final class PasswordHash {

    private static final int KIBIBYTES = 19 * 1024;
    private static final int PASSES = 2;
    private static final int LANES = 1;
    private static final int SALT_BYTES = 16;
    private static final int HASH_BYTES = 32;

    /** So many at once; more would let a crowd of log-ins take the memory. */
    private static final Semaphore AT_ONCE = new Semaphore(2, true);

    private static final Pattern FORM = Pattern.compile(
            "\\$argon2id\\$v=19\\$m=(\\d{1,7}),t=(\\d{1,2}),p=(\\d{1,2})\\$([A-Za-z0-9+/]+)\\$([A-Za-z0-9+/]+)");

    private final SecureRandom random = new SecureRandom();

    /** Hash of a password with a new salt. */
    public String of(char[] password) {
        byte[] salt = new byte[SALT_BYTES];
        random.nextBytes(salt);
        byte[] hash = argon2id(password, salt, KIBIBYTES, PASSES, LANES, HASH_BYTES);
        Base64.Encoder encoder = Base64.getEncoder().withoutPadding();
        return "$argon2id$v=19$m=" + KIBIBYTES + ",t=" + PASSES + ",p=" + LANES + "$" + encoder.encodeToString(salt)
                + "$" + encoder.encodeToString(hash);
    }

    /**
     * Whether the hash is that of the password; never for an empty hash, in about the same time.
     *
     * @throws IllegalArgumentException if the text is no such hash
     */
    public boolean isOf(String hash, char[] password) {
        if (hash.isEmpty()) {
            argon2id(password, new byte[SALT_BYTES], KIBIBYTES, PASSES, LANES, HASH_BYTES);
            return false;
        }
        Matcher form = FORM.matcher(hash);
        if (!form.matches()) {
            throw new IllegalArgumentException("not a hash by Argon2id");
        }
        byte[] wanted = Base64.getDecoder().decode(form.group(5));
        byte[] found = argon2id(
                password,
                Base64.getDecoder().decode(form.group(4)),
                Integer.parseInt(form.group(1)),
                Integer.parseInt(form.group(2)),
                Integer.parseInt(form.group(3)),
                wanted.length);
        return MessageDigest.isEqual(wanted, found);
    }

    private static byte[] argon2id(char[] password, byte[] salt, int kibibytes, int passes, int lanes, int length) {
        AT_ONCE.acquireUninterruptibly();
        try {
            Argon2BytesGenerator generator = new Argon2BytesGenerator();
            generator.init(new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
                    .withVersion(Argon2Parameters.ARGON2_VERSION_13)
                    .withMemoryAsKB(kibibytes)
                    .withIterations(passes)
                    .withParallelism(lanes)
                    .withSalt(salt)
                    .build());
            byte[] hash = new byte[length];
            generator.generateBytes(password, hash);
            return hash;
        } finally {
            AT_ONCE.release();
        }
    }
}
