package org.steamwright.visit.register;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.register.SterilizerRecord.RegisteredCycle;

/** Invented clinic, machine, people and things; a machine is built up piece by piece. */
public final class InventedRegister {

    public static final ZoneId ADELAIDE = ZoneId.of("Australia/Adelaide");

    public static final RegisteredCycle WRAPPED = cycle("134 wrapped", CycleType.B, 134, true);
    public static final RegisteredCycle RUBBER = cycle("121 rubber", CycleType.B, 121, true);
    public static final RegisteredCycle OPEN = cycle("134 open", CycleType.N, 134, true);
    public static final RegisteredCycle UNUSED = cycle("134 quick", CycleType.S, 134, false);

    private InventedRegister() {}

    public static LocalDate day(String text) {
        return LocalDate.parse(text);
    }

    static RegisteredCycle cycle(String name, CycleType type, double celsius, boolean isInUse) {
        return new RegisteredCycle(
                new CycleDefinition(
                        name,
                        type,
                        Temperature.ofCelsius(celsius),
                        Optional.of(Duration.ofMinutes(4)),
                        OptionalInt.empty(),
                        Optional.empty(),
                        Optional.of(Duration.ofMinutes(15))),
                isInUse);
    }

    /** Builds a machine. */
    public static final class Machine {
        private String id = "ST-01";
        private String serial = "SN-0417";
        private String home = "R-1";
        private boolean isLoaner;
        private SterilizerRecord.Status status = SterilizerRecord.Status.IN_USE;
        private Double litres = 18.0;
        private Counter counter = Counter.UNREAD;
        private List<RegisteredCycle> cycles = List.of(WRAPPED, RUBBER, UNUSED);
        private final List<SterilizerRecord.Firmware> firmware = new ArrayList<>();
        private final List<SterilizerRecord.Movement> movements = new ArrayList<>();
        private final List<SterilizerRecord.PressurePaper> papers = new ArrayList<>();
        private final List<SterilizerRecord.OwnInterval> intervals = new ArrayList<>();
        private final List<SterilizerRecord.Done> done = new ArrayList<>();
        private final List<SterilizerRecord.ChangeMade> changes = new ArrayList<>();
        private final List<SterilizerRecord.PassCondition> conditions = new ArrayList<>();

        public Machine named(String newId, String newSerial) {
            id = newId;
            serial = newSerial;
            return this;
        }

        public Machine in(String room) {
            home = room;
            return this;
        }

        public Machine loaner() {
            isLoaner = true;
            return this;
        }

        public Machine standing(SterilizerRecord.Status newStatus) {
            status = newStatus;
            return this;
        }

        public Machine holding(double newLitres) {
            litres = newLitres;
            return this;
        }

        public Machine with(Counter newCounter) {
            counter = newCounter;
            return this;
        }

        public Machine running(RegisteredCycle... newCycles) {
            cycles = List.of(newCycles);
            return this;
        }

        public Machine did(Duty duty, String on) {
            done.add(new SterilizerRecord.Done(duty, day(on), "R-2025-001"));
            return this;
        }

        public Machine with(SterilizerRecord.Firmware one) {
            firmware.add(one);
            return this;
        }

        public Machine with(SterilizerRecord.Movement one) {
            movements.add(one);
            return this;
        }

        public Machine with(SterilizerRecord.PressurePaper one) {
            papers.add(one);
            return this;
        }

        public Machine with(SterilizerRecord.OwnInterval one) {
            intervals.add(one);
            return this;
        }

        public Machine with(SterilizerRecord.ChangeMade one) {
            changes.add(one);
            return this;
        }

        public Machine with(SterilizerRecord.PassCondition one) {
            conditions.add(one);
            return this;
        }

        public SterilizerRecord build() {
            return new SterilizerRecord(
                    id,
                    new SterilizerRecord.Identity(
                            "Example Works", "Small B18", "small-b", serial, "2021", Optional.of(litres)),
                    status,
                    isLoaner,
                    home,
                    cycles,
                    firmware,
                    counter,
                    movements,
                    papers,
                    intervals,
                    done,
                    changes,
                    conditions);
        }
    }

    public static ClinicRecord clinic(String rules, Week week) {
        return new ClinicRecord(
                "C-1",
                "Riverside Dental Care (invented)",
                "",
                "",
                List.of(new Site(
                        "S-1",
                        "",
                        "1 Example Street",
                        ADELAIDE,
                        Optional.of(50.0),
                        rules,
                        week,
                        List.of(new Site.Room("R-1", "Sterilising room"), new Site.Room("R-2", "Second floor")))));
    }

    public static Register register(SterilizerRecord... machines) {
        return new Register(
                List.of(clinic("", Week.USUAL)),
                List.of(machines),
                List.of(technician()),
                List.of(logger("TL-11", Quantity.TEMPERATURE), logger("PL-11", Quantity.PRESSURE)),
                List.of(
                        lot("BI-1", Lot.Kind.BIOLOGICAL, "2026-06-30"),
                        lot("CI-1", Lot.Kind.CHEMICAL, "2027-06-30"),
                        lot("PD-1", Lot.Kind.PENETRATION_DEVICE, "2027-06-30")),
                List.of(new Part(
                        "P-1",
                        "Door seal",
                        "0815",
                        List.of("small-b"),
                        List.of(Duty.SERVICE),
                        OptionalInt.of(0),
                        Optional.of(day("2026-01-31")))));
    }

    public static Technician technician() {
        return new Technician(
                "KS",
                "Kim Sample (invented)",
                List.of(new Technician.Competence(
                        List.of("small-b"),
                        List.of(Duty.VALIDATION, Duty.SERVICE, Duty.ELECTRICAL_TEST),
                        day("2024-01-01"),
                        Optional.of(day("2026-12-31")),
                        "training record 7")));
    }

    public static ReferenceInstrument logger(String id, Quantity quantity) {
        return logger(id, quantity, "2026-11-30", quantity == Quantity.TEMPERATURE ? 150 : 500);
    }

    public static ReferenceInstrument logger(String id, Quantity quantity, String dueOn, double rangeHigh) {
        double[] values = quantity == Quantity.TEMPERATURE ? new double[] {90, 121, 138} : new double[] {5, 205, 350};
        List<CalibrationPoint> points = new ArrayList<>();
        for (double value : values) {
            points.add(new CalibrationPoint(value, value + 0.02, 0.06, 2));
        }
        return new ReferenceInstrument(
                id,
                "logger (invented)",
                quantity,
                0,
                rangeHigh,
                Optional.of(new CalibrationCertificate(
                        "K-" + id, "Example Calibration (invented)", day("2025-12-01"), day(dueOn), points)),
                List.of());
    }

    public static Lot lot(String id, Lot.Kind kind, String expires) {
        return new Lot(
                id,
                kind,
                kind.words() + " (invented)",
                "L" + id,
                day(expires),
                kind == Lot.Kind.BIOLOGICAL ? Duration.ofHours(24) : Duration.ZERO);
    }
}
