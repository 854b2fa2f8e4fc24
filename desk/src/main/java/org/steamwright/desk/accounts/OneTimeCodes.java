package org.steamwright.desk.accounts;

import com.eatthepath.otp.TimeBasedOneTimePasswordGenerator;
import java.nio.charset.StandardCharsets;
import java.security.InvalidKeyException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.Locale;
import java.util.OptionalLong;
import javax.crypto.spec.SecretKeySpec;
import org.steamwright.desk.web.Percent;

/**
 * One-time codes of six digits, as an authenticator on a telephone shows them. A code of the step before or after is taken
 * too, because clocks differ; none is taken twice.
 *
 * @source RFC 6238, sections 4 and 5.2 (30 s, HMAC-SHA-1, one step of delay)
 */
public final class OneTimeCodes {

    static final int SECRET_BYTES = 20;

    private static final Duration STEP = Duration.ofSeconds(30);
    private static final int DIGITS = 6;
    private static final String ALGORITHM = TimeBasedOneTimePasswordGenerator.TOTP_ALGORITHM_HMAC_SHA1;

    private final TimeBasedOneTimePasswordGenerator generator =
            new TimeBasedOneTimePasswordGenerator(STEP, DIGITS, ALGORITHM);
    private final SecureRandom random = new SecureRandom();

    /** A new secret. */
    public byte[] newSecret() {
        byte[] secret = new byte[SECRET_BYTES];
        random.nextBytes(secret);
        return secret;
    }

    /** The secret as it is typed into an authenticator by hand. */
    public static String typed(byte[] secret) {
        return Base32.text(secret);
    }

    /** The address that an authenticator reads from a square of dots; the usual form, written down by no standard. */
    public static String address(byte[] secret, String user) {
        String name = Percent.encoded(user);
        return "otpauth://totp/Steamwright:" + name + "?secret=" + typed(secret) + "&issuer=Steamwright&period="
                + STEP.toSeconds() + "&digits=" + DIGITS;
    }

    /** The code of that moment. */
    public String code(byte[] secret, Instant moment) {
        try {
            return generator.generateOneTimePasswordString(new SecretKeySpec(secret, ALGORITHM), moment, Locale.ROOT);
        } catch (InvalidKeyException e) {
            throw new IllegalArgumentException("a secret that no code can be made of", e);
        }
    }

    /**
     * The time step that a code belongs to, if it is good now.
     *
     * @param typed code, spaces do not matter
     * @param lastStep step of the last code taken; that and earlier ones are not taken again
     */
    public OptionalLong stepOf(byte[] secret, String typed, Instant now, long lastStep) {
        byte[] digits = typed.replaceAll("\\s", "").getBytes(StandardCharsets.UTF_8);
        long current = now.getEpochSecond() / STEP.toSeconds();
        OptionalLong found = OptionalLong.empty();
        for (long step = current - 1; step <= current + 1; step++) {
            String code = code(secret, Instant.ofEpochSecond(step * STEP.toSeconds()));
            if (MessageDigest.isEqual(code.getBytes(StandardCharsets.UTF_8), digits) && step > lastStep) {
                found = OptionalLong.of(step);
            }
        }
        return found;
    }
}
