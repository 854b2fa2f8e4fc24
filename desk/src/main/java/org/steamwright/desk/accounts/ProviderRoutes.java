package org.steamwright.desk.accounts;

import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.steamwright.desk.accounts.IdentityProvider.NotVouchedException;
import org.steamwright.desk.accounts.IdentityProvider.Reason;
import org.steamwright.desk.accounts.IdentityProvider.Vouched;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Route;
import org.steamwright.records.accounts.Account;

/**
 * Routes by which users come in who are vouched for by the office's provider of identities. The cookie of the session is not
 * sent along when another site leads here, so the answer is taken in two steps: a page without a session, and a link of our own
 * that it follows.
 */
final class ProviderRoutes {

    static final String AWAY = "/log-in/provider";
    static final String BACK = "/log-in/provider/return";

    private static final String FINISH = "/log-in/provider/finish";
    private static final Logger LOG = Logger.getLogger(ProviderRoutes.class.getName());

    /** What a provider's answer may hold; the rest is not handed on. */
    private static final List<String> ANSWER = List.of("code", "state", "iss", "error");

    private final LogIns logIns;
    private final Office office;
    private final IdentityProvider provider;

    private ProviderRoutes(LogIns logIns, Office office, IdentityProvider provider) {
        this.logIns = logIns;
        this.office = office;
        this.provider = provider;
    }

    static List<Route> all(LogIns logIns, Office office, IdentityProvider provider) {
        ProviderRoutes room = new ProviderRoutes(logIns, office, provider);
        return List.of(
                Route.get(AWAY, Set.of(), room::away),
                Route.get(BACK, Set.of(), room::back).withoutSession(),
                Route.get(FINISH, Set.of(), room::finish));
    }

    /** Where the provider answers to: this desk, under the name by which it was asked, which the guard has looked at. */
    private static URI address(Ask ask) {
        return URI.create(ask.request().getScheme() + "://" + ask.request().getHeader("Host") + BACK);
    }

    private Reply away(Ask ask) {
        try {
            return new Reply.Away(provider.begin(ask.request(), ask.response(), address(ask)));
        } catch (NotVouchedException refused) {
            return refused(ask, refused);
        }
    }

    private Reply back(Ask ask) {
        StringBuilder next = new StringBuilder(FINISH);
        for (String name : ANSWER) {
            Optional.ofNullable(ask.request().getParameter(name))
                    .ifPresent(value -> next.append(next.indexOf("?") < 0 ? '?' : '&')
                            .append(name)
                            .append('=')
                            .append(URLEncoder.encode(value, StandardCharsets.UTF_8)));
        }
        return Reply.page("accounts/hop.jte", Map.of("next", next.toString()));
    }

    private Reply finish(Ask ask) {
        String address = String.valueOf(ask.request().getRemoteAddr());
        try {
            Vouched vouched = provider.vouched(ask.request(), ask.response(), address(ask));
            Optional<Account> account =
                    logIns.vouchedFor(provider.issuer(), vouched.subject(), vouched.mail(), address);
            if (account.isEmpty()) {
                return AccountRoutes.logInPage(
                        logIns, ask.frame().say("accounts.provider-unknown", provider.name()), 403);
            }
            LogInSession.beginVouched(ask.request(), account.get(), logIns, office.clock());
            return AccountRoutes.home(account.get());
        } catch (NotVouchedException refused) {
            logIns.notVouched(refused.reason(), address);
            return refused(ask, refused);
        }
    }

    private Reply refused(Ask ask, NotVouchedException refused) {
        // what comes from outside makes no lines of its own in the log
        LOG.log(
                Level.WARNING,
                "the provider of identities vouched for nobody: "
                        + String.valueOf(refused.getMessage()).replaceAll("\\p{Cntrl}", " "));
        return AccountRoutes.logInPage(
                logIns,
                ask.frame().say("accounts.provider-" + refused.reason().word(), provider.name()),
                refused.reason() == Reason.UNREACHABLE ? 503 : 403);
    }
}
