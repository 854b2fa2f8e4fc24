package org.steamwright.visit;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.indicator.Agreement;
import org.steamwright.assessment.indicator.ChemicalComparison;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.verdict.Ambient;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.visit.cycles.CycleLedger;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** What is missing, awaited, doubtful or unexplained at the end of a visit, one line each, in a fixed order. */
final class OpenPoints {

    /** Chamber volume from which small-sterilizer documents no longer apply. */
    private static final double SMALL_CHAMBER_LITRES = 60;

    private static final Set<String> REVIEWER = Set.of("reviewer", "prüfer", "prüferin", "relecteur", "relectrice");
    private static final Set<String> NO = Set.of("no", "not", "without", "kein", "keine", "nicht", "pas", "sans");

    private final Visit visit;
    private final List<AssessedRun> runs;
    private final List<Qualification> qualifications;
    private final List<Obstacle> obstacles;
    private final Map<String, OpenPoint> points = new LinkedHashMap<>();

    OpenPoints(Visit visit, List<AssessedRun> runs, List<Qualification> qualifications, List<Obstacle> obstacles) {
        this.visit = visit;
        this.runs = runs;
        this.qualifications = qualifications;
        this.obstacles = obstacles;
    }

    List<OpenPoint> find() {
        simulated();
        awaited();
        unrecorded();
        doubts();
        qualifications();
        asFound();
        indicators();
        loads();
        machineCycles();
        instruments();
        new JobPoints(visit, runs, obstacles).find().forEach(this::add);
        lists();
        formalities();
        return List.copyOf(points.values());
    }

    private void add(Where where, String sentence) {
        add(OpenPoint.of(where, sentence));
    }

    private void add(OpenPoint point) {
        points.putIfAbsent(point.sentence(), point);
    }

    private void simulated() {
        if (visit.isSimulated()) {
            add(
                    Where.of(Where.Part.IDENTITY),
                    "Simulated recordings: this visit says nothing about a real steriliser and is signed in an invented record only.");
        }
    }

    private void awaited() {
        for (AssessedRun run : runs) {
            for (Finding finding : run.loadFindings()) {
                if (finding.outcome() == Outcome.AWAITED) {
                    add(
                            Where.of(Where.Part.INDICATORS),
                            "Run %s, biological indicators. %s".formatted(number(run), finding.sentence()));
                }
            }
        }
    }

    private void unrecorded() {
        for (UnrecordedRun run : visit.unrecorded()) {
            Where where = Where.of(Where.Part.RUNS, "runs", run.number(), "recording");
            add(
                    run.isLeftOut()
                            ? new OpenPoint(
                                    OpenPoint.Sort.LEFT_OUT,
                                    where,
                                    "Run %s: its recording can't be assessed yet and was left out."
                                            .formatted(run.number()))
                            : OpenPoint.of(
                                    where,
                                    "Run %s: no recording yet, so nothing of it is assessed.".formatted(run.number())));
        }
    }

    private void doubts() {
        for (Doubt doubt : Doubt.of(visit, runs)) {
            Where where = doubt.run().isPresent()
                    ? Where.of(Where.Part.RUNS, "runs", doubt.run().getAsInt(), "recording")
                    : Where.of(Where.Part.IDENTITY);
            add(new OpenPoint(OpenPoint.Sort.DOUBT, where, doubt.sentence()));
        }
    }

    private void qualifications() {
        for (Qualification qualification : qualifications) {
            if (qualification.standing() == Standing.NOT_ASSESSED) {
                add(
                        Where.of(Where.Part.RUNS),
                        "%s, %s%s: not assessed. %s"
                                .formatted(
                                        qualification.kind().title(),
                                        Words.sterilizer(visit.getSterilizer(qualification.sterilizer())),
                                        qualification.cycle().isEmpty()
                                                ? ""
                                                : ", cycle " + Words.quoted(qualification.cycle()),
                                        qualification.sentence()));
            }
        }
    }

    private void asFound() {
        for (AssessedRun run : runs) {
            if (run.isFail() && run.run().isAsFound()) {
                add(
                        Where.run(number(run)),
                        "Run %s failed as found, before the service: loads since the last good evidence are concerned. The clinic looks back and decides."
                                .formatted(number(run)));
            }
        }
    }

