package org.steamwright.desk.accounts;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.SigningKeys;
import org.steamwright.records.accounts.Account;
import org.steamwright.records.signing.KeysInUse.KeyInUse;

/** The keys with which somebody could sign now, for the office to end one: of a representative too, or of somebody who left. */
public final class KeyPages {

    private static final String PAGE = "/users/keys";
    private static final Set<Role> OFFICE = Set.of(Role.OFFICE);
    private static final int LONGEST_REASON = 300;

    private static final int ROWS = 50;

    /**
     * Which part of the list is shown.
     *
     * @param typed beginning of a name; blank for the whole list
     * @param from place of the first key
     * @param all how many there are
     */
    public record Pages(String typed, long from, long all) {

        /** Place of the first key of the page before. */
        public Optional<Long> earlier() {
            return from > 0 ? Optional.of(Math.max(0, from - ROWS)) : Optional.empty();
        }

        /** Place of the first key of the page after. */
        public Optional<Long> later() {
            return typed.isBlank() && from + ROWS < all ? Optional.of(from + ROWS) : Optional.empty();
        }
    }

    private final Office office;
    private final LogIns logIns;
    private final Predicate<Ask> isConfirmed;

    private KeyPages(Office office, LogIns logIns, Predicate<Ask> isConfirmed) {
        this.office = office;
        this.logIns = logIns;
        this.isConfirmed = isConfirmed;
    }

    /**
     * The routes.
     *
     * @param isConfirmed whether whoever asks has shown the own password
     */
    static List<Route> all(Office office, LogIns logIns, Predicate<Ask> isConfirmed) {
        KeyPages pages = new KeyPages(office, logIns, isConfirmed);
        return List.of(
                Route.get(PAGE, OFFICE, ask -> pages.page(ask, "")).dear(),
                Route.post(PAGE + "/{key}", OFFICE, pages::end));
    }

    private KeyLine line(KeyInUse key, Ask ask) {
        String name = key.bearer().text("name");
        Optional<Account> user = logIns.book().find(name);
        return new KeyLine(
                key.key().id(),
                name,
                key.bearer().text("role"),
                user.map(one -> one.isActive() ? "accounts.key-of-user" : "accounts.key-of-shut-off")
                        .orElse("accounts.key-of-nobody"),
                time(key.key().from(), ask),
                key.lastUsed().map(at -> time(at, ask)).orElse(""));
    }

    private String time(Instant at, Ask ask) {
        return ask.frame().figures().moment(at.atZone(office.clock().getZone()));
    }

    private Reply page(Ask ask, String problem) {
        SigningKeys keys = new SigningKeys(office.records());
        String typed = ask.typed("q");
        long from = ask.typed("from").matches("\\d{1,9}") ? Long.parseLong(ask.typed("from")) : 0;
        List<KeyInUse> shown = typed.isBlank() ? keys.inUse(from, ROWS) : keys.inUse(typed, ROWS);
        return new Reply.Page(
                "accounts/keys.jte",
                Map.of(
                        "keys",
                        shown.stream().map(key -> line(key, ask)).toList(),
                        "pages",
                        new Pages(
                                typed,
                                from,
                                typed.isBlank() ? office.counts().of("keys in use", keys::countInUse) : shown.size()),
                        "asksPassword",
                        LogInSession.account(ask.request(), logIns, office.clock())
                                .filter(account -> AccountRoutes.asksPassword(ask, account))
                                .isPresent(),
                        "problem",
                        problem),
                problem.isEmpty() ? 200 : 422);
    }

    private Reply end(Ask ask) throws FilingException {
        String reason = ask.typed("reason");
        if (reason.isEmpty() || reason.length() > LONGEST_REASON) {
            return page(ask, ask.frame().say("accounts.key-reason-missing"));
        }
        SigningKeys keys = new SigningKeys(office.records());
        Optional<KeyInUse> key = keys.findInUse(ask.part("key"));
        if (key.isEmpty()) {
            return page(ask, ask.frame().say("accounts.key-gone"));
        }
        if (!isConfirmed.test(ask)) {
            return page(ask, ask.frame().say("accounts.obstacle-old-password-wrong"));
        }
        keys.end(key.get(), reason, ask.author());
        logIns.book()
                .find(key.get().bearer().text("name"))
                .ifPresent(user -> logIns.keyEnded(user.id(), ask.person().name()));
        return new Reply.Next(PAGE);
    }
}
