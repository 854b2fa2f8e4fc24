package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.criteriasets.Presets;
import org.steamwright.filing.CoverageInRecord;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.StatedVisit;
import org.steamwright.intake.folder.LoadFile;
import org.steamwright.intake.folder.StatedLoad;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.report.result.OfficeJson;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.TodaysLoad.Thing;
import org.steamwright.visit.validity.ValidatedState;

/** Says whether a load of today is covered by what was tested, with every reason. */
final class CoveredCommand implements Command {

    private static final String ITEM = "--item";
    private static final String COUNT = "--cycle-number";
    private static final String TRAYS = "--trays";
    private static final String TESTS = "--tests-passed";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Say whether a load of today is covered by what was tested, with every reason.",
                "Asked of a visit folder, that visit answers. Asked of a record, the last visit in force that tested"
                        + " the",
                "cycle does: signed, and neither replaced nor withdrawn. What nobody states is not covered.");
        usage.footer(
                "",
                "Ends with 0 if the load is covered and with 1 if it is not. The answer tells how far the evidence"
                        + " reaches;",
                "what is run and released the clinic decides. No data of patients belong in it.");
        usage.argument("PLACE", true, "Visit folder, or the folder of a record.");
        RecordDoor.server(usage);
        usage.value(
                "--sterilizer",
                "WORD",
                "Its key in the visit, its serial number, or its id in the register. Needed where there are several.");
        usage.value("--cycle", "NAME", "Cycle that is to be run.");
        usage.values(
                ITEM, "TEXT", "Things in the load: '6 mirrors, solid, pouch'; number and name, family, packaging.");
        usage.value("--on", "DATE", "Day at the site. Today if not given.");
        usage.value(COUNT, "N", "Number that the cycle will have on the counter.");
        usage.value("--mass", "MASS", "Of the whole load: '2.4 kg'.");
        usage.value(TRAYS, "N", "How many trays it takes.");
        usage.value("--drying", "TIME", "Drying that is set: '12 min'.");
        usage.value(TESTS, "yes|no", "Whether the tests that are due today passed.");
        usage.value("--load", "FILE", "Load in a small file; what is typed beside it wins, and things add up.");
        usage.flag("--json", "Print JSON.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright covered demo --sterilizer A --cycle '134 wrapped' --item '4 cassettes, solid, pouch'",
                "steamwright covered office --sterilizer EX-1001 --cycle '134 wrapped' --item '2 mirrors, solid, none'"
                        + " --json");
    }

    /** Who answers: what it left, in which state it is, and what it says. */
    private record Answer(
            TodaysLoad load, Optional<ValidatedState> state, Optional<StatedVisit> visit, Coverage coverage) {}

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        StatedLoad stated = stated(typed, surroundings);
        if (stated.cycle().isBlank()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "which cycle is to be run is not said.",
                    "Add for example: --cycle '134 wrapped'");
        }
        if (stated.things().isEmpty()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "nothing is said to be in the load.",
                    "Add for example: --item '6 mirrors, solid, pouch', or --load FILE.");
        }
        Path place = surroundings.resolve(typed.findArgument(0).orElseThrow());
        if (RecordDoor.isOnServer(typed) || RecordDoor.isRecord(place)) {
            return RecordDoor.open(
                    typed, surroundings, records -> tell(ofRecord(records, stated), typed, surroundings));
        }
        return RecordDoor.guarded(() -> tell(ofFolder(place, stated), typed, surroundings));
    }

    private static StatedLoad stated(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Optional<LocalDate> on = Registers.day(typed, "--on");
        try {
            List<Thing> things = new ArrayList<>();
            for (String item : typed.all(ITEM)) {
                things.add(LoadFile.thing(item, ITEM));
            }
            Optional<String> mass = typed.find("--mass");
            Optional<String> drying = typed.find("--drying");
            Optional<String> tests = typed.find(TESTS);
            StatedLoad load = new StatedLoad(
                    typed.find("--sterilizer").orElse(""),
                    typed.find("--cycle").orElse(""),
                    on,
                    whole(typed, COUNT, "4750"),
                    things,
                    mass.isPresent() ? Optional.of(LoadFile.kilogram(mass.get(), "--mass")) : Optional.empty(),
                    drying.isPresent() ? Optional.of(LoadFile.seconds(drying.get(), "--drying")) : Optional.empty(),
                    tests.isPresent() ? Optional.of(LoadFile.yesOrNo(tests.get(), TESTS)) : Optional.empty(),
                    whole(typed, TRAYS, "2"));
            Optional<String> file = typed.find("--load");
            return file.isPresent() ? load.over(LoadFile.read(surroundings.resolve(file.get()))) : load;
        } catch (VisitFolderException unusable) {
            boolean isTyped = unusable.problems().stream()
                    .allMatch(problem -> problem.file().startsWith("--"));
            throw new Refusal(
                    isTyped ? ExitStatus.USAGE : ExitStatus.UNREADABLE,
                    unusable.problems().stream().map(Object::toString).toList());
        }
    }

    private static OptionalInt whole(Typed typed, String option, String example) throws Refusal {
        Optional<String> count = typed.find(option);
        if (count.isEmpty()) {
            return OptionalInt.empty();
        }
        if (!count.get().matches("[0-9]{1,9}")) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    option + " " + count.get() + ": expected a whole number.",
                    "Write for example: " + option + " " + example);
        }
        return OptionalInt.of(Integer.parseInt(count.get()));
    }

    private static Answer ofFolder(Path folder, StatedLoad stated) throws Refusal, IOException, VisitFolderException {
        AssessedVisit assessed = Visits.assess(VisitFolder.read(folder, new Presets()));
        List<ValidatedState> states = ValidatedState.of(assessed);
        List<ValidatedState> named = stated.sterilizer().isBlank()
                ? states
                : states.stream()
                        .filter(one -> one.sterilizer()
                                        .equals(stated.sterilizer().strip())
                                || one.serial().equals(stated.sterilizer().strip()))
                        .toList();
        if (named.size() != 1) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    stated.sterilizer().isBlank()
                            ? "the visit has several sterilisers, and none is named."
                            : "the visit has no steriliser '" + stated.sterilizer() + "'.",
                    "Name it with --sterilizer; there are: "
                            + String.join(
                                    ", ",
                                    states.stream()
                                            .map(one -> one.sterilizer() + " (" + one.serial() + ")")
                                            .toList())
                            + ".");
        }
        ValidatedState state = named.get(0);
        TodaysLoad load =
                load(stated, state.serial(), LocalDate.now(assessed.visit().zone()));
        Coverage coverage = Coverage.of(state, load)
                .and(
                        List.of(),
                        List.of("A folder answers for itself; whether its report is signed and stands, the record"
                                + " knows."));
        return new Answer(load, Optional.of(state), Optional.empty(), coverage);
    }

    private static Answer ofRecord(Records records, StatedLoad stated)
            throws Refusal, IOException, FilingException, VisitFolderException, RegisterException {
        if (stated.sterilizer().isBlank()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "which steriliser of the record is not said.",
                    "Add its serial number, for example: --sterilizer SN-0417");
        }
        CoverageInRecord covering = new CoverageInRecord(records);
        Subject machine = covering.sterilizer(stated.sterilizer());
        TodaysLoad load = load(stated, machine.text("serial"), covering.today(machine));
        CoverageInRecord.Answer answer = covering.of(machine, load);
        return new Answer(load, answer.state(), answer.visit(), answer.coverage());
    }

    private static TodaysLoad load(StatedLoad stated, String serial, LocalDate today) {
        return new TodaysLoad(
                serial,
                stated.cycle(),
                stated.on().orElse(today),
                stated.cycleNumber(),
                stated.things(),
                stated.kilogram(),
                stated.dryingSeconds(),
                stated.testsPassed(),
                stated.trays());
    }

    private static ExitStatus tell(Answer answer, Typed typed, Surroundings surroundings) throws IOException {
        Coverage coverage = answer.coverage();
        if (typed.isSet("--json")) {
            OfficeJson.covered(
                    answer.load(),
                    answer.state(),
                    answer.visit().map(visit -> visit.state().words()).orElse(""),
                    coverage,
                    surroundings.out());
        } else {
            surroundings.say(text(answer));
        }
        return coverage.isCovered() ? ExitStatus.PASS : ExitStatus.FAIL;
    }

    private static List<String> text(Answer answer) {
        TodaysLoad load = answer.load();
        List<String> lines = new ArrayList<>();
        lines.add(
                answer.coverage().isCovered()
                        ? "COVERED"
                        : answer.coverage().isWaitingForTests() ? "NOT YET: TEST FIRST" : "NOT COVERED");
        VerdictText.broken(
                "  ",
                "Steriliser " + load.serial() + ", cycle " + load.cycle() + ", " + load.day()
                        + (load.count().isPresent()
                                ? ", cycle number " + load.count().getAsInt()
                                : ""),
                lines);
        for (Thing thing : load.things()) {
            VerdictText.broken(
                    "  ",
                    thing.count() + " × " + thing.name() + ", "
                            + (thing.family().isBlank() ? "family not stated" : thing.family()) + ", "
                            + (thing.packaging().isBlank() ? "packaging not stated" : thing.packaging()),
                    lines);
        }
        answer.state().ifPresent(state -> VerdictText.broken("  ", evidence(state, answer.visit()), lines));
        answer.coverage().by().ifPresent(by -> VerdictText.broken("  ", "Tested load: " + by, lines));
        if (!answer.coverage().isCovered()) {
            lines.add("Why not");
            answer.coverage().reasons().forEach(reason -> VerdictText.broken("  - ", reason, lines));
        }
        if (!answer.coverage().notes().isEmpty()) {
            lines.add("To know");
            answer.coverage().notes().forEach(note -> VerdictText.broken("  - ", note, lines));
        }
        return lines;
    }

    private static String evidence(ValidatedState state, Optional<StatedVisit> visit) {
        StringBuilder words = new StringBuilder("Evidence: ");
        words.append(
                state.reportNumber().isBlank() ? "visit without a report number" : "visit " + state.reportNumber());
        state.from().ifPresent(day -> words.append(" of ").append(day));
        visit.ifPresent(stated -> words.append(", ").append(stated.words()));
        state.until().ifPresent(day -> words.append(", valid until ").append(day));
        if (state.untilCount().isPresent()) {
            words.append(state.until().isPresent() ? " or cycle " : ", valid until cycle ")
                    .append(state.untilCount().getAsInt());
        }
        return words.toString();
    }
}
