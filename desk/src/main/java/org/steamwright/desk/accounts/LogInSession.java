package org.steamwright.desk.accounts;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpSession;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import org.pac4j.core.util.Pac4jConstants;
import org.steamwright.records.accounts.Account;

/**
 * What the server remembers of somebody who logs in: how far the log-in has come, since when, and when they were last here.
 * Its id and its token are new as soon as the user is in, so that one planted before is worth nothing.
 */
final class LogInSession {

    private static final String WAITS = "log-in-waits-for";
    private static final String ACCOUNT = "account";
    private static final String VOUCHED = "vouched";
    private static final String BEGUN = "begun";
    private static final String LAST_USED = "last-used";
    private static final String ENTRY = "entry-of-the-list";
    private static final String SECRET = "second-factor-in-the-making";

    private LogInSession() {}

    /** The account whose password was right and whose code is wanted. */
    static Optional<String> waitsForCode(HttpServletRequest request) {
        return text(request, WAITS);
    }

    static void waitForCode(HttpServletRequest request, String account) {
        forgetSecret(request);
        request.getSession().setAttribute(WAITS, account);
    }

    /** Begins a session of somebody who has shown the own password. */
    static void beginAnew(HttpServletRequest request, Account account, LogIns logIns, Clock clock) {
        request.getSession().removeAttribute(VOUCHED);
        forgetSecret(request);
        begin(request, account, logIns, clock);
    }

    /** Begins a session of somebody for whom the office's provider vouches. */
    static void beginVouched(HttpServletRequest request, Account account, LogIns logIns, Clock clock) {
        request.getSession().setAttribute(VOUCHED, true);
        forgetSecret(request);
        begin(request, account, logIns, clock);
    }

    /** Whether the office's provider has let this session in, so that neither password nor second factor are asked here. */
    static boolean isVouched(HttpServletRequest request) {
        return Optional.ofNullable(request.getSession(false))
                .map(session -> session.getAttribute(VOUCHED))
                .isPresent();
    }

    /** Goes on with a session under a new id, because those before have ended. */
    static void begin(HttpServletRequest request, Account account, LogIns logIns, Clock clock) {
        HttpSession session = request.getSession();
        request.changeSessionId();
        session.removeAttribute(Pac4jConstants.CSRF_TOKEN);
        session.removeAttribute(WAITS);
        session.setAttribute(ACCOUNT, account.id());
        session.setAttribute(BEGUN, clock.instant());
        session.setAttribute(LAST_USED, clock.instant());
        entry(request).ifPresent(logIns.sessions()::end);
        session.setAttribute(
                ENTRY,
                logIns.sessions()
                        .begin(
                                account.id(),
                                Optional.ofNullable(request.getHeader("User-Agent"))
                                        .orElse(""),
                                String.valueOf(request.getRemoteAddr()),
                                clock.instant()));
    }

    /** How the list of open sessions holds this one. */
    static Optional<OpenSessions.Entry> entry(HttpServletRequest request) {
        return Optional.ofNullable(request.getSession(false))
                .map(session -> session.getAttribute(ENTRY))
                .map(OpenSessions.Entry.class::cast);
    }

    /** The account that is logged in and whose session still holds; its use is noted. An ended session is thrown away. */
    static Optional<Account> account(HttpServletRequest request, LogIns logIns, Clock clock) {
        Optional<String> id = text(request, ACCOUNT);
        if (id.isEmpty()) {
            return Optional.empty();
        }
        HttpSession session = request.getSession();
        Optional<Account> account = logIns.book().findById(id.get());
        boolean holds = account.isPresent()
                && session.getAttribute(BEGUN) instanceof Instant begun
                && session.getAttribute(LAST_USED) instanceof Instant used
                && logIns.holds(account.get(), begun, used)
                && entry(request).filter(entry -> !entry.isEnded()).isPresent();
        if (!holds) {
            entry(request).ifPresent(logIns.sessions()::end);
            logIns.ended(id.get(), String.valueOf(request.getRemoteAddr()));
            session.invalidate();
            return Optional.empty();
        }
        session.setAttribute(LAST_USED, clock.instant());
        entry(request).ifPresent(entry -> entry.used(clock.instant()));
        return account;
    }

    static void end(HttpServletRequest request, LogIns logIns) {
        entry(request).ifPresent(logIns.sessions()::end);
        Optional.ofNullable(request.getSession(false)).ifPresent(HttpSession::invalidate);
    }

    /** The secret of a second factor that is being set up; made when first wanted. */
    static byte[] secretInTheMaking(HttpServletRequest request, OneTimeCodes codes) {
        if (request.getSession().getAttribute(SECRET) instanceof byte[] secret) {
            return secret;
        }
        byte[] secret = codes.newSecret();
        request.getSession().setAttribute(SECRET, secret);
        return secret;
    }

    static void forgetSecret(HttpServletRequest request) {
        request.getSession().removeAttribute(SECRET);
    }

    private static Optional<String> text(HttpServletRequest request, String name) {
        return Optional.ofNullable(request.getSession(false))
                .map(session -> session.getAttribute(name))
                .map(String.class::cast);
    }
}
