package org.steamwright.intake.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.steamwright.intake.table.FileBytes;
import org.steamwright.visit.JobSheet;
import org.steamwright.visit.Visit;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.job.TaskEntry;
import org.steamwright.visit.job.TaskList;
import org.steamwright.visit.job.TaskRecord;
import org.steamwright.visit.plan.StepKind;
import org.steamwright.visit.qualification.Qualification.Kind;

class JobFactsTest {

    @TempDir
    Path folder;

    static List<String> shipped() {
        return TaskLists.SHIPPED;
    }

    @ParameterizedTest
    @MethodSource("shipped")
    void a_list_that_comes_with_the_program_can_be_read_and_says_where_it_comes_from(String name) {
        Problems problems = new Problems(name);
        Optional<TaskList> list = TaskLists.read(TaskLists.shipped(name), problems);
        assertThat(problems.isEmpty()).isTrue();
        assertThat(list.orElseThrow().name()).isEqualTo(name);
        assertThat(list.get().provenance()).contains("no source");
        assertThat(list.get().tasks()).hasSizeGreaterThan(5);
        assertThat(list.get().tasks())
                .filteredOn(task -> task.limit().isPresent())
                .allSatisfy(task -> assertThat(task.limit().get().source()).contains("set your local limit"));
    }

    @Test
    void a_reading_is_held_against_the_limit_of_its_task() throws IOException, VisitFolderException {
        JobSheet job = job("""
                  tasks:
                    - list: bench-safety
                      entries: [{task: earth, outcome: done, reading: 0.31 Ω}]
                """);
        TaskRecord.Line earth = job.tasks().get(0).lines().get(1);
        assertThat(earth.entry().flatMap(TaskEntry::reading)).contains(0.31);
        assertThat(earth.standing()).isEqualTo(TaskRecord.Standing.BAD);
    }

    @Test
    void a_list_of_the_folder_carries_its_own_hash() throws IOException, VisitFolderException {
        byte[] own = """
                steamwright-task-list: 1
                name: our-list
                version: 3
                part: safety
                family: bench
                interval: yearly
                provenance: own rule 7
                tasks: [{id: earth, title: Earth, limit: {at-most: 0.2, unit: Ω, source: own rule 7}}]
                """.getBytes(StandardCharsets.UTF_8);
        VisitFixture fixture = VisitFixture.tenLines(folder).file("our-list.yaml", own);
        Visit visit = fixture.yaml(VisitFixture.TEN_LINES + """
                job-sheet:
                  tasks: [{list: our-list.yaml, entries: [{task: earth, outcome: done, reading: 0.1 Ω}]}]
                """).read();
        assertThat(visit.job().tasks().get(0).list().sha256()).isEqualTo(FileBytes.sha256(own));
        assertThat(visit.job().tasks().get(0).isBad()).isFalse();
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(
            delimiter = '|',
            value = {
                "tasks: [{list: bench-safty, entries: []}] | VISIT-080",
                "tasks: [{list: bench-safety, entries: [{task: erth, outcome: done}]}] | Did you mean \"earth\"",
                "tasks: [{list: bench-safety, entries: [{task: earth, outcome: done, reading: 0.1}]}] | expected a reading in Ω",
                "tasks: [{list: bench-safety, entries: [{task: visual, outcome: not-possible}]}] | nobody says why",
                "conditions: [{text: fit a filter, owner: manager}] | a condition has an end, a day or a cycle number",
                "conditions: [{text: fit a filter, until: 2026-04-01}] | found no \"owner\"",
                "other-cycles: [{first: 12, kind: stopped}] | without a note that says why",
                "changes: [{moved: yes}] | nobody says what",
                "indications: [{run: 9, at: 1 min, temperature: 134 °C, last-digit: 0.1 K, tolerance: 1 K, tolerance-source: x}] | expected one from 1 to 1",
                "indications: [{run: 1, at: 1 min, last-digit: 0.1 K, tolerance: 1 K, tolerance-source: x}] | found neither of temperature and pressure",
                "indications: [{run: 1, at: 1 min, pressure: 305 kPa, last-digit: 1 kPa, tolerance: 5 kPa, tolerance-source: x}] | expected the word absolute",
                "failures: [{kind: air-leakage, closed-on: 2026-03-02}] | a failure is closed with its cause",
                "evidence: [{kind: air-leakage, on: 2026-02-27}] | found no \"reference\"",
                "penetration: [{cycle: a, kind: lumen, device: b, result: pass}] | expected one of hollow, porous",
            })
    void what_is_wrong_is_told_with_its_remedy(String line, String expected) {
        VisitFixture.tenLines(folder).yaml(VisitFixture.TEN_LINES + "job-sheet:\n  " + line + "\n");
        assertThat(new VisitFixture(folder).problems())
                .singleElement()
                .asString()
                .contains(expected);
    }

    @Test
    void a_visit_says_what_it_was_asked_for_and_until_when_it_stands() throws Exception {
        JobSheet asked = job("""
                  scope: {leak: yes, performance: no, cycles: 134 wrapped, because: a new door seal}
                  valid-until: 2027-03-02
                """);
        assertThat(asked.scope())
                .isEqualTo(new Scope(Set.of(Kind.PERFORMANCE), List.of("134 wrapped"), "a new door seal"));
        assertThat(asked.validUntil()).contains(LocalDate.of(2027, 3, 2));
        assertThat(job("  cycles-until-due: 1500\n").scope()).isEqualTo(Scope.EVERYTHING);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "scope: {leak: perhaps}           | found \"perhaps\"",
                "scope: {cycles: [porous]}        | found the cycle \"porous\" in the scope, expected a cycle of the sterilisers of this visit: 134 wrapped",
                "valid-until: next spring         | next spring",
            })
    void a_scope_that_means_nothing_is_told_with_its_remedy(String line, String expected) {
        VisitFixture.tenLines(folder).yaml(VisitFixture.TEN_LINES + "job-sheet:\n  " + line + "\n");
        assertThat(new VisitFixture(folder).problems())
                .singleElement()
                .asString()
                .contains(expected);
    }

