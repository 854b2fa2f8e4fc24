package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.InventedRecord;
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
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.signing.Receipts;
import org.steamwright.records.signing.SignRequest;
import org.steamwright.report.document.Issued;
import org.steamwright.report.picture.Pictures;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.state.StateStep;
import org.steamwright.visit.state.VisitState;
import org.steamwright.visit.validity.InterimStanding;

/** Takes visits into the record, gives them back, and has them signed. */
public final class Filing {

    /** Fact of a visit that holds what a reviewer answered. */
    public static final String REVIEW = "review";

    static final String VISIT_FILE = "visit.yaml";
    static final String STATED = "stated/";
    private static final int ATTEMPTS = 8;

    private final Records records;
    private final Subjects subjects;
    private final VisitStates states;
    private final Issues issues;

    /** @param records opened */
    public Filing(Records records) {
        this.records = records;
        this.subjects = new Subjects(records);
        this.issues = new Issues(records);
        this.states = new VisitStates(records);
    }

    /**
     * A visit as it now stands in the record.
     *
     * @param visit with its facts
     * @param isNew whether it was not there before
     * @param changed facts that changed by this, the new ones among them
     * @param assessed what follows from it
     */
    public record Taken(Subject visit, boolean isNew, int changed, AssessedVisit assessed) {}

    /**
     * Takes a visit folder in, or what has changed in it since it was taken in. Files are kept first, facts after them, so
     * that a fact never names a file that is not there. The visit is known again by its report number.
     *
     * @param folder with its visit file
     * @param author who takes it in
     * @param why reason for a change; may be blank for a new visit
     * @throws VisitFolderException if the folder can't be read as a visit
     * @throws FilingException if it has no report number, would mix invented visits with real ones, or does not tell which clinic
     *     or machine of the record it means
     * @throws IOException if the disk fails
     */
    public Taken take(Path folder, Author author, String why)
            throws IOException, VisitFolderException, FilingException {
        Visit visit = VisitFolder.read(folder, new Presets());
        if (visit.reportNumber().isBlank()) {
            throw new FilingException(
                    folder + ": the visit has no report number, by which the record knows it again",
                    "Add 'report-number' to " + VISIT_FILE + ".");
        }
        refuseOther(visit);
        AssessedVisit assessed = Visits.assess(visit);
        Map<String, Object> ofFolder = new TreeMap<>();
        StatedFacts.of(folder.resolve(VISIT_FILE)).forEach((key, value) -> ofFolder.put(STATED + key, value));
        for (Map.Entry<String, Path> file : VisitFiles.in(folder).entrySet()) {
            KeptFile kept = records.files().put(file.getValue());
            ofFolder.put(
                    VisitFiles.PREFIX + file.getKey(),
                    Map.of("sha256", kept.sha256().hex(), "size", kept.size()));
        }
        SubjectId fresh = records.newSubject();
        for (int attempt = 1; ; attempt++) {
            try {
                return takeOnce(visit, assessed, ofFolder, fresh, author, why);
            } catch (RecordsException e) {
                // somebody else wrote in between: the number may be taken, the record may hold visits of the other sort
                if (e.id() != RecordsMessage.CHANGED_MEANWHILE || attempt == ATTEMPTS) {
                    throw e;
                }
            }
        }
    }

    private Taken takeOnce(
            Visit visit,
            AssessedVisit assessed,
            Map<String, Object> ofFolder,
            SubjectId fresh,
            Author author,
            String why)
            throws FilingException {
        TreeHead head = records.head().tree();
        refuseOther(visit);
        List<StatedVisit> all = states.ofNumber(visit.reportNumber());
        Optional<StatedVisit> before =
                VisitStates.open(all).or(() -> VisitStates.inForce(all)).or(() -> VisitStates.last(all));
        Optional<Subject> known = before.map(StatedVisit::visit);
        SubjectId id = known.map(Subject::id).orElse(fresh);
        List<Change> changes = new ArrayList<>();
        Map<String, Object> facts = FoundBy.of(visit)
                .facts(subjects, known.map(one -> Drafts.ties(records, one)).orElse(Meant.Ties.NONE), changes);
        facts.putAll(ofFolder);
        Optional<Instant> held = known.isEmpty() ? endOfDay(visit) : Optional.empty();
        List<Change> own = FactChanges.of(
                        Kind.VISIT,
                        id,
                        known,
                        facts,
                        property -> property.startsWith(STATED) || property.startsWith(VisitFiles.PREFIX),
                        why)
                .stream()
                .map(change -> held.map(change::statedAt).orElse(change))
                .toList();
        if (!own.isEmpty() && before.isPresent() && !before.get().state().isOpenForFacts()) {
            throw closed(before.get());
        }
        changes.addAll(own);
        if (!changes.isEmpty()) {
            records.append(new Submission(records.newSubmission(), author, changes, Optional.of(head)));
        }
        return new Taken(records.subject(id), known.isEmpty(), own.size(), assessed);
    }

