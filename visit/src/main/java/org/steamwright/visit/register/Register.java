package org.steamwright.visit.register;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.steamwright.assessment.calibration.ReferenceInstrument;

/**
 * What the office keeps between visits. Every entry is found by an id that never changes.
 *
 * @param clinics with their sites and rooms
 * @param sterilizers of all clinics, loaners and spares too
 * @param technicians with what they may do
 * @param instruments reference equipment with its certificates
 * @param lots of indicators and test devices
 * @param parts in store
 * @param testers for electrical safety
 */
public record Register(
        List<ClinicRecord> clinics,
        List<SterilizerRecord> sterilizers,
        List<Technician> technicians,
        List<ReferenceInstrument> instruments,
        List<Lot> lots,
        List<Part> parts,
        List<Tester> testers) {

    /** A register without testers. */
    public Register(
            List<ClinicRecord> clinics,
            List<SterilizerRecord> sterilizers,
            List<Technician> technicians,
            List<ReferenceInstrument> instruments,
            List<Lot> lots,
            List<Part> parts) {
        this(clinics, sterilizers, technicians, instruments, lots, parts, List.of());
    }

    /** A register with nothing in it. */
    public static final Register EMPTY = new Register(List.of(), List.of(), List.of(), List.of(), List.of(), List.of());

    /**
     * Where a room is.
     *
     * @param clinic that owns the site
     * @param site that has the room
     * @param room itself
     */
    public record Place(ClinicRecord clinic, Site site, Site.Room room) {
        /** Clinic, site and room in one line. */
        public String title() {
            List<String> parts = new ArrayList<>(List.of(clinic.name()));
            if (!site.name().isBlank()) {
                parts.add(site.name());
            }
            if (!room.name().isBlank()) {
                parts.add(room.name());
            }
            return String.join(", ", parts);
        }
    }

    public Register {
        clinics = List.copyOf(clinics);
        sterilizers = List.copyOf(sterilizers);
        technicians = List.copyOf(technicians);
        instruments = List.copyOf(instruments);
        lots = List.copyOf(lots);
        parts = List.copyOf(parts);
        testers = List.copyOf(testers);
        Ids.unique("clinics", clinics, ClinicRecord::id);
        List<Site> sites =
                clinics.stream().flatMap(clinic -> clinic.sites().stream()).toList();
        Ids.unique("sites", sites, Site::id);
        Ids.unique(
                "rooms", sites.stream().flatMap(site -> site.rooms().stream()).toList(), Site.Room::id);
        Ids.unique("sterilisers", sterilizers, SterilizerRecord::id);
        Ids.unique("technicians", technicians, Technician::id);
        Ids.unique("instruments", instruments, ReferenceInstrument::id);
        Ids.unique("lots", lots, Lot::id);
        Ids.unique("parts", parts, Part::id);
        Ids.unique("testers", testers, Tester::id);
        Map<String, Place> places = places(clinics);
        for (SterilizerRecord sterilizer : sterilizers) {
            if (!sterilizer.room().isBlank() && !places.containsKey(sterilizer.room())) {
                throw new IllegalArgumentException(
                        "steriliser " + sterilizer.id() + " stands in the unknown room " + sterilizer.room());
            }
        }
    }

    /** All rooms by their id. */
    public Map<String, Place> places() {
        return places(clinics);
    }

    private static Map<String, Place> places(List<ClinicRecord> clinics) {
        Map<String, Place> places = new LinkedHashMap<>();
        for (ClinicRecord clinic : clinics) {
            for (Site site : clinic.sites()) {
                for (Site.Room room : site.rooms()) {
                    places.put(room.id(), new Place(clinic, site, room));
                }
            }
        }
        return places;
    }

    /** Where a sterilizer stands now; empty in the workshop. */
    public Optional<Place> findPlace(SterilizerRecord sterilizer) {
        return Optional.ofNullable(places().get(sterilizer.room()));
    }

    /** The sterilizer of that id or serial number; a serial number that two of them share finds none. */
    public Optional<SterilizerRecord> findSterilizer(String idOrSerial) {
        Optional<SterilizerRecord> byId =
                sterilizers.stream().filter(one -> one.id().equals(idOrSerial)).findFirst();
        if (byId.isPresent()) {
            return byId;
        }
        List<SterilizerRecord> bySerial = sterilizers.stream()
                .filter(one -> one.identity().serial().equals(idOrSerial))
                .toList();
        return bySerial.size() == 1 ? Optional.of(bySerial.get(0)) : Optional.empty();
    }

    public Optional<Technician> findTechnician(String id) {
        return technicians.stream().filter(one -> one.id().equals(id)).findFirst();
    }

    /**
     * Machines that are easily taken for each other: same model, same room, and serial numbers in which one sign differs or
     * two neighbours are swapped.
     */
    public List<List<SterilizerRecord>> lookalikes() {
        Map<String, List<SterilizerRecord>> together = new LinkedHashMap<>();
        for (SterilizerRecord one : sterilizers) {
            if (!one.room().isBlank()) {
                together.computeIfAbsent(one.room() + "\n" + one.identity().model(), key -> new ArrayList<>())
                        .add(one);
            }
        }
        List<List<SterilizerRecord>> pairs = new ArrayList<>();
        for (List<SterilizerRecord> group : together.values()) {
            for (int i = 0; i < group.size(); i++) {
                for (int j = i + 1; j < group.size(); j++) {
                    if (isNear(
                            group.get(i).identity().serial(),
                            group.get(j).identity().serial())) {
                        pairs.add(List.of(group.get(i), group.get(j)));
                    }
                }
            }
        }
        return pairs;
    }

    private static boolean isNear(String one, String other) {
        if (one.length() != other.length()) {
            String longer = one.length() > other.length() ? one : other;
            String shorter = one.length() > other.length() ? other : one;
            return longer.length() - shorter.length() == 1
                    && IntStream.range(0, longer.length())
                            .anyMatch(i -> (longer.substring(0, i) + longer.substring(i + 1)).equals(shorter));
        }
        List<Integer> apart = new ArrayList<>();
        for (int i = 0; i < one.length(); i++) {
            if (one.charAt(i) != other.charAt(i)) {
                apart.add(i);
            }
        }
        return apart.size() <= 1
                || (apart.size() == 2
                        && apart.get(1) == apart.get(0) + 1
                        && one.charAt(apart.get(0)) == other.charAt(apart.get(1))
                        && one.charAt(apart.get(1)) == other.charAt(apart.get(0)));
    }
}
