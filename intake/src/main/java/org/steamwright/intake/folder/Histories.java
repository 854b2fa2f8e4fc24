package org.steamwright.intake.folder;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationEvent;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.calibration.FieldCheck;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.trace.Quantity;

/** What an instrument went through: calibrations, checks in the field, times in which it was set aside. */
final class Histories {

    private Histories() {}

    /** The one certificate, or all of them; a problem if both are written. */
    static List<CalibrationEvent> calibrations(
            Fields instrument, String id, Quantity quantity, CertificateFiles files) {
        boolean isTemperature = quantity == Quantity.TEMPERATURE;
        Measure value = isTemperature ? Measure.TEMPERATURE : Measure.PRESSURE;
        Measure size = isTemperature ? Measure.TEMPERATURE_DIFFERENCE : Measure.PRESSURE_DIFFERENCE;
        Optional<Entry> one = instrument.find("certificate");
        Optional<Entry> several = instrument.find("certificates");
        if (one.isPresent() && several.isPresent()) {
            several.get()
                    .problem(
                            Mistake.OUT_OF_RANGE,
                            Flaw.of(
                                    "found certificates beside a certificate, expected one of the two keys.",
                                    "Move the one into the list."));
        }
        List<Entry> entries = new ArrayList<>();
        one.ifPresent(entries::add);
        several.ifPresent(list -> entries.addAll(list.list()));
        List<CalibrationEvent> calibrations = new ArrayList<>();
        for (Entry entry : entries) {
            Optional<CalibrationEvent> calibration = isFile(entry)
                    ? entry.fields(Shape.CERTIFICATE_FILE)
                            .flatMap(fields -> files.read(fields, id, quantity, size))
                            .map(Histories::ofFile)
                    : entry.fields(Shape.CERTIFICATE).flatMap(fields -> calibration(fields, value, size));
            calibration.ifPresent(calibrations::add);
        }
        return calibrations;
    }

    /** By a key that no certificate typed from paper has. */
    private static boolean isFile(Entry entry) {
        return entry.has("file") || entry.has("item") || entry.has("result");
    }

    private static CalibrationEvent ofFile(CalibrationCertificate certificate) {
        return new CalibrationEvent(
                certificate, certificate.file().map(CertificateFile::asFound).orElse(List.of()));
    }

    private static Optional<CalibrationEvent> calibration(Fields fields, Measure value, Measure size) {
        Optional<CalibrationCertificate> certificate = Facts.certificate(fields, value, size);
        List<CalibrationPoint> asFound = new ArrayList<>();
        boolean isComplete = true;
        for (Entry one : fields.list("as-found")) {
            Optional<CalibrationPoint> point = Facts.point(
                    one,
                    fields,
                    fields.quantity("U", size),
                    fields.find("k").flatMap(Entry::positiveNumber),
                    value,
                    size);
            point.ifPresent(asFound::add);
            isComplete &= point.isPresent();
        }
        return isComplete ? certificate.map(left -> new CalibrationEvent(left, asFound)) : Optional.empty();
    }

    static List<FieldCheck> checks(Fields instrument, Measure value, Measure size) {
        List<FieldCheck> checks = new ArrayList<>();
        for (Entry one : instrument.list("checks")) {
            one.fields(Shape.FIELD_CHECK)
                    .flatMap(fields -> check(
                            fields,
                            fields.need("on", "2026-03-02").flatMap(Entry::date),
                            size,
                            readings(fields, value)))
                    .ifPresent(checks::add);
        }
        return checks;
    }

