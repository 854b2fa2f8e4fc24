package org.steamwright.desk.accounts;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.time.Duration;
import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.web.Buckets;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.Limits;
import org.steamwright.desk.web.Person;
import org.steamwright.desk.web.Role;
import org.steamwright.records.SubjectId;
import org.steamwright.records.accounts.Account;

/**
 * Knows the users of an office by their sessions. Who still has to change a password that others know, or to set up the second
 * factor that the office wants, is a stranger.
 */
public final class AccountDoorkeeper implements Doorkeeper {

    static final String LOG_IN = "/log-in";

    /** Refusals noted of one address in an hour: enough to see that somebody tries, too few to fill a disk. */
    private static final long REFUSALS_NOTED = 60;

    private final LogIns logIns;
    private final Clock clock;
    private final Limits limits;
    private final Buckets refusals;

    /**
     * @param logIns of the office
     * @param clock time
     */
    public AccountDoorkeeper(LogIns logIns, Clock clock) {
        this.logIns = logIns;
        this.clock = clock;
        this.limits = new Limits(logIns.settings().limits(), clock);
        this.refusals = new Buckets(REFUSALS_NOTED, REFUSALS_NOTED, Duration.ofHours(1), clock);
    }

    @Override
    public Optional<Limits> limits() {
        return Optional.of(limits);
    }

    @Override
    public void refused(HttpServletRequest request, Person person, String what, String why) {
        String address = String.valueOf(request.getRemoteAddr());
        if (refusals.take(address, 1).isEmpty()) {
            logIns.refused(person.name(), address, what, why);
        }
    }

    @Override
    public Person person(HttpServletRequest request) {
        return LogInSession.account(request, logIns, clock)
                .filter(account -> logIns.left(account, LogInSession.isVouched(request)) == LogIns.Left.NOTHING)
                .map(AccountDoorkeeper::person)
                .orElse(Person.STRANGER);
    }

    private static Person person(Account account) {
        Set<Role> roles = Arrays.stream(Role.values())
                .filter(role -> role.word().equals(account.role()))
                .findFirst()
                .map(Set::of)
                .orElse(Set.of());
        return new Person(
                account.name(),
                roles,
                account.clinic().isEmpty() ? Optional.empty() : Optional.of(SubjectId.parse(account.clinic())));
    }

    @Override
    public Optional<String> signIn(HttpServletRequest request) {
        return Optional.of(LOG_IN);
    }
}