    /**
     * When the facts of a visit folder held at the latest: at the end of its day. Empty while that day is not over, and where a
     * folder states none.
     */
    private Optional<Instant> endOfDay(Visit visit) {
        return visit.date()
                .map(day -> day.plusDays(1).atStartOfDay(visit.zone()).toInstant())
                .filter(end -> !end.isAfter(records.clock().instant()));
    }

    /** A visit of training comes into no other record, and an invented one not among real ones. */
    private void refuseOther(Visit visit) throws FilingException {
        Optional<FilingException> training = TrainingRecord.objection(records, visit.reportNumber());
        if (training.isPresent()) {
            throw training.get();
        }
        refuseMixing(records, Optional.empty(), visit.isSimulated());
    }

    private static FilingException closed(StatedVisit stated) {
        return new FilingException(
                "%s is %s; its facts do not change any more"
                        .formatted(stated.visit().text("number"), stated.words()),
                stated.state().isOut()
                        ? "Begin a correction with 'amend', which gives it a new issue; this one stays readable."
                        : "Take a new visit in, under a report number of its own.");
    }

    /** What follows from a visit folder, without taking it in. */
    public AssessedVisit read(Path folder) throws IOException, VisitFolderException {
        return Visits.assess(VisitFolder.read(folder, new Presets()));
    }

    /**
     * Invented visits and real ones never come into one record.
     *
     * @param own the visit that is about to change, which does not count
     * @throws FilingException if the record holds visits of the other sort
     */
    static void refuseMixing(Records records, Optional<SubjectId> own, boolean isSimulated) throws FilingException {
        if (!isSimulated && InventedRecord.isIn(records)) {
            throw new FilingException(
                    "this visit has real recordings, and everything in the record is invented",
                    "Write it in a record of its own.");
        }
        // a visit that is being written has no recordings yet and says neither; the one that counts out is one at most
        boolean isOther = records.usedBy(Use.SIMULATED, String.valueOf(!isSimulated), Optional.empty(), 2).stream()
                .anyMatch(visit -> !own.equals(Optional.of(visit.id())));
        if (isOther) {
            throw new FilingException(
                    isSimulated
                            ? "this visit has invented recordings, and the record holds real ones"
                            : "this visit has real recordings, and the record holds invented ones",
                    "Keep invented visits in a record of their own.");
        }
    }

    /** The visit of that report number: the one in force, else the one that is open, else the newest. */
    public Optional<StatedVisit> find(String reportNumber) {
        List<StatedVisit> all = states.ofNumber(reportNumber);
        return VisitStates.inForce(all).or(() -> VisitStates.open(all)).or(() -> VisitStates.last(all));
    }

    /**
     * The visit of that report number: the one in force, else the one that is open, else the newest.
     *
     * @throws FilingException if there is none
     */
    public StatedVisit visit(String reportNumber) throws FilingException {
        return find(reportNumber).orElseThrow(() -> unknown(reportNumber));
    }

    /**
     * The visit of that report number with that issue.
     *
     * @throws FilingException if there is none
     */
    public StatedVisit visit(String reportNumber, int issue) throws FilingException {
        List<StatedVisit> all = states.ofNumber(reportNumber);
        if (all.isEmpty()) {
            throw unknown(reportNumber);
        }
        return all.stream()
                .filter(one ->
                        one.issue().filter(signed -> signed.number() == issue).isPresent())
                .findFirst()
                .orElseThrow(() -> new FilingException(
                        "%s has no issue %d; there is %s"
                                .formatted(
                                        reportNumber,
                                        issue,
                                        String.join(
                                                "; ",
                                                all.stream()
                                                        .map(StatedVisit::words)
                                                        .toList())),
                        "Name one of these, or leave the issue out for the one in force."));
    }

