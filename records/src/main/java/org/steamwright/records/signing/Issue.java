package org.steamwright.records.signing;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.Instant;
import java.util.Base64;
import java.util.Optional;
import org.steamwright.records.Kind;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.proof.Hash;

/**
 * A signed issue as the record holds it; the signed document lies among the files.
 *
 * @param id of the issue
 * @param visit whose report this is
 * @param number 1 for the first issue, one more for each correction
 * @param amends the issue that this one corrects or withdraws; empty for a first issue
 * @param isWithdrawal whether it only takes the other back
 * @param document SHA-256 of the signed document
 * @param keyId which key signed
 * @param technician whose key
 * @param at when
 * @param signature base 64
 */
public record Issue(
        SubjectId id,
        SubjectId visit,
        int number,
        Optional<SubjectId> amends,
        boolean isWithdrawal,
        Hash document,
        String keyId,
        SubjectId technician,
        Instant at,
        String signature) {

    static final String SIGNED = "files/signed-document";

    /**
     * The issue of a subject.
     *
     * @throws RecordsException if the subject is something else
     */
    public static Issue of(Subject subject) {
        if (subject.kind() != Kind.ISSUE) {
            throw new RecordsException(
                    RecordsMessage.NOT_AN_ISSUE,
                    subject.id() + " is a " + subject.kind().word() + ", not an issue of a report.");
        }
        try {
            JsonNode signature = subject.fact("signature").orElseThrow().node();
            JsonNode document = subject.fact(SIGNED).orElseThrow().node();
            return new Issue(
                    subject.id(),
                    SubjectId.parse(
                            subject.text("visit").isEmpty() ? subject.text("withdraws-visit") : subject.text("visit")),
                    Integer.parseInt(subject.text("issue")),
                    subject.fact("amends")
                            .map(amends ->
                                    SubjectId.parse(amends.node().path("id").asText())),
                    !subject.text("withdraws-visit").isEmpty(),
                    Hash.ofHex(document.path("sha256").asText()),
                    signature.path("keyId").asText(),
                    SubjectId.parse(signature.path("technician").asText()),
                    Instant.parse(signature.path("at").asText()),
                    signature.path("value").asText());
        } catch (IllegalArgumentException | java.util.NoSuchElementException | java.time.DateTimeException e) {
            throw new RecordsException(
                    RecordsMessage.NOT_AN_ISSUE,
                    "%s: facts of the issue are missing or damaged (%s).".formatted(subject.id(), e.getMessage()),
                    e);
        }
    }

    byte[] signatureBytes() {
        return Base64.getDecoder().decode(signature);
    }
}
