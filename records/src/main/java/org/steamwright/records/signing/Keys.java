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
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.store.Session;

/**
 * Keys of the people who sign. The public key and its times stand in the journal; the private key lies locked beside it and
 * leaves with the backup only, never with an export. A lost secret can't be recovered: make a new key.
 */
public final class Keys {

    /** Common practice, no source. */
    private static final int SHORTEST_SECRET = 8;

    private final Records records;
    private final SecureRandom random = new SecureRandom();

    /** @param records opened */
    public Keys(Records records) {
        this.records = records;
    }

    /**
     * Gives a person a key. A key in use ends at this moment; what it signed stays valid.
     *
     * @param technician subject of the register
     * @param secret own secret of that person; the caller clears it
     * @param author who makes the entry
     * @throws RecordsException if the secret is too short
     */
    public PublicKeyRecord renew(SubjectId technician, char[] secret, Author author) {
        if (secret.length < SHORTEST_SECRET) {
            throw new RecordsException(
                    RecordsMessage.SECRET_TOO_SHORT,
                    "the secret has %s characters; %s or more are needed, several words are best."
                            .formatted(secret.length, SHORTEST_SECRET));
        }
        Instant now = records.clock().instant().truncatedTo(ChronoUnit.MICROS);
        Subject owner = records.subject(technician);
        try {
            KeyPair pair =
                    KeyPairGenerator.getInstance(PublicKeyRecord.ALGORITHM).generateKeyPair();
            PublicKeyRecord key = PublicKeyRecord.of(pair.getPublic(), now);
            keep(key.id(), technician, SecretLock.lock(pair.getPrivate().getEncoded(), secret, key.id(), random));
            List<Change> changes = new ArrayList<>();
            List<PublicKeyRecord> ended = new ArrayList<>();
            for (PublicKeyRecord earlier : history(owner)) {
                if (earlier.until().isEmpty()) {
                    ended.add(earlier);
                    changes.add(Change.set(
                                    Kind.TECHNICIAN,
                                    technician,
                                    earlier.property(),
                                    earlier.endedAt(now).toJson())
                            .because("a new key takes its place"));
                }
            }
            changes.add(Change.set(Kind.TECHNICIAN, technician, key.property(), key.toJson())
                    .because(ended.isEmpty() ? "first key" : "new key"));
            records.append(author, changes);
            ended.forEach(earlier -> forget(earlier.id()));
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
        if (newSecret.length < SHORTEST_SECRET) {
            throw new RecordsException(
                    RecordsMessage.SECRET_TOO_SHORT,
                    "the new secret has %s characters; %s or more are needed."
                            .formatted(newSecret.length, SHORTEST_SECRET));
        }
        PublicKeyRecord key = inUse(technician);
        try {
            SecretLock lock = SecretLock.lock(unlock(key, oldSecret, technician), newSecret, key.id(), random);
            records.database()
                    .write(session -> session.run(
                            "update locked_key set salt = ?, nonce = ?, locked = ?, sha256 = ? where id = ?",
                            lock.salt(),
                            lock.nonce(),
                            lock.locked(),
                            lock.hash(key.id(), technician.toString()).toBytes(),
                            key.id()));
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java from 17 on has AES", e);
        }
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
        return history(records.subject(technician)).stream()
                .filter(key -> key.until().isEmpty())
                .reduce((earlier, later) -> later)
                .orElseThrow(() -> new RecordsException(
                        RecordsMessage.KEY_MISSING,
                        "%s: this person has no key to sign with. Make one first.".formatted(technician)));
    }

    /** Signature over the content, with the person's own secret. */
    byte[] sign(SubjectId technician, PublicKeyRecord key, char[] secret, byte[] content) {
        try {
            PrivateKey privateKey = KeyFactory.getInstance(PublicKeyRecord.ALGORITHM)
                    .generatePrivate(new PKCS8EncodedKeySpec(unlock(key, secret, technician)));
            Signature signer = Signature.getInstance(PublicKeyRecord.ALGORITHM);
            signer.initSign(privateKey);
            signer.update(content);
            return signer.sign();
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java from 17 on has Ed25519", e);
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
        return lock.get()
                .unlock(secret, key.id())
                .orElseThrow(() -> new RecordsException(
                        RecordsMessage.SECRET_WRONG,
                        "%s: this is not the secret of key %s. Nothing was signed. A lost secret can't be recovered; make a new key."
                                .formatted(technician, key.id())));
    }

    private void keep(String id, SubjectId owner, SecretLock lock) {
        records.database()
                .write(session -> session.run(
                        "insert into locked_key (id, owner, salt, nonce, locked, sha256) values (?, ?, ?, ?, ?, ?)",
                        id,
                        owner.toString(),
                        lock.salt(),
                        lock.nonce(),
                        lock.locked(),
                        lock.hash(id, owner.toString()).toBytes()));
    }

    private void forget(String id) {
        records.database().write(session -> session.run("delete from locked_key where id = ?", id));
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
