package org.steamwright.filing;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.steamwright.criteriasets.Presets;
import org.steamwright.filing.DraftRefusal.Reason;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.folder.VisitInstruments;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.VisitDraft;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;

/**
 * Visits that are being written in the record, fact by fact. What a change returns from is kept over a loss of power, whole or
 * not at all; every value that ever stood stays in the journal. May be used by several threads.
 */
public final class Drafts {

    private static final int ATTEMPTS = 8;
    private static final long GLANCED = 1_000_000;
    private static final int MOST_GLANCES = 24;

    private static final String VERSION_KEY = "steamwright-visit";
    private static final String NUMBER_KEY = "report-number";

    private final Records records;
    private final Filing filing;
    private final Subjects subjects;
    private final AssessedOnce assessed;
    private final Map<Glance, List<DraftProblem>> glances = new LinkedHashMap<>(MOST_GLANCES, 0.75f, true);
    private final Map<Glance, DraftInstruments> instruments = new LinkedHashMap<>(MOST_GLANCES, 0.75f, true);

    /** What a glance looks at: facts, and files by their content. */
    private record Glance(FactTree tree, NavigableMap<String, KeptFile> files) {}

    /** @param records opened */
    public Drafts(Records records) {
        this.records = records;
        this.filing = new Filing(records);
        this.subjects = new Subjects(records);
        this.assessed = new AssessedOnce(records);
    }

    Records records() {
        return records;
    }

    Subjects subjects() {
        return subjects;
    }

    /**
     * Begins a visit.
     *
     * @param author who begins it
     * @param number report number, by which the record knows the visit again
     * @param start first facts, as a visit file has them; {@code report-number} and the version of the format need not be there
     * @throws DraftRefusal if the number is blank or taken, or a start fact is no fact of a visit
     */
    public Draft open(Author author, String number, Map<String, ?> start) throws DraftRefusal {
        return open(author, number, start, Map.of(), Meant.Ties.NONE);
    }

    /**
     * Begins a visit with what the register knows of a machine.
     *
     * @param author who begins it
     * @param register of the office
     * @param machine to be visited
     * @param visit what does not come from the register
     * @param instruments register of the instruments, by the name of its file, and the files that it names; may be empty
     * @throws DraftRefusal if the number is blank or taken
     */
    public Draft open(
            Author author,
            Register register,
            SterilizerRecord machine,
            VisitDraft.Visit visit,
            Map<String, byte[]> instruments)
            throws DraftRefusal {
        return open(author, register, machine, visit, instruments, Meant.Ties.NONE);
    }

    private Draft open(
            Author author,
            Register register,
            SterilizerRecord machine,
            VisitDraft.Visit visit,
            Map<String, byte[]> instruments,
            Meant.Ties ties)
            throws DraftRefusal {
        byte[] text = VisitDraft.of(register, machine, visit).getBytes(StandardCharsets.UTF_8);
        try {
            return open(
                    author,
                    visit.reportNumber(),
                    FactTree.ofFacts(StatedFacts.of(Filing.VISIT_FILE, text)).root(),
                    instruments,
                    ties);
        } catch (VisitFolderException e) {
            throw new IllegalStateException("a visit file begun from a register is none: " + e.getMessage(), e);
        }
    }

    /**
     * Begins a visit with everything that a visit file says, and the files that it names.
     *
     * @param author who begins it
     * @param number of the report
     * @param files by their names, the visit file among them
     * @throws DraftRefusal if the number is blank or taken
     * @throws VisitFolderException if the visit file is none
     * @throws FilingException if invented recordings and real ones would come together
     */
    public Draft take(Author author, String number, Map<String, byte[]> files)
            throws DraftRefusal, VisitFolderException, FilingException {
        Map<String, byte[]> others = new TreeMap<>(files);
        Optional<byte[]> text = Optional.ofNullable(others.remove(Filing.VISIT_FILE));
        Map<String, Object> facts = FactTree.ofFacts(StatedFacts.of(Filing.VISIT_FILE, text.orElse(new byte[0])))
                .root();
        boolean isSimulated = others.values().stream().anyMatch(DraftFacts::isMarked);
        Filing.refuseMixing(records, Optional.empty(), isSimulated);
        return open(author, number, facts, others, Meant.Ties.NONE);
    }

