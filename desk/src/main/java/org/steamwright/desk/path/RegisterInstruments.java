package org.steamwright.desk.path;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.path.Earlier.Offer;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.OfficeInstruments;
import org.steamwright.filing.OfficeInstruments.OnDay;
import org.steamwright.intake.register.RegisterException;

/**
 * Instruments of the office's register that a visit does not name yet, as they stand on its day. Those that may be used are
 * offered, to be confirmed one by one; of the others the reason is told.
 *
 * @param offers by their marks, which change with the entry
 * @param notes why others are not offered
 * @param known ids that the register has
 */
record RegisterInstruments(List<Offer> offers, List<String> notes, Set<String> known) {

    static final RegisterInstruments NONE = new RegisterInstruments(List.of(), List.of(), Set.of());

    RegisterInstruments {
        offers = List.copyOf(offers);
        notes = List.copyOf(notes);
        known = Set.copyOf(known);
    }

    /** Those for a visit that is not signed. */
    static RegisterInstruments of(Draft draft, Office office, RegisterShelf shelf, Frame frame)
            throws IOException, FilingException, RegisterException {
        if (draft.isSigned()) {
            return NONE;
        }
        Optional<LocalDate> day = day(draft);
        Set<String> there = new HashSet<>();
        draft.subject().fact("instruments").ifPresent(ids -> ids.node().forEach(id -> there.add(id.asText())));
        List<Offer> offers = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        Set<String> known = new HashSet<>();
        for (OnDay one : new OfficeInstruments(office.records())
                .on(
                        day.orElse(LocalDate.now(office.clock())),
                        shelf.now().register().instruments())) {
            String id = one.instrument().id();
            known.add(id);
            if (there.contains(id) || day.isEmpty()) {
                continue;
            }
            if (one.standing() == OfficeInstruments.Standing.USABLE) {
                offers.add(offer(one, office, frame));
            } else {
                notes.add(note(one, frame));
            }
        }
        if (day.isEmpty() && !known.isEmpty()) {
            notes.add(frame.say("path.register-no-day"));
        }
        return new RegisterInstruments(offers, notes, known);
    }

    private static Optional<LocalDate> day(Draft draft) {
        try {
            return Optional.of(LocalDate.parse(draft.text(FactPath.of("date"))));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }

    private static Offer offer(OnDay one, Office office, Frame frame) {
        Map<String, Object> entry = one.entry();
        Map<String, String> words = new LinkedHashMap<>();
        words.put("id", one.instrument().id());
        words.put("description", one.instrument().description());
        one.certificate()
                .ifPresent(certificate -> words.put(
                        "certificate",
                        frame.say(
                                "path.register-until",
                                certificate.number(),
                                frame.figures().day(certificate.dueOn()))));
        words.values().removeIf(String::isBlank);
        Map<String, byte[]> files = new LinkedHashMap<>();
        one.files()
                .forEach(
                        (name, hash) -> files.put(name, office.records().files().get(hash)));
        return new Offer(one.subject().id() + "-" + Integer.toHexString(entry.hashCode()), words, entry, files);
    }

    private static String note(OnDay one, Frame frame) {
        String id = one.instrument().id();
        return switch (one.standing()) {
            case QUARANTINED ->
                frame.say(
                        "path.register-quarantined",
                        id,
                        one.quarantine().map(quarantine -> quarantine.reason()).orElse(""));
            case OUT_OF_DATE, NOT_CALIBRATED_YET ->
                frame.say(
                        one.standing() == OfficeInstruments.Standing.OUT_OF_DATE
                                ? "path.register-out"
                                : "path.register-not-yet",
                        id,
                        one.certificate()
                                .map(certificate -> frame.figures()
                                        .day(
                                                one.standing() == OfficeInstruments.Standing.OUT_OF_DATE
                                                        ? certificate.dueOn()
                                                        : certificate.calibratedOn()))
                                .orElse("–"));
            default -> frame.say("path.register-no-certificate", id);
        };
    }
}
