package org.steamwright.desk.shelf;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.filing.Filing;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;

/**
 * What a reviewer answered about a visit. An answer names the facts that it is about by their hash; when they change it no longer
 * stands.
 *
 * @param isApproval whether it approves; else the visit was sent back
 * @param isCurrent whether the facts are those that it is about
 * @param by who answered
 * @param why note; never blank where it was sent back
 */
public record Review(boolean isApproval, boolean isCurrent, String by, String why) {

    /** Fact of a visit that holds the answer. */
    public static final String FACT = Filing.REVIEW;

    /** Answer that approves. */
    public static final String APPROVED = "approved";

    /** Answer that sends back. */
    public static final String SENT_BACK = "sent back";

    /** The answer about a visit; empty while there is none. */
    public static Optional<Review> of(Subject visit) {
        return visit.fact(FACT)
                .filter(value -> !value.isNull())
                .map(JsonText::node)
                .map(node -> new Review(
                        node.path("answer").asText().equals(APPROVED),
                        node.path("of").asText().equals(hash(visit)),
                        node.path("by").asText(),
                        node.path("why").asText()));
    }

    /** Hash of what somebody stated of a visit and of its files; what the record finds it by follows from these. */
    public static String hash(Subject visit) {
        TreeMap<String, JsonText> facts = new TreeMap<>(visit.facts());
        facts.keySet().removeIf(property -> !isOfFacts(property));
        return Hash.ofBytes(Hash.sha256()
                        .digest(new Subject(visit.id(), visit.kind(), facts)
                                .toJson()
                                .text()
                                .getBytes(StandardCharsets.UTF_8)))
                .hex();
    }

    /** Whether a property of a visit is what somebody stated, or a file. */
    public static boolean isOfFacts(String property) {
        return property.startsWith("stated/") || property.startsWith("files/");
    }

    /** Whether it approves the facts as they stand. */
    public boolean isApproved() {
        return isApproval && isCurrent;
    }
}
