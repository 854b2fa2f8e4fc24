package org.steamwright.desk.web;

import java.util.List;
import java.util.Set;
import org.steamwright.report.language.Language;

/** Routes that belong to no room: the way in, and the language. */
public final class WebRoutes {

    private static final String START = "/today";

    private WebRoutes() {}

    /** The routes. */
    public static List<Route> all() {
        return List.of(
                Route.get("/", Set.of(), ask -> new Reply.Next(START)),
                Route.post("/language", Set.of(), WebRoutes::language));
    }

    private static Reply language(Ask ask) {
        Language.ofCode(ask.typed("language"))
                .ifPresent(language -> ask.request().getSession().setAttribute(DeskServlet.LANGUAGE, language));
        String from = ask.typed("from");
        // a path of this desk and nothing else: two strokes would be another host
        return new Reply.Next(from.matches("/[\\w.~/-]*") && !from.startsWith("//") ? from : START);
    }
}