    /**
     * The visit of that report number that may be signed.
     *
     * @throws FilingException if there is none
     */
    public StatedVisit open(String reportNumber) throws FilingException {
        List<StatedVisit> all = states.ofNumber(reportNumber);
        Optional<StatedVisit> open = VisitStates.open(all);
        if (open.isPresent()) {
            return open.get();
        }
        StatedVisit stated = visit(reportNumber);
        throw new FilingException(
                "%s is %s, so there is nothing to sign".formatted(reportNumber, stated.words()),
                stated.state().isOut()
                        ? "Begin a correction with 'amend' if something is wrong."
                        : "Take a new visit in, under a report number of its own.");
    }

    /**
     * The correction of that report number that is open.
     *
     * @throws FilingException if there is none
     */
    public StatedVisit correction(String reportNumber) throws FilingException {
        return VisitStates.open(states.ofNumber(reportNumber))
                .filter(StatedVisit::isCorrection)
                .orElseThrow(() -> new FilingException(
                        "no correction of '" + reportNumber + "' is open",
                        "'find' lists its visits with their states."));
    }

    private static FilingException unknown(String reportNumber) {
        return new FilingException(
                "there is no visit with the report number '" + reportNumber + "' in the record",
                "Look for it with 'find'.");
    }

    /** Its files by name, each checked against its hash. */
    public NavigableMap<String, byte[]> files(Subject visit) {
        NavigableMap<String, byte[]> files = new TreeMap<>();
        for (Map.Entry<String, Hash> file : VisitFiles.of(visit).entrySet()) {
            files.put(file.getKey(), records.files().get(file.getValue()));
        }
        return files;
    }

    /**
     * Writes the visit folder as it was taken in, into a folder that is not there yet.
     *
     * @throws FilingException if the folder is there
     * @throws IOException if the disk fails
     */
    public void giveBack(Subject visit, Path folder) throws IOException, FilingException {
        refuseThere(folder);
        VisitFiles.write(folder, files(visit));
    }

    /**
     * Nothing is overwritten.
     *
     * @throws FilingException if the folder is there
     */
    public static void refuseThere(Path folder) throws FilingException {
        if (Files.exists(folder)) {
            throw new FilingException(folder + " is there already; nothing is overwritten", "Name a new folder.");
        }
    }

    /**
     * What follows from the visit as it stands in the record.
     *
     * @throws VisitFolderException if this program can't read it any more
     */
    public AssessedVisit assess(Subject visit) throws IOException, FilingException, VisitFolderException {
        try (ScratchFolder scratch = new ScratchFolder(records.files(), VisitFiles.of(visit))) {
            return Visits.assess(VisitFolder.read(scratch.folder(), new Presets()));
        }
    }

    /** The files of a visit in the record, one by one as they are wanted. */
    public Pictures pictures(Subject visit) {
        Map<String, Hash> names = VisitFiles.of(visit);
        return Pictures.of(
                names.keySet(), name -> Optional.ofNullable(names.get(name)).map(records.files()::get));
    }

    /** How the report of a visit stands, as its documents print it. */
    public Issued issued(StatedVisit stated) {
        return issuedWith(stated, Optional.empty());
    }

    /**
     * How the report of a visit stands that may not be signed yet.
     *
     * @param assessed what follows from it now, so that a correction tells which results it changes
     */
    public Issued issued(StatedVisit stated, AssessedVisit assessed) throws IOException {
        return issuedWith(
                stated,
                stated.isCorrection() && stated.issue().isEmpty()
                        ? Optional.of(Results.of(assessed))
                        : Optional.empty());
    }

