package org.steamwright.visit.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
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
        List<ClinicRecord> clinics = new ArrayList<>(register.clinics());
        List<SterilizerRecord> machines = new ArrayList<>(register.sterilizers());
        for (RegisterChange change : changes) {
            if (change instanceof OfClinic clinic) {
                apply("clinic", clinic.before(), clinic.after(), clinics, ClinicRecord::id);
            } else if (change instanceof OfSterilizer machine) {
                apply("steriliser", machine.before(), machine.after(), machines, SterilizerRecord::id);
            }
        }
        return new Register(
                clinics,
                machines,
                register.technicians(),
                register.instruments(),
                register.lots(),
                register.parts(),
                register.testers());
    }

    private static <E> void apply(
            String what, Optional<E> before, Optional<E> after, List<E> entries, Function<E, String> idOf) {
        String id = idOf.apply(before.or(() -> after).orElseThrow());
        int place = -1;
        for (int i = 0; i < entries.size(); i++) {
            if (idOf.apply(entries.get(i)).equals(id)) {
                place = i;
            }
        }
        Optional<E> now = place < 0 ? Optional.empty() : Optional.of(entries.get(place));
        if (!Objects.equals(now, before)) {
            throw new IllegalStateException(
                    what + " " + id + " has been changed since these changes were made; compare anew");
        }
        if (after.isEmpty()) {
            entries.remove(place);
        } else if (place < 0) {
            entries.add(after.get());
        } else {
            entries.set(place, after.get());
        }
    }
}
