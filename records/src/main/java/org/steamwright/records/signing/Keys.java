package org.steamwright.records.signing;

import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.PrivateKey;
import java.security.SecureRandom;
import java.security.Signature;
import java.security.spec.PKCS8EncodedKeySpec;
import java.sql.SQLException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.JournalHead;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.store.Session;

/**
 * Keys of the people who sign. The public key and its times stand in the journal; the private key lies locked beside it and
 * leaves with the backup only, never with an export. A lost secret can't be recovered: make a new key.
 */
public final class Keys {

    /** Common practice, no source. */
    private static final int SHORTEST_SECRET = 8;

    private static final int MOST_ATTEMPTS = 5;

    private final Records records;
    private final SecureRandom random = new SecureRandom();

    /** @param records opened */
    public Keys(Records records) {
        this.records = records;
    }

    /**
     * Gives a person who has none a key.
     *
     * @param technician subject of the register
     * @param secret own secret of that person; the caller clears it
     * @param author who makes the entry
     * @throws RecordsException if there is a key in use, or the secret is too short
     */
    public PublicKeyRecord make(SubjectId technician, char[] secret, Author author) {
        requireLong(secret);
        return atOneHead(() -> makeOnce(technician, secret, author));
    }

    private PublicKeyRecord makeOnce(SubjectId technician, char[] secret, Author author) {
        JournalHead head = records.head();
        if (!inUse(records.subject(technician)).isEmpty()) {
            throw new RecordsException(
                    RecordsMessage.KEY_IN_USE,
                    "%s: this person has a key already. Renew it with its own secret, or end it first, with a reason."
                            .formatted(technician));
        }
        return put(technician, secret, author, head, "");
    }

    /**
     * Puts a new key in the place of the one in use, which ends at this moment; what it signed stays valid.
     *
     * @param technician subject of the register
     * @param oldSecret of the key in use; the caller clears it
     * @param secret of the new one; the caller clears it
     * @param author who makes the entry
     * @throws RecordsException if there is no key, the old secret is another, or the new one is too short
     */
    public PublicKeyRecord renew(SubjectId technician, char[] oldSecret, char[] secret, Author author) {
        requireLong(secret);
        return atOneHead(() -> {
            JournalHead head = records.head();
            unlocked(inUse(technician), oldSecret, technician, bare -> bare.length);
            return put(technician, secret, author, head, "a new key takes its place");
        });
    }

    /**
     * The same for somebody whose secret is lost, or known to others: the reason stays in the journal.
     *
     * @param reason why the old secret was not asked for
     * @throws RecordsException if there is no key, no reason, or the secret is too short
     */
    public PublicKeyRecord replace(SubjectId technician, String reason, char[] secret, Author author) {
        requireLong(secret);
        requireReason(reason);
        return atOneHead(() -> {
            JournalHead head = records.head();
            inUse(technician);
            return put(technician, secret, author, head, reason.strip());
        });
    }

    /**
     * Ends the key in use without another in its place. What it signed stays valid.
     *
     * @param reason kept in the journal
     * @throws RecordsException if there is no key, or no reason
     */
    public PublicKeyRecord end(SubjectId technician, String reason, Author author) {
        requireReason(reason);
        return atOneHead(() -> endOnce(technician, reason, author));
    }

    private PublicKeyRecord endOnce(SubjectId technician, String reason, Author author) {
        JournalHead head = records.head();
        PublicKeyRecord key = inUse(technician);
        Instant now = now();
        List<PublicKeyRecord> ended = inUse(records.subject(technician));
        records.appendWith(
                new Submission(
                        records.newSubmission(),
                        author,
                        ended.stream()
                                .map(one -> ending(technician, one, now, reason.strip()))
                                .toList(),
                        Optional.of(head.tree())),
                session -> forget(session, ended));
        return key.endedAt(now);
    }

    /** Somebody else may write in between: what is decided must hold of what stands in the record. */
    private static PublicKeyRecord atOneHead(Supplier<PublicKeyRecord> act) {
        for (int attempt = 1; ; attempt++) {
            try {
                return act.get();
            } catch (RecordsException e) {
                if (e.id() != RecordsMessage.CHANGED_MEANWHILE || attempt == MOST_ATTEMPTS) {
                    throw e;
                }
            }
        }
    }

