package org.steamwright.intake.register;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Supplier;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Fields;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.intake.folder.KeyedShape;
import org.steamwright.intake.folder.OtherYaml;
import org.steamwright.intake.folder.Problem;
import org.steamwright.visit.register.ClinicRecord;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Part;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;
import org.steamwright.visit.register.Tester;

/** The register of an office in a file, as the reference page {@code register.md} describes it. Reads, and writes nothing. */
public final class RegisterFile {

    /** Usual name of the file. */
    public static final String FILE_NAME = "register.yaml";

    /** Version of the format that this program reads and writes. */
    public static final int FORMAT_VERSION = 1;

    /** Name of the JSON Schema, a resource beside this class. */
    public static final String SCHEMA = "register.schema.json";

    /** Largest file in bytes: some thousands of machines; more belong into a store. */
    static final int MAX_BYTES = 8_000_000;

    private RegisterFile() {}

    /**
     * What was read.
     *
     * @param register itself
     * @param instrumentsFile name of the file of the instruments beside it; empty if none is named
     */
    public record Contents(Register register, Optional<String> instrumentsFile) {}

    /**
     * The register in a file, or in the {@code register.yaml} of a folder.
     *
     * @throws RegisterException with all problems at once, if there is any
     * @throws IOException if the disk fails
     */
    public static Contents read(Path fileOrFolder) throws IOException, RegisterException {
        Path file = Files.isDirectory(fileOrFolder) ? fileOrFolder.resolve(FILE_NAME) : fileOrFolder;
        String name = String.valueOf(file.getFileName());
        if (!Files.isRegularFile(file)) {
            throw new RegisterException(List.of(Problem.ofFile(
                    RegisterMessage.NO_REGISTER,
                    name,
                    0,
                    "found no such file, expected a register.",
                    "Write one after the example in docs/reference/register.md, or import a table of machines.")));
        }
        Path parent = file.toAbsolutePath().getParent();
        return read(readBounded(file), name, Optional.ofNullable(parent));
    }

    /** One byte more than the limit is enough to know that a file is too large. */
    private static byte[] readBounded(Path file) throws IOException {
        try (var in = Files.newInputStream(file)) {
            return in.readNBytes(MAX_BYTES + 1);
        }
    }

    /**
     * The register in these bytes, which names no file of instruments.
     *
     * @param name for messages
     * @throws RegisterException if it can't be read, with every problem
     */
    public static Register read(byte[] bytes, String name) throws RegisterException {
        try {
            return read(bytes, name, Optional.empty()).register();
        } catch (IOException impossible) {
            throw new IllegalStateException("bytes in memory can't fail to be read", impossible);
        }
    }

    /**
     * Registers that were read in parts, as one. A clinic may be in several parts, as long as it is the same.
     *
     * @param parts in order
     * @param name for messages
     * @throws RegisterException if they contradict each other
     */
    public static Register joined(List<Register> parts, String name) throws RegisterException {
        try {
            return new Register(
                    all(parts, Register::clinics).stream().distinct().toList(),
                    all(parts, Register::sterilizers),
                    all(parts, Register::technicians),
                    all(parts, Register::instruments),
                    all(parts, Register::lots),
                    all(parts, Register::parts),
                    all(parts, Register::testers));
        } catch (IllegalArgumentException refused) {
            throw new RegisterException(List.of(Problem.ofFile(
                    RegisterMessage.CONTRADICTS_ITSELF,
                    name,
                    0,
                    "found a contradiction: " + refused.getMessage() + ".",
                    "Correct the entry.")));
        }
    }

    private static <E> List<E> all(List<Register> parts, Function<Register, List<E>> entries) {
        return parts.stream().flatMap(part -> entries.apply(part).stream()).toList();
    }

    /** The register in these bytes; a file of instruments is looked for in the folder, if there is one. */
    static Contents read(byte[] bytes, String name, Optional<Path> folder) throws IOException, RegisterException {
        OtherYaml.Kind kind = new OtherYaml.Kind(
                name,
                "the register",
                "steamwright-register: " + FORMAT_VERSION,
                "docs/reference/register.md",
                MAX_BYTES);
        try {
            OtherYaml.Answer<Contents> answer = OtherYaml.read(bytes, kind, root -> contents(root, folder));
            if (answer.value().isEmpty()) {
                throw new RegisterException(answer.problems());
            }
            return answer.value().get();
        } catch (UncheckedIOException disk) {
            throw new IOException("can't read the instruments of " + name, disk);
        }
    }

