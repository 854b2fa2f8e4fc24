package org.steamwright.desk.clinic;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.steamwright.desk.office.Sheet;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.CoverageInRecord;
import org.steamwright.filing.CoverageInRecord.CycleStanding;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Subject;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.TodaysLoad;

/** Whether today's load is covered by what was tested, and why not. */
final class LoadPage {

    private final Premises premises;

    LoadPage(Premises premises) {
        this.premises = premises;
    }

    Reply load(Ask ask) throws IOException, FilingException, RegisterException {
        Optional<Subject> found = premises.asked(ask);
        if (found.isEmpty()) {
            return Premises.unknown(ask);
        }
        Subject clinic = found.get();
        Frame frame = ask.frame();
        Map<String, Premises.Here> here = premises.here(clinic);
        CoverageInRecord coverage = premises.coverage(clinic);
        Sheet.Writer writer = new Sheet.Writer(frame.say("clinic.is-covered"));
        LoadForm form = LoadForm.of(ask::typed, frame);
        List<String> problems = new ArrayList<>();
        Optional<Premises.Here> machine = Premises.named(here, form.machine());
        Optional<LoadForm> begun =
                begun(form, machine, coverage, !ask.typed("all").isBlank());
        form = begun.orElse(form);
        boolean isAsked = begun.isEmpty() && !form.machine().isBlank() && !form.isMoreWanted();
        if (isAsked) {
            Optional<TodaysLoad> load = machine.isPresent()
                    ? form.load(machine.get().machine().text("serial"), premises.today(machine.get()), frame, problems)
                    : Optional.empty();
            if (load.isPresent()) {
                answer(writer, machine.get().machine(), load.get(), coverage, frame);
            } else if (problems.isEmpty()) {
                problems.add(frame.say("clinic.load-incomplete"));
            }
        }
        Set<String> cycles = new LinkedHashSet<>();
        // the cycles of another machine here were not tested in the one that is chosen
        for (Premises.Here one : machine.map(List::of).orElse(List.copyOf(here.values()))) {
            for (CycleStanding standing : coverage.cycles(one.machine(), premises.today(one), OptionalInt.empty())) {
                cycles.add(standing.cycle().name());
            }
        }
        Map<String, String> machines = new LinkedHashMap<>();
        here.forEach((id, one) -> machines.put(id, Premises.called(one.machine(), here.values())));
        return new Reply.Page(
                "clinic/load.jte",
                Map.of(
                        "sheet", writer.sheet(),
                        "clinic", clinic.id().toString(),
                        "machines", machines,
                        "chosen", machine.map(Premises.Here::id).orElse(""),
                        "cycles", List.copyOf(cycles),
                        "form", form,
                        "problems", List.copyOf(problems)),
                problems.isEmpty() ? 200 : 422);
    }

    /** The form with what was tested in that cycle, to be counted for today; empty if something was typed or nothing is known. */
    private Optional<LoadForm> begun(
            LoadForm form, Optional<Premises.Here> machine, CoverageInRecord coverage, boolean isAll)
            throws IOException, FilingException, RegisterException {
        if (!form.isBegun() || machine.isEmpty()) {
            return Optional.empty();
        }
        Premises.Here one = machine.get();
        return coverage.cycles(one.machine(), premises.today(one), OptionalInt.empty()).stream()
                .filter(standing -> standing.cycle().name().equals(form.cycle()))
                .flatMap(standing -> standing.cycle().loads().stream())
                .filter(tested -> !tested.items().isEmpty())
                .findFirst()
                .map(tested -> form.withTested(tested, isAll));
    }

    private static void answer(
            Sheet.Writer writer, Subject machine, TodaysLoad load, CoverageInRecord record, Frame frame)
            throws IOException, FilingException, RegisterException {
        Coverage coverage = record.of(machine, load).coverage();
        List<Told> words = new ArrayList<>();
        words.add(Told.asItIs(
                coverage.isCovered()
                        ? frame.say("clinic.covered", coverage.by().orElse(""))
                        : frame.say(coverage.isWaitingForTests() ? "clinic.test-first" : "clinic.not-covered")));
        coverage.reasons().forEach(reason -> words.add(frame.hear(reason)));
        coverage.notes().forEach(note -> words.add(frame.hear(note)));
        writer.hear(frame.say("clinic.answer"), words);
    }
}