    /** What an indicator says against the thermometry, and what nobody can take as evidence. */
    private void indicators() {
        for (AssessedRun run : runs) {
            boolean isInvalid = run.loadFindings().stream().anyMatch(f -> f.outcome() == Outcome.INVALID);
            for (IndicatorComparison indicator : run.indicators()) {
                if (indicator.agreement().isContradiction()) {
                    add(
                            Where.of(Where.Part.INDICATORS),
                            "Run %s, indicator %s contradicts the thermometry. %s Look for: %s. To be explained before anybody signs."
                                    .formatted(
                                            number(run),
                                            indicator.id(),
                                            indicator.sentence(),
                                            String.join("; ", indicator.hints())));
                } else if (indicator.agreement() == Agreement.VOID && !isInvalid) {
                    add(
                            Where.of(Where.Part.INDICATORS),
                            "Run %s, indicator %s is no evidence. %s"
                                    .formatted(number(run), indicator.id(), indicator.sentence()));
                }
            }
            for (int i = 0; i < run.chemicals().size(); i++) {
                ChemicalComparison chemical = run.chemicals().get(i);
                if (chemical.isQuestion()) {
                    ChemicalIndicator entry = run.run().chemicalEntries().get(i);
                    add(
                            Where.of(Where.Part.INDICATORS),
                            "Run %s, chemical indicator %s (%s): %s. %s To be explained before anybody signs."
                                    .formatted(
                                            number(run),
                                            chemical.id(),
                                            entry.type().words(),
                                            entry.result().words(),
                                            chemical.sentence()));
                }
            }
        }
    }

    private void loads() {
        for (AssessedRun assessed : runs) {
            VisitRun run = assessed.run();
            Where ofLoad = Where.of(Where.Part.LOAD);
            if (run.test().kind() != TestKind.LOADED) {
                continue;
            }
            if (run.after().filter(AfterRun::isTorn).isPresent()) {
                add(
                        Where.run(run.number()),
                        "Run %s: seals of packs were not intact when they were taken out. To be explained before anybody signs."
                                .formatted(run.number()));
            }
            if (run.weighings().isEmpty() && isDrynessDeciding()) {
                add(
                        ofLoad,
                        "Run %s: no pack was weighed before and after, but the criteria set judges the moisture left."
                                .formatted(run.number()));
            }
            if (run.load().isEmpty()) {
                add(
                        ofLoad,
                        "Run %s: the load is not described, so nobody can say later what is covered."
                                .formatted(run.number()));
                continue;
            }
            ReferenceLoad load = run.load().get();
            if (!isAgreed(run, load)) {
                add(
                        Where.of(Where.Part.LOAD, "runs", run.number(), "load", "agreed-by"),
                        "Run %s: nobody of the clinic has agreed that nothing larger or harder than this load will be run."
                                .formatted(run.number()));
            }
            if (load.challengePack().isBlank()) {
                add(
                        Where.of(Where.Part.LOAD, "runs", run.number(), "load", "challenge-pack"),
                        "Run %s: no challenge pack is named.".formatted(run.number()));
            }
            List<String> outside = LoadScope.outside(run);
            if (!outside.isEmpty()) {
                add(
                        ofLoad,
                        "Run %s, cycle %s: type N is for unwrapped solid items only; not covered: %s."
                                .formatted(
                                        run.number(),
                                        Words.quoted(run.test().cycle().name()),
                                        Words.list(outside)));
            }
            if (run.test().cycle().type() == CycleType.S) {
                add(
                        ofLoad,
                        "Cycle %s is of type S: only loads on the maker's list are covered; compare the load with it."
                                .formatted(Words.quoted(run.test().cycle().name())));
            }
        }
    }

    /** Whether the clinic has agreed to this load, here or at another run of the same cycle with the same one. */
    private boolean isAgreed(VisitRun run, ReferenceLoad load) {
        return runs.stream()
                .map(AssessedRun::run)
                .filter(other -> other.sterilizer().equals(run.sterilizer())
                        && Words.key(other.test().cycle().name())
                                .equals(Words.key(run.test().cycle().name())))
                .flatMap(other -> other.load().stream())
                .anyMatch(other -> Words.isName(other.agreedBy()) && other.isSameLoad(load));
    }

    private boolean isDrynessDeciding() {
        return visit.criteriaSet()
                .find(CriterionId.LOAD_DRYNESS)
                .map(Requirement::use)
                .filter(use -> use == Use.DECIDES)
                .isPresent();
    }