    private Issued issuedWith(StatedVisit stated, Optional<JsonText> assessed) {
        String reason = stated.visit()
                .fact("amends")
                .map(amends -> amends.node().path("reason").asText())
                .orElse("");
        String corrects = reason.isBlank() ? "" : "corrects an earlier issue: " + reason;
        Corrected corrected = new Corrected(records);
        if (stated.issue().isEmpty()) {
            return corrects.isBlank()
                    ? Issued.NOT_SIGNED
                    : Issued.draftOf(corrects, corrected.differences(stated.visit(), assessed));
        }
        Issue issue = stated.issue().get();
        JsonNode document = issues.document(issue).node();
        JsonNode by = document.path("signedBy");
        Instant at = Instant.parse(document.path("at").asText());
        String ended = switch (stated.state()) {
            case REPLACED -> "Replaced by a later issue: " + stated.reason() + ".";
            case WITHDRAWN -> "Withdrawn: " + stated.reason() + ". Nobody may rely on it.";
            default -> "";
        };
        return new Issued(
                issue.number(),
                Optional.of(new Issued.Signature(
                        by.path("name").asText(),
                        by.path("role").asText(),
                        by.path("meaning").asText(),
                        at.atOffset(ZoneOffset.of(document.path("offset").asText())),
                        issue.keyId(),
                        issue.document().hex(),
                        document.path("journalHead").path("size").asLong(),
                        document.path("journalHead").path("root").asText())),
                stated.interimUntil(),
                ended,
                corrects,
                receipt(stated.visit(), ZoneOffset.of(document.path("offset").asText())),
                corrected.differences(stated.visit(), corrected.signedResult(stated)));
    }

    /** The receipt of a visit, with who made its key and at whose desk it was signed. */
    private Optional<Issued.Receipt> receipt(Subject visit, ZoneOffset offset) {
        return Receipts.of(visit).map(receipt -> {
            JsonNode by = visit.fact(Receipts.FACT)
                    .map(JsonText::node)
                    .map(node -> node.path("document").path("signedBy"))
                    .orElseThrow();
            String keyId = by.path("keyId").asText();
            return new Issued.Receipt(
                    receipt.name(),
                    receipt.at().atOffset(offset),
                    receipt.isOfThis(),
                    author(SubjectId.parse(by.path("technician").asText()), "keys/" + keyId),
                    author(visit.id(), Receipts.FACT));
        });
    }

    /** Who entered a fact first as it stands. */
    private String author(SubjectId subject, String property) {
        return records.history(subject).stream()
                .filter(entry -> entry.property().equals(property))
                .filter(entry ->
                        property.equals(Receipts.FACT) || entry.oldValue().isNull())
                .reduce((earlier, later) -> later)
                .map(entry -> entry.author().name())
                .orElse("");
    }

    /**
     * What a visit says, in one word: another as soon as a fact or a file changes from which something follows, or the
     * assessment is another. Notes beside the visit do not count, and neither does how its visit file is laid out.
     */
    public static Hash content(Subject visit) {
        TreeMap<String, Object> from = new TreeMap<>();
        visit.facts().forEach((property, value) -> {
            boolean isFile = property.startsWith(VisitFiles.PREFIX) && !property.equals(VisitFiles.PREFIX + VISIT_FILE);
            if (isFile || property.startsWith(STATED)) {
                from.put(property, value.node());
            }
        });
        return Hash.ofContent(
                JsonText.of(List.of(Results.ALGORITHM_VERSION, from)).bytes());
    }

    /**
     * Has a visit signed as it was read from the record; whether the signer has seen it so is not asked.
     *
     * @see #sign(Subject, Optional, String, String, char[], Author)
     */
    public Optional<Issue> sign(Subject visit, String name, String meaning, char[] secret, Author asker)
            throws IOException, FilingException, VisitFolderException {
        return sign(visit, Optional.empty(), name, meaning, secret, asker);
    }

