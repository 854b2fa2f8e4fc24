package org.steamwright.intake.register;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.StepKind;
import org.steamwright.visit.register.Duty;

class DataFilesTest {

    final DueRules rules = DataFiles.dueRules();
    final AfterChange matrix = DataFiles.afterChange();

    @Test
    void rules_without_a_source_say_so() {
        assertThat(rules.find("common").orElseThrow())
                .allMatch(rule -> rule.source().provenance() == Source.Provenance.COMMON_PRACTICE);
        assertThat(rules.names()).containsExactly("common", "au", "uk", "ie", "de");
    }

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource({
        "au, validation,           P12M",
        "uk, pressure-examination, P14M",
        "ie, pressure-examination, P14M",
        "de, validation,           P12M",
        "uk, service,              P12M",
    })
    void places_have_their_intervals(String set, String id, String every) {
        assertThat(rules.find(set).orElseThrow().stream()
                        .filter(rule -> rule.id().equals(id))
                        .findFirst()
                        .orElseThrow()
                        .every()
                        .orElseThrow())
                .hasToString(every);
    }

    /** The lines of the default matrix, as the trade would read them off. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "commissioning,         vacuum, all,     all,   true,  true",
        "yearly,                vacuum, all,     all,   true,  true",
        "re-test,               vacuum, named,   named, false, false",
        "seal-filter-hose,      none,   one-run, none,  false, false",
        "pump-valves-pipework,  vacuum, vacuum,  all,   true,  false",
        "sensor,                vacuum, all,     all,   false, false",
        "control-firmware,      vacuum, all,     all,   true,  true",
        "heater-generator,      vacuum, all,     all,   true,  false",
        "safety-valve,          none,   one-run, none,  false, false",
        "moved-on-bench,        none,   one-run, none,  false, true",
        "moved-site,            vacuum, all,     all,   true,  true",
        "new-load,              none,   none,    named, false, false",
        "new-cycle,             vacuum, named,   named, false, false",
    })
    void a_change_asks_for_its_tests(
            String reason,
            String penetration,
            String empty,
            String loaded,
            boolean isElectrical,
            boolean isInstallation) {
        AfterChange.Row row = matrix.find(reason).orElseThrow();
        assertThat(List.of(
                        row.penetration().word(),
                        row.empty().word(),
                        row.loaded().word()))
                .containsExactly(penetration, empty, loaded);
        assertThat(row.checks().contains(StepKind.ELECTRICAL)).isEqualTo(isElectrical);
        assertThat(row.checks().contains(StepKind.INSTALLATION)).isEqualTo(isInstallation);
        assertThat(row.checks().contains(StepKind.LEAK_WITHOUT_SENSORS))
                .as("a leak test unless only load or cycle are new")
                .isEqualTo(!Set.of("new-load", "new-cycle").contains(reason));
    }

    @Test
    void the_example_is_due_as_its_page_says() {
        assertThat(DueList.of(Office.example(), rules, LocalDate.of(2026, 3, 2)))
                .extracting(due -> due.subject().id() + " " + due.title() + ": " + due.when())
                .startsWith(
                        "ST-03 Electrical safety test: due now, never recorded as done",
                        "ST-03 Service: due now, never recorded as done",
                        "ST-03 Validation: due now, never recorded as done",
                        "ST-01 Validation: overdue since 2026-01-16 (46 days)",
                        "ST-02 Validation: overdue since 2026-02-11 (20 days)",
                        "TL-12 Calibration: overdue since 2026-03-01 (2 days)",
                        "ST-01 Electrical safety test: due in 1 day, on 2026-03-03")
                .hasSize(15);
    }

    @Test
    void an_office_may_have_rules_of_its_own(@TempDir Path folder) throws Exception {
        Path file = Files.writeString(folder.resolve("rules.yaml"), """
                steamwright-due-rules: 1
                sets:
                  - name: ours
                    rules:
                      - id: validation
                        duty: validation
                        every: 2 weeks
                        source: {document: our handbook, provenance: user, confidence: high}
                """);
        assertThat(DataFiles.dueRules(file).find("").orElseThrow())
                .singleElement()
                .matches(rule -> rule.duty() == Duty.VALIDATION
                        && rule.every().orElseThrow().toString().equals("P14D"));
    }
}
