package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.lethality.LethalityTerms;
import org.steamwright.assessment.quantity.AbsolutePressure;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.LeakPeriods;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.visit.AfterRun;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.SetAside;
import org.steamwright.visit.TakenAway;
import org.steamwright.visit.UnrecordedRun;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.register.Sterilizer;

/** The runs of a visit, with their recordings and what each column stands for. */
final class Runs {

    private final FolderFiles files;
    private final Readings readings;
    private final ZoneId zone;
    private final List<Sterilizer> sterilizers;
    private final Map<String, ReferenceInstrument> instruments;
    private final Map<String, ClockStatement> clocks;
    private final Map<String, String> serials;
    private final Map<String, PressureReference> references;
    private final Conditions conditions;
    private final List<Remark> remarks;
    private final BorderFacts borders = new BorderFacts();
    private final List<UnrecordedRun> unrecorded = new ArrayList<>();
    private int stated;

    Runs(
            FolderFiles files,
            Readings readings,
            ZoneId zone,
            List<Sterilizer> sterilizers,
            Map<String, ReferenceInstrument> instruments,
            Map<String, ClockStatement> clocks,
            Map<String, String> serials,
            Map<String, PressureReference> references,
            Conditions conditions,
            List<Remark> remarks) {
        this.files = files;
        this.readings = readings;
        this.zone = zone;
        this.sterilizers = sterilizers;
        this.instruments = instruments;
        this.clocks = clocks;
        this.serials = serials;
        this.references = references;
        this.conditions = conditions;
        this.remarks = remarks;
    }

