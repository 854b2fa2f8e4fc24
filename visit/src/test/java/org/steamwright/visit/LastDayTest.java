package org.steamwright.visit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.assessment.verdict.RunVerdict.RunOutcome.PASS;

import java.time.LocalDate;
import java.time.Period;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRule;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.InventedRegister;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.Week;
import org.steamwright.visit.validity.ValidatedState;

class LastDayTest {

    static final Source SOURCE =
            new Source("example rule", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "invented for tests");

    /** Four years day by day, so every month end and the leap day are among them. */
    @Test
    void the_clinic_and_the_office_have_the_same_last_day() {
        Invented invented = new Invented();
        invented.leak("without sensors", PASS).empty(PASS).loaded(PASS, PASS, PASS);
        for (int months : List.of(1, 6, 12, 14)) {
            invented.revalidation = Optional.of(months);
            for (LocalDate day = LocalDate.of(2023, 3, 1);
                    day.isBefore(LocalDate.of(2027, 3, 1));
                    day = day.plusDays(1)) {
                invented.date = Optional.of(day);
                AssessedVisit assessed = invented.assessed();
                LocalDate last = assessed.validUntil().orElseThrow();
                assertThat(due(day, months, day).day())
                        .as("%s and %s months", day, months)
                        .contains(last);

                ValidatedState state = ValidatedState.of(assessed).get(0);
                assertThat(state.reasonsAgainst("Wrapped 134", last, OptionalInt.empty()))
                        .isEmpty();
                assertThat(due(day, months, last).urgency()).isEqualTo(Due.Urgency.TODAY);
                assertThat(state.reasonsAgainst("Wrapped 134", last.plusDays(1), OptionalInt.empty()))
                        .containsExactly("It ended with " + last + ".");
                assertThat(due(day, months, last.plusDays(1)).urgency()).isEqualTo(Due.Urgency.OVERDUE);
            }
        }
    }

    private static Due due(LocalDate last, int months, LocalDate today) {
        DueRule rule = new DueRule(
                "validation",
                Duty.VALIDATION,
                Optional.of(Period.ofMonths(months)),
                OptionalLong.empty(),
                OptionalLong.empty(),
                Period.ZERO,
                false,
                false,
                SOURCE);
        Register register = new Register(
                List.of(InventedRegister.clinic("", Week.USUAL)),
                List.of(new InventedRegister.Machine()
                        .did(Duty.VALIDATION, last.toString())
                        .build()),
                List.of(),
                List.of(),
                List.of(),
                List.of());
        return DueList.of(
                        register,
                        new DueRules(List.of(new DueRules.RuleSet("common", "Common", "", List.of(rule)))),
                        today)
                .get(0);
    }
}