    /**
     * Has a visit signed: assesses it from the record and seals facts, files, criteria set and result. The representative of the
     * clinic signs the receipt instead, which puts nothing out.
     *
     * @param visit to sign, as it was read from the record
     * @param seen {@link #content} of the visit when the signer looked at it, as it is written; empty if that is not known
     * @param name of the signer, as the record has it
     * @param meaning what the signature says; empty for what the signer's duty in the visit says
     * @param secret the signer's own; cleared by the caller
     * @param asker who has the page or the command line
     * @return the issue; empty if a receipt was signed
     * @throws VisitChangedException if the visit is not as the signer has seen it, or was changed while it was assessed
     * @throws FilingException if nobody has that name, the meaning is not the signer's, or the key is somebody else's
     * @throws org.steamwright.records.RecordsException if the visit is invented or signed already, or the secret is another
     */
    public Optional<Issue> sign(
            Subject visit, Optional<String> seen, String name, String meaning, char[] secret, Author asker)
            throws IOException, FilingException, VisitFolderException {
        if (TrainingRecord.isIn(records)) {
            throw new FilingException(
                    "a training visit can't be signed: its machine is simulated",
                    "Sign a visit to a real machine, in the record of your visits.");
        }
        Hash content = content(visit);
        if (seen.isPresent() && !seen.get().equals(content.hex())) {
            throw new VisitChangedException(visit);
        }
        SubjectId technician = technician(name);
        AssessedVisit assessed = assess(visit);
        refuseOtherPlate(assessed.visit());
        Set<Duty> duties = duties(assessed.visit().people().stream()
                .filter(person -> person.name().equals(name))
                .map(Person::role)
                .toList());
        new SigningKeys(records).requireOpen(name, duties, asker);
        Duty duty = duty(name, meaning, duties);
        if (duty == Duty.REPRESENTATIVE) {
            if (assessed.visit().isSimulated() && !InventedRecord.isIn(records)) {
                throw new FilingException(
                        "the recordings are invented, so nobody signs for them", "Sign a visit to a real machine.");
            }
            new Receipts(records).sign(visit.id(), technician, duty.meaning(), secret, asker);
            return Optional.empty();
        }
        LocalDate day =
                LocalDate.ofInstant(records.clock().instant(), assessed.visit().zone());
        InterimStanding indicators = InterimStanding.of(assessed, day);
        boolean isAwaiting = indicators.standing() == InterimStanding.Standing.AWAITED
                || indicators.standing() == InterimStanding.Standing.LAPSED;
        Optional<LocalDate> until = isAwaiting ? indicators.until() : Optional.empty();
        boolean isSimulated = assessed.visit().isSimulated();
        VisitState out = isAwaiting ? VisitState.INTERIM : VisitState.ISSUED;
        boolean isOutOfPlace = isSimulated && !InventedRecord.isIn(records);
        refuse(new StateStep(
                states.of(visit).state(), VisitState.PERFORMED, day, name, "", isOutOfPlace, isAwaiting, until));
        refuse(new StateStep(VisitState.PERFORMED, out, day, name, "", isOutOfPlace, isAwaiting, until));
        JsonText criteriaSet = JsonText.of(Map.of(
                "name", assessed.visit().criteriaSet().name(),
                "version", assessed.visit().criteriaSet().version(),
                "sha256", assessed.visit().criteriaSet().sha256()));
        JsonText result = Results.of(assessed);
        Subject standing = visit;
        for (int attempt = 1; ; attempt++) {
            try {
                Issue issue = issues.sign(
                        new SignRequest(
                                visit.id(),
                                standing.hash(),
                                technician,
                                duty.meaning(),
                                criteriaSet,
                                Results.ALGORITHM_VERSION,
                                result,
                                isSimulated,
                                until,
                                new VisitEvidence(records).changes(standing, assessed)),
                        secret);
                return Optional.of(issue);
            } catch (RecordsException e) {
                if (e.id() != RecordsMessage.VISIT_CHANGED) {
                    throw e;
                }
                standing = records.subject(visit.id());
                // a note beside the visit may come between; what the result follows from may not, and neither may a
                // review
                if (attempt == ATTEMPTS
                        || !content(standing).equals(content)
                        || !standing.fact(REVIEW).equals(visit.fact(REVIEW))) {
                    throw new VisitChangedException(standing);
                }
            }
        }
    }