    /** Checks of a visit, each of one pair; the day of one that states none is that of the visit. */
    static List<FieldCheck> checks(List<Entry> entries, Measure value, Measure size, Optional<LocalDate> day) {
        List<FieldCheck> checks = new ArrayList<>();
        for (Entry one : entries) {
            Optional<Fields> opened = one.fields(Shape.VISIT_CHECK);
            if (opened.isEmpty()) {
                continue;
            }
            Fields fields = opened.get();
            Optional<Entry> own = fields.find("on");
            Optional<LocalDate> on = own.isPresent()
                    ? own.flatMap(Entry::date)
                    : day.isPresent() ? day : fields.need("on", "2026-03-02").flatMap(Entry::date);
            String example = Quantities.example(value);
            Optional<Double> reference = fields.need("reference", example).flatMap(entry -> entry.quantity(value));
            Optional<Double> indicated = fields.need("indicated", example).flatMap(entry -> entry.quantity(value));
            List<FieldCheck.Pair> pairs = reference.isEmpty() || indicated.isEmpty()
                    ? List.of()
                    : List.of(new FieldCheck.Pair(reference.get(), indicated.get()));
            check(fields, on, size, pairs).ifPresent(checks::add);
        }
        return checks;
    }

    /** The check; empty if something of it could not be read. */
    private static Optional<FieldCheck> check(
            Fields fields, Optional<LocalDate> day, Measure size, List<FieldCheck.Pair> pairs) {
        Optional<FieldCheck.Moment> moment = fields.need("when", "after").flatMap(entry -> entry.word(Words.WHEN));
        String method = fields.text("method");
        String against = fields.text("against");
        String author = fields.text("by");
        Optional<Entry> stated = fields.find("tolerance");
        Optional<Double> tolerance = stated.flatMap(entry -> entry.quantity(size));
        return day.isEmpty() || moment.isEmpty() || pairs.isEmpty() || stated.isPresent() != tolerance.isPresent()
                ? Optional.empty()
                : Optional.of(new FieldCheck(day.get(), moment.get(), method, pairs, tolerance, against, author));
    }

    /** The pairs; none if one of them could not be read. */
    private static List<FieldCheck.Pair> readings(Fields fields, Measure value) {
        String example = Quantities.example(value);
        Optional<Entry> readings = fields.need("readings", "[[" + example + ", " + example + "]]");
        List<FieldCheck.Pair> pairs = new ArrayList<>();
        List<Entry> entries = readings.map(Entry::list).orElse(List.of());
        for (Entry one : entries) {
            pair(one, value).ifPresent(pairs::add);
        }
        if (entries.isEmpty()) {
            readings.filter(Entry::isList)
                    .ifPresent(spot -> spot.problem(
                            Mistake.MISSING_KEY,
                            Flaw.empty(
                                            "found an empty list, expected at least one pair of reference and indicated value.")
                                    .with("Copy the readings of the check.")));
        }
        return pairs.size() < entries.size() ? List.of() : pairs;
    }

    private static Optional<FieldCheck.Pair> pair(Entry entry, Measure value) {
        List<Entry> pair = entry.list();
        if (pair.size() != 2) {
            if (entry.isList()) {
                entry.problem(
                        Mistake.WRONG_SHAPE,
                        Flaw.of("found " + pair.size() + " values, expected two: [reference, indicated].")
                                .inFile("Write for example: [" + Quantities.example(value) + ", "
                                        + Quantities.example(value) + "]"));
            }
            return Optional.empty();
        }
        Optional<Double> reference = pair.get(0).quantity(value);
        Optional<Double> indicated = pair.get(1).quantity(value);
        return reference.isEmpty() || indicated.isEmpty()
                ? Optional.empty()
                : Optional.of(new FieldCheck.Pair(reference.get(), indicated.get()));
    }

    static List<Quarantine> quarantines(Fields instrument) {
        List<Quarantine> quarantines = new ArrayList<>();
        for (Entry one : instrument.list("quarantine")) {
            one.fields(Shape.QUARANTINE).flatMap(Histories::quarantine).ifPresent(quarantines::add);
        }
        return quarantines;
    }

    private static Optional<Quarantine> quarantine(Fields fields) {
        Optional<LocalDate> from = fields.need("from", "2026-03-02").flatMap(Entry::date);
        Optional<LocalDate> until = fields.date("until");
        Optional<String> reason = fields.needText("reason", "dropped on tiles");
        if (from.isEmpty() || reason.isEmpty()) {
            return Optional.empty();
        }
        return Facts.checked(fields.entry(), () -> new Quarantine(from.get(), until, reason.get()));
    }
}
