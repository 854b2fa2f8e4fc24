package org.steamwright.records.signing;

import com.fasterxml.jackson.databind.JsonNode;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.store.Session;

/** The keys with which somebody could sign at this moment, whoever bears them. */
public final class KeysInUse {

    private KeysInUse() {}

    /**
     * A key in use.
     *
     * @param bearer subject of the register
     * @param key the one that signs
     * @param lastUsed when it signed last a report, a withdrawal or a receipt that still stands in the record; empty if never
     */
    public record KeyInUse(Subject bearer, PublicKeyRecord key, Optional<Instant> lastUsed) {}

    /** All of them, in the order in which their bearers came into the record. */
    public static List<KeyInUse> of(Records records) {
        List<SubjectId> bearers = records.database().read(session -> {
            List<SubjectId> ids = new ArrayList<>();
            session.each(
                    row -> ids.add(SubjectId.parse(row.getString(1))),
                    "select s.id from subject s where s.kind = 'technician' and exists (select 1 from fact f where"
                            + " f.subject = s.nr and f.property >= 'keys/' and f.property < 'keys0') order by s.nr");
            return ids;
        });
        List<KeyInUse> keys = new ArrayList<>();
        if (bearers.isEmpty()) {
            return keys;
        }
        Map<String, Instant> uses = records.database().read(KeysInUse::uses);
        for (Subject bearer : records.subjects(bearers)) {
            Keys.history(bearer).stream()
                    .filter(key -> key.until().isEmpty())
                    .reduce((earlier, later) -> later)
                    .ifPresent(key -> keys.add(new KeyInUse(bearer, key, Optional.ofNullable(uses.get(key.id())))));
        }
        return keys;
    }

    /** The last signature of each key, in one walk over what was signed. */
    private static Map<String, Instant> uses(Session session) throws SQLException {
        Map<String, Instant> uses = new HashMap<>();
        each(session, Kind.ISSUE, "signature", node -> add(uses, node.path("keyId"), node.path("at")));
        each(session, Kind.VISIT, Receipts.FACT, node -> {
            JsonNode document = node.path("document");
            add(uses, document.path("signedBy").path("keyId"), document.path("at"));
        });
        return uses;
    }

    private interface Taker {
        void take(JsonNode node);
    }

    private static void each(Session session, Kind kind, String property, Taker taker) throws SQLException {
        session.each(
                row -> {
                    taker.take(new JsonText(row.getString(1)).node());
                    return true;
                },
                "select f.value from subject s join fact f on f.subject = s.nr and f.property = ? where s.kind = ?",
                property,
                kind.word());
    }

    private static void add(Map<String, Instant> uses, JsonNode key, JsonNode at) {
        try {
            uses.merge(key.asText(), Instant.parse(at.asText()), (one, other) -> one.isAfter(other) ? one : other);
        } catch (DateTimeException damaged) {
            // verifying the record tells of it; here it is only not the last
            return;
        }
    }
}
