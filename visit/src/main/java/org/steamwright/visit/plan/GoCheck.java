package org.steamwright.visit.plan;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.steam.IapwsR797;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Part;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;

/**
 * Whether a visit may go: instruments valid to the end of its last run, lots in date to the end of their incubation, range
 * enough for the cycles, a technician who may do it.
 *
 * @param begins arrival
 * @param ends end of the last step of the plan
 * @param points all that was looked at, in the order of the looking
 */
public record GoCheck(Instant begins, Instant ends, List<Point> points) {

    /** Kelvin above the sterilization temperature that an instrument has to bear: the width of the usual band and one more. */
    private static final double HEADROOM_KELVIN = 4;

    /** What a gauge instrument does not have to show: an instrument does not say which kind it is. */
    private static final double HIGHEST_BAROMETER_KILOPASCAL = 110;

    private static final int SOON_DAYS = 30;

    /**
     * One thing that was looked at.
     *
     * @param answer what it means for the visit
     * @param subject id of instrument, lot, technician or part; or what is missing
     * @param sentence why
     */
    public record Point(Answer answer, String subject, String sentence) {}

    /** What a point means for the visit. */
    public enum Answer {
        BLOCKS("blocks"),
        WARNS("warns"),
        FINE("fine");

        private final String word;

        Answer(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    /**
     * What is meant to go along.
     *
     * @param technician who goes; empty if nobody is chosen yet, which blocks
     * @param instruments taken along
     * @param lots taken along
     * @param testers for electrical safety taken along
     */
    public record Kit(
            Optional<Technician> technician,
            List<ReferenceInstrument> instruments,
            List<Lot> lots,
            List<Tester> testers) {
        public Kit {
            instruments = List.copyOf(instruments);
            lots = List.copyOf(lots);
            testers = List.copyOf(testers);
        }

        /** Without testers. */
        public Kit(Optional<Technician> technician, List<ReferenceInstrument> instruments, List<Lot> lots) {
            this(technician, instruments, lots, List.of());
        }
    }

    public GoCheck {
        points = List.copyOf(points);
    }

    public boolean isGo() {
        return points.stream().noneMatch(point -> point.answer() == Answer.BLOCKS);
    }

    public List<Point> of(Answer answer) {
        return points.stream().filter(point -> point.answer() == answer).toList();
    }

    /** Looks at all that a plan needs, at the site's days. */
    public static GoCheck of(VisitPlan plan, Register register, Kit kit, Instant begins, ZoneId zone) {
        Instant ends = begins.plus(Duration.ofMinutes(plan.minutes()));
        Looking looking = new Looking(plan, begins, ends, zone);
        looking.technician(kit.technician());
        looking.instruments(kit.instruments());
        looking.testers(kit.testers(), register.testers().isEmpty());
        looking.lots(kit.lots());
        looking.parts(register.parts());
        return new GoCheck(begins, ends, looking.points);
    }

    /** All instruments and lots of a register that nothing speaks against, each looked at by itself. */
    public static Kit fitting(
            VisitPlan plan, Register register, Optional<Technician> technician, Instant begins, ZoneId zone) {
        Instant ends = begins.plus(Duration.ofMinutes(plan.minutes()));
        List<ReferenceInstrument> instruments = register.instruments().stream()
                .filter(one -> isFit(plan, begins, ends, zone, looking -> looking.instrument(one)))
                .toList();
        List<Lot> lots = register.lots().stream()
                .filter(one -> isFit(plan, begins, ends, zone, looking -> looking.lot(one)))
                .toList();
        List<Tester> testers = register.testers().stream()
                .filter(one -> isFit(plan, begins, ends, zone, looking -> looking.tester(one)))
                .toList();
        return new Kit(technician, instruments, lots, testers);
    }

    private static boolean isFit(VisitPlan plan, Instant begins, Instant ends, ZoneId zone, Consumer<Looking> look) {
        Looking looking = new Looking(plan, begins, ends, zone);
        look.accept(looking);
        return looking.points.stream().noneMatch(point -> point.answer() == Answer.BLOCKS);
    }

    /** One look at everything. */
    private static final class Looking {

        private final List<Point> points = new ArrayList<>();
        private final VisitPlan plan;
        private final Instant begins;
        private final Instant ends;
        private final ZoneId zone;
        private final LocalDate lastDay;

        Looking(VisitPlan plan, Instant begins, Instant ends, ZoneId zone) {
            this.plan = plan;
            this.begins = begins;
            this.ends = ends;
            this.zone = zone;
            this.lastDay = ends.atZone(zone).toLocalDate();
            LocalDate firstDay = begins.atZone(zone).toLocalDate();
            if (!firstDay.equals(lastDay)) {
                add(
                        Answer.WARNS,
                        "visit",
                        "The last run ends on " + lastDay
                                + ", the day after arrival: everything has to be valid on that" + " day too.");
            }
        }

        private void add(Answer answer, String subject, String sentence) {
            points.add(new Point(answer, subject, sentence));
        }

        private boolean needs(VisitPlan.Need.Kind kind) {
            return plan.needs().stream().anyMatch(need -> need.kind() == kind);
        }

        void technician(Optional<Technician> chosen) {
            if (chosen.isEmpty()) {
                add(Answer.BLOCKS, "technician", "Nobody is chosen. Name who goes.");
                return;
            }
            for (Duty duty : duties()) {
                competence(chosen.get(), duty);
            }
        }

        private List<Duty> duties() {
            List<Duty> duties = new ArrayList<>();
            if (!plan.cycles().isEmpty() || plan.has(StepKind.LEAK_WITHOUT_SENSORS)) {
                duties.add(Duty.VALIDATION);
            }
            if (plan.has(StepKind.SERVICE)) {
                duties.add(Duty.SERVICE);
            }
            if (plan.has(StepKind.ELECTRICAL)) {
                duties.add(Duty.ELECTRICAL_TEST);
            }
            return duties;
        }

        private void competence(Technician technician, Duty duty) {
            SterilizerRecord.Identity machine = plan.machine().identity();
            List<Technician.Competence> about = technician.competences().stream()
                    .filter(one -> one.concerns(duty, machine))
                    .toList();
            LocalDate firstDay = begins.atZone(zone).toLocalDate();
            Optional<Technician.Competence> valid = about.stream()
                    .filter(one -> one.covers(firstDay) && one.covers(lastDay))
                    .findFirst();
            String what = duty.word() + " on " + machine.familyOrModel();
            if (valid.isPresent()) {
                add(
                        Answer.FINE,
                        technician.id(),
                        technician.name() + " may do " + what
                                + valid.get()
                                        .until()
                                        .map(until -> " until " + until)
                                        .orElse("") + ".");
                warnSoon(technician.id(), valid.get().until(), "The competence for " + what);
            } else if (about.isEmpty()) {
                add(
                        Answer.BLOCKS,
                        technician.id(),
                        "The register has no competence of " + technician.name() + " for " + what
                                + ". Send somebody else, or enter the document.");
            } else {
                Technician.Competence last = about.get(about.size() - 1);
                add(
                        Answer.BLOCKS,
                        technician.id(),
                        "The competence of " + technician.name() + " for " + what + " holds from " + last.from()
                                + last.until().map(until -> " until " + until).orElse("")
                                + ", not up to the end of the visit on " + lastDay + ".");
            }
        }

        private void warnSoon(String subject, Optional<LocalDate> until, String what) {
            until.filter(day -> day.isBefore(lastDay.plusDays(SOON_DAYS)))
                    .ifPresent(day -> add(Answer.WARNS, subject, what + " ends soon, on " + day + "."));
        }

        void instruments(List<ReferenceInstrument> taken) {
            for (ReferenceInstrument instrument : taken) {
                instrument(instrument);
            }
            missing(VisitPlan.Need.Kind.TEMPERATURE, Quantity.TEMPERATURE, taken);
            missing(VisitPlan.Need.Kind.PRESSURE, Quantity.PRESSURE, taken);
        }

        void testers(List<Tester> taken, boolean isNoneKept) {
            taken.forEach(this::tester);
            if (needs(VisitPlan.Need.Kind.ELECTRICAL) && taken.isEmpty()) {
                add(
                        isNoneKept ? Answer.WARNS : Answer.BLOCKS,
                        "electrical safety tester",
                        isNoneKept
                                ? "The register keeps no electrical tester: look at its calibration label yourself, or"
                                        + " add it to 'testers'."
                                : "No electrical tester is taken along, and the plan needs one.");
            }
        }

        private void tester(Tester tester) {
            Optional<Tester.Certificate> certificate = tester.certificateOn(lastDay);
            if (certificate.isEmpty()) {
                add(Answer.BLOCKS, tester.id(), "It has no calibration certificate.");
            } else if (!certificate.get().holdsOn(lastDay)) {
                add(
                        Answer.BLOCKS,
                        tester.id(),
                        "Certificate " + certificate.get().number() + " holds until "
                                + certificate.get().dueOn() + ", and the visit ends on " + lastDay + ".");
            } else {
                add(
                        Answer.FINE,
                        tester.id(),
                        "Certificate " + certificate.get().number() + " holds until "
                                + certificate.get().dueOn() + ".");
                warnSoon(
                        tester.id(),
                        Optional.of(certificate.get().dueOn()),
                        "Certificate " + certificate.get().number());
            }
        }

        private void missing(VisitPlan.Need.Kind need, Quantity quantity, List<ReferenceInstrument> taken) {
            if (needs(need) && taken.stream().noneMatch(one -> one.quantity() == quantity)) {
                add(
                        Answer.BLOCKS,
                        need.word(),
                        "No instrument that measures " + need.word() + " is taken along, and the plan needs one.");
            }
        }

        private void instrument(ReferenceInstrument bare) {
            int before = points.size();
            ReferenceInstrument instrument = bare.on(lastDay);
            for (LocalDate day = begins.atZone(zone).toLocalDate(); !day.isAfter(lastDay); day = day.plusDays(1)) {
                Optional<Quarantine> quarantine = instrument.history().quarantineOn(day);
                if (quarantine.isPresent()) {
                    add(
                            Answer.BLOCKS,
                            instrument.id(),
                            "It is in quarantine on " + day + ": "
                                    + quarantine.get().reason() + ".");
                    break;
                }
            }
            Optional<CalibrationCertificate> certificate = instrument.certificate();
            if (certificate.isEmpty()) {
                add(Answer.BLOCKS, instrument.id(), "It has no calibration certificate.");
            } else {
                validity(instrument.id(), certificate.get());
                range(instrument, certificate.get());
            }
            if (points.size() == before) {
                add(
                        Answer.FINE,
                        instrument.id(),
                        "Certificate "
                                + certificate
                                        .map(CalibrationCertificate::number)
                                        .orElse("") + " holds until "
                                + certificate
                                        .map(CalibrationCertificate::dueOn)
                                        .map(LocalDate::toString)
                                        .orElse("")
                                + " and its range is enough.");
            }
        }

        private void validity(String id, CalibrationCertificate certificate) {
            if (!certificate.isValidAt(begins, zone)) {
                add(
                        Answer.BLOCKS,
                        id,
                        "Certificate " + certificate.number() + " holds from " + certificate.calibratedOn() + " until "
                                + certificate.dueOn() + ", not on the day of arrival, "
                                + begins.atZone(zone).toLocalDate() + ".");
            } else if (!certificate.isValidAt(ends, zone)) {
                add(
                        Answer.BLOCKS,
                        id,
                        "Certificate " + certificate.number() + " holds until " + certificate.dueOn()
                                + ", and the last run ends on " + lastDay + ".");
            } else {
                warnSoon(id, Optional.of(certificate.dueOn()), "Certificate " + certificate.number());
            }
        }

        /** The highest sterilization temperature with its headroom, and the pressure of saturated steam there. */
        private void range(ReferenceInstrument instrument, CalibrationCertificate certificate) {
            double hottest = 0;
            double coolest = Double.POSITIVE_INFINITY;
            for (SterilizerRecord.RegisteredCycle cycle : plan.machine().cycles()) {
                if (plan.cycles().contains(cycle.definition().name())) {
                    double celsius = cycle.definition().sterilizingTemperature().celsius();
                    hottest = Math.max(hottest, celsius);
                    coolest = Math.min(coolest, celsius);
                }
            }
            if (hottest == 0) {
                return;
            }
            boolean isTemperature = instrument.quantity() == Quantity.TEMPERATURE;
            double needed = isTemperature ? hottest + HEADROOM_KELVIN : pressure(hottest + HEADROOM_KELVIN);
            double low = isTemperature ? coolest : pressure(coolest);
            double high = isTemperature ? hottest : pressure(hottest);
            String unit = isTemperature ? " °C" : " kPa absolute";
            double gauge = isTemperature ? 0 : HIGHEST_BAROMETER_KILOPASCAL;
            if (instrument.rangeHigh() < needed) {
                add(
                        instrument.rangeHigh() < needed - gauge ? Answer.BLOCKS : Answer.WARNS,
                        instrument.id(),
                        "Its range ends at " + round(instrument.rangeHigh()) + unit + "; the hottest cycle may reach "
                                + round(needed) + unit + ".");
            }
            if (certificate.lowest() > low || certificate.highest() < high) {
                add(
                        isTemperature ? Answer.BLOCKS : Answer.WARNS,
                        instrument.id(),
                        "Certificate " + certificate.number() + " covers " + round(certificate.lowest()) + " to "
                                + round(certificate.highest()) + (isTemperature ? unit : " kPa as indicated")
                                + "; the cycles need " + round(low) + " to " + round(high) + unit + ".");
            }
        }

        private static double pressure(double celsius) {
            return IapwsR797.INSTANCE.kilopascalAt(celsius);
        }

        private static String round(double value) {
            return Double.toString(Math.rint(value * 10) / 10);
        }

        void lots(List<Lot> taken) {
            for (Lot lot : taken) {
                lot(lot);
            }
            missing(VisitPlan.Need.Kind.BIOLOGICAL, Lot.Kind.BIOLOGICAL, taken);
            missing(VisitPlan.Need.Kind.CHEMICAL, Lot.Kind.CHEMICAL, taken);
            missing(VisitPlan.Need.Kind.PENETRATION_DEVICE, Lot.Kind.PENETRATION_DEVICE, taken);
        }

        private void missing(VisitPlan.Need.Kind need, Lot.Kind kind, List<Lot> taken) {
            if (needs(need) && taken.stream().noneMatch(lot -> lot.kind() == kind)) {
                add(
                        Answer.BLOCKS,
                        kind.word(),
                        "No lot of " + kind.words() + " is taken along, and the plan needs one.");
            }
        }

        private void lot(Lot lot) {
            LocalDate needed = ends.plus(lot.incubation()).atZone(zone).toLocalDate();
            String name = "Lot " + lot.number() + " (" + lot.product() + ")";
            if (lot.expires().isBefore(needed)) {
                add(
                        Answer.BLOCKS,
                        lot.id(),
                        name + " expires on " + lot.expires() + "; it is needed until " + needed
                                + (lot.incubation().isZero() ? "" : ", the end of its incubation") + ".");
            } else {
                add(
                        Answer.FINE,
                        lot.id(),
                        name + " is in date until " + lot.expires() + ", needed until " + needed + ".");
                if (lot.expires().isBefore(needed.plusDays(SOON_DAYS))) {
                    add(Answer.WARNS, lot.id(), name + " expires soon, on " + lot.expires() + ".");
                }
            }
        }

        void parts(List<Part> parts) {
            if (!plan.has(StepKind.SERVICE)) {
                return;
            }
            for (Part part : parts) {
                if (!part.fits(plan.machine().identity())) {
                    continue;
                }
                if (part.stock().isPresent() && part.stock().getAsInt() == 0) {
                    add(Answer.WARNS, part.id(), part.name() + " is not in store. Order it.");
                }
                part.shelfLife()
                        .filter(day -> day.isBefore(lastDay))
                        .ifPresent(day ->
                                add(Answer.WARNS, part.id(), part.name() + " may be fitted until " + day + " only."));
            }
        }
    }
}
