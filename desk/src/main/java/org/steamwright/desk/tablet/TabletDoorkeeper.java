package org.steamwright.desk.tablet;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpSession;
import java.util.Optional;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.Person;

/**
 * The owner on the laptop itself, and paired tablets over the encrypted port. Whoever comes over the network without a key is
 * a stranger.
 *
 * @param owner who has the laptop
 * @param pairing who is let in
 */
public record TabletDoorkeeper(Doorkeeper owner, Pairing pairing) implements Doorkeeper {

    static final String KEY = "steamwright.tablet-key";

    @Override
    public Person person(HttpServletRequest request) {
        Person person = owner.person(request);
        if (!request.isSecure()) {
            return person;
        }
        HttpSession session = request.getSession(false);
        Optional<String> key = session == null
                ? Optional.empty()
                : Optional.ofNullable(session.getAttribute(KEY)).map(String.class::cast);
        return key.flatMap(pairing::nameOf).isPresent() ? person : Person.STRANGER;
    }

    @Override
    public Optional<String> signIn() {
        return Optional.of("/tablet/enter");
    }
}
