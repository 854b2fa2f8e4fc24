package org.steamwright.desk.path;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.path.Earlier.Offer;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.OfficeInstruments;
import org.steamwright.filing.OfficeInstruments.OnDay;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.KeptFile;
import org.steamwright.records.proof.Hash;

/**
 * Instruments of the office's register that a visit does not name yet, as they stand on its day. Those that may be used are
 * offered, to be confirmed one by one; of the others the reason is told.
 *
 * @param offers by their marks, which change with the entry
 * @param notes why others are not offered
 * @param office how each that the register has stands on that day, by its id
 */
public record RegisterInstruments(List<Offer> offers, List<String> notes, Map<String, OnDay> office) {

    static final RegisterInstruments NONE = new RegisterInstruments(List.of(), List.of(), Map.of());

    private static final String INSTRUMENTS = "instruments";

    public RegisterInstruments {
        offers = List.copyOf(offers);
        notes = List.copyOf(notes);
        office = Map.copyOf(office);
    }

    /** Ids that the register has. */
    Set<String> known() {
        return office.keySet();
    }

    /** Those that may be used on the day, each with what it is. */
    public Map<String, String> usable() {
        Map<String, String> words = new TreeMap<>();
        office.values().stream()
                .filter(one -> one.standing() == OfficeInstruments.Standing.USABLE)
                .map(OnDay::instrument)
                .forEach(one -> words.put(one.id(), one.description()));
        return words;
    }

    /** Those for a visit that is not signed. */
    public static RegisterInstruments of(Draft draft, Office office, RegisterShelf shelf, Frame frame)
            throws IOException, FilingException, RegisterException {
        if (draft.isSigned()) {
            return NONE;
        }
        Optional<LocalDate> day = DraftInstruments.day(draft);
        Set<String> there = there(draft);
        List<Offer> offers = new ArrayList<>();
        List<String> notes = new ArrayList<>();
        Map<String, OnDay> known = new LinkedHashMap<>();
        for (OnDay one : new OfficeInstruments(office.records())
                .on(
                        day.orElse(LocalDate.now(office.clock())),
                        shelf.now().register().instruments())) {
            String id = one.instrument().id();
            known.put(id, one);
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

    private static Set<String> there(Draft draft) {
        Set<String> there = new HashSet<>();
        draft.subject().fact(INSTRUMENTS).ifPresent(ids -> ids.node().forEach(id -> there.add(id.asText())));
        return there;
    }

    /**
     * Brings instruments of the register into the visit with everything that is known of them and the files of their
     * certificates, so that the visit needs nobody else to be judged. Those that the visit has stay as they are; one that it
     * names without a certificate gets what it lacks. Ids that the register does not know are left out.
     *
     * @return whether anything has to be kept
     */
    public boolean bring(Draft draft, DraftChange change, Collection<String> ids, Office desk)
            throws IOException, FilingException {
        boolean isAny = false;
        DraftInstruments visit = draft.instruments();
        Set<String> there = there(draft);
        Set<String> added = new HashSet<>();
        for (String id : new LinkedHashSet<>(ids)) {
            OnDay one = office.get(id);
            Optional<FactPath> bare = bare(draft, visit, id);
            if (one == null || (there.contains(id) && bare.isEmpty())) {
                continue;
            }
            if (bare.isPresent()) {
                Map<String, Object> entry = new LinkedHashMap<>(one.entry());
                if (draft.find(bare.get()).orElse("") instanceof Map<?, ?> own) {
                    own.forEach((key, value) -> entry.put(String.valueOf(key), value));
                }
                change.set(bare.get(), Optional.of(entry), draft.find(bare.get()));
            } else {
                change.add(FactPath.of(INSTRUMENTS), one.entry());
            }
            files(draft, change, one, added, desk);
            isAny = true;
        }
        return isAny;
    }

    /**
     * Puts what the register says of an instrument by now in the place of what the visit has of it, with the files of its
     * certificates. The clock stays, which is compared at each visit.
     *
     * @return whether the register says anything else than the visit
     */
    boolean renew(Draft draft, DraftChange change, String id, Office desk) throws IOException {
        Optional<FactPath> path = entry(draft, id);
        OnDay one = office.get(id);
        if (path.isEmpty() || one == null) {
            return false;
        }
        Map<String, Object> entry = new LinkedHashMap<>(one.entry());
        draft.find(path.get().then("clock")).ifPresent(clock -> entry.put("clock", clock));
        if (draft.find(path.get()).equals(Optional.of(entry))) {
            return false;
        }
        change.set(path.get(), Optional.of(entry), draft.find(path.get()));
        files(draft, change, one, new HashSet<>(), desk);
        return true;
    }

    /** Keeps the files of an instrument's certificates with the visit. */
    private static void files(Draft draft, DraftChange change, OnDay one, Set<String> added, Office desk)
            throws IOException {
        for (Map.Entry<String, Hash> file : one.files().entrySet()) {
            String name = file.getKey();
            KeptFile kept = draft.files().get(name);
            boolean isThere = kept != null && kept.sha256().equals(file.getValue());
            if (!isThere && added.add(name)) {
                change.putFile(
                        name, new ByteArrayInputStream(desk.records().files().get(file.getValue())));
            }
        }
    }

    /** Whether the visit itself states an instrument, and not a register that lies beside it. */
    static boolean isStatedIn(Draft draft, String id) {
        return entry(draft, id).isPresent();
    }

    /** Where an instrument of the visit stands. */
    private static Optional<FactPath> entry(Draft draft, String id) {
        for (int i = 1; i <= draft.count(FactPath.of(INSTRUMENTS)); i++) {
            FactPath path = FactPath.of(INSTRUMENTS, i);
            if (draft.text(path.then("id")).equals(id)) {
                return Optional.of(path);
            }
        }
        return Optional.empty();
    }

    /** The entry of an instrument of which neither the visit nor the register beside it states a certificate. */
    static Optional<FactPath> bare(Draft draft, DraftInstruments visit, String id) {
        return visit.find(id).filter(one -> one.certificate().isEmpty()).flatMap(one -> entry(draft, id));
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
