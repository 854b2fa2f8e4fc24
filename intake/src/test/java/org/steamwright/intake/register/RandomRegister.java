package org.steamwright.intake.register;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.time.Period;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import java.util.function.IntFunction;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.ClinicRecord;
import org.steamwright.visit.register.Counter;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Part;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.Site;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;
import org.steamwright.visit.register.Week;

/** A register of anything that may stand in one, nasty texts above all. */
final class RandomRegister {

    private static final List<String> NASTY = List.of(
            "=1+1",
            "-x",
            "+61 8",
            "@here",
            "'tis",
            "'=x",
            "yes",
            "null",
            "12",
            "1.50",
            "2026-01-01",
            "a: b",
            "# no",
            "- item",
            "*alias",
            "&anchor",
            "\"quoted\"",
            "back\\slash",
            "a,b;c|d",
            "Größe °C µ",
            "日本",
            "😀",
            "tab\tin",
            "line\nbreak",
            "\u0007bell",
            "[x]",
            "{y}",
            "!tag",
            "%",
            "`",
            "O'Neil",
            "a\u2028b",
            "\u00a0x y");

    private final Random random;

    RandomRegister(long seed) {
        this.random = new Random(seed);
    }

    Register register() {
        List<ClinicRecord> clinics = some(3, this::clinic);
        List<String> rooms = new ArrayList<>(List.of(""));
        clinics.forEach(clinic -> clinic.sites().forEach(site -> site.rooms().forEach(room -> rooms.add(room.id()))));
        return new Register(
                clinics,
                some(4, i -> machine(i, rooms)),
                some(2, this::technician),
                List.of(),
                some(2, this::lot),
                some(2, this::part),
                some(2, this::tester));
    }

    private <E> List<E> some(int most, IntFunction<E> maker) {
        List<E> list = new ArrayList<>();
        int count = random.nextInt(most + 1);
        for (int i = 0; i < count; i++) {
            list.add(maker.apply(i));
        }
        return list;
    }

    private ChamberSize size() {
        double depth = 50 + random.nextInt(19500) / 10.0;
        double width = 50 + random.nextInt(1950);
        return maybe()
                ? new ChamberSize(ChamberSize.Form.CYLINDER, width, width, depth)
                : new ChamberSize(ChamberSize.Form.BOX, width, 50 + random.nextInt(1950), depth);
    }

    private boolean maybe() {
        return random.nextBoolean();
    }

    private String text() {
        return maybe() ? "" : word();
    }

    private String word() {
        String word = maybe() ? NASTY.get(random.nextInt(NASTY.size())) : "word " + random.nextInt(100);
        return (word + (maybe() ? "" : " " + NASTY.get(random.nextInt(NASTY.size())))).strip();
    }

    private LocalDate day() {
        return LocalDate.of(2020, 1, 1).plusDays(random.nextInt(3000));
    }

    private Optional<LocalDate> maybeDay() {
        return maybe() ? Optional.empty() : Optional.of(day());
    }

    private <E> E any(E[] values) {
        return values[random.nextInt(values.length)];
    }

    private ClinicRecord clinic(int i) {
        return new ClinicRecord("C" + i, "Clinic " + i + " " + word(), text(), text(), some(2, j -> site(i, j)));
    }

    private Site site(int i, int j) {
        List<DayOfWeek> days =
                Arrays.stream(DayOfWeek.values()).filter(day -> maybe()).toList();
        List<Week.Closure> closures = some(2, k -> {
            LocalDate from = day();
            return new Week.Closure(from, from.plusDays(random.nextInt(20)));
        });
        return new Site(
                "S" + i + j,
                "Site " + j + " " + word(),
                text(),
                ZoneId.of(maybe() ? "Australia/Adelaide" : "Europe/Berlin"),
                maybe() ? Optional.empty() : Optional.of(random.nextInt(4000) / 2.0 - 100),
                maybe() ? "" : "au",
                new Week(days.isEmpty() ? Week.USUAL.workingDays() : days, closures),
                some(2, k -> new Site.Room("R" + i + j + k, "Room " + k + " " + word())));
    }

