package org.steamwright.desk.accounts;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.accounts.LogInAnswer.CodeWanted;
import org.steamwright.desk.accounts.LogInAnswer.Granted;
import org.steamwright.desk.accounts.LogInAnswer.Refused;
import org.steamwright.desk.accounts.LogIns.Obstacle;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.accounts.Account;

/** Routes of log-in, of the own account, and of the list of users. */
public final class AccountRoutes {

    private static final Set<Role> EVERY_USER = Set.of(Role.values());
    private static final Set<Role> OFFICE = Set.of(Role.OFFICE);
    private static final int LOG_LINES = 200;

    private final LogIns logIns;
    private final Office office;
    private final OneTimeCodes codes = new OneTimeCodes();

    private AccountRoutes(LogIns logIns, Office office) {
        this.logIns = logIns;
        this.office = office;
    }

    /** The routes of an office with users. */
    public static List<Route> users(LogIns logIns, Office office) {
        AccountRoutes room = new AccountRoutes(logIns, office);
        return List.of(
                Route.get(AccountDoorkeeper.LOG_IN, Set.of(), room::logInPage),
                Route.post(AccountDoorkeeper.LOG_IN, Set.of(), room::logIn),
                Route.post("/log-in/code", Set.of(), room::code),
                Route.post("/log-in/password", Set.of(), room::changeAtLogIn),
                Route.post("/log-out", EVERY_USER, room::logOut),
                Route.get("/account", EVERY_USER, room::own),
                Route.post("/account/password", EVERY_USER, room::changePassword),
                Route.get("/account/second-factor", EVERY_USER, room::secondFactorPage),
                Route.post("/account/second-factor", EVERY_USER, room::takeSecondFactor),
                Route.post("/account/sessions", EVERY_USER, room::endOwnSessions),
                Route.get("/users", OFFICE, ask -> room.list(Optional.empty())),
                Route.post("/users", OFFICE, room::add),
                Route.get("/users/log", OFFICE, room::log),
                Route.post("/users/{user}/role", OFFICE, room::changeRole),
                Route.post("/users/{user}/password", OFFICE, room::resetPassword),
                Route.post("/users/{user}/second-factor", OFFICE, room::dropSecondFactor),
                Route.post("/users/{user}/active", OFFICE, room::setActive),
                Route.post("/users/{user}/sessions", OFFICE, room::endSessions));
    }

    /** The routes of a laptop with one owner, who is asked for name and role once. */
    public static List<Route> owner(Office office) {
        Set<Role> staff = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
        return List.of(
                Route.get(OwnerDoorkeeper.ASK, Set.of(), ask -> ownerPage(office, "")),
                Route.post(OwnerDoorkeeper.ASK, Set.of(), ask -> stateOwner(office, ask)),
                Route.get("/account", staff, ask -> new Reply.Next(OwnerDoorkeeper.ASK)));
    }

    private static Reply ownerPage(Office office, String problem) {
        Map<String, Object> values = new HashMap<>();
        values.put(
                "owner", Owner.find(office.records()).map(owner -> owner.name()).orElse(""));
        values.put(
                "role", Owner.find(office.records()).map(owner -> owner.role()).orElse(Role.TECHNICIAN.word()));
        values.put("problem", problem);
        return Reply.page("accounts/owner.jte", values);
    }

    private static Reply stateOwner(Office office, Ask ask) {
        String name = ask.typed("name");
        Optional<Role> role = role(ask.typed("role")).filter(one -> one != Role.CLINIC);
        if (name.isBlank() || name.length() > 120 || name.chars().anyMatch(Character::isISOControl) || role.isEmpty()) {
            return ownerPage(office, "accounts.owner-name-missing");
        }
        Owner.state(office.records(), name, role.get().word());
        return new Reply.Next("/today");
    }

    private static Optional<Role> role(String word) {
        return Arrays.stream(Role.values())
                .filter(role -> role.word().equals(word))
                .findFirst();
    }

    private static String address(Ask ask) {
        return String.valueOf(ask.request().getRemoteAddr());
    }

    private Reply logInPage(Ask ask) {
        HttpServletRequest request = ask.request();
        Optional<Account> account = LogInSession.account(request, logIns, office.clock());
        if (account.isPresent()) {
            return account.get().mustChange() ? step("password", "") : new Reply.Next("/today");
        }
        return step(LogInSession.waitsForCode(request).isPresent() ? "code" : "name", "");
    }

    private static Reply.Page step(String step, String problem) {
        return new Reply.Page(
                "accounts/login.jte", Map.of("step", step, "problem", problem), problem.isEmpty() ? 200 : 422);
    }

    private Reply logIn(Ask ask) {
        char[] password = Optional.ofNullable(ask.request().getParameter("password"))
                .orElse("")
                .toCharArray();
        LogInAnswer answer = logIns.attempt(ask.typed("name"), password, address(ask));
        Arrays.fill(password, ' ');
        return answered(ask, answer, "name");
    }