    private Instant now() {
        return records.clock().instant().truncatedTo(ChronoUnit.MICROS);
    }

    private static Change ending(SubjectId owner, PublicKeyRecord key, Instant end, String why) {
        return Change.set(
                        Kind.TECHNICIAN, owner, key.property(), key.endedAt(end).toJson())
                .because(why);
    }

    private static void requireLong(char[] secret) {
        char[] inner = inner(secret);
        int length = inner.length;
        Arrays.fill(inner, ' ');
        if (length < SHORTEST_SECRET) {
            throw new RecordsException(
                    RecordsMessage.SECRET_TOO_SHORT,
                    "the secret has %s characters; %s or more are needed, several words are best."
                            .formatted(length, SHORTEST_SECRET));
        }
    }

    private static void requireReason(String reason) {
        if (reason.isBlank()) {
            throw new RecordsException(
                    RecordsMessage.REASON_MISSING,
                    "a key that is ended without its secret says the reason; none was given.");
        }
    }

    /** Entries and locked key in one act: whatever refuses or breaks in between leaves everything as it was. */
    private PublicKeyRecord put(SubjectId technician, char[] secret, Author author, JournalHead head, String why) {
        Instant now = now();
        try {
            KeyPair pair =
                    KeyPairGenerator.getInstance(PublicKeyRecord.ALGORITHM).generateKeyPair();
            PublicKeyRecord key = PublicKeyRecord.of(pair.getPublic(), now);
            byte[] bare = pair.getPrivate().getEncoded();
            SecretLock lock;
            try {
                lock = SecretLock.lock(bare, secret, key.id(), random);
            } finally {
                Arrays.fill(bare, (byte) 0);
            }
            List<PublicKeyRecord> ended = inUse(records.subject(technician));
            List<Change> changes = new ArrayList<>();
            ended.forEach(earlier -> changes.add(ending(technician, earlier, now, why)));
            changes.add(Change.set(Kind.TECHNICIAN, technician, key.property(), key.toJson())
                    .because(why.isEmpty() ? "first key" : "new key"));
            records.appendWith(
                    new Submission(records.newSubmission(), author, changes, Optional.of(head.tree())), session -> {
                        keep(session, key.id(), technician, lock);
                        forget(session, ended);
                    });
            return key;
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java from 17 on has Ed25519 and AES", e);
        }
    }

    /**
     * Locks the key with another secret; the key stays.
     *
     * @throws RecordsException if there is no key, or the old secret is another
     */
    public void changeSecret(SubjectId technician, char[] oldSecret, char[] newSecret) {
        requireLong(newSecret);
        PublicKeyRecord key = inUse(technician);
        SecretLock lock =
                unlocked(key, oldSecret, technician, content -> SecretLock.lock(content, newSecret, key.id(), random));
        records.database()
                .write(session -> session.run(
                        "update locked_key set salt = ?, nonce = ?, locked = ?, sha256 = ? where id = ?",
                        lock.salt(),
                        lock.nonce(),
                        lock.locked(),
                        lock.hash(key.id(), technician.toString()).toBytes(),
                        key.id()));
    }

    /** Whether that person has a key to sign with. */
    public static boolean hasKey(Subject technician) {
        return !inUse(technician).isEmpty();
    }

    private static List<PublicKeyRecord> inUse(Subject technician) {
        return history(technician).stream().filter(key -> key.until().isEmpty()).toList();
    }

    /** All keys that the person ever had, in order of their beginning. */
    public static List<PublicKeyRecord> history(Subject technician) {
        List<PublicKeyRecord> keys = new ArrayList<>();
        for (Map.Entry<String, JsonText> fact : technician.facts().entrySet()) {
            if (PublicKeyRecord.isKey(fact.getKey())) {
                keys.add(PublicKeyRecord.read(fact.getKey(), fact.getValue()));
            }
        }
        keys.sort((one, other) -> one.from().compareTo(other.from()));
        return keys;
    }