    private SterilizerRecord machine(int i, List<String> rooms) {
        List<SterilizerRecord.Movement> movements = some(
                2,
                k -> new SterilizerRecord.Movement(
                        day(),
                        maybe() ? "" : any(rooms.toArray(new String[0])),
                        any(rooms.toArray(new String[0])),
                        text()));
        return new SterilizerRecord(
                "M" + i,
                new SterilizerRecord.Identity(
                        text(),
                        text(),
                        text(),
                        "SN" + i + word(),
                        text(),
                        maybe() ? Optional.empty() : Optional.of(random.nextInt(1000) / 10.0),
                        maybe() ? Optional.empty() : Optional.of(size()),
                        maybe() ? OptionalInt.empty() : OptionalInt.of(1 + random.nextInt(12))),
                any(SterilizerRecord.Status.values()),
                maybe(),
                any(rooms.toArray(new String[0])),
                some(3, this::cycle),
                some(2, k -> new SterilizerRecord.Firmware(word(), day(), text())),
                counter(),
                movements,
                some(2, k -> new SterilizerRecord.PressurePaper("PV" + k + word(), day(), maybeDay(), text())),
                some(
                        2,
                        k -> new SterilizerRecord.OwnInterval(
                                any(Duty.values()),
                                Optional.of(
                                        maybe()
                                                ? Period.ofMonths(1 + random.nextInt(30))
                                                : Period.ofDays(1 + random.nextInt(60))),
                                maybe() ? OptionalLong.empty() : OptionalLong.of(1 + random.nextInt(5000)),
                                word())),
                some(3, k -> new SterilizerRecord.Done(any(Duty.values()), day(), text())),
                some(2, k -> new SterilizerRecord.ChangeMade(day(), "sensor", word(), maybeDay())),
                some(
                        2,
                        k -> new SterilizerRecord.PassCondition(
                                word(),
                                word(),
                                day(),
                                maybe() ? OptionalLong.empty() : OptionalLong.of(random.nextInt(9000)),
                                maybeDay())));
    }

    private SterilizerRecord.RegisteredCycle cycle(int i) {
        return new SterilizerRecord.RegisteredCycle(
                new CycleDefinition(
                        "cycle " + i + " " + word(),
                        any(CycleType.values()),
                        Temperature.ofCelsius(maybe() ? 134 : 121.5),
                        maybe() ? Optional.empty() : Optional.of(Duration.ofMillis(1 + random.nextInt(900_000))),
                        maybe() ? OptionalInt.empty() : OptionalInt.of(random.nextInt(5)),
                        maybe() ? Optional.empty() : Optional.of(random.nextInt(500) / 10.0),
                        maybe() ? Optional.empty() : Optional.of(Duration.ofSeconds(random.nextInt(2000)))),
                maybe());
    }

    private Counter counter() {
        List<Counter.Reading> readings = new ArrayList<>();
        List<Counter.Reset> resets = new ArrayList<>();
        LocalDate day = day();
        long shown = random.nextInt(5000);
        int count = random.nextInt(5);
        for (int i = 0; i < count; i++) {
            readings.add(new Counter.Reading(day, shown, text()));
            day = day.plusDays(1 + random.nextInt(60));
            shown += random.nextInt(300);
            if (random.nextInt(4) == 0) {
                resets.add(new Counter.Reset(day, shown, 0, word()));
                day = day.plusDays(1);
                shown = random.nextInt(20);
            }
        }
        return new Counter(readings, resets);
    }

    private Technician technician(int i) {
        return new Technician("T" + i, word(), some(2, k -> {
            LocalDate from = day();
            return new Technician.Competence(
                    some(2, l -> word()),
                    Arrays.stream(Duty.values()).filter(duty -> maybe()).toList(),
                    from,
                    maybe() ? Optional.empty() : Optional.of(from.plusDays(random.nextInt(900))),
                    text());
        }));
    }

    private Lot lot(int i) {
        return new Lot(
                "L" + i, any(Lot.Kind.values()), text(), word(), day(), Duration.ofMinutes(random.nextInt(3000)));
    }

    private Part part(int i) {
        return new Part(
                "P" + i,
                word(),
                text(),
                some(2, k -> word()),
                Arrays.stream(Duty.values()).filter(duty -> maybe()).toList(),
                maybe() ? OptionalInt.empty() : OptionalInt.of(random.nextInt(9)),
                maybeDay());
    }

    private Tester tester(int i) {
        return new Tester("E" + i, text(), text(), some(2, k -> {
            LocalDate from = day();
            return new Tester.Certificate(word(), text(), from, from.plusDays(random.nextInt(900)));
        }));
    }
}
