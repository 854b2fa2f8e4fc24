package org.steamwright.filing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;

/**
 * Which subject of the record an entry of a register is: entries that the record has, by their ids, and what only visits made
 * known.
 *
 * @param shelf the list
 * @param stated by the ids that the register gave
 * @param serials the same by their serial numbers
 * @param seen what only visits made known, by the fact under which the list knows it
 * @param sites of clinics, with the ids of these
 */
record RegisterMatching(
        Shelf shelf,
        Map<String, Subject> stated,
        Map<String, List<Subject>> serials,
        Map<String, List<Subject>> seen,
        Map<String, String> sites) {

    /** What the record has of a list. */
    static RegisterMatching of(Shelf shelf, Records records) {
        String fact = shelf.known().equals("id") ? "number" : shelf.known();
        RegisterMatching known =
                new RegisterMatching(shelf, new HashMap<>(), new HashMap<>(), new HashMap<>(), new HashMap<>());
        records.eachSubject(shelf.kind(), subject -> {
            String id = statedId(subject);
            if (id.isBlank()) {
                known.seen
                        .computeIfAbsent(subject.text(fact), text -> new ArrayList<>())
                        .add(subject);
            } else {
                known.stated.put(id, subject);
                known.serials
                        .computeIfAbsent(subject.text("serial"), text -> new ArrayList<>())
                        .add(subject);
            }
            subject.fact(Shelf.STATED + "sites")
                    .ifPresent(sites -> sites.node()
                            .forEach(site -> known.sites.put(site.path("id").asText(), id)));
        });
        return known;
    }

    /**
     * The subject of an entry: the one of that id, else one that only visits made known.
     *
     * @throws FilingException if the entry is another one's, or it is not clear which one it is
     */
    Optional<Subject> find(Map<?, ?> entry) throws FilingException {
        String id = Shelf.text(entry, "id");
        refuseOthers(entry, id);
        Optional<Subject> byId = Optional.ofNullable(stated.get(id));
        return byId.isPresent()
                ? byId
                : ofVisits(shelf, entry, seen.getOrDefault(Shelf.text(entry, shelf.known()), List.of()));
    }

    private void refuseOthers(Map<?, ?> entry, String id) throws FilingException {
        if (shelf.equals(Shelf.STERILIZERS)) {
            for (Subject other : serials.getOrDefault(Shelf.text(entry, "serial"), List.of())) {
                if (!statedId(other).equals(id) && Meant.isSame(other, Meant.machine(entry))) {
                    throw new FilingException(
                            "the steriliser %s has maker, model and serial number of %s, which is in the record"
                                    .formatted(id, statedId(other)),
                            "Write the id %s; an id never changes.".formatted(statedId(other)));
                }
            }
        } else if (shelf.equals(Shelf.CLINICS) && entry.get("sites") instanceof List<?> list) {
            for (Object one : list) {
                String site = one instanceof Map<?, ?> map ? Shelf.text(map, "id") : "";
                String owner = sites.getOrDefault(site, id);
                if (!owner.equals(id)) {
                    throw new FilingException(
                            "the site %s of the clinic %s belongs to the clinic %s in the record"
                                    .formatted(site, id, owner),
                            "Write the id %s if it is the same clinic, for an id never changes; else give the site another id."
                                    .formatted(owner));
                }
            }
        }
    }

    static String statedId(Subject subject) {
        return subject.text(Shelf.STATED + "id");
    }

    /**
     * The one of some subjects that only visits made known that an entry describes.
     *
     * @throws FilingException if it describes several
     */
    static Optional<Subject> ofVisits(Shelf shelf, Map<?, ?> entry, List<Subject> seen) throws FilingException {
        List<Subject> fitting = seen;
        if (shelf.equals(Shelf.STERILIZERS)) {
            fitting = Meant.fitting(seen, Meant.machine(entry));
        } else if (shelf.equals(Shelf.CLINICS)) {
            TreeSet<SubjectId> ids = new TreeSet<>(Comparator.comparing(SubjectId::value));
            List<String> addresses = new ArrayList<>();
            if (entry.get("sites") instanceof List<?> sites) {
                sites.forEach(site -> addresses.add(site instanceof Map<?, ?> map ? Shelf.text(map, "address") : ""));
            }
            if (addresses.isEmpty()) {
                addresses.add("");
            }
            addresses.forEach(address -> Meant.fitting(seen, address).forEach(one -> ids.add(one.id())));
            fitting = seen.stream().filter(one -> ids.contains(one.id())).toList();
        }
        if (fitting.size() > 1 && Shelf.OF_PLACES.contains(shelf)) {
            throw new FilingException(
                    "%s may be any of %d that visits made known under %s"
                            .formatted(Shelf.text(entry, "id"), fitting.size(), Shelf.text(entry, shelf.known())),
                    shelf.equals(Shelf.CLINICS)
                            ? "State the address of its site as one of the visits has it."
                            : "State maker and model as one of the visits has them.");
        }
        return fitting.stream().findFirst();
    }
}
