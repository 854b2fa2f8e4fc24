package org.steamwright.records.signing;

import com.fasterxml.jackson.databind.JsonNode;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.store.Folding;
import org.steamwright.records.store.Session;

/** The keys with which somebody could sign at this moment, whoever bears them; found by index. */
public final class KeysInUse {

    private static final String BEARERS = "from used where role = ? and folded = ?";

    private KeysInUse() {}

    /**
     * A key in use.
     *
     * @param bearer subject of the register
     * @param key the one that signs
     * @param lastUsed when it signed last a report, a withdrawal or a receipt that still stands in the record; empty if never
     */
    public record KeyInUse(Subject bearer, PublicKeyRecord key, Optional<Instant> lastUsed) {}

    /**
     * Some of them, in the order in which their bearers came into the record.
     *
     * @param from place of the first of them
     */
    public static List<KeyInUse> of(Records records, long from, int limit) {
        List<SubjectId> bearers = records.database()
                .read(session -> session.list(
                        row -> SubjectId.parse(row.getString(1)),
                        "select s.id from (select distinct subject " + BEARERS
                                + " order by subject limit ? offset ?) b join subject s on s.nr = b.subject order by s.nr",
                        Use.BEARS.word(),
                        Folding.whole(Use.IN_USE),
                        limit,
                        from));
        return of(records, records.subjects(bearers));
    }

    /** How many people bear one. */
    public static long count(Records records) {
        return records.database()
                .read(session -> session.find(
                                row -> row.getLong(1),
                                "select count(distinct subject) " + BEARERS,
                                Use.BEARS.word(),
                                Folding.whole(Use.IN_USE))
                        .orElse(0L));
    }

    /** Those of these people. */
    public static List<KeyInUse> of(Records records, List<Subject> bearers) {
        List<KeyInUse> keys = new ArrayList<>();
        for (Subject bearer : bearers) {
            inUse(bearer)
                    .ifPresent(key -> keys.add(new KeyInUse(
                            bearer, key, records.database().read(session -> lastUse(session, key.id())))));
        }
        return keys;
    }

    /** The one with that id; empty if nobody could sign with it. */
    public static Optional<KeyInUse> find(Records records, String id) {
        return of(records, records.usersOf(Use.BEARS, Kind.TECHNICIAN, Set.of(id))).stream()
                .filter(one -> one.key().id().equals(id))
                .findFirst();
    }

    private static Optional<PublicKeyRecord> inUse(Subject bearer) {
        return Keys.history(bearer).stream()
                .filter(key -> key.until().isEmpty())
                .reduce((earlier, later) -> later);
    }

    /** The last issue is the last that was made; receipts stand at visits that were made before, and a key has few. */
    private static Optional<Instant> lastUse(Session session, String key) throws SQLException {
        List<Instant> moments = new ArrayList<>();
        Taker issue = node -> moment(node.path("at")).ifPresent(moments::add);
        Taker receipt = node -> moment(node.path("document").path("at")).ifPresent(moments::add);
        each(session, key, "signature", " order by u.subject desc limit 1", issue);
        each(session, key, Receipts.FACT, "", receipt);
        return moments.stream().max(Comparator.naturalOrder());
    }

    private interface Taker {
        void take(JsonNode node);
    }

    private static void each(Session session, String key, String property, String which, Taker taker)
            throws SQLException {
        session.each(
                row -> {
                    taker.take(new JsonText(row.getString(1)).node());
                    return true;
                },
                "select f.value from used u cross join fact f where f.subject = u.subject and f.property = u.property"
                        + " and u.role = ? and u.folded = ? and u.property = ?" + which,
                Use.SIGNED_WITH.word(),
                Folding.whole(key),
                property);
    }

    /** Verifying the record tells of a damaged moment; here it is only not the last. */
    private static Optional<Instant> moment(JsonNode at) {
        try {
            return Optional.of(Instant.parse(at.asText()));
        } catch (DateTimeException damaged) {
            return Optional.empty();
        }
    }
}
