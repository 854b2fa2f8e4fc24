package org.steamwright.criteriasets;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;

/**
 * The criteria sets that come with the program, and the reader of a user's own.
 *
 * <p>Only the set that is asked for is loaded. A shipped set is checked against the frozen list of hashes before it is
 * used. The hash of a set is the SHA-256 of its file; a set that is based on a preset has the SHA-256 of its file
 * followed by the 64 digits of the preset's hash, so that neither can change unseen.
 */
public final class Presets implements CriteriaSets {

    private static final List<String> NAMES =
            List.of("au-as5369", "uk-htm", "eu-en13060", "us-cdc", "de-dgkh", "ch-practice");

    private static final String FROZEN_LIST = "presets.sha256";

    /** The presets of this version of the program. */
    public Presets() {}

    @Override
    public List<String> names() {
        return NAMES;
    }

    /**
     * {@inheritDoc}
     *
     * @throws CriteriaFileException if there is none; the message lists those there are, nearest first
     * @throws IllegalStateException if the shipped file is not the one that was released
     */
    @Override
    public CriteriaSet get(String name) {
        if (!NAMES.contains(name)) {
            throw CriteriaFileException.ofFile(
                    CriteriaMessage.UNKNOWN_PRESET,
                    "criteria set",
                    "'" + name + "'",
                    "one of " + String.join(", ", NearestWord.sorted(name, NAMES)),
                    "Write one of these names, or the path of a file of your own.");
        }
        byte[] bytes = bytes(name);
        return released(name, bytes).toSet(sha256(bytes));
    }

    /** {@inheritDoc} */
    @Override
    public CriteriaSet read(byte[] bytes, String fileName) {
        CriteriaFile file = CriteriaFile.read(bytes, fileName);
        if (NAMES.contains(file.name())) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.NAME_NOT_FREE,
                    file.namePlace(),
                    "'" + file.name() + "', the name of a preset",
                    "a name of its own",
                    "Two sets under one name can't be told apart on a report; write, for example, 'my-" + file.name()
                            + "', with 'based-on: " + file.name() + "'.");
        }
        if (file.basedOn().isEmpty()) {
            return file.toSet(sha256(bytes));
        }
        YamlBlock.Text base = file.basedOn().get();
        if (!NAMES.contains(base.text())) {
            throw CriteriaFileException.ofPlace(
                    CriteriaMessage.UNKNOWN_BASE,
                    base.place(),
                    "'" + base.text() + "'",
                    "one of " + String.join(", ", NearestWord.sorted(base.text(), NAMES)),
                    "A set can be based on a preset, not on another file.");
        }
        byte[] baseBytes = bytes(base.text());
        CriteriaFile whole = file.onTopOf(released(base.text(), baseBytes));
        return whole.toSet(sha256(bytes, sha256(baseBytes).getBytes(StandardCharsets.US_ASCII)));
    }

    private static CriteriaFile released(String name, byte[] bytes) {
        CriteriaFile file = CriteriaFile.read(bytes, name + ".yaml");
        String listed = findListed(resource(FROZEN_LIST), name, file.version()).orElse("no hash");
        checkReleased(name, file.version(), sha256(bytes), listed);
        return file;
    }

    /** Refuses a shipped file that is not the one in the frozen list. */
    static void checkReleased(String name, String version, String sha256, String listed) {
        if (!sha256.equals(listed)) {
            throw new IllegalStateException(
                    "%s %s.yaml, version %s: found SHA-256 %s, expected %s. The program's own file is not the released one; install the program again, and put limits of your own into a file of your own."
                            .formatted(CriteriaMessage.PRESET_CHANGED.id(), name, version, sha256, listed));
        }
    }

    /** The hash that a frozen list gives for a version of a preset. A line reads: hash, two blanks, name, blank, version. */
    static Optional<String> findListed(byte[] list, String name, String version) {
        return new String(list, StandardCharsets.UTF_8)
                .lines()
                .filter(line -> line.endsWith("  " + name + " " + version))
                .map(line -> line.substring(0, line.indexOf(' ')))
                .findFirst();
    }

    /** The bytes of a shipped preset. */
    static byte[] bytes(String name) {
        return resource(name + ".yaml");
    }

    static byte[] resource(String fileName) {
        try (InputStream stream = Presets.class.getResourceAsStream(fileName)) {
            if (stream == null) {
                throw new IllegalStateException("the program's own file " + fileName + " is missing");
            }
            return stream.readAllBytes();
        } catch (IOException problem) {
            throw new UncheckedIOException("the program's own file " + fileName + " can't be read", problem);
        }
    }

    /** SHA-256 of the parts one after another, as 64 lower-case hexadecimal digits. */
    static String sha256(byte[]... parts) {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            for (byte[] part : parts) {
                digest.update(part);
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException problem) {
            throw new IllegalStateException("every Java has SHA-256", problem);
        }
    }
}