    @Test
    void a_limit_without_a_side_is_told_in_the_file_of_the_list() {
        VisitFixture.tenLines(folder)
                .file("our-list.yaml", """
                        steamwright-task-list: 1
                        name: our-list
                        version: 1
                        part: safety
                        family: bench
                        interval: yearly
                        provenance: own
                        tasks: [{id: earth, title: Earth, limit: {unit: Ω, source: own}}]
                        """)
                .yaml(VisitFixture.TEN_LINES + "job-sheet:\n  tasks: [{list: our-list.yaml, entries: []}]\n");
        assertThat(new VisitFixture(folder).problems())
                .singleElement()
                .asString()
                .contains("our-list.yaml, line 8")
                .contains("found neither of at-most and at-least");
    }

    @Test
    void a_visit_carries_the_matrix_of_the_program_or_its_own() throws Exception {
        assertThat(job("  interim-until: 2026-03-16\n").afterChange()).contains(AfterChangeFile.shipped());
        VisitFixture own = VisitFixture.tenLines(folder)
                .file("our-matrix.yaml", """
                        steamwright-after-change: 1
                        times:
                          steps: {%s}
                          cycle-overhead: {B: 25, S: 20, N: 15}
                          source: {document: our handbook, provenance: user, confidence: high}
                        reasons:
                          - reason: door-spring
                            title: Door spring
                            checks: [leak-without-sensors]
                            source: {document: our handbook, provenance: user, confidence: high}
                        """.formatted(Arrays.stream(StepKind.values())
                        .map(step -> step.word() + ": 5")
                        .collect(Collectors.joining(", "))))
                .yaml(VisitFixture.TEN_LINES + "job-sheet:\n  after-change: our-matrix.yaml\n");
        assertThat(own.read().job().afterChange().orElseThrow().words()).containsExactly("door-spring");
        VisitFixture broken = own.file("our-matrix.yaml", "steamwright-after-change: 1\nreasons: [{reason: a}]\n");
        assertThat(broken.problems())
                .anySatisfy(problem -> assertThat(problem).asString().startsWith("VISIT-008 our-matrix.yaml, line 2"));
        assertThat(own.yaml(VisitFixture.TEN_LINES + "job-sheet:\n  after-change: none.yaml\n")
                        .problems())
                .singleElement()
                .asString()
                .startsWith("VISIT-022");
    }

    private JobSheet job(String lines) throws IOException, VisitFolderException {
        return VisitFixture.tenLines(folder)
                .yaml(VisitFixture.TEN_LINES + "job-sheet:\n" + lines)
                .read()
                .job();
    }
}
