package org.steamwright.records.signing;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Base64;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.InventedRecord;
import org.steamwright.records.JournalHead;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.store.AheadTable;

/** Signs visits, corrects and withdraws what was signed. */
public final class Issues {

    /** Name of the form of the signed document. */
    public static final String FORM = "steamwright-issue-1";

    /** Fact of a visit that was given up before it was signed; holds the reason. */
    public static final String BROKEN_OFF = AheadTable.BROKEN_OFF;

    /** Fact of an issue that is interim; holds its last day. */
    public static final String INTERIM_UNTIL = AheadTable.INTERIM_UNTIL;

    /** Fact of an issue that only takes another back, and its value: by it withdrawals are found. */
    public static final String STANDING = "standing";

    /** Value of {@link #STANDING}. */
    public static final String WITHDRAWAL = "withdrawal";

    private static final String AMENDS = "amends";
    /** With this a file of invented readings begins. */
    public static final String SIMULATED_MARK = "# Steamwright simulated recording";

    private static final int MOST_ATTEMPTS = 5;
    /** Bytes that may stand before the text of a file. */
    private static final int BYTE_ORDER_MARK = 3;

    /** Facts of a visit that its issues carry too, so that they are found by them. */
    private static final List<String> FOUND_BY = List.of(
            "number",
            "date",
            "serial",
            "clinic-name",
            "sterilizer",
            "technicians",
            "instruments",
            "lots",
            "parts",
            "criteria-set",
            "algorithm-version");

    /** Of those, what a withdrawal carries: it is found by the words of the visit and used nothing of its own. */
    private static final List<String> WITHDRAWAL_FOUND_BY = List.of("number", "date", "serial", "clinic-name");

    private final Records records;
    private final Keys keys;

    /** @param records opened */
    public Issues(Records records) {
        this.records = records;
        this.keys = new Keys(records);
    }

    /**
     * Signs a visit. From then on none of its facts changes.
     *
     * @param request what is signed
     * @param secret own secret of the signer, asked for again; the caller clears it
     * @throws RecordsException if the visit is simulated or signed already, its facts are not those from which the result
     *     follows, a file is missing or damaged, or the secret is another
     */
    public Issue sign(SignRequest request, char[] secret) {
        for (int attempt = 1; ; attempt++) {
            try {
                return signOnce(request, secret);
            } catch (RecordsException e) {
                // somebody else wrote in between: what is signed must be what stands in the record
                if (e.id() != RecordsMessage.CHANGED_MEANWHILE || attempt == MOST_ATTEMPTS) {
                    throw e;
                }
            }
        }
    }

    private Issue signOnce(SignRequest request, char[] secret) {
        JournalHead head = records.head();
        Subject visit = records.subject(request.visit());
        if (records.isSealed(request.visit())) {
            throw new RecordsException(
                    RecordsMessage.ALREADY_SIGNED,
                    "visit %s (%s) is signed. Make a correction: a new issue with its reason."
                            .formatted(visit.text("number"), visit.id()));
        }
        if (visit.fact(BROKEN_OFF).isPresent()) {
            throw new RecordsException(
                    RecordsMessage.NOT_IN_FORCE,
                    "visit %s (%s) was broken off, so it is not signed.".formatted(visit.text("number"), visit.id()));
        }
        if (!visit.hash().equals(request.facts())) {
            throw new RecordsException(
                    RecordsMessage.VISIT_CHANGED,
                    "visit %s (%s) was changed after it was assessed, so the result is not that of what stands there now. Nothing was signed; assess it again."
                            .formatted(visit.text("number"), visit.id()));
        }
        List<Map<String, Object>> files = files(visit);
        boolean isInvented = isInvented(request, visit, files);
        Optional<JsonText> amends = visit.fact(AMENDS);
        int number = 1;
        if (amends.isPresent()) {
            Issue earlier = Issue.of(records.subject(
                    SubjectId.parse(amends.get().node().path("id").asText())));
            requireInForce(earlier);
            number = earlier.number() + 1;
        }
        Map<String, Object> document = new LinkedHashMap<>();
        document.put("visit", visit.id().toString());
        document.put("issue", number);
        amends.ifPresent(earlier -> document.put(AMENDS, earlier.node()));
        document.put("facts", visit.toJson().node());
        document.put("files", files);
        document.put("criteriaSet", request.criteriaSet().node());
        document.put("algorithmVersion", request.algorithmVersion());
        document.put("result", request.result().node());
        if (isInvented) {
            document.put("invented", InventedRecord.SIGNED);
        }
        request.interimUntil().ifPresent(last -> document.put("interimUntil", last.toString()));
        Map<String, JsonText> facts = new LinkedHashMap<>();
        facts.put("visit", JsonText.of(visit.id().toString()));
        facts.put("issue", JsonText.of(number));
        amends.ifPresent(earlier -> facts.put(AMENDS, earlier));
        for (String property : FOUND_BY) {
            visit.fact(property).ifPresent(value -> facts.put(property, value));
        }
        facts.put("algorithm-version", JsonText.of(request.algorithmVersion()));
        request.interimUntil().ifPresent(last -> facts.put(INTERIM_UNTIL, JsonText.of(last.toString())));
        return keep(document, facts, request.technician(), request.meaning(), secret, head, "", request.also());
    }

