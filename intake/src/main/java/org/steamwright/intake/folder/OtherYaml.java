package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;

/**
 * Opens YAML files that are no visit by the rules of the visit file: limits against hostile files, places in messages, no key
 * accepted and then forgotten.
 */
public final class OtherYaml {

    /**
     * What a file is.
     *
     * @param file its name, for messages
     * @param words what it is, such as 'the register'
     * @param firstLine with which it begins
     * @param page of the documentation with an example
     * @param maxBytes largest size
     */
    public record Kind(String file, String words, String firstLine, String page, int maxBytes) {}

    /**
     * What was read.
     *
     * @param value empty if a problem kept it from being read
     * @param problems in the order of the file
     */
    public record Answer<T>(Optional<T> value, List<Problem> problems) {}

    private OtherYaml() {}

    /** Reads the root of a file. A value that was read although problems were found is not given. */
    public static <T> Answer<T> read(byte[] bytes, Kind kind, Function<Entry, Optional<T>> reader) {
        Problems problems = Problems.of(kind);
        Optional<Entry> root = YamlSource.parse(bytes, problems, kind.maxBytes());
        Optional<T> value = root.flatMap(reader);
        if (problems.isEmpty() && root.isPresent()) {
            root.get().source().checkAllAsked();
        }
        List<Problem> found = problems.sorted();
        return new Answer<>(found.isEmpty() ? value : Optional.empty(), found);
    }

    /** The instruments of the register file that an entry names, beside the file that names it. */
    public static List<ReferenceInstrument> instruments(Entry entry, Path folder) throws IOException {
        FolderFiles files = new FolderFiles(folder, List.of());
        CertificateFiles certificates = new CertificateFiles(files, Optional.empty(), new ArrayList<>());
        return List.copyOf(Register.read(entry, files, certificates, new HashMap<>(), new HashMap<>(), new HashMap<>())
                .values());
    }

    /** The cycle of a mapping that has the keys of a cycle in a visit file, among others. */
    public static Optional<CycleDefinition> cycle(Fields fields) {
        return Facts.cycle(fields);
    }
}
