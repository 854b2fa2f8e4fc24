package org.steamwright.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.filing.RegisterBatches;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.register.RegisterColumn;
import org.steamwright.intake.register.RegisterCsv;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.intake.register.RegisterTable;
import org.steamwright.intake.register.RegisterYaml;
import org.steamwright.intake.register.TableMapping;
import org.steamwright.records.Author;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.RegisterChange;
import org.steamwright.visit.register.RegisterComparison;
import org.steamwright.visit.register.SterilizerRecord;

/** Looks at a register, compares a table of machines with it, and writes either anew. */
final class RegisterCommand implements Command {

    private static final String ENTER = "--enter";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Look at a register, or compare a table of machines with it.",
                "With --import it says row by row what the table would add, change or leave, and what it refuses and"
                        + " why.",
                "Nothing is written but the new files that are asked for; no file is ever written over. Into a record"
                        + " the",
                "table goes with --enter, as one batch that 'undo' takes back.");
        usage.footer(
                "",
                "The same table against the register written by --out, or entered again, changes nothing any more. The"
                        + " old",
                "register stays as it was: that is the way back. Rows that are refused are left out, and it ends with"
                        + " 1.");
        usage.argument("REGISTER", true, "Register file, the folder with a register.yaml, or a record.");
        RecordDoor.server(usage);
        usage.value("--import", "CSV", "Table of machines to compare with it.");
        usage.value("--mapping", "FILE", "What the headings of the table mean.");
        usage.flag(ENTER, "Enter the table into the record, which is made if it is not there. Needs --by.");
        RecordDoor.author(usage);
        usage.value("--why", "TEXT", "Reason, kept with every fact that changes.");
        usage.value("--out", "FILE", "Write the register with the changes into this new file.");
        usage.value("--export", "CSV", "Write the machines as a table into this new file.");
        return usage;
    }

    /** Before anything was entered. */
    private static final RegisterFile.Contents NONE = new RegisterFile.Contents(
            new Register(List.of(), List.of(), List.of(), List.of(), List.of(), List.of()), Optional.empty());

    @Override
    public List<String> examples() {
        return List.of("steamwright register office", "steamwright register office --import office/machines.csv");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        String name = typed.findArgument(0).orElseThrow();
        Optional<String> table = typed.find("--import");
        boolean isRecord = RecordDoor.isOnServer(typed) || RecordDoor.isRecord(surroundings.resolve(name));
        boolean isNew = !isRecord && table.isPresent() && Files.notExists(surroundings.resolve(name));
        if (typed.isSet(ENTER)) {
            if (!(isRecord || isNew) || table.isEmpty()) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        ENTER + " enters a table into a record.",
                        table.isEmpty()
                                ? "Give the table by --import CSV."
                                : "Name a record, or a new folder for one; a register file is written anew with --out.");
            }
            if (isNew) {
                // a table that can't be read makes no record
                read(surroundings.resolve(table.get()), typed.find("--mapping"), surroundings);
            }
            return enter(typed, table.get(), surroundings);
        }
        RegisterFile.Contents contents =
                isRecord ? ofRecord(typed, surroundings) : isNew ? NONE : Registers.contents(name, surroundings);
        if (table.isEmpty() && (typed.isSet("--mapping") || typed.isSet("--out"))) {
            throw new Refusal(ExitStatus.USAGE, "--mapping and --out belong to a table.", "Give it by --import CSV.");
        }
        Register register = contents.register();
        boolean isRefused = false;
        if (table.isPresent()) {
            RegisterComparison comparison =
                    compared(surroundings.resolve(table.get()), typed.find("--mapping"), register, surroundings);
            isRefused = comparison.count(RegisterComparison.Answer.REFUSED) > 0;
            register = RegisterChange.apply(comparison.changes(), register);
            if (typed.isSet("--out")) {
                write(
                        typed.find("--out").orElseThrow(),
                        RegisterYaml.write(new RegisterFile.Contents(register, contents.instrumentsFile())),
                        surroundings);
            } else {
                surroundings.say(
                        isRecord || isNew
                                ? "Nothing was entered. --enter enters these changes as one batch."
                                        + (isNew ? " " + name + " would be a new record." : "")
                                : "Nothing was written. --out FILE writes the register with these changes.");
            }
        } else {
            surroundings.say(summary(register));
        }
        if (typed.isSet("--export")) {
            write(typed.find("--export").orElseThrow(), RegisterCsv.write(register), surroundings);
        }
        return isRefused ? ExitStatus.FAIL : ExitStatus.PASS;
    }

    private static RegisterFile.Contents ofRecord(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        List<RegisterFile.Contents> found = new ArrayList<>();
        RecordDoor.open(typed, surroundings, records -> {
            found.add(new RegisterFiling(records).contents());
            return ExitStatus.PASS;
        });
        return found.get(0);
    }

    private static ExitStatus enter(Typed typed, String table, Surroundings surroundings) throws Refusal, IOException {
        Author author = RecordDoor.author(typed);
        Path file = surroundings.resolve(table);
        Optional<Path> mapping = typed.find("--mapping").map(surroundings::resolve);
        return RecordDoor.openOrMake(typed, surroundings, records -> {
            RegisterBatches.Entered entered = new RegisterBatches(records)
                    .enter(file, mapping, author, typed.find("--why").orElse(""));
            surroundings.say(text(entered.preview().table(), entered.preview().comparison()));
            if (entered.preview().entered().isPresent()) {
                RegisterBatches.Batch batch = entered.preview().entered().get();
                surroundings.say("This table was entered already, as %s by %s at %s; nothing was entered."
                        .formatted(batch.number(), batch.by(), batch.at()));
            } else if (entered.batch().isEmpty()) {
                surroundings.say(
                        entered.preview().comparison().count(RegisterComparison.Answer.SAME) > 0
                                ? "The register says all of this already; nothing was entered."
                                : "No row could be entered; nothing was.");
            } else {
                surroundings.say("Entered as %s: %d facts. 'undo' takes it back."
                        .formatted(entered.batch().get().number(), entered.changed()));
            }
            surroundings.say("Journal: " + records.head().tree().text());
            return entered.preview().comparison().count(RegisterComparison.Answer.REFUSED) > 0
                    ? ExitStatus.FAIL
                    : ExitStatus.PASS;
        });
    }

    private static RegisterComparison compared(
            Path table, Optional<String> mappingName, Register register, Surroundings surroundings)
            throws Refusal, IOException {
        RegisterTable read = read(table, mappingName, surroundings);
        RegisterComparison comparison = read.compare(register);
        surroundings.say(text(read, comparison));
        return comparison;
    }

    private static RegisterTable read(Path table, Optional<String> mappingName, Surroundings surroundings)
            throws Refusal, IOException {
        try {
            TableMapping mapping = mappingName.isPresent()
                    ? TableMapping.read(surroundings.resolve(mappingName.get()))
                    : TableMapping.SNIFFED;
            return RegisterTable.read(table, mapping);
        } catch (RegisterException unusable) {
            throw Registers.unreadable(unusable);
        }
    }

    private static List<String> text(RegisterTable table, RegisterComparison comparison) {
        List<String> lines = new ArrayList<>();
        List<String> understood = new ArrayList<>();
        for (Map.Entry<String, RegisterColumn> column : table.columns().entrySet()) {
            understood.add(
                    column.getKey().equals(column.getValue().word())
                            ? column.getKey()
                            : column.getKey() + " as " + column.getValue().word());
        }
        VerdictText.broken("", "Columns understood: " + String.join(", ", understood) + ".", lines);
        if (!table.leftOut().isEmpty()) {
            VerdictText.broken("", "Columns left out: " + String.join(", ", table.leftOut()) + ".", lines);
        }
        lines.add("");
        for (RegisterComparison.Row row : comparison.rows()) {
            String lead = "line " + row.line() + "  " + row.answer().word() + "  " + row.id();
            if (row.answer() == RegisterComparison.Answer.SAME) {
                continue;
            }
            VerdictText.broken("", lead + (row.reason().isBlank() ? "" : ": " + row.reason()), lines);
            for (RegisterComparison.Field field : row.fields()) {
                VerdictText.broken(
                        "    ",
                        field.name() + ": " + (field.before().isBlank() ? "nothing" : field.before()) + " → "
                                + field.after(),
                        lines);
            }
        }
        List<String> counts = new ArrayList<>();
        for (RegisterComparison.Answer answer : RegisterComparison.Answer.values()) {
            counts.add(comparison.count(answer) + " " + answer.word());
        }
        lines.add(String.join(", ", counts) + ".");
        return lines;
    }

    private static List<String> summary(Register register) {
        List<String> lines = new ArrayList<>();
        lines.add(register.clinics().size() + " clinics, "
                + register.sterilizers().size() + " sterilisers, "
                + register.technicians().size() + " technicians, "
                + register.instruments().size() + " instruments, "
                + register.lots().size() + " lots, "
                + register.parts().size() + " parts");
        Map<String, Register.Place> places = register.places();
        for (SterilizerRecord machine : register.sterilizers()) {
            Register.Place place = places.get(machine.room());
            String cycles = machine.counter()
                    .last()
                    .map(total -> "; " + total.cycles() + " cycles up to " + total.on())
                    .orElse("; counter never read");
            VerdictText.broken(
                    "  ",
                    machine.id() + "  " + machine.title() + "; "
                            + machine.status().word() + "; " + (place == null ? "no room" : place.title()) + cycles,
                    lines);
        }
        for (List<SterilizerRecord> pair : register.lookalikes()) {
            VerdictText.broken(
                    "",
                    "Easily mistaken for each other, same model and room: "
                            + pair.get(0).id() + " ("
                            + pair.get(0).identity().serial() + ") and "
                            + pair.get(1).id() + " ("
                            + pair.get(1).identity().serial() + ").",
                    lines);
        }
        return lines;
    }

    private static void write(String name, String text, Surroundings surroundings) throws Refusal, IOException {
        Path file = surroundings.resolve(name);
        try {
            Files.writeString(file, text, StandardCharsets.UTF_8, StandardOpenOption.CREATE_NEW);
        } catch (FileAlreadyExistsException there) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    name + ": there is a file of this name, and nothing is written over.",
                    "Give a new name.");
        }
        surroundings.say("Written: " + surroundings.shown(file));
    }
}
