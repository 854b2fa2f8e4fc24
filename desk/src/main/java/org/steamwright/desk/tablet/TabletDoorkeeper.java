package org.steamwright.desk.tablet;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpSession;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.Person;
import org.steamwright.desk.web.Route;

/**
 * The owner on the laptop itself, and paired tablets over the encrypted port. Whoever comes over the network without a key is
 * a stranger.
 *
 * @param owner who has the laptop
 * @param pairing who is let in
 */
public record TabletDoorkeeper(Doorkeeper owner, Pairing pairing) implements Doorkeeper {

    static final String KEY = "steamwright.tablet-key";
    private static final String ENTER = "/tablet/enter";

    /** All that a device may use that was not let in: its way in, and its language. */
    private static final Set<String> FOR_STRANGERS = Set.of("GET /", "GET " + ENTER, "POST " + ENTER, "POST /language");

    @Override
    public Person person(HttpServletRequest request) {
        return isLetIn(request) ? owner.person(request) : Person.STRANGER;
    }

    /** The laptop itself, or a tablet that shows its key. */
    private boolean isLetIn(HttpServletRequest request) {
        if (!request.isSecure()) {
            return true;
        }
        HttpSession session = request.getSession(false);
        Optional<String> key = session == null
                ? Optional.empty()
                : Optional.ofNullable(session.getAttribute(KEY)).map(String.class::cast);
        return key.flatMap(pairing::nameOf).isPresent();
    }

    @Override
    public Optional<String> signIn(HttpServletRequest request) {
        return isLetIn(request) ? owner.signIn(request) : Optional.of(ENTER);
    }

    @Override
    public boolean admits(HttpServletRequest request, Route route) {
        return isLetIn(request)
                ? owner.admits(request, route)
                : FOR_STRANGERS.contains(route.method() + " " + route.pattern());
    }
}
