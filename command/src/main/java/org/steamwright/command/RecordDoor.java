package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.RecordsException;
import org.steamwright.visit.register.Register;

/** What all commands about a record share: where it lies, who writes, and how its refusals are told. */
final class RecordDoor {

    /** Work with an open record. */
    @FunctionalInterface
    interface Work {
        ExitStatus with(Records records)
                throws Refusal, IOException, FilingException, VisitFolderException, RegisterException;
    }

    private static final String SERVER = "--server";
    private static final String SERVER_FILE = "--server-file";

    private RecordDoor() {}

    /** The record as first argument, and the server that may hold it. */
    static void place(Usage usage) {
        usage.argument("RECORD", true, "Folder of the record.");
        server(usage);
    }

    /** The server that may hold the record. */
    static void server(Usage usage) {
        usage.value(SERVER, "ADDRESS", "PostgreSQL of an office: jdbc:postgresql://…; files stay in the folder.");
        usage.value(
                SERVER_FILE,
                "FILE",
                "File with that address alone, so that a password in it stands in no list of processes.");
    }

    static void author(Usage usage) {
        usage.value("--by", "NAME", "Who does this, as it will stand in the journal. Needed.");
        usage.value("--role", "WORD", "Role of that person: technician, reviewer, office.");
    }

    static boolean isOnServer(Typed typed) {
        return typed.isSet(SERVER) || typed.isSet(SERVER_FILE);
    }

    /** Why something is corrected or taken back. */
    static String reason(Typed typed) throws Refusal {
        return typed.find("--reason")
                .filter(text -> !text.isBlank())
                .orElseThrow(() -> new Refusal(
                        ExitStatus.USAGE,
                        "--reason is missing: it stays with the visit.",
                        "Add one sentence, for example: --reason 'lot read wrongly'"));
    }

    static Place place(Typed typed, int argument, Surroundings surroundings) throws Refusal, IOException {
        Path folder = surroundings.resolve(typed.findArgument(argument).orElseThrow());
        if (typed.isSet(SERVER) && typed.isSet(SERVER_FILE)) {
            throw new Refusal(
                    ExitStatus.USAGE, "--server and --server-file say the same.", "Name one of the two, not both.");
        }
        Optional<String> address = typed.find(SERVER);
        if (typed.isSet(SERVER_FILE)) {
            address = Optional.of(
                    address(surroundings.resolve(typed.find(SERVER_FILE).orElseThrow()), surroundings));
        }
        return address.map(one -> Place.server(one, folder)).orElseGet(() -> Place.folder(folder));
    }

    /** The address that stands alone in a file; what else stands there is not shown, for it may be a secret. */
    private static String address(Path file, Surroundings surroundings) throws Refusal, IOException {
        if (!Files.isReadable(file)) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    surroundings.shown(file) + ": there is no such file that this user may read.",
                    "Name the file with the address of the database, and let this user read it.");
        }
        String address = Files.readString(file).strip();
        if (!address.startsWith("jdbc:postgresql:") || address.lines().count() != 1) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    surroundings.shown(file) + ": one line with an address of PostgreSQL is expected.",
                    "Such as jdbc:postgresql://localhost/steamwright?user=steamwright");
        }
        return address;
    }

    static Author author(Typed typed) throws Refusal {
        return new Author(
                typed.find("--by")
                        .orElseThrow(() -> new Refusal(
                                ExitStatus.USAGE,
                                "--by is missing: the journal names the author of every entry.",
                                "Add --by 'YOUR NAME'.")),
                typed.find("--role").orElse(""));
    }

    /** Whether a record in one file lies there. */
    static boolean isRecord(Path folder) {
        return Files.isRegularFile(Place.folder(folder).database());
    }

    /** The register that a record holds. */
    static Register register(Path folder) throws Refusal, IOException {
        List<Register> found = new ArrayList<>();
        withRecord(Place.folder(folder), records -> {
            found.add(new RegisterFiling(records).register());
            return ExitStatus.PASS;
        });
        return found.get(0);
    }

    /** One file of the register that a record holds, if it has it. */
    static Optional<byte[]> registerFile(Path folder, String name) throws Refusal, IOException {
        Map<String, byte[]> files = new TreeMap<>();
        withRecord(Place.folder(folder), records -> {
            files.putAll(new RegisterFiling(records).files());
            return ExitStatus.PASS;
        });
        return Optional.ofNullable(files.get(name));
    }

    /** Opens the record that is there. */
    static ExitStatus open(Typed typed, Surroundings surroundings, Work work) throws Refusal, IOException {
        Place place = place(typed, 0, surroundings);
        if (place.server().isEmpty() && !isRecord(place.folder())) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    surroundings.shown(place.folder()) + ": there is no record in this folder.",
                    "'steamwright record' makes one when it takes in the first visit.");
        }
        return openOrMake(typed, surroundings, work);
    }

    /** Opens the record, and makes it if there is none. */
    static ExitStatus openOrMake(Typed typed, Surroundings surroundings, Work work) throws Refusal, IOException {
        return withRecord(place(typed, 0, surroundings), records -> {
            records.warnings().forEach(surroundings::warn);
            return work.with(records);
        });
    }

    private static ExitStatus withRecord(Place place, Work work) throws Refusal, IOException {
        return guarded(() -> {
            try (Records records = Records.open(place, Clock.system(ZoneId.systemDefault()), DueInRecord.RULE)) {
                return work.with(records);
            }
        });
    }

    /** Work that may end in a refusal of the record. */
    @FunctionalInterface
    interface Guarded {
        ExitStatus run() throws Refusal, IOException, FilingException, VisitFolderException, RegisterException;
    }

    static ExitStatus guarded(Guarded work) throws Refusal, IOException {
        try {
            return work.run();
        } catch (RecordsException refused) {
            throw new Refusal(ExitStatus.UNREADABLE, String.valueOf(refused.getMessage()));
        } catch (FilingException refused) {
            throw new Refusal(ExitStatus.UNREADABLE, refused.getMessage() + ".", refused.remedy());
        } catch (VisitFolderException unusable) {
            throw Assessing.unreadable(unusable);
        } catch (RegisterException unusable) {
            throw Registers.unreadable(unusable);
        }
    }

    /** Asks for a secret and clears it after use. */
    static <T> T withSecret(String question, Surroundings surroundings, SecretUse<T> use)
            throws Refusal, IOException, FilingException, VisitFolderException {
        Optional<char[]> secret = surroundings.secret(question);
        if (secret.isEmpty()) {
            throw new Refusal(ExitStatus.USAGE, "no secret was given, so nothing was done.", "Type it when asked.");
        }
        try {
            return use.with(secret.get());
        } finally {
            Arrays.fill(secret.get(), ' ');
        }
    }

    /** What is done with a secret. */
    @FunctionalInterface
    interface SecretUse<T> {
        T with(char[] secret) throws Refusal, IOException, FilingException, VisitFolderException;
    }
}
