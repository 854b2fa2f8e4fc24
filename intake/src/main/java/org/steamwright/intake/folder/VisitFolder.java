package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.SetChange;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/**
 * A folder with {@code visit.yaml} and the recordings that it names, as the reference page {@code visit-folder.md} describes it.
 *
 * <p>Reading is all it does: nothing is written, no clock, locale or network is asked, and no file outside the folder is opened.
 */
public final class VisitFolder {

    /** Name of the file that makes a folder a visit folder. */
    public static final String FILE_NAME = "visit.yaml";

    /** Version of the format that this program reads. */
    public static final int FORMAT_VERSION = 1;

    /** Beyond this difference in kilopascal no weather explains a barometer that doesn't fit the altitude. */
    private static final double WEATHER_KILOPASCAL = 6.0;

    private VisitFolder() {}

    /**
     * The visit that a folder holds.
     *
     * @param folderOrYaml the folder, or its YAML file
     * @param sets where presets come from, and the reader of a set that lies in the folder
     * @return the facts, with every recording read and every channel assigned
     * @throws VisitFolderException with all problems at once, if there is any
     * @throws IOException if the disk fails
     */
    public static Visit read(Path folderOrYaml, CriteriaSets sets) throws IOException, VisitFolderException {
        return read(folderOrYaml, sets, List.of());
    }

    /**
     * The same, with a look at earlier visits: a recording that one of them used already is remarked.
     *
     * @param folderOrYaml the folder, or its YAML file
     * @param sets where presets come from, and the reader of a set that lies in the folder
     * @param earlier results or folders of earlier visits; read and never changed
     */
    public static Visit read(Path folderOrYaml, CriteriaSets sets, List<Path> earlier)
            throws IOException, VisitFolderException {
        return read(folderOrYaml, sets, earlier, List.of());
    }

    /**
     * The same, with reading profiles from elsewhere.
     *
     * @param folderOrYaml the folder, or its YAML file
     * @param sets where presets come from, and the reader of a set that lies in the folder
     * @param earlier results or folders of earlier visits; read and never changed
     * @param profileFolders folders of reading profiles, looked at after the one in the visit folder
     */
    public static Visit read(Path folderOrYaml, CriteriaSets sets, List<Path> earlier, List<Path> profileFolders)
            throws IOException, VisitFolderException {
        Path yaml = locate(folderOrYaml);
        Problems problems = new Problems(name(yaml));
        Visit visit = null;
        if (Files.size(yaml) > YamlSource.MAX_BYTES) {
            problems.add(Mistake.TOO_LARGE, 0, Way.WHOLE, YamlSource.tooLarge(Files.size(yaml)));
        } else {
            Optional<Entry> root = YamlSource.parse(Files.readAllBytes(yaml), problems);
            Path parent = yaml.toAbsolutePath().getParent();
            if (root.isPresent() && parent != null) {
                EarlierRecordings before = new EarlierRecordings();
                for (Path path : earlier) {
                    before.add(path, parent);
                }
                visit = visit(root.get(), new FolderFiles(parent, profileFolders), sets, before);
            }
        }
        problems.throwIfAny();
        if (visit == null) {
            throw new IllegalStateException("no visit and no problem in " + yaml);
        }
        return visit;
    }

    private static Path locate(Path path) throws VisitFolderException {
        if (Files.isRegularFile(path)) {
            return path;
        }
        if (!Files.isDirectory(path)) {
            throw noVisit(
                    path,
                    "found neither folder nor file of this name, expected a visit folder or its " + FILE_NAME + ".",
                    "Check the path.");
        }
        Path yaml = path.resolve(FILE_NAME);
        if (Files.isRegularFile(yaml)) {
            return yaml;
        }
        throw Files.isRegularFile(path.resolve("visit.yml"))
                ? noVisit(path, "found visit.yml, expected " + FILE_NAME + ".", "Rename it.")
                : noVisit(
                        path,
                        "found no " + FILE_NAME + " in this folder, expected one beside the recordings.",
                        "Write it after the ten-line example in docs/reference/visit-folder.md, or"
                                + " assess a single recording.");
    }

    private static VisitFolderException noVisit(Path path, String sentence, String remedy) {
        return new VisitFolderException(List.of(Problem.ofFile(Mistake.NO_VISIT, name(path), 0, sentence, remedy)));
    }

    private static String name(Path path) {
        Path name = path.getFileName();
        return name == null ? path.toString() : name.toString();
    }

    /** The doubt about entries of a visit that are not finished, so that it was read without them. */
    public static Remark unfinished(int entries) {
        return new Remark(
                Mistake.UNFINISHED.id(),
                Rank.DOUBT,
                FILE_NAME,
                entries == 1
                        ? "One entry is not finished and was left out. Finish it, or take it away."
                        : entries + " entries are not finished and were left out. Finish them, or take them away.",
                List.of(Way.WHOLE.steps()));
    }

