package org.steamwright.visit.register;

/**
 * The clinic that owns the record. Blank fields were not stated.
 *
 * @param name legal name; never blank
 * @param address of the premises
 * @param room where the sterilizer stands
 * @param contact role and name of the person met
 * @param reference customer or order number
 */
public record Clinic(String name, String address, String room, String contact, String reference) {

    public Clinic {
        if (name.isBlank()) {
            throw new IllegalArgumentException("a clinic has a name");
        }
    }
}
