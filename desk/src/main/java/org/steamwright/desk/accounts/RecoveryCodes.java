package org.steamwright.desk.accounts;

import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.steamwright.records.proof.Hash;

/**
 * Codes on paper for the day on which the telephone is lost. Each has 120 bits and is good once.
 *
 * @source OWASP ASVS 5.0, 6.5.2: with 112 bits or more an ordinary hash is enough; from memory
 */
final class RecoveryCodes {

    static final int COUNT = 8;
    private static final int BYTES = 15;
    private static final int GROUP = 4;

    private RecoveryCodes() {}

    static List<String> fresh(SecureRandom random) {
        return IntStream.range(0, COUNT)
                .mapToObj(i -> {
                    byte[] bytes = new byte[BYTES];
                    random.nextBytes(bytes);
                    return Base32.text(bytes).replaceAll("(.{" + GROUP + "})(?=.)", "$1-");
                })
                .toList();
    }

    /** Hash of a code as typed; case, spaces and lines between groups do not matter. */
    static String hash(String typed) {
        String plain = typed.replaceAll("[\\s-]", "").toUpperCase(Locale.ROOT);
        return Hash.ofBytes(Hash.sha256().digest(plain.getBytes(StandardCharsets.UTF_8)))
                .hex();
    }
}
