package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.intake.register.VisitDraft;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;

/** Begins a visit folder with what a register knows. */
final class OpenCommand implements Command {

    private static final String USUAL_SET = "eu-en13060";
    private static final String VISIT_FILE = "visit.yaml";
    private static final String INSTRUMENTS = "instruments.yaml";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Begin a visit folder with what a register knows of the steriliser.",
                "Clinic, site, machine, cycles in use and the register of instruments are written down; what has to be seen",
                "on the day stays a comment. The file is complete once it has runs.");
        usage.argument("REGISTER", true, "Register file, the folder with a register.yaml, or a record.");
        usage.argument("STERILISER", true, "Its id in the register, or its serial number.");
        usage.value("--number", "TEXT", "Report number of the visit. Needed.");
        usage.value("--on", "DATE", "Day of the visit at the site. Needed.");
        usage.value("--out", "DIR", "New folder for the visit. Needed.");
        usage.value("--purpose", "TEXT", "In words; 'yearly requalification' if left out.");
        usage.value("--criteria", "NAME", "Criteria set; " + USUAL_SET + " if left out.");
        usage.value("--technician", "ID", "Who goes, by the id in the register.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright open office ST-01 --number R-2026-0050 --on 2026-03-09 --out visit-0050 --technician KS");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        String name = typed.findArgument(0).orElseThrow();
        String number = needed(typed, "--number", "R-2026-0050");
        String out = needed(typed, "--out", "visit-0050");
        LocalDate day = Registers.day(typed, "--on")
                .orElseThrow(
                        () -> new Refusal(ExitStatus.USAGE, "--on is missing.", "Add for example: --on 2026-03-09"));
        Register register = Registers.register(name, surroundings);
        SterilizerRecord machine =
                Registers.machine(register, typed.findArgument(1).orElseThrow());
        Optional<String> id = typed.find("--technician");
        Optional<Technician> technician = id.flatMap(register::findTechnician);
        if (id.isPresent() && technician.isEmpty()) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "--technician " + id.get() + ": the register has no technician of this id.",
                    "'steamwright register' lists them.");
        }
        Path folder = surroundings.resolve(out);
        if (Files.exists(folder)) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    surroundings.shown(folder) + " is there already; nothing is overwritten.",
                    "Name a new folder with --out.");
        }
        Optional<byte[]> instruments = instruments(name, surroundings);
        Files.createDirectories(folder);
        VisitDraft.Visit visit = new VisitDraft.Visit(
                number,
                typed.find("--purpose").orElse("yearly requalification"),
                day,
                typed.find("--criteria").orElse(USUAL_SET),
                technician,
                instruments.isPresent());
        Files.writeString(
                folder.resolve(VISIT_FILE), VisitDraft.of(register, machine, visit), StandardOpenOption.CREATE_NEW);
        if (instruments.isPresent()) {
            Files.write(folder.resolve(INSTRUMENTS), instruments.get(), StandardOpenOption.CREATE_NEW);
        }
        surroundings.say("Begun: " + surroundings.shown(folder.resolve(VISIT_FILE)));
        surroundings.say("Add the runs as they are made; 'steamwright assess " + out + "' says what is missing.");
        return ExitStatus.PASS;
    }

    private static String needed(Typed typed, String option, String like) throws Refusal {
        return typed.find(option)
                .filter(text -> !text.isBlank())
                .orElseThrow(() -> new Refusal(
                        ExitStatus.USAGE, option + " is missing.", "Add for example: " + option + " " + like));
    }

    private static Optional<byte[]> instruments(String name, Surroundings surroundings) throws Refusal, IOException {
        Path place = surroundings.resolve(name);
        if (RecordDoor.isRecord(place)) {
            return RecordDoor.registerFile(place, INSTRUMENTS);
        }
        Optional<String> file = Registers.contents(name, surroundings).instrumentsFile();
        Path folder = Files.isDirectory(place) ? place : place.toAbsolutePath().getParent();
        return file.isPresent() && folder != null
                ? Optional.of(Files.readAllBytes(folder.resolve(file.get())))
                : Optional.empty();
    }
}
