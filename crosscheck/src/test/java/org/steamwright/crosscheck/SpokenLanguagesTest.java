package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Phrasebook;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.simulator.Scenarios;
import org.steamwright.simulator.SimulatedRun;
import org.steamwright.simulator.Simulation;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.failure.Letters;
import org.steamwright.visit.failure.LookBack;
import org.steamwright.visit.plan.GoCheck;
import org.steamwright.visit.plan.Planning;
import org.steamwright.visit.plan.VisitPlan;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.InterimStanding;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.ValidatedState;

/** What the program says of good, faulty and nasty runs and of the invented visits has to be in every catalogue. */
class SpokenLanguagesTest {

    private static final int RUNS = 100;

    /** Words that no German or French sentence has; a name or what somebody wrote is taken out before. */
    private static final Pattern ENGLISH =
            Pattern.compile("\\b(?:the|is|were|are|of|and|not|with|before|after|has|have|at|by|its|they)\\b");

    /** Beginnings of the lines of a budget that the program names itself; the others are named by the instrument's record. */
    private static final List<String> OWN_LINES = List.of(
            "calibration of the instrument",
            "straight line between calibration points",
            "resolution of the recording",
            "ambient pressure",
            "common: ");

    private static final LocalDate DAY = LocalDate.of(2026, 8, 3);

    @Test
    void every_sentence_about_a_run_is_known() {
        Set<String> said = new ConcurrentSkipListSet<>();
        Campaign campaign = new Campaign("Sentences about runs");
        campaign.forEachSeed(RUNS, seed -> {
            said.addAll(of(Simulation.run(
                    seed % 3 == 0 ? Scenarios.randomGoodLeakTest(seed) : Scenarios.randomGood(seed), seed)));
            said.addAll(of(Simulation.run(
                    Scenarios.randomFaulty(seed, Scenarios.KINDS.get((int) (seed % Scenarios.KINDS.size()))), seed)));
            var nasty = RandomRuns.run(seed);
            said.addAll(of(Assessment.evaluate(nasty, RandomRuns.set(seed, nasty, InventedSets.ANSWERED))));
        });

        assertThat(said).hasSizeGreaterThan(RUNS * 5);
        assertThat(unknown(said, Language.GERMAN, "")).isEmpty();
        assertThat(unknown(said, Language.FRENCH, "")).isEmpty();
    }

    @Test
    void every_sentence_about_a_visit_is_known(@TempDir Path folder)
            throws IOException, VisitFolderException, RegisterException {
        Set<String> said = new TreeSet<>();
        StringBuilder written = new StringBuilder();
        List<String> unreadable = new ArrayList<>();
        for (Path visit : DemoVisit.writeYear(folder)) {
            Path file = visit.resolve(VisitFolder.FILE_NAME);
            String text = Files.readString(file);
            written.append(text);
            said.addAll(of(VisitFolder.read(visit, new Presets())));
            if (visit.endsWith("2-final")) {
                for (Turned turned : TURNED) {
                    Files.writeString(file, turned.in(text));
                    try {
                        said.addAll(of(VisitFolder.read(visit, new Presets())));
                    } catch (VisitFolderException refused) {
                        unreadable.add(turned.from() + ": " + refused.getMessage());
                    }
                }
            }
        }
        Path register = folder.resolve("office").resolve(RegisterFile.FILE_NAME);
        written.append(Files.readString(register));
        said.addAll(of(RegisterFile.read(register).register()));

        assertThat(unreadable).isEmpty();
        assertThat(said).hasSizeGreaterThan(300);
        assertThat(unknown(said, Language.GERMAN, written.toString())).isEmpty();
        assertThat(unknown(said, Language.FRENCH, written.toString())).isEmpty();
    }

    @Test
    void a_sentence_that_nobody_translated_is_found() {
        assertThat(unknown(
                        Set.of(
                                "The pump was cut off at 4.2 kPa.",
                                "The moon rose at 4.2 kPa.",
                                "Run 3: the moon rose."),
                        Language.GERMAN,
                        ""))
                .hasSize(2);
    }

