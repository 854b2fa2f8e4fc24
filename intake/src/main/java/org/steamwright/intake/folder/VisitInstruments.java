package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.assessment.alignment.ClockCheck;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.quantity.PressureReference;

/**
 * The reference instruments of a visit that may be incomplete elsewhere, as far as they can be read.
 *
 * @param instruments with what was done with them at the visit, by id
 * @param clocks how the clocks of their loggers were compared with the reference clock, by id
 * @param references from what those for pressures count, where it is stated, by id
 */
public record VisitInstruments(
        Map<String, ReferenceInstrument> instruments,
        Map<String, ClockCheck> clocks,
        Map<String, PressureReference> references) {

    private static final VisitInstruments NONE = new VisitInstruments(Map.of(), Map.of(), Map.of());

    public VisitInstruments {
        instruments = Collections.unmodifiableMap(new TreeMap<>(instruments));
        clocks = Map.copyOf(clocks);
        references = Map.copyOf(references);
    }

    /** Those of the visit file in a folder; what is wrong with it is told where the visit is read. */
    public static VisitInstruments read(Path folder) throws IOException {
        Path yaml = folder.resolve(VisitFolder.FILE_NAME);
        Problems problems = new Problems(VisitFolder.FILE_NAME);
        Optional<Fields> root =
                YamlSource.parse(Files.readAllBytes(yaml), problems).flatMap(entry -> entry.fields(Shape.VISIT));
        if (root.isEmpty()) {
            return NONE;
        }
        Fields fields = root.get();
        FolderFiles files = new FolderFiles(folder, List.of());
        CertificateFiles certificates = new CertificateFiles(files, fields.find("trust"), new ArrayList<>());
        Map<String, ClockStatement> clocks = new HashMap<>();
        Map<String, PressureReference> references = new HashMap<>();
        Map<String, ReferenceInstrument> own = fields.find("instruments")
                .map(entry -> Facts.instruments(entry, certificates, clocks, new HashMap<>(), references))
                .orElse(Map.of());
        Optional<Entry> register = fields.find("register");
        Map<String, ReferenceInstrument> known = register.isPresent()
                ? Register.joined(
                        Register.read(register.get(), files, certificates, clocks, new HashMap<>(), references),
                        own,
                        register.get())
                : own;
        Optional<LocalDate> day = fields.date("date");
        Map<String, ReferenceInstrument> instruments =
                InstrumentChecks.read(fields.list("instrument-checks"), known, own.keySet(), clocks, day);
        Map<String, ClockCheck> checks = new HashMap<>();
        for (Map.Entry<String, ClockStatement> said : clocks.entrySet()) {
            if (said.getValue() instanceof ClockStatement.ByCheck check && day.isPresent()) {
                // the difference of two clocks read together is the same in any zone
                check.check(
                                ZoneOffset.UTC,
                                ZoneOffset.UTC,
                                day.get().atStartOfDay(ZoneOffset.UTC).toInstant())
                        .ifPresent(read -> checks.put(said.getKey(), read));
            }
        }
        return new VisitInstruments(instruments, checks, references);
    }
}
