package org.steamwright.visit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.StepKind;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Sterilizer;

/**
 * What has to be added to a visit before cycles may be run whose loaded runs pass, and about how long it takes: whoever reads it
 * stands beside the steriliser still, or plans to come back.
 */
final class StillToTest {

    private final Visit visit;
    private final List<Qualification> qualifications;
    private final List<String> sentences = new ArrayList<>();

    private StillToTest(Visit visit, List<Qualification> qualifications) {
        this.visit = visit;
        this.qualifications = qualifications;
    }

    /** One sentence for each test, and why; empty if no cycle waits for one. */
    static List<String> of(Visit visit, List<Qualification> qualifications) {
        StillToTest still = new StillToTest(visit, qualifications);
        if (visit.clinic().isPresent()) {
            visit.sterilizers().forEach(still::add);
        }
        if (!still.sentences.isEmpty()) {
            still.sentences.add("Loaded runs alone qualify no cycle; that is this program's own rule.");
        }
        return List.copyOf(still.sentences);
    }

    private void add(Sterilizer sterilizer) {
        List<String> loaded = qualifications.stream()
                .filter(one -> isOf(one, Kind.PERFORMANCE, sterilizer))
                .filter(one -> one.standing() == Standing.PASS || one.standing() == Standing.AWAITED)
                .map(Qualification::cycle)
                .toList();
        if (loaded.isEmpty()) {
            return;
        }
        Optional<AfterChange.Times> times = visit.job().afterChange().map(AfterChange::times);
        qualifications.stream()
                .filter(one -> isOf(one, Kind.LEAK, sterilizer) && isMissing(one))
                .forEach(one -> leak(sterilizer, times));
        qualifications.stream()
                .filter(one -> isOf(one, Kind.OPERATIONAL, sterilizer) && isMissing(one))
                .filter(one -> loaded.contains(one.cycle()))
                .forEach(one -> empty(sterilizer, one.cycle(), times));
    }

    private static boolean isOf(Qualification one, Kind kind, Sterilizer sterilizer) {
        return one.kind() == kind && one.sterilizer().equals(sterilizer.key());
    }

    private boolean isMissing(Qualification one) {
        return one.standing() == Standing.NOT_ASSESSED && FitCycle.isAskedFor(visit, one);
    }

    private void leak(Sterilizer sterilizer, Optional<AfterChange.Times> times) {
        String name = Words.capital(Words.sterilizer(sterilizer));
        sentences.add(times.map(known ->
                        "%s passes with a load, but its air leakage was not tested. Add an air leakage test without sensors, about %s minutes."
                                .formatted(name, known.of(StepKind.LEAK_WITHOUT_SENSORS)))
                .orElseGet(() ->
                        "%s passes with a load, but its air leakage was not tested. Add an air leakage test without sensors."
                                .formatted(name)));
    }

    private void empty(Sterilizer sterilizer, String cycle, Optional<AfterChange.Times> times) {
        String quoted = Words.quoted(cycle);
        String name = Words.sterilizer(sterilizer);
        Optional<Integer> minutes =
                times.flatMap(known -> definition(sterilizer, cycle).map(one -> known.of(StepKind.EMPTY_CHAMBER, one)));
        sentences.add(minutes.map(known ->
                        "Cycle %s of %s passes with its load, but was not run with the chamber empty. Add an empty-chamber run of it, about %s minutes."
                                .formatted(quoted, name, known))
                .orElseGet(() ->
                        "Cycle %s of %s passes with its load, but was not run with the chamber empty. Add an empty-chamber run of it."
                                .formatted(quoted, name)));
    }

    private Optional<CycleDefinition> definition(Sterilizer sterilizer, String cycle) {
        return sterilizer.cycles().stream()
                .filter(one -> Words.key(one.name()).equals(Words.key(cycle)))
                .findFirst()
                .or(() -> visit.runs().stream()
                        .filter(run -> run.sterilizer().equals(sterilizer.key()))
                        .map(run -> run.test().cycle())
                        .filter(one -> Words.key(one.name()).equals(Words.key(cycle)))
                        .findFirst());
    }
}