    private static final List<Turned> TURNED = List.of(
            new Turned("result: no-growth", "result: growth"),
            new Turned("control: yes, product", "product"),
            new Turned("lot: LOT-0003, ", ""),
            new Turned("expires: 2026-12-31", "expires: 2026-01-31"),
            new Turned("d-value: 1.9 min, d-value-U: 0.2 min, z: 8.9 K, ", ""),
            new Turned("population: 2.1e6", "population: 2e4"),
            new Turned("\ndate: 2026-03-02\n", "\n"),
            new Turned("criteria-set: au-as5369", "criteria-set: eu-en13060"),
            new Turned("  barometer: 100.9 kPa\n", ""),
            new Turned("type: B", "type: N"),
            new Turned("type: B", "type: S"),
            new Turned("chamber: 17 L", "chamber: 75 L"),
            new Turned("role: reviewer", "role: helper"),
            new Turned("counter-at-arrival: 1480", "counter-at-arrival: 1470"),
            new Turned("counter-at-arrival: 1480", "counter-at-arrival: 1486"),
            new Turned("counter-at-departure: 1489", "counter-at-departure: 1495"),
            new Turned("    machine-cycle: 1484\n", ""),
            new Turned("machine-cycle: 1484\n", "machine-cycle: 1485\n"),
            new Turned("result: \"good\"", "result: \"fail\""),
            new Turned("result: \"done\"", "result: \"not-possible\""),
            new Turned("result: \"good\"", "result: \"dicht wie immer\""),
            new Turned("result: \"good\"", "result: \"erledigt\""),
            new Turned("result: \"good\"", "result: \"not-applicable\""),
            new Turned("section: installation", "section: as-found"),
            new Turned("      agreed-by: Lee Placeholder (invented), practice manager\n", ""),
            new Turned("after: 1241 g", "after: 1341 g"),
            new Turned("stage: with-sensors", "stage: as-found"),
            new Turned("stage: after", "stage: with-sensors"),
            new Turned("role: challenge-pack", "role: load"),
            new Turned("due-on: 2026-11-02", "due-on: 2026-01-02"));

    private static Set<String> of(SimulatedRun run) {
        CriteriaSet preset = run.testRun().kind() == TestKind.LEAK
                ? new Presets().get("eu-en13060")
                : CampaignSets.preset(run.seed(), run.testRun().cycle());
        return of(Assessment.evaluate(run.testRun(), CampaignSets.everythingDecides(preset)));
    }

    private static Set<String> of(RunEvaluation evaluation) {
        Set<String> said = new TreeSet<>();
        evaluation.findings().forEach(finding -> said.addAll(of(finding)));
        evaluation.hints().forEach(hint -> said.addAll(List.of(hint.pattern(), hint.likelyCauses(), hint.nextCheck())));
        evaluation
                .oddities()
                .forEach(oddity -> said.addAll(
                        List.of(oddity.kind().words(), oddity.kind().effect().words(), oddity.sentence())));
        evaluation
                .phases()
                .ifPresent(phases ->
                        phases.phases().forEach(phase -> said.add(phase.kind().words())));
        evaluation.run().clocks().recordings().stream()
                .flatMap(recording -> recording.offset().stream())
                .forEach(offset -> said.addAll(List.of(offset.method().words(), offset.words())));
        said.add(evaluation.verdict().cause());
        said.add(evaluation.verdict().outcome().words());
        said.add(evaluation.run().kind().words());
        said.add(evaluation.run().ambient().basis().words());
        return said;
    }

    private static List<String> of(Finding finding) {
        List<String> said = new ArrayList<>(List.of(
                finding.id().title(),
                finding.outcome().words(),
                finding.use().word(),
                finding.rule().word(),
                finding.sentence()));
        finding.measured().ifPresent(figure -> {
            said.add(figure.basis());
            figure.budget().ifPresent(budget -> {
                said.add(budget.quantity());
                budget.contributions().stream()
                        .filter(line -> OWN_LINES.stream().anyMatch(line.name()::startsWith))
                        .forEach(line -> said.add(line.name()));
            });
        });
        return said;
    }

    private static Set<String> of(Visit visit) {
        AssessedVisit assessed = Visits.assess(visit);
        Set<String> said = new TreeSet<>(assessed.summary());
        said.addAll(assessed.openPoints());
        assessed.qualifications()
                .forEach(qualification -> said.addAll(List.of(
                        qualification.kind().title(), qualification.standing().words(), qualification.sentence())));
        for (AssessedRun run : assessed.runs()) {
            said.addAll(of(run.evaluation()));
            run.loadFindings().forEach(finding -> said.addAll(of(finding)));
            run.indicators().forEach(one -> {
                said.add(one.agreement().words());
                said.add(one.sentence());
                said.addAll(one.hints());
            });
            run.chemicals().forEach(one -> said.addAll(List.of(one.agreement().words(), one.sentence())));
            said.add(run.word());
            said.add(run.cause());
        }
        List<Failure> failures = FailurePath.of(assessed);
        for (Failure failure : failures) {
            said.addAll(failure.what());
            said.addAll(failure.retests());
            said.addAll(List.of(
                    failure.kind().words(),
                    failure.blame().words(),
                    failure.scope().because()));
            failure.lookBack().map(LookBack::words).ifPresent(said::add);
        }
        Letters.of(assessed, failures, DAY).forEach(letter -> {
            said.add(letter.title());
            said.addAll(letter.paragraphs());
        });
        said.addAll(InterimStanding.of(assessed, DAY).sentences());
        for (ValidatedState state : ValidatedState.of(assessed)) {
            state.cycles()
                    .forEach(cycle ->
                            said.addAll(state.reasonsAgainst(cycle.name(), DAY.plusYears(2), OptionalInt.of(9999))));
            said.addAll(state.reasonsAgainst("no such cycle", DAY, OptionalInt.empty()));
            loads(state).forEach(load -> {
                Coverage coverage = Coverage.of(state, load);
                said.addAll(coverage.reasons());
                said.addAll(coverage.notes());
            });
        }
        return said;
    }

