package org.steamwright.command;

import java.io.IOException;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.Moments;
import org.steamwright.report.result.OfficeJson;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.plan.GoCheck;
import org.steamwright.visit.plan.Planning;
import org.steamwright.visit.plan.VisitPlan;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;

/** Plans a visit to one machine, and says whether it may go. */
final class PlanCommand implements Command {
    private static final String USUAL_SET = "eu-en13060";
    private static final int HOUR = 60;

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Plan a visit from its reason: tests, runs, time, what to take along.",
                "Which tests follow from which reason is an editable matrix; the criteria set says how many loaded"
                        + " runs.",
                "With --at it also checks instruments, lots, range and competence up to the end of the last run.");
        usage.footer(
                "",
                "Ends with 1 if the go check blocks. A plan binds nobody: on site the maker's instructions and what is",
                "found there come first.");
        usage.argument("REGISTER", true, "Register file, or the folder with a register.yaml.");
        usage.argument("STERILISER", true, "Its id, or its serial number.");
        usage.values("--reason", "WORD", "Reason for the visit, such as yearly; may be given more than once.");
        usage.values("--cycle", "NAME", "Cycle that the reason is about, such as a new one.");
        usage.value("--criteria", "NAME|FILE", "Criteria set. " + USUAL_SET + " if not given.");
        usage.value("--at", "DATETIME", "Arrival at the site, on its clocks: 2026-03-02T09:00.");
        usage.value("--technician", "ID", "Who goes.");
        usage.values("--take", "ID", "Instrument, tester or lot that goes along. All that are fit if not given.");
        usage.value("--matrix", "FILE", "After-change matrix of your own.");
        usage.flag("--json", "Print JSON.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright plan office ST-01 --reason yearly",
                "steamwright plan office ST-01 --reason seal-filter-hose --at 2026-03-02T09:00 --technician KS");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        AfterChange matrix = Registers.matrix(typed, surroundings);
        if (typed.all("--reason").isEmpty()) {
            throw new Refusal(ExitStatus.USAGE, reasons(matrix));
        }
        CriteriaSet set = CriteriaChoice.of(typed.find("--criteria").orElse(USUAL_SET), new Presets(), surroundings);
        Register register = Registers.register(typed.findArgument(0).orElseThrow(), surroundings);
        SterilizerRecord machine =
                Registers.machine(register, typed.findArgument(1).orElseThrow());
        VisitPlan plan;
        try {
            plan = Planning.of(matrix, register, machine, set, typed.all("--reason"), typed.all("--cycle"));
        } catch (IllegalArgumentException unknown) {
            throw new Refusal(ExitStatus.USAGE, String.valueOf(unknown.getMessage()) + ".");
        }
        Optional<GoCheck> check = check(typed, register, plan);
        if (typed.isSet("--json")) {
            OfficeJson.plan(plan, check, surroundings.out());
        } else {
            ZoneId zone = zone(register, machine);
            surroundings.say(text(plan, set));
            check.ifPresent(found -> surroundings.say(text(found, zone)));
        }
        return check.isPresent() && !check.get().isGo() ? ExitStatus.FAIL : ExitStatus.PASS;
    }

    private static List<String> reasons(AfterChange matrix) {
        List<String> lines = new ArrayList<>();
        lines.add("a plan needs a reason. Give --reason with one of these words:");
        for (AfterChange.Row row : matrix.rows()) {
            lines.add("  " + VerdictText.padded(row.word(), 22) + row.title());
        }
        return lines;
    }

    private static ZoneId zone(Register register, SterilizerRecord machine) {
        return register.findPlace(machine).map(place -> place.site().zone()).orElse(ZoneOffset.UTC);
    }

    private static Optional<GoCheck> check(Typed typed, Register register, VisitPlan plan) throws Refusal {
        Optional<String> at = typed.find("--at");
        if (at.isEmpty()) {
            if (typed.isSet("--technician") || typed.isSet("--take")) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        "--technician and --take belong to the go check, which needs the time of arrival.",
                        "Give it too, for example: --at 2026-03-02T09:00");
            }
            return Optional.empty();
        }
        ZoneId zone = zone(register, plan.machine());
        List<String> objections = new ArrayList<>();
        Instant begins = Moments.moment(at.get(), zone, (mistake, flaw) -> objections.add(flaw.text()))
                .orElseThrow(() -> new Refusal(
                        ExitStatus.USAGE,
                        "--at: " + String.join(" ", objections),
                        "Write for example: --at 2026-03-02T09:00"));
        Optional<Technician> technician = Optional.empty();
        Optional<String> who = typed.find("--technician");
        if (who.isPresent()) {
            technician = register.findTechnician(who.get());
            if (technician.isEmpty()) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        "--technician " + who.get() + ": the register has no technician of this id.",
                        "There are: "
                                + String.join(
                                        ", ",
                                        register.technicians().stream()
                                                .map(Technician::id)
                                                .toList())
                                + ".");
            }
        }
        GoCheck.Kit kit = typed.all("--take").isEmpty()
                ? GoCheck.fitting(plan, register, technician, begins, zone)
                : taken(typed.all("--take"), register, technician);
        return Optional.of(GoCheck.of(plan, register, kit, begins, zone));
    }

    private static GoCheck.Kit taken(List<String> ids, Register register, Optional<Technician> technician)
            throws Refusal {
        List<ReferenceInstrument> instruments = new ArrayList<>();
        List<Lot> lots = new ArrayList<>();
        List<Tester> testers = new ArrayList<>();
        for (String id : ids) {
            Optional<ReferenceInstrument> instrument = register.instruments().stream()
                    .filter(one -> one.id().equals(id))
                    .findFirst();
            Optional<Lot> lot =
                    register.lots().stream().filter(one -> one.id().equals(id)).findFirst();
            Optional<Tester> tester = register.testers().stream()
                    .filter(one -> one.id().equals(id))
                    .findFirst();
            if (instrument.isEmpty() && lot.isEmpty() && tester.isEmpty()) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        "--take " + id + ": the register has no instrument, tester or lot of this id.",
                        "Correct the id, or add it to the register.");
            }
            instrument.ifPresent(instruments::add);
            lot.ifPresent(lots::add);
            tester.ifPresent(testers::add);
        }
        return new GoCheck.Kit(technician, instruments, lots, testers);
    }

    private static List<String> text(VisitPlan plan, CriteriaSet set) {
        List<String> lines = new ArrayList<>();
        lines.add("Plan for " + plan.machine().id() + ", " + plan.machine().title());
        for (AfterChange.Row row : plan.reasons()) {
            VerdictText.broken("  ", "Reason: " + row.title() + " " + cited(row.source()), lines);
        }
        for (VisitPlan.Addition added : plan.additions()) {
            VerdictText.broken(
                    "  ",
                    "Added: " + added.kind().title() + (added.cycle().isBlank() ? "" : ": " + added.cycle()) + " "
                            + cited(added.source()),
                    lines);
        }
        VerdictText.broken(
                "  ",
                "Loaded runs in a row for each cycle: " + set.consecutiveRuns() + ", by " + plan.criteria()
                        + plan.runsSource().stream()
                                .findFirst()
                                .map(source -> " " + cited(source))
                                .orElse(""),
                lines);
        lines.add("  About " + clock(plan.minutes()) + " h on site (hours:minutes)");
        lines.add("");
        for (VisitPlan.Step step : plan.steps()) {
            String run = step.run() == 0
                    ? ""
                    : ": " + step.cycle() + (step.of() > 1 ? ", run " + step.run() + " of " + step.of() : "");
            VerdictText.broken(
                    "  " + clock(step.begins()) + "  " + VerdictText.leftPadded(String.valueOf(step.minutes()), 3)
                            + " min  ",
                    (step.isMeanwhile() ? "meanwhile: " : "") + step.kind().title() + run,
                    lines);
        }
        lines.add("");
        lines.add("Take along");
        for (VisitPlan.Need need : plan.needs()) {
            VerdictText.broken("  - ", (need.count() > 0 ? need.count() + " × " : "") + need.words(), lines);
        }
        if (!plan.notes().isEmpty()) {
            lines.add("");
            lines.add("To know");
            plan.notes().forEach(note -> VerdictText.broken("  - ", note, lines));
        }
        return lines;
    }

    private static String cited(Source source) {
        return "[" + source.citation() + "; " + source.provenance().words() + "]";
    }

    private static String clock(int minutes) {
        return String.format(Locale.ROOT, "%d:%02d", minutes / HOUR, minutes % HOUR);
    }

    private static final DateTimeFormatter MOMENT = DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

    private static List<String> text(GoCheck check, ZoneId zone) {
        List<String> lines = new ArrayList<>();
        lines.add("");
        lines.add("Go check, " + MOMENT.format(check.begins().atZone(zone)) + " to "
                + MOMENT.format(check.ends().atZone(zone)) + " (" + zone.getId() + "): "
                + (check.isGo() ? "GO" : "NO GO"));
        for (GoCheck.Answer answer : GoCheck.Answer.values()) {
            for (GoCheck.Point point : check.of(answer)) {
                VerdictText.broken("  " + answer.word() + "  ", point.subject() + ": " + point.sentence(), lines);
            }
        }
        return lines;
    }
}
