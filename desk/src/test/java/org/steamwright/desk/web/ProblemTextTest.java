package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.desk.text.Figures;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.text.Words;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.FactPath;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.report.language.Language;
import org.steamwright.visit.Doubt;

class ProblemTextTest {

    private static final Remark PHOTO = new Remark(
            "VISIT-053",
            Rank.DOUBT,
            "visit.yaml, line 58, runs[2].load.photos[1]",
            "The photo \"load.jpg\" is not in the visit folder. Copy it there before the report goes out.",
            List.of(List.of("runs", "2", "load", "photos", "1")));

    private static Frame frame(Language language) {
        return new Frame(
                Words.in(language),
                new Figures(language),
                Person.STRANGER,
                "/visits",
                "",
                Set.of(),
                false,
                false,
                Alarm.NONE);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            ENGLISH | Run 2, load, photo 1: The photo
            GERMAN  | Lauf 2, Beladung, Foto 1: Das Foto
            """)
    void a_doubt_is_said_with_its_place_and_without_file_line_and_number(Language language, String said) {
        Doubt doubt = new Doubt(OptionalInt.empty(), PHOTO);
        Told told = ProblemText.ofPoint(frame(language), doubt.sentence(), List.of(doubt));

        assertThat(told.text()).startsWith(said).doesNotContain("visit.yaml", "58", "VISIT-053");
        assertThat(told.isEnglish()).isFalse();
    }

    @Test
    void a_doubt_about_a_recording_is_said_with_its_run_and_file() {
        Doubt doubt = new Doubt(
                OptionalInt.of(3), new Remark("VISIT-061", Rank.DOUBT, "run-3.csv", "Edited outside? In this file x."));

        assertThat(ProblemText.ofPoint(frame(Language.ENGLISH), doubt.sentence(), List.of(doubt))
                        .text())
                .isEqualTo("run 3, run-3.csv: Edited outside? In this file x. To be answered before anybody signs.");
    }

    @Test
    void what_only_a_file_needs_is_not_told() {
        DraftProblem problem = new DraftProblem(
                "VISIT-040",
                "",
                Optional.of(FactPath.parse("runs/1/recording/1")),
                Flaw.of("found no way to compare the clocks.").inFile("Write for example: clock: {offset: 3 s}"));

        assertThat(ProblemText.of(frame(Language.ENGLISH), problem).text())
                .isEqualTo("run 1, recording 1: found no way to compare the clocks.");
    }

    @Test
    void a_name_that_the_visit_does_not_have_is_said_for_what_it_names() {
        Flaw flaw = Flaw.notAmong(
                        "found the cycle \"%s\", expected one of %s.", "B 121", List.of("B 134", "B 134 long"))
                .with("Correct the name, or add the cycle to its sterilizer.");
        DraftProblem problem = new DraftProblem("VISIT-018", "", Optional.of(FactPath.parse("runs/2/cycle")), flaw);

        assertThat(ProblemText.of(frame(Language.ENGLISH), problem).text())
                .isEqualTo("run 2, Cycle: the steriliser has no cycle “B 121” any more."
                        + " Choose another, or add it under Identity.");
        assertThat(ProblemText.what(frame(Language.ENGLISH), problem).text())
                .isEqualTo("“B 121” is none of these: B 134, B 134 long.");
    }

    @Test
    void a_recording_of_another_run_is_said_with_that_run_and_no_line() {
        Flaw flaw = Flaw.found(
                        Flaw.Sort.SAME_RECORDING,
                        "found in %s the same bytes as in run-1.csv in runs[1].recording (line 33), expected a"
                                + " recording of its own for each run.",
                        "run-2.csv")
                .expecting("run-1.csv", "1");
        DraftProblem problem = new DraftProblem("VISIT-024", "", Optional.of(FactPath.parse("runs/2/recording")), flaw);

        assertThat(ProblemText.of(frame(Language.ENGLISH), problem).text())
                .contains("run-2.csv holds the same as run-1.csv, the recording of run 1.")
                .doesNotContain("33", "runs[");
    }
}
