package org.steamwright.records.signing;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.TreeHead;

/** Looks whether a signed issue is still what was signed. */
public final class SignatureCheck {

    private final Records records;

    /** @param records opened */
    public SignatureCheck(Records records) {
        this.records = records;
    }

    /**
     * What was found.
     *
     * @param complaints empty if all is as it was signed
     * @param head of the journal, as it stands in the document; empty if it can't be read
     * @param document signed content; empty if it can't be read
     */
    public record Outcome(List<String> complaints, Optional<TreeHead> head, Optional<JsonText> document) {

        public Outcome {
            complaints = List.copyOf(complaints);
        }
    }

    /** Looks at one issue. */
    public Outcome check(Subject subject) {
        List<String> complaints = new ArrayList<>();
        Issue issue;
        byte[] content;
        JsonText document;
        try {
            issue = Issue.of(subject);
            content = records.files().get(issue.document());
            document = JsonText.parse(new String(content, StandardCharsets.UTF_8));
        } catch (RecordsException | IllegalArgumentException e) {
            return new Outcome(List.of("can't be read: " + e.getMessage()), Optional.empty(), Optional.empty());
        }
        checkSignature(issue, content, complaints);
        JsonNode node = document.node();
        if (!node.path("id").asText().equals(issue.id().toString())
                || !node.path("visit").asText().equals(issue.visit().toString())
                || node.path("issue").asInt() != issue.number()) {
            complaints.add("the signed document is that of another issue");
        }
        if (!issue.isWithdrawal()) {
            checkFacts(issue, node, complaints);
        }
        Optional<TreeHead> head = Optional.empty();
        try {
            head = Optional.of(new TreeHead(
                    node.path("journalHead").path("size").asLong(),
                    Hash.ofHex(node.path("journalHead").path("root").asText())));
        } catch (IllegalArgumentException e) {
            complaints.add("the signed document names no head of the journal");
        }
        return new Outcome(complaints, head, Optional.of(document));
    }

    private void checkSignature(Issue issue, byte[] content, List<String> complaints) {
        Optional<PublicKeyRecord> key = records.find(issue.technician()).map(Keys::history).orElse(List.of()).stream()
                .filter(candidate -> candidate.id().equals(issue.keyId()))
                .findFirst();
        if (key.isEmpty()) {
            complaints.add("key %s of %s is not in the record".formatted(issue.keyId(), issue.technician()));
            return;
        }
        if (!key.get().isInUse(issue.at())) {
            complaints.add("key %s was not in use at %s".formatted(issue.keyId(), issue.at()));
        }
        boolean isSigned;
        try {
            isSigned = key.get().verifies(content, issue.signatureBytes());
        } catch (IllegalArgumentException e) {
            isSigned = false;
        }
        if (!isSigned) {
            complaints.add("the signature is not that of key %s over this document".formatted(issue.keyId()));
        }
    }

    private void checkFacts(Issue issue, JsonNode document, List<String> complaints) {
        Optional<Subject> visit = records.find(issue.visit());
        if (visit.isEmpty()) {
            complaints.add("the visit %s is gone".formatted(issue.visit()));
            return;
        }
        if (!JsonText.of(document.path("facts")).equals(visit.get().toJson())) {
            complaints.add("facts of the visit are not those that were signed");
        }
        complaints.addAll(new Receipts(records).complaints(visit.get()));
        for (JsonNode file : document.path("files")) {
            records.files()
                    .complaint(Hash.ofHex(file.path("sha256").asText()))
                    .ifPresent(complaint -> complaints.add(
                            "file %s is %s".formatted(file.path("name").asText(), complaint)));
        }
    }
}
