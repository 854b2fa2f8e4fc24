package org.steamwright.desk.today;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;

/** Routes of the first page. */
public final class TodayRoutes {

    private TodayRoutes() {}

    /** The routes. */
    public static List<Route> all(Office office) {
        return List.of(Route.get("/today", Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE), ask -> today(office)));
    }

    private static Reply today(Office office) throws IOException {
        return Reply.page("today/today.jte", Map.of("today", Today.of(office)));
    }
}
