package org.steamwright.desk.web;

import java.util.List;
import java.util.Set;

/** Routes that belong to no room: the way in. */
public final class WebRoutes {

    private WebRoutes() {}

    /** The routes. */
    public static List<Route> all() {
        return List.of(Route.get("/", Set.of(), ask -> new Reply.Next("/today")));
    }
}
