package org.steamwright.visit.register;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A person who services or validates.
 *
 * @param id stable, unique in the register
 * @param name as it is now; a report keeps the name of its time
 * @param competences what this person may do, and until when
 */
public record Technician(String id, String name, List<Competence> competences) {

    /**
     * What a person may do.
     *
     * @param families model families or models; none stands for every one
     * @param duties what may be done on them; none stands for nothing
     * @param from first day
     * @param until last day, in it; empty if it has no end
     * @param document authorisation, licence or training record; may be blank
     */
    public record Competence(
            List<String> families, List<Duty> duties, LocalDate from, Optional<LocalDate> until, String document) {
        public Competence {
            families = List.copyOf(families);
            duties = List.copyOf(duties);
            if (until.isPresent() && until.get().isBefore(from)) {
                throw new IllegalArgumentException("a competence from " + from + " until " + until.get());
            }
        }

        /** Whether it is about that duty on such a machine, whatever the day. */
        public boolean concerns(Duty duty, SterilizerRecord.Identity machine) {
            return duties.contains(duty)
                    && (families.isEmpty()
                            || families.stream()
                                    .anyMatch(one -> isSame(one, machine.family()) || isSame(one, machine.model())));
        }

        private static boolean isSame(String one, String other) {
            return one.toLowerCase(Locale.ROOT).equals(other.toLowerCase(Locale.ROOT));
        }

        public boolean covers(LocalDate day) {
            return !day.isBefore(from) && (until.isEmpty() || !day.isAfter(until.get()));
        }
    }

    public Technician {
        Ids.check("technician", id);
        competences = List.copyOf(competences);
    }
}
