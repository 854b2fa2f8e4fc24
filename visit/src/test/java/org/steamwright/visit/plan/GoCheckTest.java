package org.steamwright.visit.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.visit.register.InventedRegister.ADELAIDE;
import static org.steamwright.visit.register.InventedRegister.day;
import static org.steamwright.visit.register.InventedRegister.logger;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.InventedRegister;
import org.steamwright.visit.register.InventedRegister.Machine;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;

class GoCheckTest {

    final SterilizerRecord machine = new Machine().build();
    final Register register = InventedRegister.register(machine);
    final VisitPlan plan =
            Planning.of(PlanningTest.matrix(), register, machine, PlanningTest.set(3), List.of("yearly"), List.of());

    static Instant at(String local) {
        return LocalDateTime.parse(local).atZone(ADELAIDE).toInstant();
    }

    GoCheck.Kit kit() {
        return new GoCheck.Kit(Optional.of(InventedRegister.technician()), register.instruments(), register.lots());
    }

    GoCheck check(GoCheck.Kit kit, String begins) {
        return GoCheck.of(plan, register, kit, at(begins), ADELAIDE);
    }

    static List<String> said(GoCheck check, GoCheck.Answer answer) {
        return check.of(answer).stream()
                .map(point -> point.subject() + ": " + point.sentence())
                .toList();
    }

    GoCheck.Kit with(ReferenceInstrument instrument) {
        return new GoCheck.Kit(
                kit().technician(), List.of(instrument, logger("PL-11", Quantity.PRESSURE)), kit().lots());
    }

    GoCheck.Kit with(Lot lot) {
        return new GoCheck.Kit(
                kit().technician(),
                kit().instruments(),
                List.of(lot, register.lots().get(1), register.lots().get(2)));
    }

    @Test
    void goes_when_everything_is_there_and_in_date() {
        GoCheck check = check(kit(), "2026-03-02T09:00");
        assertThat(said(check, GoCheck.Answer.BLOCKS)).isEmpty();
        assertThat(check.isGo()).isTrue();
        assertThat(said(check, GoCheck.Answer.WARNS))
                .containsExactly(
                        "electrical safety tester: The register keeps no electrical tester: look at its calibration"
                                + " label yourself, or add it to 'testers'.",
                        "P-1: Door seal is not in store. Order it.",
                        "P-1: Door seal may be fitted until 2026-01-31 only.");
        assertThat(check.of(GoCheck.Answer.FINE)).hasSize(8);
    }

    @ParameterizedTest(name = "arrival {0}: goes {1}, {2}")
    @CsvSource({
        "2026-11-30T08:00, true,  the last day of the certificate is a good day",
        "2026-11-30T20:00, false, the last run ends after midnight",
        "2026-12-01T08:00, false, the day after",
        "2025-11-30T08:00, false, the day before its calibration",
    })
    void an_instrument_has_to_hold_to_the_end_of_the_last_run(String begins, boolean isGo, String why) {
        GoCheck check = check(
                new GoCheck.Kit(
                        kit().technician(),
                        kit().instruments(),
                        List.of(
                                InventedRegister.lot("BI-1", Lot.Kind.BIOLOGICAL, "2028-06-30"),
                                register.lots().get(1),
                                register.lots().get(2))),
                begins);
        assertThat(check.isGo()).as(why).isEqualTo(isGo);
    }

    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource({
        "2025-11-30, 2026-11-30, FINE,   in date to the end of the visit",
        "2025-11-30, 2026-03-02, WARNS,  the last day is a good day",
        "2024-11-30, 2026-03-01, BLOCKS, it ran out the day before",
        "2026-03-03, 2027-03-03, BLOCKS, calibrated the day after",
    })
    void an_electrical_tester_has_to_be_calibrated(LocalDate from, LocalDate until, GoCheck.Answer worst, String why) {
        Tester tester = new Tester(
                "ET-1", "tester (invented)", "", List.of(new Tester.Certificate("K-ET", "laboratory", from, until)));
        Register keeps = new Register(
                register.clinics(),
                register.sterilizers(),
                register.technicians(),
                register.instruments(),
                register.lots(),
                List.of(),
                List.of(tester));
        GoCheck.Kit taken = new GoCheck.Kit(kit().technician(), kit().instruments(), kit().lots(), List.of(tester));
        GoCheck check = GoCheck.of(plan, keeps, taken, at("2026-03-02T09:00"), ADELAIDE);
        assertThat(check.points().stream()
                        .filter(point -> point.subject().equals("ET-1"))
                        .map(GoCheck.Point::answer)
                        .min(Comparator.naturalOrder()))
                .as(why)
                .contains(worst);
        assertThat(said(GoCheck.of(plan, keeps, kit(), at("2026-03-02T09:00"), ADELAIDE), GoCheck.Answer.BLOCKS))
                .as("the office keeps one, and nobody takes it along")
                .containsExactly(
                        "electrical safety tester: No electrical tester is taken along, and the plan needs one.");
        assertThat(GoCheck.fitting(plan, keeps, Optional.empty(), at("2026-03-02T09:00"), ADELAIDE)
                        .testers())
                .hasSize(worst == GoCheck.Answer.BLOCKS ? 0 : 1);
    }

