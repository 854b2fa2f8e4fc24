package org.steamwright.desk.web;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * One address and who may use it.
 *
 * @param method look or change
 * @param pattern path; a part in braces, such as {@code /visits/{visit}}, takes any one part
 * @param roles who may use it; empty for everybody, signed in or not
 * @param action what answers
 * @param treatment how it is treated besides
 */
public record Route(Method method, String pattern, Set<Role> roles, Action action, Treatment treatment) {

    public Route {
        roles = Set.copyOf(roles);
    }

    /** A page to look at. */
    public static Route get(String pattern, Set<Role> roles, Action action) {
        return new Route(Method.GET, pattern, roles, action, Treatment.USUAL);
    }

    /** A change. */
    public static Route post(String pattern, Set<Role> roles, Action action) {
        return new Route(Method.POST, pattern, roles, action, Treatment.USUAL);
    }

    /** The same as dear work. */
    public Route dear() {
        return new Route(method, pattern, roles, action, Treatment.DEAR);
    }

    /** The same without a session. */
    public Route withoutSession() {
        return new Route(method, pattern, roles, action, Treatment.WITHOUT_SESSION);
    }

    /** The parts of a path that stand where the pattern has braces; empty if the path is another. */
    public Optional<Map<String, String>> match(String path) {
        String[] wanted = pattern.split("/", -1);
        String[] found = path.split("/", -1);
        if (wanted.length != found.length) {
            return Optional.empty();
        }
        Map<String, String> parts = new HashMap<>();
        for (int i = 0; i < wanted.length; i++) {
            if (wanted[i].startsWith("{") && !found[i].isEmpty()) {
                parts.put(wanted[i].substring(1, wanted[i].length() - 1), found[i]);
            } else if (!wanted[i].equals(found[i])) {
                return Optional.empty();
            }
        }
        return Optional.of(parts);
    }

    /** Whether that person may use it. */
    public boolean isOpenTo(Person person) {
        return roles.isEmpty() || person.isOneOf(roles);
    }
}
