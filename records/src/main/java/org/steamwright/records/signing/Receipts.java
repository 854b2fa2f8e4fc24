package org.steamwright.records.signing;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
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
import org.steamwright.records.proof.Hash;

/**
 * That the clinic's representative has received a visit's answer and understood it: a signature with an own key, before
 * somebody issues the report. It approves nothing and puts nothing out.
 */
public final class Receipts {

    /** Fact of a visit that holds its receipt. */
    public static final String FACT = "receipt";

    /** Name of the form of what is signed. */
    public static final String FORM = "steamwright-receipt-1";

    /** Facts that come and go beside what the representative was shown. */
    private static final List<String> BESIDE = List.of(FACT, "review");

    private final Records records;
    private final Keys keys;

    /** @param records opened */
    public Receipts(Records records) {
        this.records = records;
        this.keys = new Keys(records);
    }

    /**
     * A receipt as the record holds it.
     *
     * @param name of the signer at that time
     * @param at when
     * @param isOfThis whether the facts of the visit are still those that were received
     */
    public record Receipt(String name, Instant at, boolean isOfThis) {}

    /**
     * Signs that a visit's answer was received.
     *
     * @param visit not signed yet
     * @param signer subject of the representative
     * @param meaning what the signature says
     * @param secret the signer's own; the caller clears it
     * @param author who makes the entry
     * @throws RecordsException if the visit is signed, or the secret is another
     */
    public void sign(SubjectId visit, SubjectId signer, String meaning, char[] secret, Author author) {
        JournalHead head = records.head();
        Subject subject = records.subject(visit);
        Subject person = records.subject(signer);
        if (records.isSealed(visit)) {
            throw new RecordsException(
                    RecordsMessage.ALREADY_SIGNED,
                    "visit %s (%s) is signed, so its receipt can't be signed any more."
                            .formatted(subject.text("number"), visit));
        }
        PublicKeyRecord key = keys.inUse(signer);
        JsonText document = JsonText.of(Map.of(
                "form",
                FORM,
                "visit",
                visit.toString(),
                "of",
                hash(subject),
                "signedBy",
                Map.of(
                        "technician", signer.toString(),
                        "name", person.text("name"),
                        "role", person.text("role"),
                        "meaning", meaning,
                        "keyId", key.id()),
                "at",
                records.clock().instant().truncatedTo(ChronoUnit.MICROS).toString()));
        byte[] signature = keys.sign(signer, key, secret, document.bytes());
        JsonText receipt = JsonText.of(
                Map.of("document", document.node(), "value", Base64.getEncoder().encodeToString(signature)));
        records.append(new Submission(
                records.newSubmission(),
                author,
                List.of(Change.set(Kind.VISIT, visit, FACT, receipt).because("received by " + person.text("name"))),
                Optional.of(head.tree())));
    }

    /** The receipt of a visit; empty if nobody has signed one, or it can't be read. */
    public static Optional<Receipt> of(Subject visit) {
        Optional<JsonNode> document = visit.fact(FACT).map(JsonText::node).map(node -> node.path("document"));
        try {
            return document.map(node -> new Receipt(
                    node.path("signedBy").path("name").asText(),
                    Instant.parse(node.path("at").asText()),
                    node.path("of").asText().equals(hash(visit))));
        } catch (DateTimeException damaged) {
            return Optional.empty();
        }
    }

    /** What is wrong with the receipt of a visit; empty if nothing is, or there is none. */
    List<String> complaints(Subject visit) {
        List<String> complaints = new ArrayList<>();
        visit.fact(FACT).map(JsonText::node).ifPresent(receipt -> {
            JsonNode document = receipt.path("document");
            JsonNode by = document.path("signedBy");
            try {
                byte[] signature =
                        Base64.getDecoder().decode(receipt.path("value").asText());
                Instant at = Instant.parse(document.path("at").asText());
                boolean isGood = document.path("visit")
                                .asText()
                                .equals(visit.id().toString())
                        && records
                                .find(SubjectId.parse(by.path("technician").asText()))
                                .map(Keys::history)
                                .orElse(List.of())
                                .stream()
                                .filter(key -> key.id().equals(by.path("keyId").asText()))
                                .anyMatch(key -> key.isInUse(at)
                                        && key.verifies(JsonText.of(document).bytes(), signature));
                if (!isGood) {
                    complaints.add("its receipt is not what was signed");
                }
            } catch (IllegalArgumentException | DateTimeException damaged) {
                complaints.add("its receipt can't be read: " + damaged.getMessage());
            }
        });
        return complaints;
    }

    private static String hash(Subject visit) {
        TreeMap<String, JsonText> facts = new TreeMap<>(visit.facts());
        BESIDE.forEach(facts::remove);
        return Hash.ofBytes(Hash.sha256()
                        .digest(new Subject(visit.id(), visit.kind(), facts)
                                .toJson()
                                .bytes()))
                .hex();
    }
}
