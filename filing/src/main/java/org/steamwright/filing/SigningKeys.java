package org.steamwright.filing;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Found;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.SubjectId;
import org.steamwright.records.accounts.Account;
import org.steamwright.records.accounts.AccountBook;
import org.steamwright.records.signing.Keys;
import org.steamwright.records.signing.KeysInUse;
import org.steamwright.records.signing.KeysInUse.KeyInUse;
import org.steamwright.records.signing.PublicKeyRecord;

/**
 * Whose key is whose. In a record with users a key is made, renewed and used only by the user whose name it bears; the office
 * ends one with a reason. The representative of a clinic has no user and signs where the technician sits, and nothing but the
 * receipt. In a record without users several people sign at one laptop: what tells them apart is each one's own secret.
 */
public final class SigningKeys {

    private static final String OFFICE = "office";
    private static final String OWN_ONLY = "Have %s log in and do it; the office can end a key with a reason.";

    private final Records records;
    private final Subjects subjects;
    private final AccountBook users;
    private final Keys keys;

    /** @param records opened */
    public SigningKeys(Records records) {
        this.records = records;
        this.subjects = new Subjects(records);
        this.users = new AccountBook(records);
        this.keys = new Keys(records);
    }

    /** Whether the record has users, so that a name is somebody's own. */
    public boolean hasUsers() {
        return !users.isEmpty();
    }

    /**
     * Makes sure, before a secret is asked for, that somebody has that name.
     *
     * @throws FilingException if neither the register nor the users know it
     */
    public void requireKnown(String name) throws FilingException {
        if (!isKnown(name)) {
            throw unknown(name);
        }
    }

    /** Whether the register or the users know somebody of that name. */
    public boolean isKnown(String name) {
        return subjects.find(Kind.TECHNICIAN, "name", name).isPresent()
                || users.find(name).isPresent();
    }

    private static FilingException unknown(String name) {
        return new FilingException(
                "the record knows nobody called '" + name + "'",
                "Spell the name as it stands in the visit, or add the person to it first.");
    }

    /** Whether somebody of that name has a key in use. */
    public boolean hasKey(String name) {
        return subjects.find(Kind.TECHNICIAN, "name", name)
                .map(records::subject)
                .filter(Keys::hasKey)
                .isPresent();
    }

    /**
     * Whether whoever asks may make or use the key of that name.
     *
     * @param duties what that one is in the visit for; empty outside a visit
     */
    public boolean isOpenTo(String name, Set<Duty> duties, Author asker) {
        if (!hasUsers()) {
            return true;
        }
        Optional<Account> bearer = users.find(name);
        if (bearer.isEmpty()) {
            return duties.equals(Set.of(Duty.REPRESENTATIVE));
        }
        return users.find(asker.name())
                .filter(user -> user.id().equals(bearer.get().id()))
                .isPresent();
    }

    /**
     * Makes a first key.
     *
     * @param duties what that one is in the visit for; empty outside a visit
     * @throws FilingException if whoever asks is somebody else, or the record knows nobody of that name
     */
    public PublicKeyRecord make(String name, Set<Duty> duties, char[] secret, Author asker) throws FilingException {
        requireOpen(name, duties, asker);
        return keys.make(person(name, duties, asker), secret, asker);
    }

    /**
     * Puts a new key in the place of the old one, whose secret is asked for.
     *
     * @throws FilingException if whoever asks is somebody else, or the record knows nobody of that name
     */
    public PublicKeyRecord renew(String name, Set<Duty> duties, char[] oldSecret, char[] secret, Author asker)
            throws FilingException {
        requireOpen(name, duties, asker);
        return keys.renew(person(name, Set.of(), asker), oldSecret, secret, asker);
    }

    /**
     * Puts a new key in the place of one whose secret is lost, where there are no users; the reason stays in the journal.
     *
     * @throws FilingException if the record has users, or knows nobody of that name
     */
    public PublicKeyRecord replace(String name, String reason, char[] secret, Author asker) throws FilingException {
        if (hasUsers()) {
            throw new FilingException(
                    "in a record with users a key is not replaced without its secret",
                    "Have the office end it with a reason; then its owner makes another.");
        }
        return keys.replace(person(name, Set.of(), asker), reason, secret, asker);
    }

    /**
     * Ends a key, with a reason that stays in the journal.
     *
     * @throws FilingException if there are users and whoever asks is not of the office, or the record knows nobody of that name
     */
    public PublicKeyRecord end(String name, String reason, Author asker) throws FilingException {
        requireOffice(asker);
        return keys.end(person(name, Set.of(), asker), reason, asker);
    }

    /**
     * Ends the key of somebody who need not be a user: a representative, or somebody who left. What it signed stays valid.
     *
     * @throws FilingException if whoever asks is not of the office, or nobody bears that key any more
     */
    public PublicKeyRecord end(KeyInUse key, String reason, Author asker) throws FilingException {
        requireOffice(asker);
        boolean isInUse = records.find(key.bearer().id()).stream()
                .flatMap(bearer -> Keys.history(bearer).stream())
                .anyMatch(one -> one.id().equals(key.key().id()) && one.until().isEmpty());
        if (!isInUse) {
            throw new FilingException("this key is not in use any more", "Look at the list again.");
        }
        return keys.end(key.bearer().id(), reason, asker);
    }

    /**
     * Keys in use with their bearers, whether users or not, in the order in which the bearers came into the record.
     *
     * @param from place of the first of them
     */
    public List<KeyInUse> inUse(long from, int limit) {
        return KeysInUse.of(records, from, limit);
    }

    /** Keys in use of people of whose names words begin like that. */
    public List<KeyInUse> inUse(String name, int limit) {
        return KeysInUse.of(
                records,
                records.find(name, Set.of(Kind.TECHNICIAN), limit).hits().stream()
                        .map(Found.Hit::subject)
                        .toList());
    }

    /** How many people bear a key in use. */
    public long countInUse() {
        return KeysInUse.count(records);
    }

    /** The key in use with that id; empty if nobody could sign with it. */
    public Optional<KeyInUse> findInUse(String id) {
        return KeysInUse.find(records, id);
    }

    private void requireOffice(Author asker) throws FilingException {
        boolean isOffice = users.find(asker.name())
                .filter(user -> user.isActive() && user.role().equals(OFFICE))
                .isPresent();
        if (hasUsers() && !isOffice) {
            throw new FilingException(
                    "only the office ends a key", "Ask a user of the office to end it, with a reason.");
        }
    }

    void requireOpen(String name, Set<Duty> duties, Author asker) throws FilingException {
        if (!isOpenTo(name, duties, asker)) {
            throw new FilingException("the key of " + name + " is that user's own", OWN_ONLY.formatted(name));
        }
    }

    /** Who has that name; a user, or somebody of a visit, whom the register does not know yet is entered. */
    private SubjectId person(String name, Set<Duty> duties, Author asker) throws FilingException {
        Optional<SubjectId> known = subjects.find(Kind.TECHNICIAN, "name", name);
        Optional<String> role = users.find(name)
                .map(Account::role)
                .or(() -> duties.stream().findFirst().map(Duty::word));
        if (known.isEmpty() && role.isPresent()) {
            SubjectId id = records.newSubject();
            records.append(
                    asker,
                    List.of(
                            Change.set(Kind.TECHNICIAN, id, "name", name),
                            Change.set(Kind.TECHNICIAN, id, "role", role.get())));
            return id;
        }
        return known.orElseThrow(() -> unknown(name));
    }
}