    @Test
    void the_day_is_that_of_the_site() {
        Instant begins = Instant.parse("2026-11-30T09:00:00Z");
        VisitPlan seal =
                Planning.of(PlanningTest.matrix(), register, machine, PlanningTest.set(3), List.of("seal"), List.of());
        GoCheck.Kit kit = new GoCheck.Kit(kit().technician(), kit().instruments(), List.of());
        assertThat(GoCheck.of(seal, register, kit, begins, ADELAIDE).isGo())
                .as("half past seven in the evening in Adelaide, done before midnight")
                .isTrue();
        assertThat(GoCheck.of(seal, register, kit, begins, ZoneId.of("Pacific/Auckland"))
                        .isGo())
                .as("ten in the evening in Auckland, done on 1 December")
                .isFalse();
    }

    @Test
    void says_that_a_visit_goes_past_midnight() {
        assertThat(said(check(kit(), "2026-03-02T20:00"), GoCheck.Answer.WARNS))
                .anyMatch(said -> said.startsWith("visit: The last run ends on 2026-03-03, the day after arrival"));
    }

    @Test
    void blocks_an_instrument_whose_range_is_too_small() {
        assertThat(said(
                        check(with(logger("TL-9", Quantity.TEMPERATURE, "2026-11-30", 135)), "2026-03-02T09:00"),
                        GoCheck.Answer.BLOCKS))
                .containsExactly("TL-9: Its range ends at 135.0 °C; the hottest cycle may reach 138.0 °C.");
        GoCheck.Kit small = new GoCheck.Kit(
                kit().technician(),
                List.of(logger("TL-11", Quantity.TEMPERATURE), logger("PL-9", Quantity.PRESSURE, "2026-11-30", 200)),
                kit().lots());
        assertThat(said(check(small, "2026-03-02T09:00"), GoCheck.Answer.BLOCKS))
                .as("saturated steam of 138 °C has some 341 kPa")
                .containsExactly(
                        "PL-9: Its range ends at 200.0 kPa absolute; the hottest cycle may reach 341.5 kPa absolute.");
    }

    @Test
    void blocks_quarantine_and_no_certificate() {
        ReferenceInstrument good = logger("TL-11", Quantity.TEMPERATURE);
        ReferenceInstrument wet = new ReferenceInstrument(
                "TL-8",
                "",
                Quantity.TEMPERATURE,
                0,
                150,
                good.certificate(),
                List.of(),
                new InstrumentHistory(
                        List.of(), List.of(), List.of(new Quarantine(day("2026-03-01"), Optional.empty(), "soaked"))));
        assertThat(said(check(with(wet), "2026-03-02T09:00"), GoCheck.Answer.BLOCKS))
                .containsExactly("TL-8: It is in quarantine on 2026-03-02: soaked.");
        ReferenceInstrument bare =
                new ReferenceInstrument("TL-7", "", Quantity.TEMPERATURE, 0, 150, Optional.empty(), List.of());
        assertThat(said(check(with(bare), "2026-03-02T09:00"), GoCheck.Answer.BLOCKS))
                .containsExactly("TL-7: It has no calibration certificate.");
    }

    @ParameterizedTest(name = "expires {0}: goes {1}, {2}")
    @CsvSource({
        "2026-03-03, true,  the last day of the incubation is its last day",
        "2026-03-02, false, expires while it is incubated",
        "2026-02-28, false, expired",
    })
    void a_lot_has_to_be_in_date_to_the_end_of_its_incubation(String expires, boolean isGo, String why) {
        GoCheck check = check(with(InventedRegister.lot("BI-2", Lot.Kind.BIOLOGICAL, expires)), "2026-03-02T09:00");
        assertThat(check.isGo()).as(why).isEqualTo(isGo);
    }

    @Test
    void blocks_what_is_missing() {
        GoCheck check = check(new GoCheck.Kit(Optional.empty(), List.of(), List.of()), "2026-03-02T09:00");
        assertThat(said(check, GoCheck.Answer.BLOCKS))
                .containsExactly(
                        "technician: Nobody is chosen. Name who goes.",
                        "temperature: No instrument that measures temperature is taken along, and the plan needs one.",
                        "pressure: No instrument that measures pressure is taken along, and the plan needs one.",
                        "biological: No lot of biological indicators is taken along, and the plan needs one.",
                        "chemical: No lot of chemical indicators is taken along, and the plan needs one.",
                        "penetration-device: No lot of steam penetration test devices is taken along, and the plan"
                                + " needs one.");
    }

    @Test
    void blocks_a_technician_without_the_competence_or_after_it() {
        Technician other = new Technician(
                "AB",
                "Ada Beispiel (invented)",
                List.of(new Technician.Competence(
                        List.of("other family"), List.of(Duty.VALIDATION), day("2024-01-01"), Optional.empty(), "")));
        GoCheck.Kit kit = new GoCheck.Kit(Optional.of(other), kit().instruments(), kit().lots());
        assertThat(said(check(kit, "2026-03-02T09:00"), GoCheck.Answer.BLOCKS))
                .hasSize(3)
                .first()
                .isEqualTo(
                        "AB: The register has no competence of Ada Beispiel (invented) for validation on small-b. Send"
                                + " somebody else, or enter the document.");
        assertThat(said(check(kit(), "2027-01-01T09:00"), GoCheck.Answer.BLOCKS))
                .contains("KS: The competence of Kim Sample (invented) for validation on small-b holds from 2024-01-01"
                        + " until 2026-12-31, not up to the end of the visit on 2027-01-01.");
    }
}