    private Issue keep(
            Map<String, Object> document,
            Map<String, JsonText> facts,
            SubjectId technician,
            String meaning,
            char[] secret,
            JournalHead head,
            String why,
            List<Change> also) {
        Subject signer = records.subject(technician);
        PublicKeyRecord key = keys.inUse(technician);
        Instant at = records.clock().instant().truncatedTo(ChronoUnit.MICROS);
        SubjectId id = records.newSubject();
        document.put("form", FORM);
        document.put("id", id.toString());
        document.put(
                "signedBy",
                Map.of(
                        "technician", technician.toString(),
                        "name", signer.text("name"),
                        "role", signer.text("role"),
                        "meaning", meaning,
                        "keyId", key.id()));
        document.put("at", at.toString());
        document.put(
                "offset", records.clock().getZone().getRules().getOffset(at).getId());
        document.put(
                "journalHead",
                Map.of("size", head.tree().size(), "root", head.tree().root().hex()));
        byte[] content = JsonText.of(document).bytes();
        byte[] signature = keys.sign(technician, key, secret, content);
        KeptFile kept = records.files().put(content);
        facts.put(Issue.SIGNED, JsonText.of(Map.of("sha256", kept.sha256().hex(), "size", kept.size())));
        facts.put(
                "signature",
                JsonText.of(Map.of(
                        "keyId", key.id(),
                        "technician", technician.toString(),
                        "at", at.toString(),
                        "value", Base64.getEncoder().encodeToString(signature))));
        Author author = new Author(signer.text("name"), signer.text("role"));
        List<Change> changes = new ArrayList<>();
        facts.forEach((property, value) ->
                changes.add(Change.set(Kind.ISSUE, id, property, value).because(why)));
        changes.addAll(also);
        records.append(new Submission(records.newSubmission(), author, changes, Optional.of(head.tree())));
        return Issue.of(records.subject(id));
    }

    /** Files of a visit, each of them looked at. */
    private List<Map<String, Object>> files(Subject visit) {
        List<Map<String, Object>> files = new ArrayList<>();
        for (Map.Entry<String, JsonText> fact : visit.facts().entrySet()) {
            if (fact.getKey().startsWith("files/")) {
                String name = fact.getKey().substring("files/".length());
                Hash sha256 = Hash.ofHex(fact.getValue().node().path("sha256").asText());
                records.files().complaint(sha256).ifPresent(complaint -> {
                    throw new RecordsException(
                            RecordsMessage.FILE_DAMAGED,
                            "visit %s, file %s: %s. Nothing was signed; restore the file from a backup."
                                    .formatted(visit.id(), name, complaint));
                });
                files.add(Map.of(
                        "name", name,
                        "sha256", sha256.hex(),
                        "size", fact.getValue().node().path("size").asLong()));
            }
        }
        return files;
    }

    /**
     * Whether the visit rests on simulated recordings, and so the signature is invented too. Looked for in three places: what
     * the caller says, what the facts say, and the first line of every file.
     *
     * @throws RecordsException if it does and the record is not the one in which everything is invented
     */
    private boolean isInvented(SignRequest request, Subject visit, List<Map<String, Object>> files) {
        boolean isSimulated = request.isSimulated() || visit.text("simulated").equals("true");
        for (Map<String, Object> file : files) {
            byte[] start = records.files()
                    .start(Hash.ofHex(String.valueOf(file.get("sha256"))), SIMULATED_MARK.length() + BYTE_ORDER_MARK);
            isSimulated |= new String(start, StandardCharsets.UTF_8)
                    .replace("\uFEFF", "")
                    .startsWith(SIMULATED_MARK);
        }
        if (isSimulated != InventedRecord.isIn(records)) {
            throw new RecordsException(
                    RecordsMessage.SIMULATED_NOT_SIGNED,
                    (isSimulated
                                    ? "visit %s (%s) holds simulated recordings. Invented data can be assessed and"
                                            + " printed, but not signed."
                                    : "visit %s (%s) holds no simulated recordings, and everything in this record is"
                                            + " invented. Write it in a record of its own.")
                            .formatted(visit.text("number"), visit.id()));
        }
        return isSimulated;
    }

    /**
     * Begins a correction: a new visit with the same facts, open for changes. The signed visit and its issue stay as they
     * are; once this one is signed it takes the place of the other.
     *
     * @param issue that is to be corrected
     * @param reason printed on the new issue
     */
    public SubjectId amend(SubjectId issue, String reason, Author author) {
        requireReason(reason);
        JournalHead head = records.head();
        Issue earlier = Issue.of(records.subject(issue));
        requireInForce(earlier);
        openCorrection(issue).ifPresent(open -> {
            throw new RecordsException(
                    RecordsMessage.NOT_IN_FORCE,
                    "issue %s is being corrected already, as visit %s. Finish or break off that correction first."
                            .formatted(issue, open));
        });
        SubjectId id = records.newSubject();
        List<Change> changes = new ArrayList<>();
        records.subject(earlier.visit()).facts().forEach((property, value) -> {
            if (!property.equals(AMENDS) && !property.equals(Receipts.FACT)) {
                changes.add(Change.set(Kind.VISIT, id, property, value).because(reason));
            }
        });
        changes.add(Change.set(Kind.VISIT, id, AMENDS, JsonText.of(Map.of("id", issue.toString(), "reason", reason)))
                .because(reason));
        records.append(new Submission(records.newSubmission(), author, changes, Optional.of(head.tree())));
        return id;
    }