    /** Instruments of the runs that nobody looked at again before leaving. */
    private void instruments() {
        for (InstrumentDay day : InstrumentDay.of(visit)) {
            if (day.isCheckMissing()) {
                add(new OpenPoint(
                        OpenPoint.Sort.UNCHECKED,
                        Where.of(Where.Part.INSTRUMENTS),
                        "Instrument %s: no check after the runs."
                                .formatted(day.instrument().id())));
            }
            if (day.isMended()) {
                add(
                        Where.of(Where.Part.INSTRUMENTS),
                        "Instrument %s was off at its check before the runs and good after them. Say among the deviations what was done between."
                                .formatted(day.instrument().id()));
            }
        }
    }

    private void machineCycles() {
        for (Sterilizer sterilizer : visit.sterilizers()) {
            OptionalInt last = sterilizer.counterAtArrival();
            String after = "arrival";
            int unread = 0;
            for (AssessedRun run : runs) {
                if (!run.run().sterilizer().equals(sterilizer.key())) {
                    continue;
                }
                OptionalInt cycle = run.run().machineCycle();
                if (cycle.isEmpty()) {
                    unread++;
                    continue;
                }
                String here = "run " + number(run);
                if (last.isPresent()) {
                    step(sterilizer, last.getAsInt() + unread, after, cycle.getAsInt(), here);
                }
                last = cycle;
                after = here;
                unread = 0;
            }
            if (last.isPresent() && sterilizer.counterAtDeparture().isPresent()) {
                // one more than the last number, so that equal counters mean: nothing in between
                step(
                        sterilizer,
                        last.getAsInt() + unread,
                        after,
                        sterilizer.counterAtDeparture().getAsInt() + 1,
                        "departure");
            }
        }
    }

    private void step(Sterilizer sterilizer, int before, String after, int found, String here) {
        String name = Words.capital(Words.sterilizer(sterilizer));
        if (found <= before) {
            add(
                    Where.of(Where.Part.RUNS),
                    "%s: the cycle number at %s does not come after the one at %s. Was the counter reset or misread?"
                            .formatted(name, here, after));
            return;
        }
        for (CycleLedger.Line line : CycleBook.of(visit, sterilizer).lines(before + 1, found - 1)) {
            if (line.kind() != CycleLedger.Kind.UNEXPLAINED && line.kind() != CycleLedger.Kind.UNREAD) {
                continue;
            }
            add(
                    Where.of(Where.Part.RUNS),
                    line.first() == line.last()
                            ? "%s: cycle %s between %s and %s is not explained. Name the number in a note and say what it was."
                                    .formatted(name, line.first(), after, here)
                            : "%s: cycles %s to %s between %s and %s are not explained. Name the first and the last number in a note and say what they were."
                                    .formatted(name, line.first(), line.last(), after, here));
        }
    }

    private void lists() {
        if (visit.clinic().isEmpty()) {
            add(
                    Where.of(Where.Part.IDENTITY),
                    "A single recording: no clinic, no installation, no maintenance is on record, so this is the verdict of the recording and of nothing else.");
            return;
        }
        Map<Checklist.Section, String> expected = Map.of(
                Checklist.Section.AS_FOUND, "the state as found",
                Checklist.Section.SAFETY, "electrical and pressure safety",
                Checklist.Section.INSTALLATION, "installation qualification (IQ)",
                Checklist.Section.MAINTENANCE, "preventive maintenance");
        for (Sterilizer sterilizer : visit.sterilizers()) {
            for (Checklist.Section section : Checklist.Section.values()) {
                boolean isThere = visit.checklists().stream()
                                .anyMatch(list -> list.section() == section
                                        && list.sterilizer().equals(sterilizer.key())
                                        && !list.items().isEmpty())
                        || visit.job().tasks().stream()
                                .anyMatch(tasks -> tasks.sterilizer().equals(sterilizer.key())
                                        && tasks.list().part().name().equals(section.name()));
                if (expected.containsKey(section) && !isThere) {
                    add(
                            Where.of(Where.part(section)),
                            "%s: no list of %s."
                                    .formatted(Words.capital(Words.sterilizer(sterilizer)), expected.get(section)));
                }
            }
            penetration(sterilizer);
        }
        for (Checklist list : visit.checklists()) {
            String place = Words.capital(Words.sterilizer(visit.getSterilizer(list.sterilizer()))) + ", "
                    + list.section().title();
            for (int i = 0; i < list.items().size(); i++) {
                check(list, list.items().get(i), place, Where.check(visit, list, i + 1));
            }
        }
    }

