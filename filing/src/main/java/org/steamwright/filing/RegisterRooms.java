package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;

/** Rooms of clinics, and the rooms in which machines stand or stood, as the register states them. */
final class RegisterRooms {

    private RegisterRooms() {}

    /** Rooms of a clinic with what they are called. */
    static Map<String, String> roomsOf(Subject clinic) {
        Map<String, String> rooms = new LinkedHashMap<>();
        standingsOf(clinic).forEach((id, standing) -> rooms.put(id, standing.words()));
        return rooms;
    }

    /** Rooms of a clinic by their ids. */
    static Map<String, RegisterFiling.Standing> standingsOf(Subject clinic) {
        Map<String, RegisterFiling.Standing> rooms = new LinkedHashMap<>();
        clinic.fact(Shelf.STATED + "sites")
                .ifPresent(sites -> sites.node()
                        .forEach(site -> site.path("rooms")
                                .forEach(room -> rooms.put(
                                        room.path("id").asText(),
                                        new RegisterFiling.Standing(
                                                clinic,
                                                Stream.of(
                                                                clinic.text("name"),
                                                                site.path("name")
                                                                        .asText(),
                                                                room.path("name")
                                                                        .asText())
                                                        .filter(word -> !word.isBlank())
                                                        .collect(Collectors.joining(", ")),
                                                site.path("zone").asText())))));
        rooms.remove("");
        return rooms;
    }

    /** Id of the room in which a machine stands: where it was moved to last, else where it was first; blank for none. */
    static String roomOf(Subject machine) {
        String room = machine.text(Shelf.STATED + "room");
        String last = "";
        for (JsonNode movement :
                machine.fact(Shelf.STATED + "movements").orElse(JsonText.NULL).node()) {
            if (movement.path("on").asText().compareTo(last) >= 0) {
                last = movement.path("on").asText();
                room = movement.path("to").asText();
            }
        }
        return room;
    }

    /** Ids of the rooms in which a machine stands or stood. */
    static List<String> rooms(Map<String, Object> machine) {
        List<String> rooms = new ArrayList<>();
        if (machine.get("room") instanceof JsonNode room) {
            rooms.add(room.asText());
        }
        if (machine.get("movements") instanceof JsonNode movements) {
            movements.forEach(movement -> rooms.add(movement.path("to").asText()));
        }
        rooms.removeIf(String::isBlank);
        return rooms;
    }
}