    private static List<TodaysLoad> loads(ValidatedState state) {
        List<TodaysLoad> loads = new ArrayList<>();
        for (String packaging : List.of("none", "double wrap", "")) {
            for (String family : List.of("solid", "hollow A", "porous", "odd")) {
                loads.add(new TodaysLoad(
                        packaging.isEmpty() ? "ZZ-9" : state.serial(),
                        state.cycles().isEmpty() ? "134" : state.cycles().get(0).name(),
                        DAY,
                        OptionalInt.empty(),
                        List.of(new TodaysLoad.Thing("bowl", 30, family, packaging)),
                        family.equals("solid") ? Optional.of(30.0) : Optional.empty(),
                        Optional.of(5.0),
                        family.equals("porous") ? Optional.of(false) : Optional.empty()));
            }
        }
        return loads;
    }

    private static Set<String> of(Register register) {
        Set<String> said = new TreeSet<>();
        for (LocalDate day : List.of(DAY, DAY.plusYears(1), LocalDate.of(2026, 3, 2))) {
            for (Due due : DueList.of(register, DataFiles.dueRules(), day)) {
                said.addAll(List.of(due.subject().kind().word(), due.urgency().word(), due.when()));
                due.reasons().forEach(reason -> {
                    said.add(reason.reason());
                    said.add(reason.cause().word());
                });
            }
        }
        for (SterilizerRecord machine : register.sterilizers()) {
            for (String reason : DataFiles.afterChange().words()) {
                VisitPlan plan = Planning.of(
                        DataFiles.afterChange(),
                        register,
                        machine,
                        new Presets().get("eu-en13060"),
                        List.of(reason),
                        List.of());
                plan.steps().forEach(step -> said.add(step.kind().title()));
                plan.needs().forEach(need -> said.add(need.words()));
                ZoneId zone = ZoneId.of("Australia/Adelaide");
                for (LocalDate day : List.of(DAY, DAY.plusYears(2))) {
                    var begins = day.atTime(8, 0).atZone(zone).toInstant();
                    var all = new GoCheck.Kit(
                            register.technicians().stream().findFirst(),
                            register.instruments(),
                            register.lots(),
                            register.testers());
                    var none = new GoCheck.Kit(Optional.empty(), List.of(), List.of());
                    for (GoCheck.Kit kit : List.of(all, none)) {
                        GoCheck.of(plan, register, kit, begins, zone).points().forEach(point -> {
                            said.add(point.answer().word());
                            said.add(point.sentence());
                        });
                    }
                }
            }
        }
        return said;
    }

    /** What no catalogue knows, or knows in part only. */
    private static List<String> unknown(Set<String> said, Language language, String written) {
        Phrasebook book = Phrasebook.in(language);
        List<String> values = written.lines()
                .flatMap(line -> Pattern.compile("[\"{}\\[\\]]|, (?=[a-z-]+: )|: (?=\\S)| - ")
                        .splitAsStream(line))
                .map(String::strip)
                .filter(value -> value.length() > 3 && value.indexOf(' ') > 0)
                .distinct()
                .sorted((a, b) -> b.length() - a.length())
                .toList();
        List<String> unknown = new ArrayList<>();
        for (String sentence : said) {
            Optional<String> other = book.find(sentence);
            if (other.isEmpty()) {
                unknown.add(sentence);
                continue;
            }
            String left = other.get();
            for (String value : values) {
                left = left.replace(value, "…");
            }
            if (ENGLISH.matcher(left).find()) {
                unknown.add(sentence + " → " + other.get());
            }
        }
        return unknown.stream().limit(60).toList();
    }
}
