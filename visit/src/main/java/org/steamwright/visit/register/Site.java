package org.steamwright.visit.register;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;

/**
 * Premises of a clinic.
 *
 * @param id stable, unique in the register
 * @param name for people; may be blank if the clinic has one site
 * @param address may be blank
 * @param zone in which its days begin and end
 * @param altitudeMetres above the sea; empty if not stated
 * @param rules name of the set of due rules that holds here; blank takes the common one
 * @param week when it works
 * @param rooms in which sterilizers stand
 */
public record Site(
        String id,
        String name,
        String address,
        ZoneId zone,
        Optional<Double> altitudeMetres,
        String rules,
        Week week,
        List<Room> rooms) {

    /**
     * A room of a site.
     *
     * @param id stable, unique in the register
     * @param name for people
     */
    public record Room(String id, String name) {
        public Room {
            Ids.check("room", id);
        }
    }

    public Site {
        Ids.check("site", id);
        rooms = List.copyOf(rooms);
    }
}
