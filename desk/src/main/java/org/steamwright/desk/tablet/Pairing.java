package org.steamwright.desk.tablet;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * Who is let in on the local network. A code opens once, within five minutes, and dies after five wrong tries, so that
 * guessing has a chance of five in a hundred million.
 */
public final class Pairing {

    private static final Duration CODE_LIVES = Duration.ofMinutes(5);
    private static final int TRIES = 5;
    private static final int DIGITS = 8;
    private static final int KEY_BYTES = 32;

    private final Clock clock;
    private final SecureRandom random;
    private final List<Paired> paired = new ArrayList<>();
    private Optional<Code> code = Optional.empty();
    private int wrong;

    /**
     * @param clock time of the machine
     * @param random where codes and keys come from
     */
    public Pairing(Clock clock, SecureRandom random) {
        this.clock = clock;
        this.random = random;
    }

    /**
     * A code that lets one tablet in.
     *
     * @param digits eight of them
     * @param until when it ends
     */
    public record Code(String digits, Instant until) {}

    /**
     * A tablet that was let in.
     *
     * @param name as typed on it
     * @param since when
     * @param key what it shows at each request
     */
    private record Paired(String name, Instant since, String key) {}

    /**
     * A tablet as the owner sees it.
     *
     * @param name as typed on it
     * @param since when it was let in
     */
    public record Device(String name, Instant since) {}

    /** A new code; the one before it opens nothing any more. */
    public synchronized Code newCode() {
        StringBuilder digits = new StringBuilder();
        for (int i = 0; i < DIGITS; i++) {
            digits.append(random.nextInt(10));
        }
        Code made = new Code(digits.toString(), clock.instant().plus(CODE_LIVES));
        code = Optional.of(made);
        wrong = 0;
        return made;
    }

    /**
     * Lets a tablet in.
     *
     * @param typed code, blanks in it do not matter
     * @param name for the owner's list
     * @return the key that it has to show from now on; empty if the code is wrong, used, or too old
     */
    public synchronized Optional<String> pair(String typed, String name) {
        if (code.isEmpty() || !clock.instant().isBefore(code.get().until())) {
            return Optional.empty();
        }
        if (!equal(code.get().digits(), typed.replace(" ", ""))) {
            wrong++;
            if (wrong >= TRIES) {
                code = Optional.empty();
            }
            return Optional.empty();
        }
        code = Optional.empty();
        byte[] bytes = new byte[KEY_BYTES];
        random.nextBytes(bytes);
        String key = HexFormat.of().formatHex(bytes);
        paired.add(new Paired(name, clock.instant(), key));
        return Optional.of(key);
    }

    /** The name of the tablet that shows this key. */
    public synchronized Optional<String> nameOf(String key) {
        return paired.stream()
                .filter(one -> equal(one.key, key))
                .map(Paired::name)
                .findFirst();
    }

    /** Tablets that are let in, the oldest first. */
    public synchronized List<Device> devices() {
        return paired.stream().map(one -> new Device(one.name, one.since)).toList();
    }

    /** Shows all tablets out, and ends the code that may be open. */
    public synchronized void showOut() {
        paired.clear();
        code = Optional.empty();
    }

    private static boolean equal(String one, String other) {
        return MessageDigest.isEqual(one.getBytes(StandardCharsets.UTF_8), other.getBytes(StandardCharsets.UTF_8));
    }
}
