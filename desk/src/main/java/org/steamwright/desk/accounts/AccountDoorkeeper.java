package org.steamwright.desk.accounts;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.Person;
import org.steamwright.desk.web.Role;
import org.steamwright.records.SubjectId;
import org.steamwright.records.accounts.Account;

/** Knows the users of an office by their sessions. Who still has to change a password that others know, is a stranger. */
public final class AccountDoorkeeper implements Doorkeeper {

    static final String LOG_IN = "/log-in";

    private final LogIns logIns;
    private final Clock clock;

    /**
     * @param logIns of the office
     * @param clock time
     */
    public AccountDoorkeeper(LogIns logIns, Clock clock) {
        this.logIns = logIns;
        this.clock = clock;
    }

    @Override
    public Person person(HttpServletRequest request) {
        return LogInSession.account(request, logIns, clock)
                .filter(account -> !account.mustChange())
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
    public Optional<String> signIn() {
        return Optional.of(LOG_IN);
    }
}
