package org.steamwright.desk.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.pac4j.core.matching.matcher.csrf.DefaultCsrfTokenGenerator;
import org.pac4j.core.util.Pac4jConstants;
import org.pac4j.jee.context.JEEContext;
import org.pac4j.jee.context.session.JEESessionStore;

/**
 * What every request has to pass: it was sent to a name of this server, by a page of this server, and a change carries the
 * token that the page was given.
 *
 * @param names host names with port by which this server is reached
 * @source Fetch Metadata Request Headers, W3C; RFC 6454 for the header Origin; tokens by pac4j
 */
record Guard(Set<String> names) {

    private static final String SCRIPTS =
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
                    + "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    Guard {
        names = Set.copyOf(names);
    }

    /** Headers that keep a browser from doing more than the page asks. */
    static void headers(HttpServletRequest request, HttpServletResponse response) {
        if (request.isSecure()) {
            response.setHeader("Strict-Transport-Security", "max-age=31536000; includeSubDomains");
        }
        response.setHeader("Content-Security-Policy", SCRIPTS);
        response.setHeader("X-Content-Type-Options", "nosniff");
        response.setHeader("Referrer-Policy", "same-origin");
        response.setHeader("Cross-Origin-Opener-Policy", "same-origin");
        response.setHeader("Cross-Origin-Resource-Policy", "same-origin");
        response.setHeader("Permissions-Policy", "camera=(self), microphone=(), geolocation=()");
        response.setHeader("Cache-Control", "no-store");
    }

    /** What is wrong with where a request was sent to or comes from; empty if nothing is. */
    Optional<String> objection(HttpServletRequest request) {
        String host = header(request, "Host");
        if (!names.contains(host)) {
            return Optional.of("this server is not called '" + host + "'");
        }
        if (Method.GET.name().equals(request.getMethod())) {
            return Optional.empty();
        }
        String origin = header(request, "Origin");
        if (!origin.isEmpty() && !origin.equals(request.getScheme() + "://" + host)) {
            return Optional.of("the change comes from a page of '" + origin + "'");
        }
        String site = header(request, "Sec-Fetch-Site");
        if (!site.isEmpty() && !Set.of("same-origin", "none").contains(site)) {
            return Optional.of("the change comes from another site");
        }
        return Optional.empty();
    }

    private static String header(HttpServletRequest request, String name) {
        return Optional.ofNullable(request.getHeader(name)).orElse("").toLowerCase(Locale.ROOT);
    }

    /** The token of this session; made when it is first wanted. */
    static String token(HttpServletRequest request, HttpServletResponse response) {
        JEESessionStore session = new JEESessionStore();
        JEEContext context = new JEEContext(request, response);
        return session.get(context, Pac4jConstants.CSRF_TOKEN)
                .map(String.class::cast)
                .orElseGet(() -> generator().get(context, session));
    }

    private static DefaultCsrfTokenGenerator generator() {
        DefaultCsrfTokenGenerator generator = new DefaultCsrfTokenGenerator();
        generator.setRotateTokens(false);
        return generator;
    }

    /** Whether a change carries the token of its session, as a field of the form or as a header. */
    static boolean hasToken(HttpServletRequest request, HttpServletResponse response) {
        JEESessionStore session = new JEESessionStore();
        JEEContext context = new JEEContext(request, response);
        String sent = Optional.ofNullable(request.getHeader("X-Token"))
                .or(() -> Optional.ofNullable(request.getParameter("token")))
                .orElse("");
        return session.get(context, Pac4jConstants.CSRF_TOKEN)
                .map(String.class::cast)
                .filter(expected -> java.security.MessageDigest.isEqual(
                        expected.getBytes(java.nio.charset.StandardCharsets.UTF_8),
                        sent.getBytes(java.nio.charset.StandardCharsets.UTF_8)))
                .isPresent();
    }
}
