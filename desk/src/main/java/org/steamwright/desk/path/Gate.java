package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.register.NamePlate;

/**
 * The name plate of one sterilizer of a visit: nothing is touched before it was read, and nothing signed while it was not, or
 * while it is another one.
 *
 * @param place of the sterilizer in the visit
 * @param key of the sterilizer
 * @param serial that the visit is for
 * @param read as it was read; blank if it was not
 */
record Gate(int place, String key, String serial, String read) {

    /** The gates of a visit, in the order of its sterilizers. */
    static List<Gate> of(Draft draft) {
        List<Gate> gates = new ArrayList<>();
        for (int i = 1; i <= draft.count(FactPath.of("sterilizers")); i++) {
            FactPath sterilizer = FactPath.of("sterilizers", i);
            gates.add(new Gate(
                    i,
                    draft.text(sterilizer.then("key")),
                    draft.text(sterilizer.then("serial")),
                    draft.text(plate(i).then("serial"))));
        }
        return gates;
    }

    /** The first that is shut; empty if all are open. */
    static Optional<Gate> shut(Draft draft) {
        return of(draft).stream().filter(gate -> !gate.isOpen()).findFirst();
    }

    /** Where what was read stands. */
    static FactPath plate(int place) {
        return FactPath.of("sterilizers", place, "name-plate");
    }

    /** Note of the way that held what was read before it was a fact of the visit. */
    static String formerNote(String key) {
        return "plate-serial/" + key;
    }

    boolean isUnread() {
        return read.isBlank();
    }

    /** Whether it was read and is the plate of that sterilizer. */
    boolean isOpen() {
        return !isUnread() && !new NamePlate(read, "", List.of()).isOther(serial);
    }

    /** Path of the field. */
    String path() {
        return plate(place).then("serial").toString();
    }

    /** Key of the words that say how it stands. */
    String words() {
        return isUnread() ? "gate.unread" : isOpen() ? "gate.match" : "gate.differs";
    }

    /** What the words name. */
    Object[] parts() {
        return isUnread() || isOpen() ? new Object[] {serial} : new Object[] {read, serial};
    }
}
