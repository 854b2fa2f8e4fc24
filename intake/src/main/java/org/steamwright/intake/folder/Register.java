package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.InstrumentHistory;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.quantity.PressureReference;

/**
 * The register of reference instruments in a file of its own, which many visits can name: one format version, one list of
 * instruments in the shape that they have in a visit file.
 */
final class Register {

    /** Key of the version, the first line of the file. */
    static final String VERSION_KEY = "steamwright-instruments";

    /** Version of the format that this program reads. */
    static final int FORMAT_VERSION = 1;

    private static final String LIST_KEY = "instruments";

    private Register() {}

    /**
     * The instruments of the file that an entry names; none after a problem was added. Problems inside the file are told with
     * its own name and lines.
     */
    static Map<String, ReferenceInstrument> read(
            Entry entry,
            FolderFiles files,
            CertificateFiles certificates,
            Map<String, ClockStatement> clocks,
            Map<String, String> serials,
            Map<String, PressureReference> references)
            throws IOException {
        Optional<String> name = entry.text();
        Optional<Path> file = name.isEmpty() ? Optional.empty() : files.find(name.get(), entry);
        if (file.isEmpty()) {
            return Map.of();
        }
        if (Files.size(file.get()) > YamlSource.MAX_BYTES) {
            entry.problem(Mistake.TOO_LARGE, YamlSource.tooLarge(Files.size(file.get())));
            return Map.of();
        }
        Problems problems = entry.source().problems().ofRegister(name.get());
        return YamlSource.parse(Files.readAllBytes(file.get()), problems)
                .map(root -> instruments(root, certificates, clocks, serials, references))
                .orElse(Map.of());
    }

    private static Map<String, ReferenceInstrument> instruments(
            Entry root,
            CertificateFiles certificates,
            Map<String, ClockStatement> clocks,
            Map<String, String> serials,
            Map<String, PressureReference> references) {
        Optional<Map<String, Entry>> keys = root.entries();
        if (keys.isEmpty()) {
            return Map.of();
        }
        Entry version = keys.get().get(VERSION_KEY);
        Optional<String> text = version == null ? Optional.empty() : version.text();
        if (text.isEmpty() || !text.get().equals(String.valueOf(FORMAT_VERSION))) {
            root.problem(
                    Mistake.FORMAT_VERSION,
                    Flaw.of("found "
                                    + text.map(found -> "version \"" + found + "\"")
                                            .orElse("no \"" + VERSION_KEY + "\"")
                                    + ", expected the version of the format of a register.")
                            .inFile("Begin the file with: " + VERSION_KEY + ": " + FORMAT_VERSION));
            return Map.of();
        }
        List<String> known = List.of(VERSION_KEY, LIST_KEY);
        Map<String, ReferenceInstrument> instruments = new LinkedHashMap<>();
        for (Map.Entry<String, Entry> key : keys.get().entrySet()) {
            if (!known.contains(key.getKey())) {
                String near = Nearest.didYouMean(key.getKey(), known);
                key.getValue()
                        .problem(
                                Mistake.UNKNOWN_KEY,
                                Flaw.notAmong("found the unknown key \"%s\", expected one of %s.", key.getKey(), known)
                                        .with((near.isEmpty() ? " Remove it." : near)));
            }
        }
        Entry list = keys.get().get(LIST_KEY);
        if (list == null) {
            root.problem(
                    Mistake.MISSING_KEY,
                    Flaw.missing("found no \"%s\", expected it here.", LIST_KEY)
                            .inFile("Add a line like: " + LIST_KEY + ": [{id: TL-07, measures: temperature}]"));
        } else {
            instruments.putAll(Facts.instruments(list, certificates, clocks, serials, references));
        }
        if (root.source().problems().isEmpty()) {
            root.source().checkAllAsked();
        }
        return instruments;
    }

    /**
     * The instruments of the register with those of the visit. One that the visit names without a certificate has that of the
     * register; a problem for each that stands in both with what is known of it over the years.
     */
    static Map<String, ReferenceInstrument> joined(
            Map<String, ReferenceInstrument> register, Map<String, ReferenceInstrument> visit, Entry spot) {
        List<String> twice = new ArrayList<>();
        Map<String, ReferenceInstrument> all = new LinkedHashMap<>(register);
        for (Map.Entry<String, ReferenceInstrument> own : visit.entrySet()) {
            ReferenceInstrument here = own.getValue();
            ReferenceInstrument there = register.get(own.getKey());
            if (there == null) {
                all.put(own.getKey(), here);
            } else if (here.certificate().isPresent() || !here.history().equals(InstrumentHistory.NONE)) {
                twice.add(own.getKey());
            } else if (here.quantity() != there.quantity()) {
                spot.problem(
                        Mistake.OTHER_QUANTITY,
                        Flaw.of(
                                "found %s as an instrument for %s in the register and for %s in this file, expected the same."
                                        .formatted(own.getKey(), word(there), word(here)),
                                "Correct the one that is wrong."));
            } else {
                all.put(own.getKey(), completed(here, there));
            }
        }
        if (!twice.isEmpty()) {
            spot.problem(
                    Mistake.NAME_TWICE,
                    Flaw.of(
                            "found " + String.join(", ", twice)
                                    + " in the register and in this file, expected each instrument once.",
                            "Remove it here, and keep" + " its certificates and checks in the register."));
        }
        return all;
    }

    private static String word(ReferenceInstrument instrument) {
        return Words.of(instrument.quantity(), Words.MEASURES);
    }

    /** What the visit says of an instrument, and what only the register knows. */
    private static ReferenceInstrument completed(ReferenceInstrument here, ReferenceInstrument there) {
        return new ReferenceInstrument(
                here.id(),
                here.description().isBlank() ? there.description() : here.description(),
                here.quantity(),
                Double.isFinite(here.rangeLow()) ? here.rangeLow() : there.rangeLow(),
                Double.isFinite(here.rangeHigh()) ? here.rangeHigh() : there.rangeHigh(),
                there.certificate(),
                here.contributions().isEmpty() ? there.contributions() : here.contributions(),
                there.history());
    }
}
