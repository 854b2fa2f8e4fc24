package org.steamwright.desk.office;

import java.util.List;
import java.util.Set;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;

/** Routes of the office and of the reviewer. */
public final class OfficeRoutes {

    private static final Set<Role> STAFF = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> REVIEWER = Set.of(Role.REVIEWER);
    private static final Set<Role> CLOSING = Set.of(Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> OFFICE = Set.of(Role.OFFICE);
    private static final Set<Role> KEEPING = Set.of(Role.TECHNICIAN, Role.OFFICE);

    private OfficeRoutes() {}

    /** The routes. */
    public static List<Route> all(Office office) {
        RegisterShelf shelf = new RegisterShelf(office);
        DuePages due = new DuePages(office, shelf);
        RegisterPages register = new RegisterPages(office, shelf);
        FindPages find = new FindPages(office);
        FleetPages fleet = new FleetPages(office, shelf);
        EntryPages entries = new EntryPages(office);
        TablePages table = new TablePages(office);
        NonconformityPages nonconformities = new NonconformityPages(office);
        ReviewPages review = new ReviewPages(office);
        return List.of(
                Route.get("/due", STAFF, due::list),
                Route.get("/due.ics", STAFF, due::calendar).dear(),
                Route.get("/due.csv", STAFF, due::table).dear(),
                Route.get("/plan", STAFF, due::plan),
                Route.get("/register", STAFF, register::front),
                Route.get("/register/clinics", STAFF, register::clinics),
                Route.get("/register/sterilizers", STAFF, register::sterilizers),
                Route.get("/register/sterilizer", STAFF, register::sterilizerNamed),
                Route.get("/register/instrument", STAFF, register::instrumentNamed),
                Route.get("/register/sterilizers/{id}", STAFF, register::sterilizer),
                Route.get("/register/instruments", STAFF, register::instruments),
                Route.get("/register/instruments/{id}", STAFF, register::instrument),
                Route.post("/register/instruments/{id}/quarantine", KEEPING, register::quarantine),
                Route.get("/register/people", STAFF, register::people),
                Route.get("/register/lots", STAFF, register::lots),
                Route.get("/register/parts", STAFF, register::parts),
                Route.get("/register/table", OFFICE, table::front),
                Route.post("/register/table", OFFICE, table::look).dear(),
                Route.post("/register/table/enter", OFFICE, table::enter).dear(),
                Route.post("/register/table/undo", OFFICE, table::undo).dear(),
                Route.get("/register/entries/{id}", STAFF, entries::one),
                Route.post("/register/entries/{id}", OFFICE, entries::change),
                Route.get("/register/new/{list}", OFFICE, entries::blank),
                Route.post("/register/new/{list}", OFFICE, entries::add),
                Route.get("/find", STAFF, find::find),
                Route.get("/affected", STAFF, find::affected),
                Route.get("/trends", STAFF, fleet::trends).dear(),
                Route.get("/trends/one", STAFF, fleet::one).dear(),
                Route.get("/measures", STAFF, fleet::measures).dear(),
                Route.get("/nonconformities", STAFF, nonconformities::list),
                Route.post("/nonconformities", STAFF, nonconformities::open),
                Route.get("/nonconformities/{id}", STAFF, nonconformities::one),
                Route.post("/nonconformities/{id}", STAFF, nonconformities::change),
                Route.post("/nonconformities/{id}/close", CLOSING, nonconformities::close),
                Route.get("/review", STAFF, review::list),
                Route.get("/review/{visit}", STAFF, review::one),
                Route.post("/review/{visit}", REVIEWER, review::answer));
    }
}
