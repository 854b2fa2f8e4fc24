package org.steamwright.desk.today;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.steamwright.desk.office.Lapses;
import org.steamwright.desk.path.Strip;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.records.SubjectId;

/** Routes of the first page. */
public final class TodayRoutes {

    private static final Set<Role> STAFF = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);

    private TodayRoutes() {}

    private static Reply today(Office office, Ask ask) {
        Today today = Today.of(office, from(ask));
        List<Strip> strips = Strip.of(
                today.open().stream().map(visit -> office.drafts().of(SubjectId.parse(visit.id()))),
                ask.frame(),
                office);
        return Reply.page(
                "today/today.jte",
                Map.of("today", today, "strips", strips, "lapses", Lapses.first(office, ask.frame(), Today.SHOWN)));
    }

    /** The routes. */
    public static List<Route> all(Office office) {
        return List.of(
                Route.get("/today", STAFF, ask -> today(office, ask)),
                Route.get(
                        "/expiring",
                        STAFF,
                        ask -> Reply.page("office/sheet.jte", Map.of("sheet", Lapses.page(office, ask.frame(), (int)
                                from(ask))))),
                Route.get(
                        "/visits/{visit}/answer",
                        STAFF,
                        ask -> Reply.page(
                                "today/answer.jte",
                                Map.of(
                                        "answer",
                                        Today.Answer.of(office, office.records().subject(ask.subject("visit")))))),
                Route.get(
                        "/visits/{visit}/go",
                        STAFF,
                        ask -> Reply.page(
                                "today/go.jte",
                                Map.of(
                                        "going",
                                        Going.of(office, office.records().subject(ask.subject("visit"))),
                                        "isBrief",
                                        !ask.typed("brief").isEmpty()))));
    }

    /** Place of the first open visit that is shown; what is no number is the first. */
    private static long from(Ask ask) {
        String typed = ask.typed("from");
        return typed.matches("\\d{1,9}") ? Long.parseLong(typed) : 0;
    }
}