    private static @Nullable Visit visit(Entry root, FolderFiles files, CriteriaSets sets, EarlierRecordings earlier)
            throws IOException {
        Problems problems = root.source().problems();
        Optional<Map<String, Entry>> keys = root.entries();
        if (keys.isEmpty()) {
            return null;
        }
        Entry version = keys.get().get("steamwright-visit");
        if (version == null) {
            root.problem(
                    Mistake.FORMAT_VERSION,
                    Flaw.missing("found no \"%s\", expected the version of the format.", "steamwright-visit")
                            .inFile("Begin the file with:" + " steamwright-visit: " + FORMAT_VERSION));
        } else {
            Optional<String> text = version.text();
            if (text.isEmpty() || !text.get().equals(String.valueOf(FORMAT_VERSION))) {
                text.ifPresent(found -> version.problem(
                        Mistake.FORMAT_VERSION,
                        Flaw.of("found version \"" + found + "\" of the format, expected " + FORMAT_VERSION + ".")
                                .inFile("A newer program may be needed; otherwise write: steamwright-visit: "
                                        + FORMAT_VERSION)));
                return null;
            }
        }
        // opened a second time, now against the shape; the problems of both are the same and told once
        Fields fields = root.fields(Shape.VISIT).orElseThrow();
        fields.find("steamwright-visit");

        List<Remark> remarks = new ArrayList<>();
        String reportNumber = fields.text("report-number");
        String purpose = fields.text("purpose");
        Optional<LocalDate> date = fields.date("date");
        ZoneId zone =
                fields.need("zone", "Australia/Adelaide").flatMap(Entry::zone).orElse(ZoneOffset.UTC);
        String company = fields.text("company");
        Optional<Clinic> clinic = fields.find("clinic").flatMap(Facts::clinic);
        List<Sterilizer> sterilizers = fields.need(
                        "sterilizers",
                        "[{serial: SN-0417, cycles: [{name: 134 wrapped, type: B, sterilizing-temperature: 134 °C}]}]")
                .map(entry -> Facts.sterilizers(entry, plate -> PhotoFiles.plate(plate, files, remarks)))
                .orElse(List.of());
        List<Person> people = fields.find("people").map(Facts::people).orElse(List.of());
        Optional<Entry> conditionsEntry = fields.find("conditions");
        Conditions conditions = conditionsEntry.map(Facts::conditions).orElse(Conditions.UNSTATED);
        conditionsEntry.ifPresent(entry ->
                remarkBarometer(conditions, entry.where(), List.of(entry.way().steps()), remarks));
        Map<String, ClockStatement> clocks = new HashMap<>();
        Map<String, String> serials = new HashMap<>();
        Map<String, PressureReference> references = new HashMap<>();
        CertificateFiles certificates = new CertificateFiles(files, fields.find("trust"), remarks);
        Optional<Entry> register = fields.find("register");
        Map<String, ReferenceInstrument> own = fields.find("instruments")
                .map(entry -> Facts.instruments(entry, certificates, clocks, serials, references))
                .orElse(Map.of());
        Map<String, ReferenceInstrument> known = register.isPresent()
                ? Register.joined(
                        Register.read(register.get(), files, certificates, clocks, serials, references),
                        own,
                        register.get())
                : own;
        Map<String, ReferenceInstrument> instruments =
                InstrumentChecks.read(fields.list("instrument-checks"), known, own.keySet(), clocks, date);
        String presets = String.join(", ", sets.names());
        Optional<Entry> setEntry = fields.find("criteria-set");
        if (setEntry.isEmpty()) {
            root.problem(
                    Mistake.MISSING_KEY,
                    Flaw.missing(
                                    "found no \"%s\", expected the limits to judge by: one of " + presets
                                            + ", or a file in the folder.",
                                    "criteria-set")
                            .inFile("Add a line like: criteria-set: "
                                    + (sets.names().isEmpty()
                                            ? "my-limits.yaml"
                                            : sets.names().get(0))));
        }
        List<SetChange> setChanges = Facts.setChanges(fields.list("criteria-set-changes"));
        Optional<CriteriaSet> set = setEntry.isPresent() ? criteriaSet(setEntry.get(), files, sets) : Optional.empty();
        List<Checklist> checklists = fields.find("checklists")
                .map(entry -> Facts.checklists(entry, sterilizers))
                .orElse(List.of());
        Readings readings = new Readings(files, zone, files.profiles(root));
        Optional<Entry> runsEntry = fields.need("runs", "[{kind: empty-chamber, recording: run-1.csv}]");
        Runs runsOfFile = new Runs(
                files, readings, zone, sterilizers, instruments, clocks, serials, references, conditions, remarks);
        List<VisitRun> runs = runsEntry.isPresent() ? runsOfFile.read(runsEntry.get()) : List.of();
        JobSheet job = fields.find("job-sheet")
                .map(entry -> new JobFacts(
                                files, sterilizers, runsOfFile.count(), date, set.flatMap(CriteriaSet::revalidation))
                        .read(entry))
                .orElse(JobSheet.NONE);
        List<String> deviations = fields.texts("deviations");
        List<String> recommendations = fields.texts("recommendations");
        List<String> nextDue = fields.texts("next-due");
        List<String> notTested = fields.texts("not-tested");
        if (date.isPresent()) {
            remarkDays(date.get(), zone, runs, remarks);
        } else {
            Belonging.remarkOtherDays(runs, zone, remarks);
        }
        Belonging.remarkOverlaps(runs, remarks);
        for (Entry entry : fields.find("earlier").map(Entry::listOrOne).orElse(List.of())) {
            Optional<String> name = entry.text();
            Optional<Path> result = name.isPresent() ? files.find(name.get(), entry) : Optional.empty();
            if (result.isPresent()) {
                earlier.addResult(result.get());
            }
        }
        Belonging.remarkEarlier(runs, earlier, remarks);
        if (problems.isEmpty() && set.isPresent()) {
            runsOfFile.check(runs, set.get());
        }
        if (!problems.isEmpty()) {
            return null;
        }
        root.source().checkAllAsked();
        return new Visit(
                reportNumber,
                purpose,
                date,
                zone,
                company,
                clinic,
                sterilizers,
                people,
                conditions,
                instruments,
                checklists,
                runs,
                set.orElseThrow(),
                deviations,
                recommendations,
                nextDue,
                notTested,
                remarks,
                job,
                setChanges,
                runsOfFile.unrecorded());
    }

