package org.steamwright.desk.shelf;

import java.util.List;
import java.util.stream.IntStream;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;
import org.steamwright.records.Subject;

/** Who goes to a visit by its own words, also where the register knows nobody of that name. */
public final class WhoGoes {

    private static final FactPath PEOPLE = FactPath.of("people");
    private static final String TECHNICIAN = "technician";

    private WhoGoes() {}

    /** Names of the technicians that the visit states, in their order. */
    public static List<String> to(Office office, Subject visit) {
        Draft draft = office.drafts().of(visit);
        return IntStream.rangeClosed(1, draft.count(PEOPLE))
                .mapToObj(PEOPLE::then)
                .filter(one -> draft.text(one.then("role")).equals(TECHNICIAN))
                .map(one -> draft.text(one.then("name")))
                .filter(name -> !name.isBlank())
                .distinct()
                .toList();
    }
}
