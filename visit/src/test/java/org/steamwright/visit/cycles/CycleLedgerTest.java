package org.steamwright.visit.cycles;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.steamwright.visit.cycles.CycleLedger.Kind;
import org.steamwright.visit.cycles.CycleLedger.Line;
import org.steamwright.visit.cycles.CycleLedger.NumberedRun;
import org.steamwright.visit.job.OtherCycles;

class CycleLedgerTest {

    static final CycleLedger.Notes NO_NOTES = (first, last) -> false;

    @Test
    void every_number_from_arrival_to_departure_is_something() {
        CycleLedger ledger = new CycleLedger(
                OptionalInt.of(4711),
                OptionalInt.of(4719),
                List.of(run(1, 4713), run(2, 4714), run(3, 4717)),
                List.of(other(4712, 4712, OtherCycles.Kind.WARM_UP), other(4715, 4716, OtherCycles.Kind.SERVICE)),
                NO_NOTES);
        assertThat(ledger.lines())
                .containsExactly(
                        new Line(4712, 4712, Kind.OTHER, "warm-up"),
                        new Line(4713, 4713, Kind.RUN, "run 1, loaded"),
                        new Line(4714, 4714, Kind.RUN, "run 2, loaded"),
                        new Line(4715, 4716, Kind.OTHER, "made during the service"),
                        new Line(4717, 4717, Kind.RUN, "run 3, loaded"),
                        new Line(4718, 4719, Kind.UNEXPLAINED, "not explained"));
        assertThat(ledger.unexplained()).hasSize(1);
    }

    @Test
    void a_number_that_two_things_claim_is_said() {
        CycleLedger ledger = new CycleLedger(
                OptionalInt.empty(),
                OptionalInt.empty(),
                List.of(run(1, 10), run(2, 10)),
                List.of(other(10, 11, OtherCycles.Kind.OWN_TEST)),
                NO_NOTES);
        assertThat(ledger.lines())
                .containsExactly(
                        new Line(10, 10, Kind.TWICE, "run 1; run 2; cycles 10 to 11, the steriliser's own test"),
                        new Line(11, 11, Kind.OTHER, "the steriliser's own test"));
    }

    @Test
    void a_run_whose_number_was_not_read_takes_one_between_its_neighbours() {
        CycleLedger ledger = new CycleLedger(
                OptionalInt.of(9), OptionalInt.of(12), List.of(run(1, 10), unread(2), run(3, 12)), List.of(), NO_NOTES);
        assertThat(ledger.lines()).extracting(Line::kind).containsExactly(Kind.RUN, Kind.UNREAD, Kind.RUN);
        assertThat(ledger.isBrokenBetween(run(1, 10), run(3, 12))).isFalse();
    }

    @Test
    void too_few_unread_runs_do_not_explain_a_longer_gap() {
        CycleLedger ledger = new CycleLedger(
                OptionalInt.of(9), OptionalInt.of(13), List.of(run(1, 10), unread(2), run(3, 13)), List.of(), NO_NOTES);
        assertThat(ledger.lines()).extracting(Line::kind).containsExactly(Kind.RUN, Kind.UNEXPLAINED, Kind.RUN);
    }

    @Test
    void a_cycle_that_failed_breaks_a_row_even_when_it_is_named() {
        List<NumberedRun> runs = List.of(run(1, 10), run(2, 12));
        CycleLedger stopped = new CycleLedger(
                OptionalInt.empty(),
                OptionalInt.empty(),
                runs,
                List.of(other(11, 11, OtherCycles.Kind.STOPPED)),
                NO_NOTES);
        CycleLedger failed = new CycleLedger(
                OptionalInt.empty(),
                OptionalInt.empty(),
                runs,
                List.of(other(11, 11, OtherCycles.Kind.FAILED)),
                NO_NOTES);
        assertThat(stopped.isBrokenBetween(runs.get(0), runs.get(1))).isFalse();
        assertThat(failed.isBrokenBetween(runs.get(0), runs.get(1))).isTrue();
    }

    @Test
    void a_cycle_that_only_a_note_tells_of_breaks_a_row_since_nobody_reads_the_note() {
        List<NumberedRun> runs = List.of(run(1, 10), run(2, 12));
        CycleLedger noted = new CycleLedger(
                OptionalInt.empty(), OptionalInt.empty(), runs, List.of(), (first, last) -> first == 11 && last == 11);
        assertThat(noted.lines()).extracting(Line::kind).containsExactly(Kind.RUN, Kind.NOTED, Kind.RUN);
        assertThat(noted.unexplained()).isEmpty();
        assertThat(noted.isBrokenBetween(runs.get(0), runs.get(1))).isTrue();
    }

    @Test
    void an_other_cycle_says_what_it_was() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new OtherCycles("A", 11, 11, OtherCycles.Kind.STOPPED, " "))
                .withMessage("a cycle of the kind 'stopped' without a note that says why");
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new OtherCycles("A", 12, 11, OtherCycles.Kind.WARM_UP, ""))
                .withMessage("cycle numbers from 12 to 11");
    }

    /** The sweep against a slow second look at every single number. */
    @Property(tries = 500)
    void says_of_every_number_what_a_look_at_that_number_alone_says(@ForAll long seed) {
        Random random = new Random(seed);
        List<NumberedRun> runs = new ArrayList<>();
        int number = random.nextInt(5);
        for (int i = 1; i <= 1 + random.nextInt(6); i++) {
            number += random.nextInt(4);
            runs.add(random.nextInt(5) == 0 ? unread(i) : run(i, number));
        }
        List<OtherCycles> others = new ArrayList<>();
        for (int i = 0; i < random.nextInt(4); i++) {
            int first = random.nextInt(20);
            others.add(other(first, first + random.nextInt(4), OtherCycles.Kind.WARM_UP));
        }
        CycleLedger ledger = new CycleLedger(OptionalInt.of(0), OptionalInt.of(25), runs, others, NO_NOTES);
        List<Line> lines = ledger.lines(1, 25);
        int next = 1;
        for (Line line : lines) {
            assertThat(line.first()).as("no number is left out or told twice").isEqualTo(next);
            for (int n = line.first(); n <= line.last(); n++) {
                int at = n;
                long claims = runs.stream()
                                .filter(run -> run.machineCycle().isPresent()
                                        && run.machineCycle().getAsInt() == at)
                                .count()
                        + others.stream().filter(other -> other.covers(at)).count();
                boolean isFree = line.kind() == Kind.UNEXPLAINED || line.kind() == Kind.UNREAD;
                assertThat(claims == 0).as("%s in %s", n, lines).isEqualTo(isFree);
                assertThat(claims > 1).as("%s in %s", n, lines).isEqualTo(line.kind() == Kind.TWICE);
            }
            next = line.last() + 1;
        }
        assertThat(next).isEqualTo(26);
    }

    private static NumberedRun run(int run, int cycle) {
        return new NumberedRun(run, OptionalInt.of(cycle), "loaded");
    }

    private static NumberedRun unread(int run) {
        return new NumberedRun(run, OptionalInt.empty(), "loaded");
    }

    private static OtherCycles other(int first, int last, OtherCycles.Kind kind) {
        boolean needsNote = kind == OtherCycles.Kind.STOPPED || kind == OtherCycles.Kind.FAILED;
        return new OtherCycles("A", first, last, kind, needsNote ? "power cut" : "");
    }
}