    /** Whoever signs says that it was this steriliser; where the name plate was read and is another one, nobody can. */
    private static void refuseOtherPlate(Visit visit) throws FilingException {
        for (Sterilizer sterilizer : visit.sterilizers()) {
            Optional<String> other = sterilizer.findOtherSerial();
            if (other.isPresent()) {
                throw new FilingException(
                        "the name plate says '%s' and the visit is for '%s', so nobody signs it"
                                .formatted(other.get(), sterilizer.serial()),
                        "Read the plate again, or make the visit one for that steriliser.");
            }
        }
    }

    /** What somebody is in a visit for, by the roles under which the visit names them; whoever had no part in it reviews. */
    public static Set<Duty> duties(List<String> roles) {
        Set<Duty> duties = EnumSet.noneOf(Duty.class);
        roles.forEach(role -> duties.add(Duty.of(role)));
        return duties.isEmpty() ? EnumSet.of(Duty.REVIEWER) : duties;
    }

    private static Duty duty(String name, String meaning, Set<Duty> duties) throws FilingException {
        Optional<Duty> said = meaning.isBlank() ? duties.stream().findFirst() : Duty.ofMeaning(meaning);
        return said.filter(duties::contains)
                .orElseThrow(() -> new FilingException(
                        "the signature of %s can't say '%s' in this visit".formatted(name, meaning),
                        "It can say: "
                                + duties.stream().map(Duty::meaning).collect(Collectors.joining("; "))
                                + ". It follows from the role under which the visit names the person."));
    }

    /**
     * Begins a correction of the issue in force: a new visit with the same facts and files, open for changes. The issue in
     * force stands until the correction is signed.
     *
     * @param reportNumber of the report
     * @param reason printed on the new issue
     * @param author who begins it
     * @throws FilingException if no issue is in force
     * @throws org.steamwright.records.RecordsException if a correction is open already
     */
    public StatedVisit amend(String reportNumber, String reason, Author author) throws FilingException {
        StatedVisit stated = visit(reportNumber);
        refuse(step(stated, VisitState.REPLACED, author.name(), reason));
        SubjectId correction = issues.amend(stated.issue().orElseThrow().id(), reason, author);
        return states.of(records.subject(correction));
    }

    /**
     * Takes the issue in force back, by a signature of its own. It stays readable.
     *
     * @param stated whose issue is withdrawn
     * @param name of the signer, as the record has it
     * @param reason why
     * @param secret the signer's own; cleared by the caller
     * @param asker who has the page or the command line
     * @throws FilingException if the issue is not in force, nobody has that name, or the key is somebody else's
     */
    public Issue withdraw(StatedVisit stated, String name, String reason, char[] secret, Author asker)
            throws FilingException {
        new SigningKeys(records).requireOpen(name, Set.of(), asker);
        refuse(step(stated, VisitState.WITHDRAWN, name, reason));
        return issues.withdraw(stated.issue().orElseThrow().id(), technician(name), reason, secret);
    }

    /**
     * Gives up a visit that was not signed. Its facts stay readable.
     *
     * @param stated that is given up
     * @param reason kept with it
     * @param author who gives it up
     * @throws FilingException if it is not open
     */
    public void breakOff(StatedVisit stated, String reason, Author author) throws FilingException {
        refuse(step(stated, VisitState.BROKEN_OFF, author.name(), reason));
        issues.breakOff(stated.visit().id(), reason, author);
    }

    /** A step back; what is in the recordings was settled when it was signed. */
    private StateStep step(StatedVisit stated, VisitState to, String by, String reason) {
        return new StateStep(
                stated.state(), to, SiteDay.today(stated.visit(), records), by, reason, false, false, Optional.empty());
    }

    private static void refuse(StateStep step) throws FilingException {
        List<String> refusals = step.refusals();
        if (!refusals.isEmpty()) {
            String all = String.join(" ", refusals);
            throw new FilingException(
                    "the visit can't become %s: %s".formatted(step.to().words(), all.substring(0, all.length() - 1)),
                    "Nothing was entered.");
        }
    }

    /**
     * Who has that name.
     *
     * @throws FilingException if the record knows nobody of that name
     */
    public SubjectId technician(String name) throws FilingException {
        return subjects.find(Kind.TECHNICIAN, "name", name)
                .orElseThrow(() -> new FilingException(
                        "the record knows nobody called '" + name + "'",
                        "Spell the name as it stands in the visit, or make a key for it first."));
    }
}