    private Reply answered(Ask ask, LogInAnswer answer, String step) {
        if (answer instanceof Granted granted) {
            LogInSession.begin(ask.request(), granted.account(), office.clock());
            return granted.account().mustChange() ? new Reply.Next(AccountDoorkeeper.LOG_IN) : home(granted.account());
        }
        if (answer instanceof CodeWanted wanted) {
            LogInSession.waitForCode(ask.request(), wanted.account());
            return new Reply.Next(AccountDoorkeeper.LOG_IN);
        }
        Refused refused = (Refused) answer;
        return step(
                step,
                refused.until()
                        .map(until -> ask.frame()
                                .say(
                                        "accounts.refused-wait",
                                        ask.frame()
                                                .figures()
                                                .time(until.atZone(
                                                        office.clock().getZone()))))
                        .orElse(ask.frame()
                                .say(step.equals("code") ? "accounts.code-wrong" : "accounts.refused-wrong")));
    }

    private static Reply home(Account account) {
        return new Reply.Next(account.role().equals(Role.CLINIC.word()) ? "/clinic" : "/today");
    }

    private Reply code(Ask ask) {
        Optional<String> account = LogInSession.waitsForCode(ask.request());
        if (account.isEmpty()) {
            return new Reply.Next(AccountDoorkeeper.LOG_IN);
        }
        return answered(ask, logIns.secondStep(account.get(), ask.typed("code"), address(ask)), "code");
    }

    private Reply changeAtLogIn(Ask ask) {
        Optional<Account> account = LogInSession.account(ask.request(), logIns, office.clock());
        if (account.isEmpty()) {
            return new Reply.Next(AccountDoorkeeper.LOG_IN);
        }
        Optional<Obstacle> obstacle = change(ask, account.get());
        if (obstacle.isPresent()) {
            return step(
                    "password",
                    ask.frame().say("accounts.obstacle-" + obstacle.get().word()));
        }
        return home(account.get());
    }

    /** Changes the password and begins the session anew: those before have ended by it. */
    private Optional<Obstacle> change(Ask ask, Account account) {
        char[] old = Optional.ofNullable(ask.request().getParameter("old"))
                .orElse("")
                .toCharArray();
        String fresh =
                Optional.ofNullable(ask.request().getParameter("password")).orElse("");
        Optional<Obstacle> obstacle = logIns.changePassword(account.id(), old, fresh, address(ask));
        Arrays.fill(old, ' ');
        if (obstacle.isEmpty()) {
            LogInSession.begin(ask.request(), account, office.clock());
        }
        return obstacle;
    }

    private Reply logOut(Ask ask) {
        LogInSession.account(ask.request(), logIns, office.clock())
                .ifPresent(account -> logIns.leave(account, address(ask)));
        LogInSession.end(ask.request());
        return new Reply.Next(AccountDoorkeeper.LOG_IN);
    }

    private Account account(Ask ask) {
        return LogInSession.account(ask.request(), logIns, office.clock()).orElseThrow();
    }

    private Reply own(Ask ask) {
        return ownPage(ask, "", 200);
    }

    private Reply ownPage(Ask ask, String notice, int status) {
        Account account = account(ask);
        return new Reply.Page(
                "accounts/account.jte",
                Map.of(
                        "account",
                        account,
                        "codesLeft",
                        logIns.book().recoveryCodesLeft(account.id()),
                        "log",
                        LogLine.of(
                                logIns.book().log(account.id(), 20), Map.of(account.id(), account.name()), office, ask),
                        "notice",
                        notice),
                status);
    }

    private Reply changePassword(Ask ask) {
        Optional<Obstacle> obstacle = change(ask, account(ask));
        return obstacle.isPresent()
                ? ownPage(
                        ask,
                        ask.frame().say("accounts.obstacle-" + obstacle.get().word()),
                        422)
                : ownPage(ask, ask.frame().say("accounts.password-changed"), 200);
    }

    private Reply secondFactorPage(Ask ask) {
        return secondFactor(ask, "", List.of());
    }

    private Reply secondFactor(Ask ask, String problem, List<String> recovery) {
        byte[] secret = LogInSession.secretInTheMaking(ask.request(), codes);
        return new Reply.Page(
                "accounts/secondfactor.jte",
                Map.of(
                        "square",
                        QrSquare.svg(
                                OneTimeCodes.address(secret, ask.person().name()),
                                ask.frame().say("accounts.square")),
                        "secret",
                        OneTimeCodes.typed(secret).replaceAll("(.{4})(?=.)", "$1 "),
                        "problem",
                        problem,
                        "recovery",
                        recovery),
                problem.isEmpty() ? 200 : 422);
    }

