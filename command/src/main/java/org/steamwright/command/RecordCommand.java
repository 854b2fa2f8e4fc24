package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.steamwright.filing.Filing;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.register.RegisterFile;

/** Takes a visit folder into a record. */
final class RecordCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Take a visit folder or a register into a record, or what has changed in it.",
                "Every file is kept byte for byte, every fact with who entered it and when. What was said to be",
                "recorded survives a loss of power. A visit is known again by its report number, an entry of a",
                "register by its serial number, name or number.");
        RecordDoor.place(usage);
        usage.argument("VISIT", true, "Visit folder, or a register file or the folder with it.");
        RecordDoor.author(usage);
        usage.value("--why", "TEXT", "Reason, where facts of a recorded visit change.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright record office demo --by 'Kim Sample (invented)'");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Path folder = surroundings.resolve(typed.findArgument(1).orElseThrow());
        var author = RecordDoor.author(typed);
        String why = typed.find("--why").orElse("");
        if (isRegister(folder)) {
            return RecordDoor.openOrMake(typed, surroundings, records -> {
                RegisterFiling.Taken taken = new RegisterFiling(records).take(folder, author, why);
                surroundings.say("Register: %d entries, %d of them new".formatted(taken.entries(), taken.added()));
                surroundings.say("Facts entered: " + taken.changed());
                surroundings.say("Journal: " + records.head().tree().text());
                return ExitStatus.PASS;
            });
        }
        return RecordDoor.openOrMake(typed, surroundings, records -> {
            Filing.Taken taken = new Filing(records).take(folder, author, why);
            surroundings.say("%s %s: %s"
                    .formatted(
                            taken.isNew() ? "Recorded" : taken.changed() == 0 ? "Unchanged" : "Recorded again",
                            taken.visit().text("number"),
                            taken.assessed().summary().get(0)));
            surroundings.say("Facts entered: " + taken.changed());
            surroundings.say("Journal: " + records.head().tree().text());
            return ExitStatus.PASS;
        });
    }

    private static boolean isRegister(Path path) {
        Path name = path.getFileName();
        return Files.isRegularFile(path.resolve(RegisterFile.FILE_NAME))
                || (Files.isRegularFile(path) && name != null && name.toString().equals(RegisterFile.FILE_NAME));
    }
}
