package org.steamwright.filing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.signing.SignRequest;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.state.StateStep;
import org.steamwright.visit.state.VisitState;
import org.steamwright.visit.validity.InterimStanding;

/** Takes visits into the record, gives them back, and has them signed. */
public final class Filing {

    private static final String VISIT_FILE = "visit.yaml";
    private static final String STATED = "stated/";
    private static final int SEARCHED = 200;

    private final Records records;
    private final VisitStates states;
    private final Issues issues;

    /** @param records opened */
    public Filing(Records records) {
        this.records = records;
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
     * @throws FilingException if it has no report number, or would mix invented visits with real ones
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
        refuseMixing(visit);
        AssessedVisit assessed = Visits.assess(visit);
        List<StatedVisit> all = states.ofNumber(visit.reportNumber());
        Optional<StatedVisit> before =
                VisitStates.open(all).or(() -> VisitStates.inForce(all)).or(() -> VisitStates.last(all));
        Optional<Subject> known = before.map(StatedVisit::visit);
        SubjectId id = known.map(Subject::id).orElseGet(records::newSubject);
        List<Change> changes = new ArrayList<>();
        Map<String, Object> facts = facts(visit, changes);
        for (Map.Entry<String, Object> stated :
                StatedFacts.of(folder.resolve(VISIT_FILE)).entrySet()) {
            facts.put(STATED + stated.getKey(), stated.getValue());
        }
        for (Map.Entry<String, Path> file : VisitFiles.in(folder).entrySet()) {
            KeptFile kept = records.files().put(file.getValue());
            facts.put(
                    VisitFiles.PREFIX + file.getKey(),
                    Map.of("sha256", kept.sha256().hex(), "size", kept.size()));
        }
        List<Change> own = FactChanges.of(
                Kind.VISIT,
                id,
                known,
                facts,
                property -> property.startsWith(STATED) || property.startsWith(VisitFiles.PREFIX),
                why);
        if (!own.isEmpty() && before.isPresent() && !before.get().state().isOpenForFacts()) {
            throw closed(before.get());
        }
        changes.addAll(own);
        if (!changes.isEmpty()) {
            records.append(author, changes);
        }
        return new Taken(records.subject(id), known.isEmpty(), own.size(), assessed);
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

    private void refuseMixing(Visit visit) throws FilingException {
        List<Subject> first = records.subjects(Kind.VISIT, 1);
        if (!first.isEmpty() && isSimulated(first.get(0)) != visit.isSimulated()) {
            throw new FilingException(
                    visit.isSimulated()
                            ? "this visit has invented recordings, and the record holds real ones"
                            : "this visit has real recordings, and the record holds invented ones",
                    "Keep invented visits in a record of their own.");
        }
    }

    private static boolean isSimulated(Subject visit) {
        return visit.text("simulated").equals("true");
    }

    /** Facts by which a visit is found; subjects that it names and the record does not know are added to the changes. */
    private Map<String, Object> facts(Visit visit, List<Change> changes) {
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("number", visit.reportNumber());
        facts.put("purpose", visit.purpose());
        visit.date().ifPresent(date -> facts.put("date", date.toString()));
        facts.put("zone", visit.zone().getId());
        facts.put("simulated", visit.isSimulated());
        facts.put(
                "criteria-set",
                visit.criteriaSet().name() + " " + visit.criteriaSet().version());
        facts.put("algorithm-version", Results.ALGORITHM_VERSION);
        Optional<SubjectId> clinic = visit.clinic().map(one -> clinic(one, changes));
        clinic.ifPresent(id -> facts.put("clinic", id.toString()));
        visit.clinic().map(Clinic::name).ifPresent(name -> facts.put("clinic-name", name));
        List<String> sterilizers = new ArrayList<>();
        List<String> serials = new ArrayList<>();
        for (Sterilizer sterilizer : visit.sterilizers()) {
            sterilizers.add(sterilizer(sterilizer, clinic, changes).toString());
            serials.add(sterilizer.serial());
        }
        facts.put("sterilizer", sterilizers);
        facts.put("serial", serials);
        List<String> technicians = new ArrayList<>();
        for (Person person : visit.people()) {
            if (person.role().equalsIgnoreCase("technician")) {
                technicians.add(technician(person, changes).toString());
            }
        }
        facts.put("technicians", technicians);
        facts.put("instruments", visit.instruments().keySet().stream().sorted().toList());
        facts.put(
                "lots",
                visit.runs().stream()
                        .flatMap(run -> run.indicators().stream())
                        .map(IndicatorUse::lot)
                        .filter(lot -> !lot.isBlank())
                        .distinct()
                        .sorted()
                        .toList());
        return facts;
    }

    private SubjectId clinic(Clinic clinic, List<Change> changes) {
        return knownOr(Kind.CLINIC, "name", clinic.name(), changes, Map.of("address", clinic.address()));
    }

    private SubjectId technician(Person person, List<Change> changes) {
        return knownOr(Kind.TECHNICIAN, "name", person.name(), changes, Map.of("role", person.role()));
    }

    private SubjectId sterilizer(Sterilizer sterilizer, Optional<SubjectId> clinic, List<Change> changes) {
        Map<String, String> more = new TreeMap<>();
        more.put("maker", sterilizer.maker());
        more.put("model", sterilizer.model());
        clinic.ifPresent(id -> more.put("clinic", id.toString()));
        return knownOr(Kind.STERILIZER, "serial", sterilizer.serial(), changes, more);
    }

    /** The subject of that kind and name; made by the changes if there is none. */
    private SubjectId knownOr(Kind kind, String property, String name, List<Change> changes, Map<String, String> more) {
        Optional<SubjectId> known = subject(kind, property, name);
        if (known.isPresent()) {
            return known.get();
        }
        for (Change change : changes) {
            if (change.kind() == kind
                    && change.property().equals(property)
                    && change.value().plain().equals(name)) {
                return change.subject();
            }
        }
        SubjectId id = records.newSubject();
        changes.add(Change.set(kind, id, property, name));
        more.forEach((fact, value) -> {
            if (!value.isBlank()) {
                changes.add(Change.set(kind, id, fact, value));
            }
        });
        return id;
    }

    private Optional<SubjectId> subject(Kind kind, String property, String name) {
        return records.find(name, SEARCHED).hits().stream()
                .map(hit -> hit.subject())
                .filter(subject ->
                        subject.kind() == kind && subject.text(property).equals(name))
                .map(Subject::id)
                .findFirst();
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
        try (ScratchFolder scratch = new ScratchFolder(files(visit))) {
            return Visits.assess(VisitFolder.read(scratch.folder(), new Presets()));
        }
    }

    /**
     * Has a visit signed: assesses it from the record and seals facts, files, criteria set and result.
     *
     * @param visit to sign
     * @param name of the signer, as the record has it
     * @param meaning what the signature says
     * @param secret the signer's own; cleared by the caller
     * @throws FilingException if nobody has that name
     * @throws org.steamwright.records.RecordsException if the visit is invented or signed already, or the secret is another
     */
    public Issue sign(Subject visit, String name, String meaning, char[] secret)
            throws IOException, FilingException, VisitFolderException {
        SubjectId technician = technician(name);
        AssessedVisit assessed = assess(visit);
        LocalDate day =
                LocalDate.ofInstant(records.clock().instant(), assessed.visit().zone());
        InterimStanding indicators = InterimStanding.of(assessed, day);
        boolean isAwaiting = indicators.standing() == InterimStanding.Standing.AWAITED
                || indicators.standing() == InterimStanding.Standing.LAPSED;
        Optional<LocalDate> until = isAwaiting ? indicators.until() : Optional.empty();
        boolean isSimulated = assessed.visit().isSimulated();
        VisitState out = isAwaiting ? VisitState.INTERIM : VisitState.ISSUED;
        refuse(new StateStep(
                states.of(visit).state(), VisitState.PERFORMED, day, name, "", isSimulated, isAwaiting, until));
        refuse(new StateStep(VisitState.PERFORMED, out, day, name, "", isSimulated, isAwaiting, until));
        return issues.sign(
                new SignRequest(
                        visit.id(),
                        technician,
                        meaning,
                        JsonText.of(Map.of(
                                "name", assessed.visit().criteriaSet().name(),
                                "version", assessed.visit().criteriaSet().version(),
                                "sha256", assessed.visit().criteriaSet().sha256())),
                        Results.ALGORITHM_VERSION,
                        Results.of(assessed),
                        isSimulated,
                        until),
                secret);
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
     * @throws FilingException if the issue is not in force, or nobody has that name
     */
    public Issue withdraw(StatedVisit stated, String name, String reason, char[] secret) throws FilingException {
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
                stated.state(),
                to,
                LocalDate.ofInstant(records.clock().instant(), records.clock().getZone()),
                by,
                reason,
                false,
                false,
                Optional.empty());
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
        return subject(Kind.TECHNICIAN, "name", name)
                .orElseThrow(() -> new FilingException(
                        "the record knows nobody called '" + name + "'",
                        "Spell the name as it stands in the visit, or make a key for it first."));
    }
}
