package org.steamwright.desk.web;

import jakarta.servlet.http.HttpServletRequest;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;

/** Who tells who asks. */
public interface Doorkeeper {

    /** Who asks; {@link Person#STRANGER} if nobody is signed in. */
    Person person(HttpServletRequest request);

    /** Where a stranger is sent who wants a page that is not for everybody; empty if it is refused. */
    Optional<String> signIn(HttpServletRequest request);

    /** Whether a stranger may use a route that asks for no role. */
    default boolean admits(HttpServletRequest request, Route route) {
        return true;
    }

    /** What may be asked of the desk; empty where one person works alone. */
    default Optional<Limits> limits() {
        return Optional.empty();
    }

    /**
     * Somebody was refused something.
     *
     * @param request that was refused
     * @param person who asked
     * @param what was refused, in words that nobody has typed
     * @param why it was refused
     */
    default void refused(HttpServletRequest request, Person person, String what, String why) {
        // who works alone has nobody to tell
    }

    /** One user on their own machine, who has every role but that of a clinic. */
    static Doorkeeper single(String name) {
        Person owner = new Person(
                name, new LinkedHashSet<>(List.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE)), Optional.empty());
        return new Doorkeeper() {
            @Override
            public Person person(HttpServletRequest request) {
                return owner;
            }

            @Override
            public Optional<String> signIn(HttpServletRequest request) {
                return Optional.empty();
            }
        };
    }
}
