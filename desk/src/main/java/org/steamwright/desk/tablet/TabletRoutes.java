package org.steamwright.desk.tablet;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;

/** Routes by which a tablet is let in and shown out. */
public final class TabletRoutes {

    private static final Set<Role> OWNER = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);

    private final Pairing pairing;
    private final List<String> addresses;
    private final String fingerprint;

    private TabletRoutes(Pairing pairing, List<String> addresses, String fingerprint) {
        this.pairing = pairing;
        this.addresses = List.copyOf(addresses);
        this.fingerprint = fingerprint;
    }

    /**
     * The routes.
     *
     * @param pairing who is let in
     * @param addresses that a tablet may open, with scheme and port
     * @param fingerprint of the certificate
     */
    public static List<Route> all(Pairing pairing, List<String> addresses, String fingerprint) {
        TabletRoutes routes = new TabletRoutes(pairing, addresses, fingerprint);
        return List.of(
                Route.get("/tablet", OWNER, ask -> routes.page(Optional.empty())),
                Route.post("/tablet/code", OWNER, routes::code),
                Route.post("/tablet/out", OWNER, ask -> routes.out()),
                Route.get("/tablet/enter", Set.of(), ask -> routes.entry("")),
                Route.post("/tablet/enter", Set.of(), routes::enter));
    }

    private Reply page(Optional<Pairing.Code> code) {
        return Reply.page(
                "tablet/tablet.jte",
                Map.of("addresses", addresses, "fingerprint", fingerprint, "devices", pairing.devices(), "code", code));
    }

    private Reply code(Ask ask) {
        // a tablet may work, but not let others in
        return ask.request().isSecure()
                ? new Reply.Refusal(
                        403, ask.frame().say("tablet.only-laptop"), ask.frame().say("tablet.go-to-laptop"))
                : page(Optional.of(pairing.newCode()));
    }

    private Reply out() {
        pairing.showOut();
        return new Reply.Next("/tablet");
    }

    private Reply entry(String problem) {
        return new Reply.Page(
                "tablet/enter.jte",
                Map.of("problem", problem, "fingerprint", fingerprint),
                problem.isEmpty() ? 200 : 422);
    }

    private Reply enter(Ask ask) {
        Optional<String> key = pairing.pair(ask.typed("code"), ask.typed("name"));
        if (key.isEmpty()) {
            return entry(ask.frame().say("tablet.wrong-code"));
        }
        ask.request().changeSessionId();
        ask.request().getSession().setAttribute(TabletDoorkeeper.KEY, key.get());
        return new Reply.Next("/today");
    }
}
