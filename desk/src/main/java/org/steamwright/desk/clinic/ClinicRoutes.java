package org.steamwright.desk.clinic;

import java.util.List;
import java.util.Set;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;

/** Routes of the clinic's pages. A user of a clinic sees that clinic and no other. */
public final class ClinicRoutes {

    private static final Set<Role> EVERYBODY = Set.of(Role.values());

    private ClinicRoutes() {}

    /** The routes. */
    public static List<Route> all(Office office) {
        Premises premises = new Premises(office);
        Papers papers = new Papers(premises);
        return List.of(
                Route.get("/clinic", EVERYBODY, ClinicRoutes::front),
                Route.get("/clinic/{clinic}", EVERYBODY, new FrontPage(premises)::clinic),
                Route.get("/clinic/{clinic}/load", EVERYBODY, new LoadPage(premises)::load)
                        .dear(),
                Route.get("/clinic/{clinic}/cards/{machine}", EVERYBODY, new LoadCards(premises)::cards)
                        .dear(),
                Route.get("/clinic/{clinic}/photos/{visit}", EVERYBODY, papers::photo)
                        .dear(),
                Route.get("/clinic/{clinic}/induction", EVERYBODY, new InductionPage(premises)::induction)
                        .dear(),
                Route.get("/clinic/{clinic}/reports/{visit}", EVERYBODY, papers::report)
                        .dear(),
                Route.get("/clinic/{clinic}/reports/{visit}/{machine}", EVERYBODY, papers::certificate)
                        .dear());
    }

    private static Reply front(Ask ask) {
        if (ask.person().clinic().isPresent()) {
            return new Reply.Next("/clinic/" + ask.person().clinic().get());
        }
        return ask.frame().may(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE)
                ? new Reply.Next("/register/clinics")
                : Premises.unknown(ask);
    }
}
