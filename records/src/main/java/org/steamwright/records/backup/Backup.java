package org.steamwright.records.backup;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.steamwright.records.Blobs;
import org.steamwright.records.DueRule;
import org.steamwright.records.JournalHead;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.store.Database;
import org.steamwright.records.store.Transfer;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verification;
import org.steamwright.records.verify.Verifier;

/**
 * Makes backups while the record is in use, and restores them to a new place.
 *
 * @source SQLite documentation, "VACUUM INTO": one consistent state, made beside writers; the file it makes is flushed here
 *     because the statement does not promise to (read in an earlier edition)
 */
public final class Backup {

    /** Written last: a folder without it is no finished backup. */
    public static final String SEAL = "backup.json";

    private static final String FORM = "steamwright-backup-1";

    private final Clock clock;

    /** @param clock time of opening the copies */
    public Backup(Clock clock) {
        this.clock = clock;
    }

    /**
     * A backup that was opened again and found good.
     *
     * @param folder where it lies
     * @param head of the journal in it
     * @param verification of the copy
     */
    public record Good(Path folder, JournalHead head, Verification verification) {}

    /**
     * Makes a backup in a new folder.
     *
     * @param records in use or not
     * @param target does not exist yet, or is empty
     * @throws RecordsException if something stands there, or the copy is not good; the copy then lacks its seal
     */
    public Good make(Records records, Path target) {
        requireFree(target);
        try {
            Files.createDirectories(target);
            Place copy = Place.folder(target);
            if (records.database().isSqlite()) {
                Transfer.vacuumInto(records.database(), copy.database());
                force(copy.database());
            } else {
                Transfer.copy(records.database(), copy);
            }
            copyFiles(records.place().files(), copy.files());
            return seal(copy);
        } catch (IOException e) {
            throw notGood(target, "could not be written: " + e, e);
        }
    }

    private static void requireFree(Path target) {
        if (Files.exists(target) && !isEmptyFolder(target)) {
            throw new RecordsException(
                    RecordsMessage.BACKUP_TARGET_EXISTS,
                    target + ": there is something already. Name a new folder; nothing is written over.");
        }
    }

    private static boolean isEmptyFolder(Path target) {
        if (!Files.isDirectory(target)) {
            return false;
        }
        try (Stream<Path> inside = Files.list(target)) {
            return inside.findAny().isEmpty();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static RecordsException notGood(Path target, String what, @Nullable Exception cause) {
        return new RecordsException(
                RecordsMessage.BACKUP_NOT_GOOD,
                "%s: this copy is not good: %s. Don't rely on it; make another, on another disk if it fails again."
                        .formatted(target, what),
                cause);
    }

    /** Files are copied by their names, each hashed on its way; what is new meanwhile belongs to the next backup. */
    private static void copyFiles(Path from, Path to) throws IOException {
        if (!Files.isDirectory(from)) {
            return;
        }
        Blobs source = new Blobs(from);
        Blobs copy = new Blobs(to);
        for (Hash sha256 : source.all()) {
            if (!copy.put(source.path(sha256)).sha256().equals(sha256)) {
                throw new IOException("file " + source.path(sha256) + " is damaged; verify the record");
            }
        }
    }

    static void force(Path file) throws IOException {
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
    }

    private static Hash hash(Path file) throws IOException {
        try (InputStream in = Files.newInputStream(file)) {
            return Hash.ofContent(in);
        }
    }

    /** Opens the copy, walks it, and writes the seal only if it is good. */
    private Good seal(Place copy) throws IOException {
        JournalHead head;
        Verification verification;
        try (Records records = Records.open(copy, clock, DueRule.NONE)) {
            head = records.head();
            verification = Verifier.verify(records, List.of(head.tree()), Reassessment.NONE);
        }
        if (!verification.isGood()) {
            throw notGood(copy.folder(), first(verification), null);
        }
        Path database = copy.database();
        JsonText seal = JsonText.of(Map.of(
                "form", FORM,
                "entries", head.tree().size(),
                "head", head.tree().text(),
                "at", head.at().toString(),
                "database", hash(database).hex(),
                "files", verification.files()));
        Path file = copy.folder().resolve(SEAL);
        Files.writeString(file, seal.text() + "\n", StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
        force(file);
        return new Good(copy.folder(), head, verification);
    }

    private static String first(Verification verification) {
        return verification.differences().get(0)
                + (verification.differences().size() == 1
                        ? ""
                        : " (and " + (verification.differences().size() - 1) + " more)");
    }

    /**
     * Restores a backup to a new place and walks what came out. The backup stays as it is. A rehearsal is the same to a
     * folder that is thrown away afterwards.
     *
     * @param backup folder with a seal
     * @param target a new folder, or an empty database on a server and a new folder
     * @throws RecordsException if the backup is damaged or unfinished, or something stands at the target
     */
    public Good restore(Path backup, Place target) {
        TreeHead sealed = sealedHead(backup);
        requireFree(target.folder());
        try {
            Files.createDirectories(target.folder());
            Place source = Place.folder(backup);
            if (target.server().isEmpty()) {
                Files.copy(source.database(), target.database());
                force(target.database());
            } else {
                try (Database database = Database.open(source)) {
                    Transfer.copy(database, target);
                }
            }
            copyFiles(source.files(), target.files());
            try (Records records = Records.open(target, clock, DueRule.NONE)) {
                Verification verification = Verifier.verify(records, List.of(sealed), Reassessment.NONE);
                if (!verification.isGood()) {
                    throw notGood(target.folder(), first(verification), null);
                }
                if (!records.head().tree().equals(sealed)) {
                    throw new RecordsException(
                            RecordsMessage.HEADS_DIFFER,
                            "%s: restored are %s entries, the backup was made at %s."
                                    .formatted(
                                            target.folder(),
                                            records.head().tree().size(),
                                            sealed.size()));
                }
                return new Good(target.folder(), records.head(), verification);
            }
        } catch (IOException e) {
            throw notGood(target.folder(), "could not be written: " + e, e);
        }
    }

    /** The head in the seal, once the database file is the one that was sealed. */
    private static TreeHead sealedHead(Path backup) {
        try {
            JsonText seal = JsonText.parse(Files.readString(backup.resolve(SEAL), StandardCharsets.UTF_8));
            Hash database =
                    Hash.ofContent(Files.readAllBytes(Place.folder(backup).database()));
            if (!database.hex().equals(seal.node().path("database").asText())) {
                throw new RecordsException(
                        RecordsMessage.BACKUP_NOT_GOOD,
                        backup
                                + ": the database file is not the one that was sealed. Take another backup; this one was altered or damaged.");
            }
            return TreeHead.parse(seal.node().path("head").asText());
        } catch (NoSuchFileException e) {
            throw new RecordsException(
                    RecordsMessage.NOT_A_BACKUP,
                    "%s: is no finished backup, %s is missing.".formatted(backup, e.getFile()),
                    e);
        } catch (IOException | IllegalArgumentException e) {
            throw new RecordsException(
                    RecordsMessage.NOT_A_BACKUP,
                    "%s: its seal can't be read: %s.".formatted(backup, e.getMessage()),
                    e);
        }
    }
}