    List<VisitRun> read(Entry entry) throws IOException {
        List<VisitRun> runs = new ArrayList<>();
        List<Entry> list = entry.list();
        if (list.isEmpty() && entry.isList()) {
            entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.empty("found an empty list, expected at least one run.")
                            .with("Add its kind, recording and channels."));
        }
        stated = list.size();
        // one that is still to be recorded is no mistake beside one that is; alone, nothing could be assessed
        boolean isAnyRecorded = list.stream().anyMatch(one -> one.has("recording"));
        for (int i = 0; i < list.size(); i++) {
            Optional<Fields> fields = list.get(i).fields(Shape.RUN);
            if (fields.isPresent()) {
                run(fields.get(), i + 1, isAnyRecorded).ifPresent(runs::add);
            }
        }
        return runs;
    }

    /** How many runs are listed, recorded or not. */
    int count() {
        return stated;
    }

    /** Those that were read and have no recording yet. */
    List<UnrecordedRun> unrecorded() {
        return unrecorded;
    }

    /** Refuses what shows only by the limits that judge. */
    void check(List<VisitRun> runs, CriteriaSet set) {
        borders.check(runs, set);
    }

    private Optional<VisitRun> run(Fields fields, int number, boolean isAnyRecorded) throws IOException {
        Optional<TestKind> kind = fields.need("kind", "empty-chamber").flatMap(entry -> entry.word(Words.KIND));
        boolean isUnrecorded = isAnyRecorded && fields.find("recording").isEmpty();
        // the cycle of a run that is still to come may be chosen later
        Optional<Cycle> cycle = isUnrecorded && fields.find("cycle").isEmpty()
                ? Optional.empty()
                : kind.flatMap(what -> cycle(fields, what));
        Optional<Entry> recordingEntry =
                isUnrecorded ? Optional.empty() : fields.need("recording", "run-" + number + ".csv");
        Optional<Entry> readingEntry = fields.find("reading");
        Optional<Entry> channelsEntry = fields.find("channels");
        Optional<List<Assignment.Named>> recordings =
                recordingEntry.isPresent() ? readings.read(recordingEntry.get(), readingEntry) : Optional.empty();
        Optional<List<Assignment.Wish>> said = channelsEntry.flatMap(this::wishes);
        Optional<Trace> trace = recordings.isEmpty() || kind.isEmpty()
                ? Optional.empty()
                : trace(recordings.get(), channelsEntry, said, fields.entry(), kind.get());
        OptionalInt machineCycle = fields.count("machine-cycle");
        String machineVerdict = fields.text("machine-verdict");
        String stage =
                fields.find("stage").flatMap(entry -> entry.word(Words.STAGE)).orElse("");
        String startCondition = fields.text("start-condition");
        Optional<Entry> loadEntry = fields.find("load");
        Optional<ReferenceLoad> described = loadEntry.flatMap(Facts::load);
        Optional<Entry> periodsEntry = fields.find("leak-periods");
        Optional<LeakPeriods> periods = periodsEntry.flatMap(Runs::leakPeriods);
        List<StatedBorder> stated = fields.find("stated-borders")
                .map(entry -> borders.read(entry, number, kind, trace))
                .orElse(List.of());
        LethalityTerms lethality =
                fields.find("lethality").flatMap(Runs::lethality).orElse(LethalityTerms.USUAL);
        if (kind.isPresent() && kind.get() != TestKind.LOADED) {
            loadEntry.ifPresent(spot -> spot.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of("found a load at a run of kind " + Words.of(kind.get(), Words.KIND)
                                    + ", expected it at a reference-load run only.")
                            .inFile("Remove it, or write kind: reference-load")));
        }
        if (kind.isPresent() && kind.get() != TestKind.LEAK) {
            periodsEntry.ifPresent(spot -> spot.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of("found leak-periods at a run of kind " + Words.of(kind.get(), Words.KIND)
                                    + ", expected them at an air-leakage run only.")
                            .inFile("Remove them, or write kind: air-leakage")));
        }
        Optional<ReferenceLoad> load = withPhotos(described, loadEntry);
        Ambient ambient = ambient(Facts.barometer(fields.find("barometer")), conditions);
        var indicators = Facts.indicators(fields.list("indicators"));
        var weighings = Facts.weighings(fields.list("weighings"));
        Optional<Entry> chemicalEntry = fields.find("chemical-indicators");
        String chemical = chemicalEntry
                .filter(entry -> !entry.isList())
                .flatMap(Entry::text)
                .orElse("");
        List<ChemicalIndicator> chemicals =
                chemicalEntry.filter(Entry::isList).map(Indicators::chemicals).orElse(List.of());
        if (trace.isPresent()) {
            Indicators.checkChannels(fields.list("indicators"), trace.get());
        }
        String note = fields.text("note");
        Optional<SetAside> setAside = fields.find("set-aside").flatMap(Facts::setAside);
        List<TakenAway> takenAway = Facts.takenAway(fields.list("taken-away"));
        Optional<Entry> afterEntry = fields.find("after-run");
        Optional<AfterRun> after = afterEntry.flatMap(Facts::afterRun);
        if (kind.isPresent() && kind.get() != TestKind.LOADED) {
            afterEntry.ifPresent(spot -> spot.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of("found after-run at a run of kind " + Words.of(kind.get(), Words.KIND)
                                    + ", expected it at a reference-load run only.")
                            .inFile("Remove it, or write kind: reference-load")));
        }
        if (isUnrecorded) {
            kind.ifPresent(what -> unrecorded.add(new UnrecordedRun(
                    number,
                    cycle.map(Cycle::sterilizer).orElseGet(() -> sterilizer(fields)),
                    what,
                    cycle.map(one -> one.definition().name()).orElse(""),
                    machineCycle)));
            return Optional.empty();
        }
        if (kind.isEmpty() || cycle.isEmpty() || trace.isEmpty() || recordings.isEmpty()) {
            return Optional.empty();
        }
        Optional<RunClocks.Aligned> aligned = new RunClocks(
                        recordings.get(),
                        trace.get(),
                        clocks,
                        cycle.get().definition().sterilizingTemperature().celsius(),
                        ambient.pressure().kilopascal(),
                        fields.entry())
                .align();
        if (aligned.isEmpty()) {
            return Optional.empty();
        }
        for (Assignment.Named file : recordings.get()) {
            Set<String> assigned = new HashSet<>();
            for (Channel channel : trace.get().channels()) {
                if (file.recording().columns().contains(channel.column())) {
                    channel.instrument().ifPresent(assigned::add);
                }
            }
            Belonging.Loggers loggers = new Belonging.Loggers(instruments, serials, sterilizers);
            Optional<String> contradiction = loggers.contradiction(file.name(), file.head(), assigned);
            contradiction.ifPresent(text -> fields.entry().problem(Mistake.SERIAL_CONTRADICTS, Flaw.of(text)));
            if (contradiction.isEmpty()) {
                loggers.remark(file.name(), file.head(), assigned).ifPresent(remarks::add);
            }
        }
        TestRun test = new TestRun(
                "run-" + number,
                kind.get(),
                cycle.get().definition(),
                aligned.get().trace(),
                used(trace.get()),
                ambient,
                periods,
                lethality,
                aligned.get().clocks(),
                stated);
        return Optional.of(new VisitRun(
                number,
                cycle.get().sterilizer(),
                machineCycle,
                machineVerdict,
                stage,
                startCondition,
                load,
                indicators,
                weighings,
                chemical,
                note,
                test,
                chemicals,
                setAside,
                takenAway,
                after));
    }

    /** Key of the sterilizer of a run without a cycle; blank if it is not stated. */
    private String sterilizer(Fields fields) {
        boolean isStated = fields.find("sterilizer").isPresent();
        return isStated || sterilizers.size() == 1
                ? Facts.sterilizer(fields, sterilizers).orElse("")
                : "";
    }

    /** The barometer of the run, else of the day, else the altitude, else unknown. */
    static Ambient ambient(Optional<Double> ofRun, Conditions conditions) {
        if (ofRun.isPresent()) {
            return Ambient.barometer(ofRun.get());
        }
        if (conditions.barometerKilopascal().isPresent()) {
            return new Ambient(
                    AbsolutePressure.ofKilopascal(
                            conditions.barometerKilopascal().get()),
                    Ambient.Basis.BAROMETER,
                    conditions.barometerSource());
        }
        return Ambient.of(Optional.empty(), conditions.altitudeMetres());
    }

    private Map<String, ReferenceInstrument> used(Trace trace) {
        Map<String, ReferenceInstrument> used = new LinkedHashMap<>();
        for (Channel channel : trace.channels()) {
            channel.instrument().ifPresent(id -> {
                ReferenceInstrument instrument = instruments.get(id);
                if (instrument != null) {
                    used.put(id, instrument);
                }
            });
        }
        return used;
    }

    /** The load with the photos that were found; what is missing is remarked. */
    private Optional<ReferenceLoad> withPhotos(Optional<ReferenceLoad> load, Optional<Entry> loadEntry)
            throws IOException {
        if (load.isEmpty() || loadEntry.isEmpty()) {
            return load;
        }
        List<ReferenceLoad.PhotoFile> found = new ArrayList<>();
        for (String photo : load.get().photos()) {
            Optional<Path> file = PhotoFiles.find(photo, loadEntry.get(), files, remarks);
            if (file.isPresent()) {
                found.add(new ReferenceLoad.PhotoFile(
                        photo, Files.size(file.get()), EarlierRecordings.sha256Of(file.get())));
            }
        }
        return Optional.of(load.get().withPhotoFiles(found));
    }

    // ---- which cycle of which sterilizer

    private record Cycle(String sterilizer, CycleDefinition definition) {}

    private Optional<Cycle> cycle(Fields fields, TestKind kind) {
        Optional<Entry> cycleEntry = fields.find("cycle");
        Optional<String> name = cycleEntry.flatMap(Entry::text);
        Optional<Entry> sterilizerEntry = fields.find("sterilizer");
        List<Sterilizer> candidates = sterilizers;
        if (sterilizerEntry.isPresent()) {
            Optional<String> key = Facts.sterilizer(fields, sterilizers);
            if (key.isEmpty()) {
                return Optional.empty();
            }
            candidates = sterilizers.stream()
                    .filter(one -> one.key().equals(key.get()))
                    .toList();
        }
        if (cycleEntry.isPresent() && name.isEmpty()) {
            return Optional.empty();
        }
        List<Cycle> matches = new ArrayList<>();
        List<String> there = new ArrayList<>();
        List<String> names = new ArrayList<>();
        for (Sterilizer sterilizer : candidates) {
            for (CycleDefinition definition : sterilizer.cycles()) {
                there.add("\"" + definition.name() + "\" (sterilizer " + sterilizer.key() + ")");
                names.add(definition.name());
                if (name.isEmpty() || definition.name().equalsIgnoreCase(name.get())) {
                    matches.add(new Cycle(sterilizer.key(), definition));
                }
            }
        }
        if (kind == TestKind.LEAK && (name.isEmpty() || matches.isEmpty())) {
            return leakCycle(fields, name.orElse("air leakage test"));
        }
        if (matches.size() == 1) {
            return Optional.of(matches.get(0));
        }
        if (there.isEmpty()) {
            return Optional.empty();
        }
        if (matches.isEmpty()) {
            cycleEntry.ifPresent(spot -> spot.problem(
                    Mistake.UNKNOWN_NAME,
                    Flaw.notAmong("found the cycle \"%s\", expected one of %s.", name.orElse(""), there)
                            .with(Nearest.to(name.orElse(""), names)
                                    .map(near -> " Did you mean \"" + near + "\"?")
                                    .orElse(" Correct the name, or add the cycle to its sterilizer."))));
        } else if (name.isEmpty()) {
            fields.entry()
                    .problem(
                            Mistake.AMBIGUOUS_NAME,
                            Flaw.notChosen(
                                            "found no \"%s\" but several in this file, expected one of %s.",
                                            "cycle", there)
                                    .inFile("Add a line like: cycle: " + names.get(0)));
        } else {
            cycleEntry.ifPresent(spot -> spot.problem(
                    Mistake.AMBIGUOUS_NAME,
                    Flaw.of("found the cycle \"" + name.get() + "\" at more than one sterilizer, expected one of "
                                    + String.join(", ", there) + ".")
                            .inFile("Add a line like: sterilizer: "
                                    + matches.get(0).sterilizer())));
        }
        return Optional.empty();
    }

    /** A leak test is a program of the machine's own; type and temperature are those of its first cycle and decide nothing. */
    private Optional<Cycle> leakCycle(Fields fields, String name) {
        return Facts.sterilizer(fields, sterilizers)
                .flatMap(key -> sterilizers.stream()
                        .filter(one -> one.key().equals(key))
                        .findFirst())
                .filter(sterilizer -> !sterilizer.cycles().isEmpty())
                .map(sterilizer -> new Cycle(
                        sterilizer.key(),
                        CycleDefinition.of(
                                name,
                                sterilizer.cycles().get(0).type(),
                                sterilizer
                                        .cycles()
                                        .get(0)
                                        .sterilizingTemperature()
                                        .celsius())));
    }

    // ---- which column is which channel

    private Optional<Trace> trace(
            List<Assignment.Named> recordings,
            Optional<Entry> channelsEntry,
            Optional<List<Assignment.Wish>> said,
            Entry run,
            TestKind kind) {
        Assignment assignment = new Assignment(recordings, channelsEntry.orElse(run));
        if (said.isPresent()) {
            return checkQuantities(assignment.trace(said.get(), true, kind, zone), said.get());
        }
        if (channelsEntry.isPresent()) {
            return Optional.empty();
        }
        Optional<List<Assignment.Wish>> obvious = assignment.obvious();
        if (obvious.isEmpty()) {
            run.problem(
                    Mistake.MISSING_KEY,
                    Flaw.missing(
                                    "found no \"%s\", expected what each column stands for; the columns are "
                                            + assignment.listing().replace("%", "%%") + ".",
                                    "channels")
                            .inFile("Add a line like: channels: {T1: reference-point, T2: free-chamber}"));
            return Optional.empty();
        }
        return assignment.trace(obvious.get(), false, kind, zone);
    }

    /** An instrument for temperature can't have read a pressure. */
    private Optional<Trace> checkQuantities(Optional<Trace> trace, List<Assignment.Wish> said) {
        boolean isGood = true;
        for (int i = 0; trace.isPresent() && i < said.size(); i++) {
            Channel channel = trace.get().channels().get(i);
            ReferenceInstrument instrument =
                    channel.instrument().map(instruments::get).orElse(null);
            if (instrument != null && instrument.quantity() != channel.column().quantity()) {
                said.get(i)
                        .spot()
                        .problem(
                                Mistake.ROLE_DOES_NOT_FIT,
                                Flaw.of(
                                        "found the instrument \"" + instrument.id() + "\", which measures "
                                                + Words.of(instrument.quantity(), Words.MEASURES) + ", at the column \""
                                                + channel.column().name() + "\" in "
                                                + channel.column().unitInFile() + ", expected an instrument for "
                                                + Words.of(channel.column().quantity(), Words.MEASURES) + ".",
                                        "Name the instrument that this column came from."));
                isGood = false;
            }
        }
        return isGood ? trace : Optional.empty();
    }

    private Optional<List<Assignment.Wish>> wishes(Entry entry) {
        Optional<Map<String, Entry>> entries = entry.entries();
        if (entries.isEmpty()) {
            return Optional.empty();
        }
        List<Assignment.Wish> wishes = new ArrayList<>();
        boolean isGood = true;
        for (Map.Entry<String, Entry> one : entries.get().entrySet()) {
            Optional<Assignment.Wish> wish = wish(one.getKey(), one.getValue());
            wish.ifPresent(wishes::add);
            isGood &= wish.isPresent();
        }
        if (entries.get().isEmpty()) {
            entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.empty("found no column, expected at least one.")
                            .inFile("Add a line like: T1: reference-point"));
            isGood = false;
        }
        return isGood ? Optional.of(wishes) : Optional.empty();
    }

    private Optional<Assignment.Wish> wish(String column, Entry entry) {
        if (!entry.isMapping()) {
            return entry.word(Words.ROLE)
                    .map(role -> new Assignment.Wish(
                            column,
                            role,
                            Position.UNSTATED,
                            Optional.empty(),
                            Optional.empty(),
                            Optional.empty(),
                            entry));
        }
        int before = entry.source().problems().count();
        Optional<Fields> opened = entry.fields(Shape.CHANNEL);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<ChannelRole> role = fields.need("role", "load").flatMap(one -> one.word(Words.ROLE));
        Position position = new Position(fields.text("position"), fields.text("place"));
        Optional<Entry> instrumentEntry = fields.find("instrument");
        Optional<String> instrument = instrumentEntry.flatMap(Entry::text);
        if (instrument.isPresent() && !instruments.containsKey(instrument.get())) {
            instrumentEntry
                    .get()
                    .problem(
                            Mistake.UNKNOWN_NAME,
                            instruments.isEmpty()
                                    ? Flaw.notAmong(
                                                    "found the instrument \"%s\", expected the id of one in this file: there is none.",
                                                    instrument.get(), List.of())
                                            .with("Add it under instruments.")
                                    : Flaw.notAmong(
                                                    "found the instrument \"%s\", expected the id of one in this file: %s.",
                                                    instrument.get(), instruments.keySet())
                                            .with(Nearest.to(instrument.get(), instruments.keySet())
                                                    .map(near -> "Did you mean \"" + near + "\"?")
                                                    .orElse("Correct it, or add the instrument.")));
        }
        Optional<PressureReference> reference = fields.find("reference").flatMap(one -> one.word(Words.REFERENCE));
        Optional<String> name = fields.find("name").flatMap(Entry::text);
        return role.isEmpty() || entry.source().problems().count() > before
                ? Optional.empty()
                : Optional.of(new Assignment.Wish(
                        column,
                        role.get(),
                        position,
                        instrument,
                        reference.or(() -> instrument
                                .filter(unused -> role.get() == ChannelRole.PRESSURE)
                                .flatMap(id -> Optional.ofNullable(references.get(id)))),
                        name,
                        entry));
    }

    private static Optional<LethalityTerms> lethality(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.LETHALITY);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<Double> reference =
                fields.need("reference", "121.1 °C").flatMap(one -> one.quantity(Measure.TEMPERATURE));
        Optional<Double> z = fields.need("z", "10 K").flatMap(one -> one.quantity(Measure.TEMPERATURE_DIFFERENCE));
        Optional<Double> from = fields.find("from").flatMap(one -> one.quantity(Measure.DURATION));
        if (reference.isEmpty() || z.isEmpty()) {
            return Optional.empty();
        }
        if (!(z.get() > 0)) {
            entry.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of("found z: " + z.get() + " K, expected more than nothing.")
                            .inFile("Write it as z: 10 K"));
            return Optional.empty();
        }
        return Optional.of(new LethalityTerms(reference.get(), z.get(), from.orElse(Double.NEGATIVE_INFINITY)));
    }

    private static Optional<LeakPeriods> leakPeriods(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.LEAK_PERIODS);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<Double> isolation = fields.need("isolation", "95 s").flatMap(one -> one.quantity(Measure.DURATION));
        Optional<Double> settled = fields.need("settled", "395 s").flatMap(one -> one.quantity(Measure.DURATION));
        Optional<Double> end = fields.need("end", "995 s").flatMap(one -> one.quantity(Measure.DURATION));
        if (isolation.isEmpty() || settled.isEmpty() || end.isEmpty()) {
            return Optional.empty();
        }
        if (!(isolation.get() < settled.get() && settled.get() < end.get())) {
            entry.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of(
                            "found the moments " + isolation.get() + " s, " + settled.get() + " s and " + end.get()
                                    + " s, expected isolation before settled before end.",
                            "All three count from the first" + " sample."));
            return Optional.empty();
        }
        return Optional.of(new LeakPeriods(isolation.get(), settled.get(), end.get()));
    }
}