    private void check(Checklist list, CheckItem item, String place, Where where) {
        switch (CheckResult.of(list.section(), item)) {
            case GOOD, LEFT_OUT -> {}
            case UNEXPLAINED ->
                add(
                        where,
                        "%s: %s – not applicable, and nobody says why. State the reason as the remark."
                                .formatted(place, item.title()));
            case NOT_SAID ->
                add(
                        where,
                        "%s: %s – ‘%s’ says what was done and not whether it is good, so it is not assessed. Choose good, failed, not done, not possible or not applicable as the result, and keep the words as the remark."
                                .formatted(place, item.title(), item.result().strip()));
            case UNKNOWN ->
                add(
                        where,
                        "%s: %s – ‘%s’ is no result that the program knows, so it is not assessed. Choose good, failed, not done, not possible or not applicable as the result, and keep the words as the remark."
                                .formatted(place, item.title(), item.result().strip()));
            case OPEN, FAILED -> {
                if (!item.result().isBlank()) {
                    add(
                            where,
                            "%s: %s – %s.%s"
                                    .formatted(
                                            place,
                                            item.title(),
                                            CheckWords.shown(item.result()),
                                            item.remark().isBlank() ? "" : " " + Words.sentence(item.remark())));
                } else if (Whole.isDeciding(list)) {
                    add(where, "%s: %s – not answered.".formatted(place, item.title()));
                }
            }
        }
    }

    /** A cycle of type B is meant for hollow and porous loads, so that nobody looked at what it is for without such a test. */
    private void penetration(Sterilizer sterilizer) {
        boolean isMeant = sterilizer.cycles().stream().anyMatch(cycle -> cycle.type() == CycleType.B);
        boolean isMade = visit.job().penetration().stream()
                        .anyMatch(test -> test.sterilizer().equals(sterilizer.key()))
                || visit.checklists().stream()
                        .anyMatch(list -> list.section() == Checklist.Section.STEAM_PENETRATION
                                && list.sterilizer().equals(sterilizer.key())
                                && !list.items().isEmpty());
        if (isMeant && !isMade) {
            add(
                    Where.of(Where.Part.RUNS),
                    "%s: no steam penetration test, and a cycle of type B is in use."
                            .formatted(Words.capital(Words.sterilizer(sterilizer))));
        }
    }

    private void formalities() {
        for (Sterilizer sterilizer : visit.sterilizers()) {
            if (sterilizer
                    .chamberLitres()
                    .filter(l -> l >= SMALL_CHAMBER_LITRES)
                    .isPresent()) {
                add(
                        Where.of(
                                Where.Part.IDENTITY,
                                "sterilizers",
                                visit.sterilizers().indexOf(sterilizer) + 1,
                                "chamber"),
                        "%s has a chamber of 60 L or more: documents for small sterilisers do not apply to it."
                                .formatted(Words.capital(Words.sterilizer(sterilizer))));
            }
        }
        if (runs.stream()
                .anyMatch(run -> run.run().test().ambient().basis() != Ambient.Basis.BAROMETER
                        && run.evaluation().corrected().pressure().isPresent())) {
            add(
                    Where.of(Where.Part.AS_FOUND, "conditions", "barometer"),
                    "No barometer reading of the day: pressures rest on " + ambientWords() + ".");
        }
        if (visit.date().isEmpty()) {
            add(
                    Where.of(Where.Part.IDENTITY, "date"),
                    "The day of the visit is not stated, so no end of validity can be given.");
        }
        if (visit.clinic().isPresent() && !isReviewedByAnother()) {
            add(Where.of(Where.Part.IDENTITY), "No independent review: nobody but the technician has looked at this.");
        }
    }

    private String ambientWords() {
        return runs.stream()
                .map(run -> run.run().test().ambient().basis())
                .filter(basis -> basis != Ambient.Basis.BAROMETER)
                .findFirst()
                .map(basis -> basis == Ambient.Basis.ALTITUDE
                        ? "an estimate from the altitude of the site"
                        : "sea level taken for want of a better figure")
                .orElse("");
    }

    private boolean isReviewedByAnother() {
        if (visit.people().isEmpty()) {
            return false;
        }
        Person technician = visit.people().get(0);
        return visit.people().stream()
                .anyMatch(person -> isReviewer(person.role())
                        && !Words.letters(person.name()).equals(Words.letters(technician.name())));
    }

    /** Whether somebody's role is to review; 'to be reviewed' and 'no reviewer' say something else. */
    private static boolean isReviewer(String role) {
        List<String> words = List.of(Words.key(role).split("[^\\p{L}]+"));
        return words.stream().anyMatch(REVIEWER::contains) && words.stream().noneMatch(NO::contains);
    }

    private static int number(AssessedRun run) {
        return run.run().number();
    }
}