    /** The visit by which an issue is being corrected: not yet signed, and not broken off. */
    public Optional<SubjectId> openCorrection(SubjectId issue) {
        return records.usedBy(Use.AMENDED, issue.toString(), Optional.empty(), Integer.MAX_VALUE).stream()
                .filter(later -> later.kind() == Kind.VISIT)
                .filter(later -> later.fact(BROKEN_OFF).isEmpty() && !records.isSealed(later.id()))
                .map(Subject::id)
                .findFirst();
    }

    /**
     * Gives a visit up that was not signed. Its facts stay readable; it is never signed.
     *
     * @param visit that is given up
     * @param reason kept with it
     */
    public void breakOff(SubjectId visit, String reason, Author author) {
        requireReason(reason);
        if (records.subject(visit).fact(BROKEN_OFF).isPresent()) {
            throw new RecordsException(
                    RecordsMessage.NOT_IN_FORCE, "visit %s was broken off already.".formatted(visit));
        }
        records.append(
                author,
                List.of(Change.set(Kind.VISIT, visit, BROKEN_OFF, reason).because(reason)));
    }

    private void requireInForce(Issue issue) {
        Standing standing = standing(issue.id());
        if (issue.isWithdrawal() || standing != Standing.STANDS) {
            throw new RecordsException(
                    RecordsMessage.NOT_IN_FORCE,
                    "issue %s of visit %s %s. Only the issue in force is corrected or withdrawn."
                            .formatted(
                                    issue.number(),
                                    issue.visit(),
                                    issue.isWithdrawal()
                                            ? "is itself a withdrawal"
                                            : standing == Standing.WITHDRAWN
                                                    ? "was withdrawn"
                                                    : "was corrected by a later one"));
        }
    }

    /**
     * Takes an issue back, by a signature of its own. The issue stays readable.
     *
     * @param issue in force, which no longer stands after this
     * @param technician who signs
     * @param reason why
     * @param secret own secret of the signer
     */
    public Issue withdraw(SubjectId issue, SubjectId technician, String reason, char[] secret) {
        requireReason(reason);
        JournalHead head = records.head();
        Issue earlier = Issue.of(records.subject(issue));
        requireInForce(earlier);
        Map<String, Object> amends = Map.of("id", issue.toString(), "reason", reason);
        Map<String, Object> document = new LinkedHashMap<>();
        document.put("visit", earlier.visit().toString());
        document.put("issue", earlier.number() + 1);
        document.put("withdraws", amends);
        Map<String, JsonText> facts = new LinkedHashMap<>();
        facts.put("withdraws-visit", JsonText.of(earlier.visit().toString()));
        facts.put("issue", JsonText.of(earlier.number() + 1));
        facts.put(AMENDS, JsonText.of(amends));
        facts.put(STANDING, JsonText.of(WITHDRAWAL));
        Subject withdrawn = records.subject(issue);
        for (String property : WITHDRAWAL_FOUND_BY) {
            withdrawn.fact(property).ifPresent(value -> facts.put(property, value));
        }
        return keep(document, facts, technician, "withdrawn", secret, head, reason, List.of());
    }

    private static void requireReason(String reason) {
        if (reason.isBlank()) {
            throw new RecordsException(
                    RecordsMessage.REASON_MISSING, "a correction or withdrawal says its reason; none was given.");
        }
    }

    /** How an issue stands. */
    public enum Standing {
        STANDS,
        CORRECTED,
        WITHDRAWN
    }

    /** Whether a later issue has taken the place of this one. */
    public Standing standing(SubjectId issue) {
        Standing standing = Standing.STANDS;
        for (Subject later : records.usedBy(Use.AMENDED, issue.toString(), Optional.empty(), Integer.MAX_VALUE)) {
            if (later.kind() == Kind.ISSUE) {
                Issue other = Issue.of(later);
                if (other.isWithdrawal()) {
                    return Standing.WITHDRAWN;
                }
                standing = Standing.CORRECTED;
            }
        }
        return standing;
    }

    /** The signed document of an issue, as it was signed. */
    public JsonText document(Issue issue) {
        return JsonText.parse(new String(records.files().get(issue.document()), StandardCharsets.UTF_8));
    }

    /** Issues of a visit, earliest first. */
    public List<Issue> of(SubjectId visit) {
        List<Issue> issues = new ArrayList<>();
        for (Subject subject : records.usedBy(Use.VISIT, visit.toString(), Optional.empty(), Integer.MAX_VALUE)) {
            if (subject.kind() == Kind.ISSUE) {
                issues.add(0, Issue.of(subject));
            }
        }
        return issues;
    }
}
