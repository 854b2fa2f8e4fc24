package org.steamwright.intake.folder;

import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.function.Supplier;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.uncertainty.Contribution;
import org.steamwright.assessment.uncertainty.Correlation;
import org.steamwright.assessment.uncertainty.Distribution;
import org.steamwright.intake.folder.Flaw.Sort;
import org.steamwright.visit.AfterRun;
import org.steamwright.visit.CheckItem;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.SetAside;
import org.steamwright.visit.SetChange;
import org.steamwright.visit.SiteMoment;
import org.steamwright.visit.TakenAway;
import org.steamwright.visit.Weighing;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.NamePlate;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** The facts of a visit that need no recording: who, where, which machine, which instruments, what was checked. */
final class Facts {

    private Facts() {}

    static Optional<Clinic> clinic(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.CLINIC);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<String> name = fields.needText("name", "Riverside Dental Care (invented)");
        String address = fields.text("address");
        String room = fields.text("room");
        String contact = fields.text("contact");
        String reference = fields.text("reference");
        return name.map(text -> new Clinic(text, address, room, contact, reference));
    }

    static List<Sterilizer> sterilizers(Entry entry) {
        return sterilizers(entry, plate -> Optional.empty());
    }

    static List<Sterilizer> sterilizers(Entry entry, Function<Entry, Optional<NamePlate>> plates) {
        List<Sterilizer> sterilizers = new ArrayList<>();
        Set<String> keys = new HashSet<>();
        int place = 0;
        for (Entry one : entry.list()) {
            String usualKey = String.valueOf((char) ('A' + place % 26));
            place++;
            one.fields(Shape.STERILIZER)
                    .flatMap(fields -> sterilizer(fields, usualKey, plates))
                    .filter(read -> isNew(read.key(), keys, one, "sterilizers have the key"))
                    .ifPresent(sterilizers::add);
        }
        if (place == 0 && entry.isList()) {
            entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.empty("found an empty list, expected at least one sterilizer.")
                            .with("Add its serial number and cycles."));
        }
        return sterilizers;
    }

    private static Optional<Sterilizer> sterilizer(
            Fields fields, String usualKey, Function<Entry, Optional<NamePlate>> plates) {
        Optional<Entry> keyEntry = fields.find("key");
        Optional<String> key = keyEntry.isPresent() ? keyEntry.get().text() : Optional.of(usualKey);
        String maker = fields.text("maker");
        String model = fields.text("model");
        Optional<String> serial = fields.needText("serial", "SN-0417");
        String year = fields.text("year");
        Optional<Double> chamber = fields.quantity("chamber", Measure.VOLUME);
        Optional<ChamberSize> size = ChamberFacts.size(fields);
        OptionalInt levels = ChamberFacts.levels(fields);
        String firmware = fields.text("firmware");
        String location = fields.text("location");
        String papers = fields.text("pressure-papers");
        OptionalInt arrival = fields.count("counter-at-arrival");
        OptionalInt departure = fields.count("counter-at-departure");
        if (arrival.isPresent() && departure.isPresent() && departure.getAsInt() < arrival.getAsInt()) {
            fields.find("counter-at-departure")
                    .ifPresent(spot -> spot.problem(
                            Mistake.OUT_OF_RANGE,
                            Flaw.of(
                                    "found " + departure.getAsInt() + ", expected at least the " + arrival.getAsInt()
                                            + " of counter-at-arrival.",
                                    "Check which of the two is right.")));
        }
        Optional<NamePlate> plate = fields.find("name-plate").flatMap(plates);
        Optional<Entry> cyclesEntry =
                fields.need("cycles", "[{name: 134 wrapped, type: B, sterilizing-temperature: 134 °C}]");
        List<CycleDefinition> cycles = cyclesEntry.map(Facts::cycles).orElse(List.of());
        return key.isEmpty() || serial.isEmpty()
                ? Optional.empty()
                : Optional.of(new Sterilizer(
                        key.get(),
                        maker,
                        model,
                        serial.get(),
                        year,
                        chamber,
                        size,
                        levels,
                        firmware,
                        location,
                        papers,
                        arrival,
                        departure,
                        cycles,
                        plate));
    }

    private static List<CycleDefinition> cycles(Entry entry) {
        List<CycleDefinition> cycles = new ArrayList<>();
        Set<String> names = new HashSet<>();
        List<Entry> list = entry.list();
        for (Entry one : list) {
            one.fields(Shape.CYCLE)
                    .flatMap(Facts::cycle)
                    .filter(read -> isNew(read.name(), names, one, "cycles of this sterilizer have the name"))
                    .ifPresent(cycles::add);
        }
        if (list.isEmpty() && entry.isList()) {
            entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.empty("found an empty list, expected at least one cycle.")
                            .with("Add its name, type and sterilizing-temperature."));
        }
        return cycles;
    }

    static List<SetChange> setChanges(List<Entry> list) {
        List<SetChange> changes = new ArrayList<>();
        for (Entry one : list) {
            one.fields(Shape.SET_CHANGE).ifPresent(fields -> {
                Optional<String> from = fields.needText("from", "au-as5369");
                Optional<String> to = fields.needText("to", "us-cdc");
                Optional<String> because = fields.needText("because", "the clinic works by other rules");
                String by = fields.text("by");
                if (from.isPresent() && to.isPresent() && because.isPresent()) {
                    changes.add(new SetChange(from.get(), to.get(), because.get(), by));
                }
            });
        }
        return changes;
    }

    static Optional<SetAside> setAside(Entry entry) {
        return entry.fields(Shape.SET_ASIDE).flatMap(fields -> {
            String by = fields.text("by");
            return fields.needText("because", "the sensor fell out of the pack")
                    .map(because -> new SetAside(because, by));
        });
    }

    static List<TakenAway> takenAway(List<Entry> list) {
        List<TakenAway> away = new ArrayList<>();
        for (Entry one : list) {
            one.fields(Shape.TAKEN_AWAY).ifPresent(fields -> {
                Optional<String> recording = fields.needText("recording", "run-1.csv");
                Optional<String> because = fields.needText("because", "recording of another steriliser");
                String sha256 = fields.text("sha256");
                String by = fields.text("by");
                if (recording.isPresent() && because.isPresent()) {
                    away.add(new TakenAway(recording.get(), sha256, because.get(), by));
                }
            });
        }
        return away;
    }

    /** A sterilization temperature in degrees Celsius, within what steam under pressure is used for (common practice, no source). */
    private static Optional<Double> sterilizing(Entry entry) {
        Optional<Double> celsius = entry.quantity(Measure.TEMPERATURE);
        if (celsius.isPresent() && !(celsius.get() >= 100 && celsius.get() <= 150)) {
            entry.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.outside(
                                    "found \"%s\", expected a sterilisation temperature from %s to %s.",
                                    entry.text().orElse(""), "100", "150 °C")
                            .with("Check the unit."));
            return Optional.empty();
        }
        return celsius;
    }

    static Optional<CycleDefinition> cycle(Fields fields) {
        Optional<String> name = fields.needText("name", "134 wrapped");
        Optional<CycleType> type = fields.need("type", "B").flatMap(entry -> entry.word(Words.CYCLE_TYPE));
        Optional<Double> celsius =
                fields.need("sterilizing-temperature", "134 °C").flatMap(Facts::sterilizing);
        Optional<Duration> holding =
                fields.quantity("holding-time", Measure.DURATION).map(Facts::duration);
        OptionalInt pulses = fields.count("air-removal-pulses");
        Optional<Double> depth = fields.quantity("pulse-depth", Measure.ABSOLUTE_PRESSURE);
        Optional<Duration> drying =
                fields.quantity("drying-time", Measure.DURATION).map(Facts::duration);
        return name.isEmpty() || type.isEmpty() || celsius.isEmpty()
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new CycleDefinition(
                                name.get(),
                                type.get(),
                                Temperature.ofCelsius(celsius.get()),
                                holding,
                                pulses,
                                depth,
                                drying));
    }

    /** Seconds as a duration, to the millisecond. */
    static Duration duration(double seconds) {
        return Duration.ofMillis(Math.round(seconds * 1000));
    }

    static List<Person> people(Entry entry) {
        List<Person> people = new ArrayList<>();
        for (Entry one : entry.list()) {
            one.fields(Shape.PERSON).flatMap(Facts::person).ifPresent(people::add);
        }
        return people;
    }

    private static Optional<Person> person(Fields fields) {
        Optional<String> name = fields.needText("name", "Kim Sample (invented)");
        Optional<String> role = fields.needText("role", "technician");
        String organisation = fields.text("organisation");
        String authorisation = fields.text("authorisation");
        String confirms = fields.text("confirms");
        return name.isEmpty() || role.isEmpty()
                ? Optional.empty()
                : Optional.of(new Person(name.get(), role.get(), organisation, authorisation, confirms));
    }

    static Conditions conditions(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.CONDITIONS);
        if (opened.isEmpty()) {
            return Conditions.UNSTATED;
        }
        Fields fields = opened.get();
        Optional<Double> humidity = fields.quantity("room-humidity", Measure.HUMIDITY);
        humidity.filter(percent -> percent > 100)
                .flatMap(percent -> fields.find("room-humidity"))
                .ifPresent(spot -> spot.problem(
                        Mistake.OUT_OF_RANGE,
                        Flaw.of("found more than 100 %, expected a relative humidity.", "Check the reading.")));
        return new Conditions(
                barometer(fields.find("barometer")),
                fields.text("barometer-source"),
                altitude(fields.find("altitude")),
                fields.quantity("room-temperature", Measure.TEMPERATURE),
                humidity,
                fields.quantity("supply-voltage", Measure.VOLTAGE),
                fields.quantity("water-conductivity", Measure.CONDUCTIVITY));
    }

    /** A barometer reading in kilopascal, within what the weather and inhabited places allow. */
    static Optional<Double> barometer(Optional<Entry> entry) {
        return entry.flatMap(spot -> spot.text().flatMap(text -> barometer(text, spot)));
    }

    static Optional<Double> barometer(String text, Spot spot) {
        Optional<Double> kilopascal = Quantities.parse(text, Measure.BAROMETER, spot);
        if (kilopascal.isPresent() && !(kilopascal.get() >= 50 && kilopascal.get() <= 110)) {
            spot.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.outside("found \"%s\", expected a barometer reading from %s to %s.", text, "50", "110 kPa")
                            .with("Check the unit."));
            return Optional.empty();
        }
        return kilopascal;
    }

    static Optional<Double> altitude(Optional<Entry> entry) {
        return entry.flatMap(spot -> spot.text().flatMap(text -> altitude(text, spot)));
    }

    static Optional<Double> altitude(String text, Spot spot) {
        Optional<Double> metres = Quantities.parse(text, Measure.ALTITUDE, spot);
        if (metres.isPresent() && !(metres.get() >= -500 && metres.get() <= 5000)) {
            spot.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.outside("found \"%s\", expected an altitude from %s to %s.", text, "-500", "5000 m")
                            .with("Check the unit."));
            return Optional.empty();
        }
        return metres;
    }

    static Map<String, ReferenceInstrument> instruments(Entry entry, CertificateFiles files) {
        return instruments(entry, files, new HashMap<>(), new HashMap<>(), new HashMap<>());
    }

    /**
     * The instruments; what is said about the clock of one goes into {@code clocks} by its id, and the serial number of the
     * logger into {@code serials}, and from what a pressure is counted into {@code references}.
     */
    static Map<String, ReferenceInstrument> instruments(
            Entry entry,
            CertificateFiles files,
            Map<String, ClockStatement> clocks,
            Map<String, String> serials,
            Map<String, PressureReference> references) {
        Map<String, ReferenceInstrument> instruments = new LinkedHashMap<>();
        Set<String> ids = new HashSet<>();
        for (Entry one : entry.list()) {
            Optional<Fields> fields = one.fields(Shape.INSTRUMENT);
            Optional<ClockStatement> clock =
                    fields.flatMap(opened -> opened.find("clock")).flatMap(ClockFacts::read);
            String serial = fields.map(opened -> opened.text("serial")).orElse("");
            Optional<Entry> stated = fields.flatMap(opened -> opened.find("pressure-reference"));
            Optional<PressureReference> reference = stated.flatMap(spot -> spot.word(Words.REFERENCE));
            fields.flatMap(opened -> instrument(opened, files))
                    .filter(read -> isNew(read.id(), ids, one, "instruments have the id"))
                    .ifPresent(read -> {
                        instruments.put(read.id(), read);
                        if (stated.isPresent() && read.quantity() != Quantity.PRESSURE) {
                            stated.get()
                                    .problem(
                                            Mistake.OUT_OF_RANGE,
                                            Flaw.of(
                                                    "found a pressure-reference at an instrument for temperatures, expected it at one for pressures only.",
                                                    "Remove it."));
                        }
                        reference.ifPresent(said -> references.put(read.id(), said));
                        clock.ifPresent(said -> clocks.put(read.id(), said));
                        if (!serial.isEmpty()) {
                            serials.put(read.id(), serial);
                        }
                    });
        }
        return instruments;
    }

    private static Optional<ReferenceInstrument> instrument(Fields fields, CertificateFiles files) {
        Optional<String> id = fields.needText("id", "TL-07");
        String description = fields.text("description");
        Optional<Quantity> quantity =
                fields.need("measures", "temperature").flatMap(entry -> entry.word(Words.MEASURES));
        if (id.isEmpty() || quantity.isEmpty()) {
            return Optional.empty();
        }
        boolean isTemperature = quantity.get() == Quantity.TEMPERATURE;
        Measure value = isTemperature ? Measure.TEMPERATURE : Measure.PRESSURE;
        Measure size = isTemperature ? Measure.TEMPERATURE_DIFFERENCE : Measure.PRESSURE_DIFFERENCE;
        double low = Double.NEGATIVE_INFINITY;
        double high = Double.POSITIVE_INFINITY;
        Optional<Fields> range = fields.find("range").flatMap(entry -> entry.fields(Shape.RANGE));
        if (range.isPresent()) {
            low = range.get()
                    .need("from", Quantities.example(value))
                    .flatMap(entry -> entry.quantity(value))
                    .orElse(low);
            high = range.get()
                    .need("to", Quantities.example(value))
                    .flatMap(entry -> entry.quantity(value))
                    .orElse(high);
        }
        List<CalibrationEvent> calibrations = Histories.calibrations(fields, id.get(), quantity.get(), files);
        List<FieldCheck> checks = Histories.checks(fields, value, size);
        List<Quarantine> quarantines = Histories.quarantines(fields);
        String stated = "stated for " + id.get() + " in "
                + fields.entry().source().problems().words();
        List<Contribution> contributions = new ArrayList<>();
        for (String name : List.of("drift", "immersion")) {
            fields.quantity(name, size)
                    .ifPresent(half -> contributions.add(Contribution.rectangular(name, half, stated)));
        }
        for (Entry one : fields.list("contributions")) {
            one.fields(Shape.CONTRIBUTION)
                    .flatMap(opened -> contribution(opened, size, stated))
                    .ifPresent(contributions::add);
        }
        double from = low;
        double to = high;
        return checked(
                fields.entry(),
                () -> instrument(
                        new ReferenceInstrument(
                                id.get(), description, quantity.get(), from, to, Optional.empty(), contributions),
                        new InstrumentHistory(calibrations, checks, quarantines)));
    }

    /** With its last certificate; a single one without anything else is no history. */
    private static ReferenceInstrument instrument(ReferenceInstrument bare, InstrumentHistory history) {
        List<CalibrationEvent> calibrations = history.calibrations();
        boolean isPlain = calibrations.size() <= 1
                && calibrations.stream().noneMatch(CalibrationEvent::isAdjusted)
                && history.equals(new InstrumentHistory(calibrations, List.of(), List.of()));
        return new ReferenceInstrument(
                bare.id(),
                bare.description(),
                bare.quantity(),
                bare.rangeLow(),
                bare.rangeHigh(),
                calibrations.isEmpty()
                        ? Optional.empty()
                        : Optional.of(calibrations.get(calibrations.size() - 1).certificate()),
                bare.contributions(),
                isPlain ? InstrumentHistory.NONE : history);
    }

    /** The same instrument with another history. */
    static ReferenceInstrument withHistory(ReferenceInstrument one, InstrumentHistory history) {
        return new ReferenceInstrument(
                one.id(),
                one.description(),
                one.quantity(),
                one.rangeLow(),
                one.rangeHigh(),
                one.certificate(),
                one.contributions(),
                history);
    }

    static Optional<CalibrationCertificate> certificate(Fields fields, Measure value, Measure size) {
        Optional<String> number = fields.needText("number", "K-2026-0118");
        Optional<String> laboratory = fields.needText("laboratory", "Example Calibration (invented)");
        Optional<LocalDate> calibratedOn =
                fields.need("calibrated-on", "2026-02-10").flatMap(Entry::date);
        Optional<LocalDate> dueOn = fields.need("due-on", "2027-02-10").flatMap(Entry::date);
        Optional<Double> usualU = fields.quantity("U", size);
        Optional<Double> usualK = fields.find("k").flatMap(Entry::positiveNumber);
        List<CalibrationPoint> points = new ArrayList<>();
        boolean isComplete = true;
        List<Entry> list = fields.need("points", "[{reference: 134.00 °C, indicated: 134.08 °C, U: 0.06 K, k: 2}]")
                .map(Entry::list)
                .orElse(List.of());
        for (Entry one : list) {
            Optional<CalibrationPoint> point = point(one, fields, usualU, usualK, value, size);
            point.ifPresent(points::add);
            isComplete &= point.isPresent();
        }
        if (list.isEmpty()) {
            fields.find("points")
                    .filter(Entry::isList)
                    .ifPresent(spot -> spot.problem(
                            Mistake.MISSING_KEY,
                            Flaw.empty("found an empty list, expected at least one calibration point.")
                                    .with("Copy the points from the certificate.")));
            return Optional.empty();
        }
        return number.isEmpty() || laboratory.isEmpty() || calibratedOn.isEmpty() || dueOn.isEmpty() || !isComplete
                ? Optional.empty()
                : checked(
                        fields.entry(),
                        () -> new CalibrationCertificate(
                                number.get(), laboratory.get(), calibratedOn.get(), dueOn.get(), points));
    }

    /** A point as a mapping, or as the pair of reference and indicated value with U and k of the whole certificate. */
    static Optional<CalibrationPoint> point(
            Entry entry,
            Fields certificate,
            Optional<Double> usualU,
            Optional<Double> usualK,
            Measure value,
            Measure size) {
        Optional<Double> reference;
        Optional<Double> indicated;
        Optional<Double> ownU = Optional.empty();
        Optional<Double> ownK = Optional.empty();
        boolean isStatedU = certificate.find("U").isPresent();
        boolean isStatedK = certificate.find("k").isPresent();
        if (entry.isList()) {
            List<Entry> pair = entry.list();
            if (pair.size() != 2) {
                entry.problem(
                        Mistake.WRONG_SHAPE,
                        Flaw.of("found " + pair.size() + " values, expected two: [reference, indicated].")
                                .inFile("Write for example: [" + Quantities.example(value) + ", "
                                        + Quantities.example(value) + "]"));
                return Optional.empty();
            }
            reference = pair.get(0).quantity(value);
            indicated = pair.get(1).quantity(value);
        } else {
            Optional<Fields> opened = entry.fields(Shape.POINT);
            if (opened.isEmpty()) {
                return Optional.empty();
            }
            Fields fields = opened.get();
            reference = fields.need("reference", Quantities.example(value)).flatMap(one -> one.quantity(value));
            indicated = fields.need("indicated", Quantities.example(value)).flatMap(one -> one.quantity(value));
            ownU = fields.quantity("U", size);
            ownK = fields.find("k").flatMap(Entry::positiveNumber);
            isStatedU |= fields.find("U").isPresent();
            isStatedK |= fields.find("k").isPresent();
        }
        if (!isStatedU || !isStatedK) {
            entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.of("found no " + (isStatedU ? "k" : isStatedK ? "U" : "U and k")
                                    + ", expected the expanded uncertainty U and its coverage factor k.")
                            .inFile(
                                    "Write them at the point or once at the certificate, for example: U: 0.06 K and k: 2"));
            return Optional.empty();
        }
        Optional<Double> expanded = ownU.or(() -> usualU);
        Optional<Double> factor = ownK.or(() -> usualK);
        return reference.isEmpty() || indicated.isEmpty() || expanded.isEmpty() || factor.isEmpty()
                ? Optional.empty()
                : Optional.of(new CalibrationPoint(reference.get(), indicated.get(), expanded.get(), factor.get()));
    }

    private static Optional<Contribution> contribution(Fields fields, Measure size, String stated) {
        Optional<String> name = fields.needText("name", "repeatability");
        Optional<Double> half = fields.need("size", Quantities.example(size)).flatMap(entry -> entry.quantity(size));
        Optional<Distribution> distribution =
                fields.need("distribution", "rectangular").flatMap(entry -> entry.word(Words.DISTRIBUTION));
        Optional<Entry> kEntry = fields.find("k");
        Optional<Double> k = kEntry.flatMap(Entry::positiveNumber);
        Optional<Double> degrees = fields.find("degrees-of-freedom").flatMap(Entry::positiveNumber);
        Optional<Entry> originEntry = fields.find("origin");
        String origin = originEntry.isPresent() ? originEntry.get().text().orElse("") : stated;
        if (distribution.isEmpty()) {
            return Optional.empty();
        }
        boolean isNormal = distribution.get() == Distribution.NORMAL;
        if (isNormal && kEntry.isEmpty()) {
            fields.entry()
                    .problem(
                            Mistake.MISSING_KEY,
                            Flaw.missing("found no \"%s\", expected the coverage factor of a normal contribution.", "k")
                                    .inFile("Add a line like: k: 2"));
        }
        if (!isNormal && kEntry.isPresent()) {
            kEntry.get()
                    .problem(
                            Mistake.OUT_OF_RANGE,
                            Flaw.of("found a coverage factor at a " + Words.of(distribution.get(), Words.DISTRIBUTION)
                                            + " contribution, expected it at a normal one only.")
                                    .inFile("Remove k, or write distribution: normal"));
        }
        if (name.isEmpty() || half.isEmpty() || (isNormal && k.isEmpty())) {
            return Optional.empty();
        }
        double divisor = switch (distribution.get()) {
            case NORMAL -> k.orElse(Double.NaN);
            case RECTANGULAR -> Math.sqrt(3);
            case TRIANGULAR -> Math.sqrt(6);
            case ARCSINE -> Math.sqrt(2);
            case STANDARD -> 1;
        };
        boolean isPerReading =
                fields.find("per-reading").flatMap(Entry::yesOrNo).orElse(false);
        Optional<Correlation> correlation = correlation(fields);
        if (correlation.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Contribution(
                name.get(),
                half.get(),
                distribution.get(),
                divisor,
                1,
                degrees.orElse(Double.POSITIVE_INFINITY),
                origin,
                isPerReading,
                correlation.get()));
    }

    /** What the contribution shares with other channels: one and the same error unless a coefficient says less. */
    private static Optional<Correlation> correlation(Fields fields) {
        Optional<Entry> group = fields.find("common");
        Optional<Entry> coefficient = fields.find("correlation");
        if (group.isEmpty()) {
            coefficient.ifPresent(entry -> entry.problem(
                    Mistake.MISSING_KEY,
                    Flaw.of("found a correlation without \"common\", expected the name of what is shared.")
                            .inFile("Add a line like: common: reference thermometer")));
            return coefficient.isPresent() ? Optional.empty() : Optional.of(Correlation.NONE);
        }
        Optional<String> name = group.get().text();
        Optional<Double> factor = coefficient.isPresent() ? coefficient.get().positiveNumber() : Optional.of(1.0);
        return name.isEmpty() || factor.isEmpty()
                ? Optional.empty()
                : checked(fields.entry(), () -> new Correlation(name.get(), factor.get()));
    }

    static List<Checklist> checklists(Entry entry, List<Sterilizer> sterilizers) {
        List<Checklist> checklists = new ArrayList<>();
        for (Entry one : entry.list()) {
            one.fields(Shape.CHECKLIST)
                    .flatMap(fields -> checklist(fields, sterilizers))
                    .ifPresent(checklists::add);
        }
        return checklists;
    }

    private static Optional<Checklist> checklist(Fields fields, List<Sterilizer> sterilizers) {
        Optional<Checklist.Section> section =
                fields.need("section", "maintenance").flatMap(entry -> entry.word(Words.SECTION));
        Optional<String> sterilizer = sterilizer(fields, sterilizers);
        List<CheckItem> items = new ArrayList<>();
        for (Entry one : fields.need("items", "[{title: Door seal, result: good}]")
                .map(Entry::list)
                .orElse(List.of())) {
            one.fields(Shape.CHECK_ITEM).flatMap(Facts::checkItem).ifPresent(items::add);
        }
        return section.isEmpty() || sterilizer.isEmpty()
                ? Optional.empty()
                : Optional.of(new Checklist(section.get(), sterilizer.get(), items));
    }

    private static Optional<CheckItem> checkItem(Fields fields) {
        Optional<String> title = fields.needText("title", "Door seal");
        String result = fields.text("result");
        String remark = fields.text("remark");
        String asFound = fields.text("as-found");
        String asLeft = fields.text("as-left");
        String limit = fields.text("limit");
        String instrument = fields.text("instrument");
        return title.map(text -> new CheckItem(text, result, remark, asFound, asLeft, limit, instrument));
    }

    /** The key of the sterilizer that a part of the file names, or of the only one. */
    static Optional<String> sterilizer(Fields fields, List<Sterilizer> sterilizers) {
        Optional<Entry> entry = fields.find("sterilizer");
        List<String> keys = sterilizers.stream().map(Sterilizer::key).toList();
        if (entry.isPresent()) {
            Optional<String> key = entry.get().text();
            if (key.isPresent() && !keys.contains(key.get())) {
                if (!keys.isEmpty()) {
                    entry.get()
                            .problem(
                                    Mistake.UNKNOWN_NAME,
                                    Flaw.notAmong(
                                                    "found the sterilizer \"%s\", expected the key of one in this file: %s.",
                                                    key.get(), keys)
                                            .with("Correct it, or add the sterilizer."));
                }
                return Optional.empty();
            }
            return key;
        }
        if (keys.size() > 1) {
            fields.entry()
                    .problem(
                            Mistake.AMBIGUOUS_NAME,
                            Flaw.notChosen(
                                            "found no \"%s\" but several in this file, expected the key of one: %s.",
                                            "sterilizer", keys)
                                    .inFile("Add a line like: sterilizer: " + keys.get(0)));
        }
        return keys.size() == 1 ? Optional.of(keys.get(0)) : Optional.empty();
    }

    static Optional<ReferenceLoad> load(Entry entry) {
        Optional<Fields> opened = entry.fields(Shape.LOAD);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<String> description = fields.needText("description", "five cassettes, the largest load in use");
        List<ReferenceLoad.Item> items = new ArrayList<>();
        for (Entry one : fields.list("items")) {
            one.fields(Shape.LOAD_ITEM).flatMap(Facts::loadItem).ifPresent(items::add);
        }
        String pack = fields.text("challenge-pack");
        String place = fields.text("challenge-place");
        String packaging = fields.text("packaging");
        Optional<Double> mass = fields.quantity("mass", Measure.LOAD_MASS);
        String agreedBy = fields.text("agreed-by");
        List<String> photos = fields.texts("photos");
        ReferenceLoad.Slowest slowest = fields.find("slowest-because")
                .flatMap(spot -> spot.word(Words.SLOWEST))
                .orElse(ReferenceLoad.Slowest.NOT_STATED);
        OptionalInt trays = fields.count("trays");
        List<Integer> levels = fields.find("on-levels").map(Facts::levels).orElse(List.of());
        return description.map(text -> new ReferenceLoad(
                text, items, pack, place, packaging, mass, agreedBy, photos, slowest, List.of(), trays, levels));
    }

    /** Levels of trays from below, as a list or in one line. */
    private static List<Integer> levels(Entry entry) {
        Set<Integer> levels = new TreeSet<>();
        for (Entry one : entry.listOrOne()) {
            String text = one.text().orElse("");
            for (String level : text.strip().split("[\\s,;]+", -1)) {
                if (level.matches("[1-9]|1[0-2]")) {
                    levels.add(Integer.valueOf(level));
                } else {
                    one.problem(
                            Mistake.OUT_OF_RANGE,
                            Flaw.of(
                                    "found \"" + text + "\", expected levels of trays counted from below, 1 to 12.",
                                    "Write for example: 1, 3"));
                    return List.of();
                }
            }
        }
        return List.copyOf(levels);
    }

    /** What was seen of a load when it was taken out. */
    static Optional<AfterRun> afterRun(Entry entry) {
        return entry.fields(Shape.AFTER_RUN)
                .map(fields -> new AfterRun(
                        fields.find("packs").flatMap(one -> one.word(Words.PACKS)),
                        fields.find("seals").flatMap(one -> one.word(Words.SEALS)),
                        fields.text("closed-for"),
                        fields.text("looked-by")));
    }

    private static Optional<ReferenceLoad.Item> loadItem(Fields fields) {
        Optional<String> name = fields.needText("name", "cassette with instruments");
        OptionalInt count = fields.need("count", "5").map(Entry::count).orElse(OptionalInt.empty());
        Optional<Entry> familyEntry = fields.find("family");
        Optional<String> family = familyEntry.isPresent() ? familyEntry.get().word(Words.FAMILY) : Optional.of("");
        String packaging = fields.text("packaging");
        Optional<Double> mass = fields.quantity("mass", Measure.LOAD_MASS);
        String tray = fields.text("tray");
        return name.isEmpty() || count.isEmpty() || family.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new ReferenceLoad.Item(name.get(), count.getAsInt(), family.get(), packaging, mass, tray));
    }

    static List<IndicatorUse> indicators(List<Entry> entries) {
        List<IndicatorUse> indicators = new ArrayList<>();
        for (Entry one : entries) {
            one.fields(Shape.INDICATOR).flatMap(Facts::indicator).ifPresent(indicators::add);
        }
        return indicators;
    }

    private static Optional<IndicatorUse> indicator(Fields fields) {
        Optional<String> id = fields.needText("id", "BI-1");
        Optional<Entry> controlEntry = fields.find("control");
        Optional<Boolean> control =
                controlEntry.isPresent() ? controlEntry.get().yesOrNo() : Optional.of(false);
        String product = fields.text("product");
        String lot = fields.text("lot");
        Optional<LocalDate> expires = fields.date("expires");
        Optional<Double> population = fields.find("population").flatMap(Entry::positiveNumber);
        String position = fields.text("position");
        Optional<Entry> resultEntry = fields.need("result", "awaited");
        Optional<Optional<Boolean>> grown = resultEntry.flatMap(entry -> entry.word(Words.GROWTH));
        String incubation = fields.text("incubation");
        Optional<Resistance> resistance = Indicators.resistance(fields);
        String channel = fields.text("channel");
        Optional<SiteMoment> until = fields.find("incubated-until").flatMap(Indicators::moment);
        Optional<SiteMoment> readOn = fields.find("read-on").flatMap(Indicators::moment);
        String readBy = fields.text("read-by");
        return id.isEmpty() || control.isEmpty() || grown.isEmpty()
                ? Optional.empty()
                : Optional.of(new IndicatorUse(
                        id.get(),
                        control.get(),
                        product,
                        lot,
                        expires,
                        population,
                        position,
                        grown.get(),
                        incubation,
                        resistance,
                        channel,
                        until,
                        readOn,
                        readBy));
    }

    static List<Weighing> weighings(List<Entry> entries) {
        List<Weighing> weighings = new ArrayList<>();
        for (Entry one : entries) {
            one.fields(Shape.WEIGHING).flatMap(Facts::weighing).ifPresent(weighings::add);
        }
        return weighings;
    }

    private static Optional<Weighing> weighing(Fields fields) {
        Optional<String> item = fields.needText("item", "pack 1");
        Optional<Weighing.Kind> kind = fields.need("kind", "solid").flatMap(entry -> entry.word(Words.WEIGHING));
        Optional<Entry> beforeEntry = fields.need("before", "512.3 g");
        Optional<Double> before = beforeEntry.flatMap(entry -> entry.quantity(Measure.PACK_MASS));
        Optional<Double> after = fields.need("after", "513.0 g").flatMap(entry -> entry.quantity(Measure.PACK_MASS));
        if (before.isPresent() && beforeEntry.isPresent() && !(before.get() > 0)) {
            beforeEntry
                    .get()
                    .problem(
                            Mistake.OUT_OF_RANGE,
                            Flaw.of(
                                    "found a mass of nothing, expected the mass of the dry pack.",
                                    "Moisture is told as a share of it."));
            return Optional.empty();
        }
        return item.isEmpty() || kind.isEmpty() || before.isEmpty() || after.isEmpty()
                ? Optional.empty()
                : Optional.of(new Weighing(item.get(), kind.get(), before.get(), after.get()));
    }

    private static boolean isNew(String name, Set<String> names, Spot spot, String what) {
        if (names.add(name)) {
            return true;
        }
        spot.problem(
                Mistake.NAME_TWICE,
                Flaw.found(Sort.TWICE, "found \"%1$s\" again: two " + what + " \"%1$s\", expected each once.", name)
                        .with("Rename one of them."));
        return false;
    }

    /** What the model itself refuses becomes a problem at that place. */
    static <E> Optional<E> checked(Spot spot, Supplier<E> build) {
        try {
            return Optional.of(build.get());
        } catch (IllegalArgumentException e) {
            spot.problem(
                    Mistake.OUT_OF_RANGE,
                    Flaw.of(
                            "found values that exclude each other or lie outside what is possible: " + e.getMessage()
                                    + ".",
                            "Check them against the document they were taken from."));
            return Optional.empty();
        }
    }
}