    /**
     * The same to a machine of the record: the visit is tied to it and to the clinic where it stands, whoever else has the same
     * serial number or name.
     *
     * @param subject the machine in the record
     */
    public Draft open(Author author, Subject subject, VisitDraft.Visit visit, Map<String, byte[]> instruments)
            throws DraftRefusal, IOException, FilingException, RegisterException {
        RegisterFiling filing = new RegisterFiling(records);
        Register register = filing.around(subject);
        SterilizerRecord machine = register.sterilizers().stream()
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(subject.id() + " is not in the register"));
        return open(author, register, machine, visit, instruments, Meant.Ties.to(subject, filing.clinic(subject)));
    }

    private Draft open(Author author, String number, Map<String, ?> start, Map<String, byte[]> files, Meant.Ties ties)
            throws DraftRefusal {
        if (number.isBlank()) {
            throw numberMissing();
        }
        Map<String, Object> keys = new TreeMap<>(start);
        keys.put(VERSION_KEY, String.valueOf(VisitFolder.FORMAT_VERSION));
        keys.put(NUMBER_KEY, number.strip());
        for (String key : keys.keySet()) {
            DraftChange.checkKey(FactPath.of(key));
        }
        FactTree tree = FactTree.of(keys);
        NavigableMap<String, KeptFile> kept = new TreeMap<>();
        files.forEach((name, bytes) -> kept.put(name, records.files().put(bytes)));
        SubjectId id = records.newSubject();
        for (int attempt = 0; ; attempt++) {
            TreeHead head = records.head().tree();
            refuseTaken(number.strip(), Optional.empty());
            List<Change> changes = new ArrayList<>();
            Map<String, Object> facts = facts(tree, kept, ties, changes, true);
            changes.addAll(FactChanges.of(Kind.VISIT, id, Optional.empty(), facts, property -> false, ""));
            if (append(new Submission(records.newSubmission(), author, changes, Optional.of(head)), attempt)) {
                return of(id);
            }
        }
    }

    static DraftRefusal numberMissing() {
        return new DraftRefusal(
                Reason.NUMBER_MISSING,
                "the visit would have no report number, by which the record knows it again",
                "Write a number, for example R-2026-0050.");
    }

    /** The refusal to guess which of several machines a serial number means. */
    public static DraftRefusal several(String serial, List<Subject> machines) {
        return new DraftRefusal(
                Reason.UNCLEAR,
                "the serial number %s belongs to several sterilisers of the record: %s"
                        .formatted(serial, machines.stream().map(Meant::words).collect(Collectors.joining("; "))),
                "Type the id by which the register has the one that you mean, or choose it from the list.");
    }

    void refuseTaken(String number, Optional<SubjectId> own) throws DraftRefusal {
        Optional<FilingException> training = TrainingRecord.objection(records, number);
        if (training.isPresent()) {
            throw new DraftRefusal(
                    Reason.TRAINING,
                    String.valueOf(training.get().getMessage()),
                    training.get().remedy());
        }
        Optional<SubjectId> other = subjects.find(Kind.VISIT, "number", number);
        if (other.isPresent() && !other.equals(own)) {
            throw new DraftRefusal(
                    Reason.NUMBER_TAKEN,
                    "the report number %s belongs to another visit of this record".formatted(number),
                    "Take the next free number; two reports can't have the same one.");
        }
    }

    /**
     * Keeps a submission.
     *
     * @return false if something came between and there is another attempt
     */
    boolean append(Submission submission, int attempt) throws DraftRefusal {
        try {
            records.append(submission);
            return true;
        } catch (RecordsException e) {
            if (e.id() == RecordsMessage.SEALED) {
                throw signed(String.valueOf(e.getMessage()));
            }
            if (e.id() == RecordsMessage.CHANGED_MEANWHILE && attempt < ATTEMPTS) {
                return false;
            }
            throw e;
        }
    }

    static DraftRefusal signed(String text) {
        return new DraftRefusal(
                Reason.SIGNED, text, "Make a correction: a new issue with its reason. The signed one stays readable.");
    }

    /**
     * All facts of a visit that are derived from its tree and its files, and these themselves.
     *
     * @param ties clinic and machines that it is known to mean
     * @param isMaking whether subjects that the record does not know are made by the changes
     * @throws DraftRefusal if they shall be made and it is not clear whom the visit means
     */
    Map<String, Object> facts(
            FactTree tree, Map<String, KeptFile> files, Meant.Ties ties, List<Change> changes, boolean isMaking)
            throws DraftRefusal {
        NavigableMap<String, Hash> hashes = new TreeMap<>();
        files.forEach((name, kept) -> hashes.put(name, kept.sha256()));
        FoundBy found = new DraftFacts(records, tree, hashes).foundBy();
        Map<String, Object> facts;
        try {
            facts = isMaking ? found.facts(subjects, ties, changes) : found.known(subjects, ties);
        } catch (FilingException unclear) {
            throw new DraftRefusal(Reason.UNCLEAR, String.valueOf(unclear.getMessage()), unclear.remedy());
        }
        tree.facts().forEach((key, value) -> facts.put(Filing.STATED + key, value));
        files.forEach((name, kept) -> facts.put(
                VisitFiles.PREFIX + name, Map.of("sha256", kept.sha256().hex(), "size", kept.size())));
        KeptFile text = records.files().put(DraftChange.text(tree));
        facts.put(
                VisitFiles.PREFIX + Filing.VISIT_FILE,
                Map.of("sha256", text.sha256().hex(), "size", text.size()));
        return facts;
    }

    /**
     * The visit as it stands.
     *
     * @throws RecordsException if there is no such subject
     * @throws IllegalArgumentException if it is no visit
     */
    public Draft of(SubjectId visit) {
        return of(records.subject(visit));
    }

    /** A visit as it was read already. */
    public Draft of(Subject visit) {
        if (visit.kind() != Kind.VISIT) {
            throw new IllegalArgumentException(
                    visit.id() + " is a " + visit.kind().word() + ", not a visit");
        }
        return new Draft(this, visit);
    }

    /** The visit of that report number. */
    public Optional<Draft> find(String reportNumber) {
        return filing.find(reportNumber).map(stated -> new Draft(this, stated.visit()));
    }

    /** Clinic and machines that a visit of the record is known to mean. */
    static Meant.Ties ties(Records records, Subject visit) {
        return Meant.Ties.of(visit, new DraftFacts(records, Draft.tree(visit), new TreeMap<>()));
    }

    /** What reading and assessing the visit gives; remembered as long as its facts are the same. */
    DraftReading read(Subject subject) throws IOException, FilingException {
        return reading(assessed.of(subject));
    }

    /** What was read of the visit as it stands, if that is at hand; nothing is read for it. */
    Optional<DraftReading> peek(Subject subject) {
        return assessed.peek(subject).map(Drafts::reading);
    }

    private static DraftReading reading(AssessedOnce.Outcome outcome) {
        return new DraftReading(
                outcome.problems().map(VisitFolderException::problems).orElse(List.of()).stream()
                        .map(DraftProblem::of)
                        .toList(),
                outcome.assessed());
    }

    /**
     * What follows from any visit of the record as it stands, remembered like {@link Draft#read}.
     *
     * @throws VisitFolderException if its facts can't be read as a visit
     */
    public AssessedVisit assess(Subject visit) throws IOException, FilingException, VisitFolderException {
        AssessedOnce.Outcome outcome = assessed.of(visit);
        if (outcome.assessed().isEmpty()) {
            throw outcome.problems().orElseThrow();
        }
        return outcome.assessed().get();
    }

    /**
     * Problems that show without reading a recording: wrong words, missing units, names that are not there. Quick enough for
     * each change of a field, and remembered for the pages that follow it.
     *
     * @param files of the visit, without the visit file
     */
    List<DraftProblem> glance(FactTree tree, NavigableMap<String, KeptFile> files)
            throws IOException, FilingException, DraftRefusal {
        Glance glance = new Glance(tree, new TreeMap<>(files));
        synchronized (glances) {
            List<DraftProblem> known = glances.get(glance);
            if (known != null) {
                return known;
            }
        }
        List<DraftProblem> problems = look(tree, files);
        synchronized (glances) {
            glances.put(glance, problems);
            if (glances.size() > MOST_GLANCES) {
                glances.remove(glances.keySet().iterator().next());
            }
        }
        return problems;
    }

    /** The instruments of a visit, as far as they can be read; recordings are not looked at. */
    DraftInstruments instruments(FactTree tree, NavigableMap<String, KeptFile> files)
            throws IOException, FilingException, DraftRefusal {
        Glance glance = new Glance(tree, new TreeMap<>(files));
        synchronized (glances) {
            DraftInstruments known = instruments.get(glance);
            if (known != null) {
                return known;
            }
        }
        VisitInstruments read;
        try (ScratchFolder scratch = new ScratchFolder(glanced(tree, files))) {
            read = VisitInstruments.read(scratch.folder());
        }
        NavigableMap<String, Hash> hashes = new TreeMap<>();
        files.forEach((name, kept) -> hashes.put(name, kept.sha256()));
        DraftInstruments found = new DraftInstruments(
                read,
                new DraftFacts(records, tree, hashes).set(),
                DraftInstruments.day(tree),
                DraftInstruments.used(tree));
        synchronized (glances) {
            instruments.put(glance, found);
            if (instruments.size() > MOST_GLANCES) {
                instruments.remove(instruments.keySet().iterator().next());
            }
        }
        return found;
    }

    private NavigableMap<String, byte[]> glanced(FactTree tree, NavigableMap<String, KeptFile> files)
            throws DraftRefusal {
        NavigableMap<String, byte[]> read = new TreeMap<>();
        for (Map.Entry<String, KeptFile> file : files.entrySet()) {
            if (file.getKey().matches("(?i).*\\.(yaml|yml|xml)")
                    && file.getValue().size() < GLANCED) {
                read.put(file.getKey(), records.files().get(file.getValue().sha256()));
            }
        }
        read.put(Filing.VISIT_FILE, DraftChange.text(tree));
        return read;
    }

    private List<DraftProblem> look(FactTree tree, NavigableMap<String, KeptFile> files)
            throws IOException, FilingException, DraftRefusal {
        try (ScratchFolder scratch = new ScratchFolder(glanced(tree, files))) {
            VisitFolder.read(scratch.folder(), new Presets());
            return List.of();
        } catch (VisitFolderException e) {
            return e.problems().stream()
                    // recordings are not laid beside it for a glance
                    .filter(problem -> problem.flaw().sort() != Flaw.Sort.NO_FILE
                            || !files.containsKey(problem.flaw().about()))
                    .map(DraftProblem::of)
                    .toList();
        }
    }
}
