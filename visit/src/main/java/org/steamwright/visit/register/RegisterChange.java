package org.steamwright.visit.register;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * One entry of a register that appears, becomes another or disappears. The entry as it was stands beside the entry as it shall
 * be, so that a change can be undone, and is refused where the register has moved on since.
 */
public sealed interface RegisterChange {

    /**
     * A clinic with its sites and rooms.
     *
     * @param before empty if it appears
     * @param after empty if it disappears
     */
    record OfClinic(Optional<ClinicRecord> before, Optional<ClinicRecord> after) implements RegisterChange {}

    /**
     * A machine.
     *
     * @param before empty if it appears
     * @param after empty if it disappears
     */
    record OfSterilizer(Optional<SterilizerRecord> before, Optional<SterilizerRecord> after)
            implements RegisterChange {}

    /** The change that takes this one back. */
    default RegisterChange inverse() {
        if (this instanceof OfClinic clinic) {
            return new OfClinic(clinic.after(), clinic.before());
        }
        OfSterilizer machine = (OfSterilizer) this;
        return new OfSterilizer(machine.after(), machine.before());
    }

    /** The changes that take these back, the last one first. */
    static List<RegisterChange> inverse(List<RegisterChange> changes) {
        List<RegisterChange> inverse = new ArrayList<>();
        for (int i = changes.size() - 1; i >= 0; i--) {
            inverse.add(changes.get(i).inverse());
        }
        return inverse;
    }

    /**
     * The register after all of these, or not at all.
     *
     * @throws IllegalStateException if an entry is not as the change found it, which names the entry; nothing is changed then
     */
    static Register apply(List<RegisterChange> changes, Register register) {
        Map<String, ClinicRecord> clinics = byId(register.clinics(), ClinicRecord::id);
        Map<String, SterilizerRecord> machines = byId(register.sterilizers(), SterilizerRecord::id);
        for (RegisterChange change : changes) {
            if (change instanceof OfClinic clinic) {
                apply("clinic", clinic.before(), clinic.after(), clinics, ClinicRecord::id);
            } else if (change instanceof OfSterilizer machine) {
                apply("steriliser", machine.before(), machine.after(), machines, SterilizerRecord::id);
            }
        }
        return new Register(
                List.copyOf(clinics.values()),
                List.copyOf(machines.values()),
                register.technicians(),
                register.instruments(),
                register.lots(),
                register.parts(),
                register.testers());
    }

    private static <E> Map<String, E> byId(List<E> entries, Function<E, String> idOf) {
        Map<String, E> byId = new LinkedHashMap<>();
        entries.forEach(entry -> byId.put(idOf.apply(entry), entry));
        return byId;
    }

    private static <E> void apply(
            String what, Optional<E> before, Optional<E> after, Map<String, E> entries, Function<E, String> idOf) {
        String id = idOf.apply(before.or(() -> after).orElseThrow());
        if (!Optional.ofNullable(entries.get(id)).equals(before)) {
            throw new IllegalStateException(
                    what + " " + id + " has been changed since these changes were made; compare anew");
        }
        if (after.isEmpty()) {
            entries.remove(id);
        } else {
            entries.put(id, after.get());
        }
    }
}
