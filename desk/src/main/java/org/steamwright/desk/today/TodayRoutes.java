package org.steamwright.desk.today;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;

/** Routes of the first page. */
public final class TodayRoutes {

    private static final Set<Role> STAFF = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);

    private TodayRoutes() {}

    /** The routes. */
    public static List<Route> all(Office office) {
        return List.of(
                Route.get(
                        "/today",
                        STAFF,
                        ask -> Reply.page("today/today.jte", Map.of("today", Today.of(office, from(ask))))),
                Route.get(
                        "/visits/{visit}/answer",
                        STAFF,
                        ask -> Reply.page(
                                "today/answer.jte",
                                Map.of(
                                        "answer",
                                        Today.Answer.of(office, office.records().subject(ask.subject("visit")))))));
    }

    /** Place of the first open visit that is shown; what is no number is the first. */
    private static long from(Ask ask) {
        String typed = ask.typed("from");
        return typed.matches("\\d{1,9}") ? Long.parseLong(typed) : 0;
    }
}
