package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.plan.AfterChange;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;

/** What the commands of the office read. */
final class Registers {

    private static final int SHOWN_IDS = 20;

    private Registers() {}

    static Register register(String name, Surroundings surroundings) throws Refusal, IOException {
        return contents(name, surroundings).register();
    }

    static RegisterFile.Contents contents(String name, Surroundings surroundings) throws Refusal, IOException {
        Path path = surroundings.resolve(name);
        try {
            return RegisterFile.read(path);
        } catch (RegisterException unusable) {
            throw unreadable(unusable);
        }
    }

    static DueRules rules(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Optional<String> file = typed.find("--rules");
        try {
            return file.isPresent() ? DataFiles.dueRules(surroundings.resolve(file.get())) : DataFiles.dueRules();
        } catch (RegisterException unusable) {
            throw unreadable(unusable);
        }
    }

    static AfterChange matrix(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Optional<String> file = typed.find("--matrix");
        try {
            return file.isPresent() ? DataFiles.afterChange(surroundings.resolve(file.get())) : DataFiles.afterChange();
        } catch (RegisterException unusable) {
            throw unreadable(unusable);
        }
    }

    static SterilizerRecord machine(Register register, String idOrSerial) throws Refusal {
        return register.findSterilizer(idOrSerial).orElseThrow(() -> {
            List<String> ids =
                    register.sterilizers().stream().map(SterilizerRecord::id).toList();
            List<String> lines = new ArrayList<>();
            lines.add(idOrSerial + ": no steriliser has this id, and not exactly one this serial number.");
            Near.to(idOrSerial, ids).ifPresent(near -> lines.add("Did you mean " + near + "?"));
            lines.add(
                    ids.size() <= SHOWN_IDS
                            ? "There are: " + String.join(", ", ids) + "."
                            : "'steamwright due' lists them with their ids.");
            return new Refusal(ExitStatus.USAGE, lines);
        });
    }

    static Optional<LocalDate> day(Typed typed, String option) throws Refusal {
        Optional<String> said = typed.find(option);
        if (said.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(LocalDate.parse(said.get()));
        } catch (DateTimeException e) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    option + " " + said.get() + ": expected a day that exists as year-month-day.",
                    "Write for example: " + option + " 2026-03-02");
        }
    }

    static Refusal unreadable(RegisterException unusable) {
        return new Refusal(
                ExitStatus.UNREADABLE,
                unusable.problems().stream().map(Object::toString).toList());
    }
}