    private static Optional<Contents> contents(Entry root, Optional<Path> folder) {
        Optional<Fields> opened = versioned(root, RegisterShape.REGISTER, "steamwright-register", FORMAT_VERSION);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<Entry> instrumentsEntry = fields.find("instruments");
        Optional<String> instrumentsFile = instrumentsEntry.flatMap(Entry::text);
        List<ReferenceInstrument> instruments =
                instrumentsEntry.map(entry -> instruments(entry, folder)).orElse(List.of());
        List<ClinicRecord> clinics = list(fields, "clinics", RegisterShape.CLINIC, ClinicFacts::clinic);
        List<SterilizerRecord> sterilizers =
                list(fields, "sterilizers", RegisterShape.STERILIZER, SterilizerFacts::sterilizer);
        List<Technician> technicians = list(fields, "technicians", RegisterShape.TECHNICIAN, StoreFacts::technician);
        List<Lot> lots = list(fields, "lots", RegisterShape.LOT, StoreFacts::lot);
        List<Part> parts = list(fields, "parts", RegisterShape.PART, StoreFacts::part);
        List<Tester> testers = list(fields, "testers", RegisterShape.TESTER, StoreFacts::tester);
        if (!areRoomsThere(fields, clinics, sterilizers)) {
            return Optional.empty();
        }
        return checked(root, () -> new Register(clinics, sterilizers, technicians, instruments, lots, parts, testers))
                .map(register -> new Contents(register, instrumentsFile));
    }

    private static List<ReferenceInstrument> instruments(Entry entry, Optional<Path> folder) {
        if (folder.isEmpty()) {
            entry.problem(
                    RegisterMessage.INSTRUMENTS_UNREADABLE,
                    Flaw.of(
                            "found the name of a file, but the register was not read from a folder.",
                            "Name the register by its" + " path."));
            return List.of();
        }
        try {
            return OtherYaml.instruments(entry, folder.get());
        } catch (IOException disk) {
            throw new UncheckedIOException(disk);
        }
    }

    /** A room that is not there is told at the machine, not at the file as a whole. */
    private static boolean areRoomsThere(
            Fields fields, List<ClinicRecord> clinics, List<SterilizerRecord> sterilizers) {
        Set<String> rooms = new HashSet<>();
        clinics.forEach(clinic -> clinic.sites().forEach(site -> site.rooms().forEach(room -> rooms.add(room.id()))));
        List<Entry> entries = fields.find("sterilizers").map(Entry::list).orElse(List.of());
        if (entries.size() != sterilizers.size()) {
            return false;
        }
        boolean areThere = true;
        for (int i = 0; i < entries.size(); i++) {
            SterilizerRecord machine = sterilizers.get(i);
            if (!machine.room().isBlank() && !rooms.contains(machine.room())) {
                areThere = false;
                entries.get(i)
                        .problem(
                                RegisterMessage.CONTRADICTS_ITSELF,
                                Flaw.of(
                                        "found " + machine.id() + " in the room \"" + machine.room()
                                                + "\", which no site has.",
                                        "Add the room to its site, or correct the id."));
            }
        }
        return areThere;
    }

    /** The root, if the file begins with the right version; empty after a problem was added. */
    static Optional<Fields> versioned(Entry root, KeyedShape shape, String key, int version) {
        Optional<Fields> fields = root.fields(shape);
        if (fields.isEmpty()) {
            return Optional.empty();
        }
        Optional<String> text = fields.get().find(key).flatMap(Entry::text);
        if (text.isEmpty() || !text.get().equals(String.valueOf(version))) {
            root.problem(
                    RegisterMessage.FORMAT_VERSION,
                    Flaw.of("found "
                                    + text.map(found -> "version \"" + found + "\"")
                                            .orElse("no \"" + key + "\"") + ", expected version " + version
                                    + " of the format.")
                            .inFile("A newer program may be needed; otherwise" + " begin the file with: " + key + ": "
                                    + version));
            return Optional.empty();
        }
        return fields;
    }

    /** The entries of a list that could be read. */
    static <E> List<E> list(Fields fields, String key, KeyedShape shape, Function<Fields, Optional<E>> reader) {
        List<E> all = new ArrayList<>();
        for (Entry entry : fields.list(key)) {
            entry.fields(shape).flatMap(reader).ifPresent(all::add);
        }
        return all;
    }

    /** What a constructor makes, or a problem with the words in which it refused. */
    static <E> Optional<E> checked(Entry entry, Supplier<E> made) {
        return checked(entry, RegisterMessage.CONTRADICTS_ITSELF, made);
    }

    static <E> Optional<E> checked(Entry entry, RegisterMessage message, Supplier<E> made) {
        try {
            return Optional.of(made.get());
        } catch (IllegalArgumentException refused) {
            entry.problem(
                    message, Flaw.of("found a contradiction: " + refused.getMessage() + ".", "Correct the entry."));
            return Optional.empty();
        }
    }

    /** Both values together, if both are there. */
    static <A, B, E> Optional<E> both(Optional<A> one, Optional<B> other, BiFunction<A, B, E> made) {
        return one.isPresent() && other.isPresent()
                ? Optional.of(made.apply(one.get(), other.get()))
                : Optional.empty();
    }
}
