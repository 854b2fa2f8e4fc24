package org.steamwright.records.retention;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.SampleRecord;
import org.steamwright.records.TestClock;

class RetentionTest {

    static final LocalDate LAST = LocalDate.parse("2026-03-02");

    @TempDir
    Path folder;

    final Retention retention = Retention.standard();

    @Test
    void the_longest_applicable_rule_wins() {
        assertThat(retention
                        .keep(List.of("england-dental"), LAST, Optional.empty())
                        .until())
                .contains(LocalDate.parse("2028-03-02"));
        assertThat(retention.keep(
                        List.of("england-dental", "australia-practice", "usa-example"), LAST, Optional.empty()))
                .isEqualTo(
                        new Retention.Keep(
                                Optional.of(LocalDate.parse("2033-03-02")),
                                "Australia, general practice: 7 years from the last entry (RACGP, Documenting reprocessing, 18 August 2023)"));
    }

    @Test
    void what_counts_from_the_end_of_life_has_no_end_while_the_steriliser_lives() {
        assertThat(retention
                        .keep(List.of("scotland-dental"), LAST, Optional.empty())
                        .until())
                .isEmpty();
        assertThat(retention
                        .keep(List.of("scotland-dental"), LAST, Optional.of(LocalDate.parse("2031-01-01")))
                        .until())
                .contains(LocalDate.parse("2056-01-01"));
        assertThat(retention.keep(List.of(), LAST, Optional.empty()).until()).isEmpty();
        assertThatThrownBy(() -> retention.keep(List.of("moon"), LAST, Optional.empty()))
                .hasMessageContaining("no retention rule is called 'moon'");
    }

    @Test
    void a_legal_hold_has_no_end() {
        try (Records records = Records.open(Place.folder(folder), new TestClock())) {
            SampleRecord sample = new SampleRecord(records);
            assertThat(retention
                            .keep(records, sample.sterilizer, List.of("england-dental"), Optional.empty())
                            .until())
                    .contains(LocalDate.parse("2028-03-02"));
            records.append(
                    SampleRecord.ALEX,
                    List.of(Change.set(Kind.STERILIZER, sample.sterilizer, Retention.LEGAL_HOLD, "inquiry 12")));
            assertThat(retention.keep(records, sample.sterilizer, List.of("england-dental"), Optional.empty()))
                    .isEqualTo(new Retention.Keep(Optional.empty(), "legal hold: inquiry 12"));
        }
    }

    @Test
    void every_rule_names_its_source_and_how_sure_it_is() {
        assertThat(retention.rules()).hasSizeGreaterThan(5).allSatisfy(rule -> {
            assertThat(rule.source()).isNotBlank();
            assertThat(rule.certainty()).isNotBlank();
        });
        assertThatThrownBy(() -> Retention.of("[{\"id\":\"x\",\"years\":2}]"))
                .hasMessage("retention rule 1: 'where' is missing");
    }
}