    PublicKeyRecord inUse(SubjectId technician) {
        return inUse(records.subject(technician)).stream()
                .reduce((earlier, later) -> later)
                .orElseThrow(() -> new RecordsException(
                        RecordsMessage.KEY_MISSING,
                        "%s: this person has no key to sign with. Make one first.".formatted(technician)));
    }

    /** Signature over the content, with the person's own secret. */
    byte[] sign(SubjectId technician, PublicKeyRecord key, char[] secret, byte[] content) {
        return unlocked(key, secret, technician, bare -> {
            PrivateKey privateKey =
                    KeyFactory.getInstance(PublicKeyRecord.ALGORITHM).generatePrivate(new PKCS8EncodedKeySpec(bare));
            Signature signer = Signature.getInstance(PublicKeyRecord.ALGORITHM);
            signer.initSign(privateKey);
            signer.update(content);
            return signer.sign();
        });
    }

    /** What is done with a private key while it lies open. */
    private interface Opened<T> {
        T with(byte[] bare) throws GeneralSecurityException;
    }

    /** Opens a key, and clears its bytes after use. */
    private <T> T unlocked(PublicKeyRecord key, char[] secret, SubjectId technician, Opened<T> use) {
        try {
            byte[] bare = unlock(key, secret, technician);
            try {
                return use.with(bare);
            } finally {
                Arrays.fill(bare, (byte) 0);
            }
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java from 17 on has Ed25519 and AES", e);
        }
    }

    private byte[] unlock(PublicKeyRecord key, char[] secret, SubjectId technician) throws GeneralSecurityException {
        Optional<SecretLock> lock = records.database()
                .read(session -> session.find(
                        row -> new SecretLock(row.getBytes(1), row.getBytes(2), row.getBytes(3)),
                        "select salt, nonce, locked from locked_key where id = ?",
                        key.id()));
        if (lock.isEmpty()) {
            throw new RecordsException(
                    RecordsMessage.KEY_MISSING,
                    "%s: the private part of key %s is not in this store. Exports leave it out; make a new key."
                            .formatted(technician, key.id()));
        }
        Optional<byte[]> bare = lock.get().unlock(secret, key.id());
        if (bare.isEmpty()) {
            // secrets were once taken without the blanks around them; a key made then opens still
            char[] inner = inner(secret);
            if (inner.length < secret.length) {
                bare = lock.get().unlock(inner, key.id());
            }
            Arrays.fill(inner, ' ');
        }
        return bare.orElseThrow(() -> new RecordsException(
                RecordsMessage.SECRET_WRONG,
                "%s: this is not the secret of key %s. Nothing was signed. A lost secret can't be recovered; make a new key."
                        .formatted(technician, key.id())));
    }

    /** A secret without the blanks around it. */
    private static char[] inner(char[] secret) {
        int first = 0;
        int end = secret.length;
        while (first < end && Character.isWhitespace(secret[first])) {
            first++;
        }
        while (end > first && Character.isWhitespace(secret[end - 1])) {
            end--;
        }
        return Arrays.copyOfRange(secret, first, end);
    }

    private static void keep(Session session, String id, SubjectId owner, SecretLock lock) throws SQLException {
        session.run(
                "insert into locked_key (id, owner, salt, nonce, locked, sha256) values (?, ?, ?, ?, ?, ?)",
                id,
                owner.toString(),
                lock.salt(),
                lock.nonce(),
                lock.locked(),
                lock.hash(id, owner.toString()).toBytes());
    }

    private static void forget(Session session, List<PublicKeyRecord> ended) throws SQLException {
        for (PublicKeyRecord key : ended) {
            session.run("delete from locked_key where id = ?", key.id());
        }
    }

    /** Ids of locked keys whose bytes are not those that were kept. */
    public static List<String> damaged(Session session) throws SQLException {
        List<String> damaged = new ArrayList<>();
        session.each(
                row -> {
                    String id = row.getString(1);
                    byte[] kept = row.getBytes(6);
                    byte[] found = SecretLock.hash(
                                    id, row.getString(2), row.getBytes(3), row.getBytes(4), row.getBytes(5))
                            .toBytes();
                    if (!Arrays.equals(kept, found)) {
                        damaged.add(id);
                    }
                    return true;
                },
                "select id, owner, salt, nonce, locked, sha256 from locked_key");
        return damaged;
    }
}