    private Reply takeSecondFactor(Ask ask) {
        Account account = account(ask);
        byte[] secret = LogInSession.secretInTheMaking(ask.request(), codes);
        Optional<List<String>> recovery =
                logIns.takeSecondFactor(account.id(), secret, ask.typed("code"), address(ask));
        if (recovery.isEmpty()) {
            return secondFactor(ask, ask.frame().say("accounts.code-wrong"), List.of());
        }
        LogInSession.begin(ask.request(), account, office.clock());
        Reply page = secondFactor(ask, "", recovery.get());
        LogInSession.forgetSecret(ask.request());
        return page;
    }

    private Reply endOwnSessions(Ask ask) {
        logIns.endSessions(account(ask).id(), ask.person().name());
        LogInSession.end(ask.request());
        return new Reply.Next(AccountDoorkeeper.LOG_IN);
    }

    private Reply list(Optional<String> problem) {
        return new Reply.Page(
                "accounts/users.jte",
                Map.of(
                        "users",
                        logIns.book().all(),
                        "clinics",
                        office.records().subjects(Kind.CLINIC, 1_000),
                        "problem",
                        problem.orElse("")),
                problem.isPresent() ? 422 : 200);
    }

    private Reply add(Ask ask) {
        Optional<Role> role = role(ask.typed("role"));
        String name = ask.typed("name");
        String clinic = role.equals(Optional.of(Role.CLINIC)) ? ask.typed("clinic") : "";
        if (name.isBlank()
                || name.length() > 120
                || name.chars().anyMatch(Character::isISOControl)
                || role.isEmpty()
                || (role.get() == Role.CLINIC && clinic(clinic).isEmpty())) {
            return list(Optional.of(ask.frame().say("accounts.user-incomplete")));
        }
        String password =
                Optional.ofNullable(ask.request().getParameter("password")).orElse("");
        return logIns.add(
                        name, role.get().word(), clinic, password, ask.person().name())
                .map(obstacle -> list(Optional.of(ask.frame().say("accounts.obstacle-" + obstacle.word()))))
                .orElse(new Reply.Next("/users"));
    }

    private Optional<Subject> clinic(String id) {
        try {
            return office.records().find(SubjectId.parse(id)).filter(subject -> subject.kind() == Kind.CLINIC);
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    private Reply changeRole(Ask ask) {
        Optional<Role> role = role(ask.typed("role"));
        String clinic = role.equals(Optional.of(Role.CLINIC)) ? ask.typed("clinic") : "";
        if (role.isEmpty() || (role.get() == Role.CLINIC && clinic(clinic).isEmpty())) {
            return list(Optional.of(ask.frame().say("accounts.user-incomplete")));
        }
        return withUser(ask, id -> {
            logIns.changeRole(id, role.get().word(), clinic, ask.person().name());
            return Optional.empty();
        });
    }

    private Reply resetPassword(Ask ask) {
        return withUser(
                ask,
                id -> logIns.resetPassword(
                        id,
                        Optional.ofNullable(ask.request().getParameter("password"))
                                .orElse(""),
                        ask.person().name()));
    }

    private Reply dropSecondFactor(Ask ask) {
        return withUser(ask, id -> {
            logIns.dropSecondFactor(id, ask.person().name());
            return Optional.empty();
        });
    }

    private Reply setActive(Ask ask) {
        boolean may = ask.typed("active").equals("yes");
        if (!may && account(ask).id().equals(ask.part("user"))) {
            return list(Optional.of(ask.frame().say("accounts.not-yourself")));
        }
        return withUser(ask, id -> {
            logIns.setActive(id, may, ask.person().name());
            return Optional.empty();
        });
    }

    private Reply endSessions(Ask ask) {
        return withUser(ask, id -> {
            logIns.endSessions(id, ask.person().name());
            return Optional.empty();
        });
    }

    private interface OnUser {
        Optional<Obstacle> act(String id);
    }

    private Reply withUser(Ask ask, OnUser act) {
        Optional<Account> user = logIns.book().findById(ask.part("user"));
        if (user.isEmpty()) {
            return new Reply.Refusal(
                    404, ask.frame().say("accounts.no-such-user"), ask.frame().say("accounts.no-such-user-remedy"));
        }
        return act.act(user.get().id())
                .map(obstacle -> list(Optional.of(ask.frame().say("accounts.obstacle-" + obstacle.word()))))
                .orElse(new Reply.Next("/users"));
    }

    private Reply log(Ask ask) {
        Map<String, String> names = new HashMap<>();
        logIns.book().all().forEach(account -> names.put(account.id(), account.name()));
        return Reply.page(
                "accounts/log.jte", Map.of("log", LogLine.of(logIns.book().log(LOG_LINES), names, office, ask)));
    }
}