    private static Optional<CriteriaSet> criteriaSet(Entry entry, FolderFiles files, CriteriaSets sets)
            throws IOException {
        Optional<String> text = entry.text();
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String name = text.get();
        if (sets.names().contains(name)) {
            return Optional.of(sets.get(name));
        }
        boolean isFile = name.indexOf('/') >= 0
                || name.indexOf('\\') >= 0
                || name.toLowerCase(Locale.ROOT).endsWith(".yaml")
                || name.toLowerCase(Locale.ROOT).endsWith(".yml")
                || files.has(name);
        if (!isFile) {
            entry.problem(
                    Mistake.CRITERIA_SET,
                    Flaw.notAmong(
                                    "found the criteria set \"%s\", expected one of %s, or a file in the folder.",
                                    name, sets.names())
                            .with(Nearest.to(name, sets.names())
                                    .map(near -> " Did you mean \"" + near + "\"?")
                                    .orElse(" Write one of these names.")));
            return Optional.empty();
        }
        Optional<Path> file = files.find(name, entry);
        if (file.isEmpty()) {
            return Optional.empty();
        }
        if (Files.size(file.get()) > YamlSource.MAX_BYTES) {
            entry.problem(Mistake.TOO_LARGE, YamlSource.tooLarge(Files.size(file.get())));
            return Optional.empty();
        }
        try {
            return Optional.of(sets.read(Files.readAllBytes(file.get()), name));
        } catch (IllegalArgumentException e) {
            entry.problem(
                    Mistake.CRITERIA_SET,
                    Flaw.of("found the file \"" + name + "\" but can't read it as a criteria set: " + e.getMessage()));
            return Optional.empty();
        }
    }

    /** A recording of last year in the folder of today is a wrong file more often than a long visit. */
    private static void remarkDays(LocalDate date, ZoneId zone, List<VisitRun> runs, List<Remark> remarks) {
        for (VisitRun run : runs) {
            Optional<LocalDate> began =
                    run.test().trace().start().map(start -> start.atZone(zone).toLocalDate());
            if (began.isPresent() && Math.abs(ChronoUnit.DAYS.between(date, began.get())) > 1) {
                remarks.add(new Remark(
                        Mistake.ANOTHER_DAY.id(),
                        Rank.DOUBT,
                        Belonging.wayTo(run).written(),
                        "The recording began on " + began.get() + ", the visit was on " + date
                                + ". Was the wrong file copied, or is the clock of the logger wrong?",
                        List.of(Belonging.wayTo(run).steps())));
            }
        }
    }

    /** A weather service gives the pressure reduced to sea level, which is the commonest wrong barometer reading. */
    static void remarkBarometer(Conditions conditions, String where, List<List<String>> ways, List<Remark> remarks) {
        if (conditions.barometerKilopascal().isEmpty()
                || conditions.altitudeMetres().isEmpty()) {
            return;
        }
        double read = conditions.barometerKilopascal().get();
        double usual =
                Ambient.ofAltitude(conditions.altitudeMetres().get()).pressure().kilopascal();
        if (Math.abs(read - usual) > WEATHER_KILOPASCAL) {
            remarks.add(new Remark(
                    Mistake.BAROMETER_AND_ALTITUDE.id(),
                    Rank.DOUBT,
                    where,
                    String.format(
                            Locale.ROOT,
                            "The barometer reading of %.1f kPa is far from the usual %.1f kPa at %.0f m. Was it"
                                    + " reduced to sea level by a weather service? The pressure at the site itself is"
                                    + " needed.",
                            read,
                            usual,
                            conditions.altitudeMetres().get()),
                    ways));
        }
    }
}
