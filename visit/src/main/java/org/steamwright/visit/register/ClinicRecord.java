package org.steamwright.visit.register;

import java.util.List;

/**
 * A clinic as the office keeps it, through all visits; {@link Clinic} is its face at one visit.
 *
 * @param id stable, unique in the register
 * @param name legal name, never blank
 * @param reference customer number; may be blank
 * @param contact role and how to reach it; may be blank
 * @param sites its premises
 */
public record ClinicRecord(String id, String name, String reference, String contact, List<Site> sites) {

    public ClinicRecord {
        Ids.check("clinic", id);
        if (name.isBlank()) {
            throw new IllegalArgumentException("clinic " + id + " has no name");
        }
        sites = List.copyOf(sites);
    }
}
