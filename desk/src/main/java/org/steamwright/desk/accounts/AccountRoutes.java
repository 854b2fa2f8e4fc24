package org.steamwright.desk.accounts;

import jakarta.servlet.http.HttpServletRequest;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.steamwright.desk.accounts.LogInAnswer.CodeWanted;
import org.steamwright.desk.accounts.LogInAnswer.Granted;
import org.steamwright.desk.accounts.LogInAnswer.Refused;
import org.steamwright.desk.accounts.LogIns.Obstacle;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.TableText;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.SigningKeys;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.accounts.Account;
import org.steamwright.records.accounts.Identity;
import org.steamwright.records.accounts.LogInEntry;

/** Routes of log-in, of the own account, and of the list of users. */
public final class AccountRoutes {

    private static final Set<Role> EVERY_USER = Set.of(Role.values());
    private static final Set<Role> OFFICE = Set.of(Role.OFFICE);
    private static final int USERS_ON_A_PAGE = 100;
    /** Of more clinics the number or the name is typed: a list of all of them beside each user would be longer than the page. */
    private static final int CLINICS_TO_CHOOSE = 60;

    private static final int LOG_LINES = 200;
    private static final int LINES_AT_ONCE = 1_000;
    private static final int LONGEST_IDENTITY = 255;
    private static final int LONGEST_REASON = 300;
    private static final Pattern NUMBER = Pattern.compile("[0-9]{1,18}");

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
        List<Route> routes = new ArrayList<>(logIns.settings()
                .provider()
                .map(provider -> ProviderRoutes.all(logIns, office, new IdentityProvider(provider, office.clock())))
                .orElse(List.of()));
        routes.addAll(List.of(
                Route.get(AccountDoorkeeper.LOG_IN, Set.of(), room::logInPage),
                Route.post(AccountDoorkeeper.LOG_IN, Set.of(), room::logIn),
                Route.post("/log-in/code", Set.of(), room::code),
                Route.post("/log-in/password", Set.of(), room::changeAtLogIn),
                Route.post("/log-in/second-factor", Set.of(), room::takeSecondFactorAtLogIn),
                Route.post("/log-out", EVERY_USER, room::logOut),
                Route.get("/account", EVERY_USER, room::own),
                Route.post("/account/password", EVERY_USER, room::changePassword),
                Route.get("/account/second-factor", EVERY_USER, room::secondFactorPage),
                Route.post("/account/second-factor", EVERY_USER, room::takeSecondFactor),
                Route.post("/account/sessions", EVERY_USER, room::endOwnSessions),
                Route.get("/users", OFFICE, ask -> room.list(ask, Optional.empty())),
                Route.post("/users", OFFICE, room::add),
                Route.get("/users/log", OFFICE, room::log),
                Route.post("/users/{user}/role", OFFICE, room::changeRole),
                Route.post("/users/{user}/password", OFFICE, room::resetPassword),
                Route.post("/users/{user}/second-factor", OFFICE, room::dropSecondFactor),
                Route.post("/users/{user}/active", OFFICE, room::setActive),
                Route.post("/users/{user}/sessions", OFFICE, room::endSessions),
                Route.post("/users/{user}/signing-key", OFFICE, room::endSigningKey),
                Route.get("/users/log.csv", OFFICE, room::logTable)));
        routes.addAll(KeyPages.all(office, logIns, room::isConfirmed));
        if (logIns.settings().provider().isPresent()) {
            routes.add(Route.post("/users/{user}/identity", OFFICE, room::stateIdentity));
        }
        return routes;
    }

    /**
     * The routes of a laptop with one owner, who is asked for name and role once.
     *
     * @param stated is told when somebody has said who works here
     */
    public static List<Route> owner(Office office, Runnable stated) {
        Set<Role> staff = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
        return List.of(
                Route.get(OwnerDoorkeeper.ASK, Set.of(), ask -> {
                    // another program may have said it meanwhile
                    stated.run();
                    return ownerPage(office, "");
                }),
                Route.post(OwnerDoorkeeper.ASK, Set.of(), ask -> stateOwner(office, ask, stated)),
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

    private static Reply stateOwner(Office office, Ask ask, Runnable stated) {
        String name = ask.typed("name");
        Optional<Role> role = role(ask.typed("role")).filter(one -> one != Role.CLINIC);
        if (name.isBlank() || name.length() > 120 || name.chars().anyMatch(Character::isISOControl) || role.isEmpty()) {
            return ownerPage(office, "accounts.owner-name-missing");
        }
        Owner.state(office.records(), name, role.get().word());
        stated.run();
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
            return switch (logIns.left(account.get(), LogInSession.isVouched(request))) {
                case PASSWORD -> step(logIns, "password", "", 200);
                case SECOND_FACTOR -> factorAtLogIn(ask, account.get(), "", List.of());
                case NOTHING -> home(account.get());
            };
        }
        return step(logIns, LogInSession.waitsForCode(request).isPresent() ? "code" : "name", "", 200);
    }

    private static Reply step(LogIns logIns, String step, String problem, int status) {
        OfficeSettings settings = logIns.settings();
        return new Reply.Page(
                "accounts/login.jte",
                Map.of(
                        "step",
                        step,
                        "problem",
                        problem,
                        "provider",
                        settings.provider().map(ProviderSettings::clientName).orElse(""),
                        "hasPasswords",
                        !settings.passwordFor().isEmpty()),
                status);
    }

    /** The page on which a log-in begins, with what stands in its way. */
    static Reply logInPage(LogIns logIns, String problem, int status) {
        return step(logIns, "name", problem, status);
    }

    private static Reply refused(LogIns logIns, String step, String problem) {
        return step(logIns, step, problem, 422);
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
            LogInSession.beginAnew(ask.request(), granted.account(), logIns, office.clock());
            return next(granted.account());
        }
        if (answer instanceof CodeWanted wanted) {
            LogInSession.waitForCode(ask.request(), wanted.account());
            return new Reply.Next(AccountDoorkeeper.LOG_IN);
        }
        Refused refused = (Refused) answer;
        if (refused.reason() == LogInAnswer.Reason.PROVIDER) {
            return refused(logIns, step, ask.frame().say("accounts.refused-provider"));
        }
        return refused(
                logIns,
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

    /** On to what a user who has shown the password still has to do, or home. */
    private Reply next(Account account) {
        return logIns.left(account, false) == LogIns.Left.NOTHING
                ? home(account)
                : new Reply.Next(AccountDoorkeeper.LOG_IN);
    }

    static Reply home(Account account) {
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
            return refused(
                    logIns,
                    "password",
                    ask.frame().say("accounts.obstacle-" + obstacle.get().word()));
        }
        return next(logIns.book().findById(account.get().id()).orElseThrow());
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
            LogInSession.begin(ask.request(), account, logIns, office.clock());
        }
        return obstacle;
    }

    private Reply logOut(Ask ask) {
        LogInSession.account(ask.request(), logIns, office.clock())
                .ifPresent(account -> logIns.leave(account, address(ask)));
        LogInSession.end(ask.request(), logIns);
        // pages are not stored anyway; this also empties what a browser keeps in spite of that
        ask.response().setHeader("Clear-Site-Data", "\"cache\", \"storage\"");
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
        List<OpenSessions.Entry> open = logIns.sessions().of(account.id()).stream()
                .filter(session -> logIns.holds(account, session.begun(), session.lastUsed()))
                .toList();
        String current =
                LogInSession.entry(ask.request()).map(OpenSessions.Entry::id).orElse("");
        return new Reply.Page(
                "accounts/account.jte",
                Map.of(
                        "account",
                        account,
                        "sessions",
                        SessionLine.of(open, current, office.clock().getZone(), ask),
                        "asksPassword",
                        asksPassword(ask, account),
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
        return secondFactor(ask, ask.person().name(), "/account/second-factor", "/account", problem, recovery);
    }

    private Reply factorAtLogIn(Ask ask, Account account, String problem, List<String> recovery) {
        return secondFactor(ask, account.name(), "/log-in/second-factor", AccountDoorkeeper.LOG_IN, problem, recovery);
    }

    private Reply secondFactor(
            Ask ask, String name, String action, String next, String problem, List<String> recovery) {
        byte[] secret = LogInSession.secretInTheMaking(ask.request(), codes);
        boolean asksPassword = action.startsWith("/account") && asksPassword(ask, account(ask));
        return new Reply.Page(
                "accounts/secondfactor.jte",
                Map.of(
                        "asksPassword",
                        asksPassword,
                        "action",
                        action,
                        "next",
                        next,
                        "square",
                        QrSquare.svg(
                                OneTimeCodes.address(secret, name), ask.frame().say("accounts.square")),
                        "secret",
                        OneTimeCodes.typed(secret).replaceAll("(.{4})(?=.)", "$1 "),
                        "problem",
                        problem,
                        "recovery",
                        recovery),
                problem.isEmpty() ? 200 : 422);
    }

    private Reply takeSecondFactor(Ask ask) {
        if (!isConfirmed(ask)) {
            return secondFactor(ask, ask.frame().say("accounts.obstacle-old-password-wrong"), List.of());
        }
        return taken(ask, account(ask), (problem, recovery) -> secondFactor(ask, problem, recovery));
    }

    /** For a user whose password was right and whose second factor the office wants before anything else. */
    private Reply takeSecondFactorAtLogIn(Ask ask) {
        Optional<Account> account = LogInSession.account(ask.request(), logIns, office.clock())
                .filter(one -> logIns.left(one, LogInSession.isVouched(ask.request())) == LogIns.Left.SECOND_FACTOR);
        return account.isEmpty()
                ? new Reply.Next(AccountDoorkeeper.LOG_IN)
                : taken(
                        ask,
                        account.get(),
                        (problem, recovery) -> factorAtLogIn(ask, account.get(), problem, recovery));
    }

    private interface FactorPage {
        Reply of(String problem, List<String> recovery);
    }

    private Reply taken(Ask ask, Account account, FactorPage pages) {
        byte[] secret = LogInSession.secretInTheMaking(ask.request(), codes);
        Optional<List<String>> recovery =
                logIns.takeSecondFactor(account.id(), secret, ask.typed("code"), address(ask));
        if (recovery.isEmpty()) {
            return pages.of(ask.frame().say("accounts.code-wrong"), List.of());
        }
        LogInSession.begin(ask.request(), account, logIns, office.clock());
        Reply page = pages.of("", recovery.get());
        LogInSession.forgetSecret(ask.request());
        return page;
    }

    /** Whether sessions are ended only with the password: who comes by the provider has none here. */
    static boolean asksPassword(Ask ask, Account account) {
        return !account.password().isEmpty() && !LogInSession.isVouched(ask.request());
    }

    /**
     * Whether whoever asks has shown the own password again, in a field of its own: a session that was left open changes
     * nobody's way in.
     */
    private boolean isConfirmed(Ask ask) {
        Account account = account(ask);
        char[] password = ask.secret("own");
        boolean isUser = !asksPassword(ask, account) || logIns.confirms(account.id(), password, address(ask));
        Arrays.fill(password, ' ');
        return isUser;
    }

    /** Ends one own session, all others, or all, once the user has shown the password again. */
    private Reply endOwnSessions(Ask ask) {
        Account account = account(ask);
        char[] password = Optional.ofNullable(ask.request().getParameter("password"))
                .orElse("")
                .toCharArray();
        boolean isUser = !asksPassword(ask, account) || logIns.confirms(account.id(), password, address(ask));
        Arrays.fill(password, ' ');
        if (!isUser) {
            return ownPage(ask, ask.frame().say("accounts.obstacle-old-password-wrong"), 422);
        }
        String which = ask.typed("session");
        OpenSessions sessions = logIns.sessions();
        Optional<OpenSessions.Entry> current = LogInSession.entry(ask.request());
        boolean isOwn = current.filter(entry -> entry.id().equals(which)).isPresent();
        if (!which.equals("all") && !isOwn) {
            if (which.equals("others")) {
                current.ifPresent(kept -> sessions.endOthers(account.id(), kept));
                logIns.sessionEnded(account.id(), "all others", address(ask));
            } else if (sessions.end(account.id(), which)) {
                logIns.sessionEnded(account.id(), "one", address(ask));
            } else {
                return ownPage(ask, ask.frame().say("accounts.session-gone"), 422);
            }
            return ownPage(ask, ask.frame().say("accounts.session-ended"), 200);
        }
        if (isOwn) {
            logIns.sessionEnded(account.id(), "one", address(ask));
        } else {
            logIns.endSessions(account.id(), ask.person().name());
        }
        LogInSession.end(ask.request(), logIns);
        return new Reply.Next(AccountDoorkeeper.LOG_IN);
    }

    /** A page of the users, or those whose name contains what is typed. */
    private Reply list(Ask ask, Optional<String> problem) {
        String typed = ask.request().getMethod().equals("GET") ? ask.typed("q") : "";
        int from = typed.isEmpty() ? from(ask) : 0;
        List<Account> users = logIns.book().some(typed, from, USERS_ON_A_PAGE + 1);
        boolean hasMore = users.size() > USERS_ON_A_PAGE;
        List<Account> shown = hasMore ? users.subList(0, USERS_ON_A_PAGE) : users;
        List<Subject> clinics = office.records().subjects(Kind.CLINIC, CLINICS_TO_CHOOSE + 1);
        Map<String, Identity> identities = new HashMap<>();
        Map<String, String> clinicNames = new HashMap<>();
        for (Account user : shown) {
            logIns.book().identityOf(user.id()).ifPresent(identity -> identities.put(user.id(), identity));
            clinic(user.clinic()).ifPresent(clinic -> clinicNames.put(user.clinic(), clinic.text("name")));
        }
        Map<String, Object> values = new HashMap<>();
        values.put("users", shown);
        values.put("count", logIns.book().count());
        values.put("typed", typed);
        values.put("from", from);
        values.put("next", hasMore ? from + USERS_ON_A_PAGE : 0);
        values.put("before", Math.max(0, from - USERS_ON_A_PAGE));
        values.put("clinics", clinics.size() > CLINICS_TO_CHOOSE ? List.of() : clinics);
        values.put("clinicNames", clinicNames);
        values.put("settings", logIns.settings());
        values.put("asksPassword", asksPassword(ask, account(ask)));
        values.put("identities", identities);
        values.put("problem", problem.orElse(""));
        return new Reply.Page("accounts/users.jte", values, problem.isPresent() ? 422 : 200);
    }

    private static int from(Ask ask) {
        String typed = ask.typed("from");
        return typed.matches("[0-9]{1,8}") ? Integer.parseInt(typed) : 0;
    }

    private Reply stateIdentity(Ask ask) {
        String subject = ask.typed("subject");
        String mail = ask.typed("mail");
        if (subject.length() > LONGEST_IDENTITY
                || mail.length() > LONGEST_IDENTITY
                || (!mail.isEmpty() && mail.indexOf('@') < 1)) {
            return list(ask, Optional.of(ask.frame().say("accounts.identity-wrong")));
        }
        String issuer = logIns.settings().provider().orElseThrow().issuer().toString();
        return withUser(
                ask,
                id -> logIns.stateIdentity(
                        id, issuer, subject, mail, ask.person().name()));
    }

    private Reply add(Ask ask) {
        Optional<Role> role = role(ask.typed("role"));
        String name = ask.typed("name");
        String clinic = role.equals(Optional.of(Role.CLINIC)) ? clinicId(ask.typed("clinic")) : "";
        if (name.isBlank()
                || name.length() > 120
                || name.chars().anyMatch(Character::isISOControl)
                || role.isEmpty()
                || (role.get() == Role.CLINIC && clinic(clinic).isEmpty())) {
            return list(ask, Optional.of(ask.frame().say("accounts.user-incomplete")));
        }
        String password =
                Optional.ofNullable(ask.request().getParameter("password")).orElse("");
        return logIns.add(
                        name, role.get().word(), clinic, password, ask.person().name())
                .map(obstacle -> list(ask, Optional.of(ask.frame().say("accounts.obstacle-" + obstacle.word()))))
                .orElse(new Reply.Next("/users"));
    }

    private Optional<Subject> clinic(String id) {
        try {
            return office.records().find(SubjectId.parse(id)).filter(subject -> subject.kind() == Kind.CLINIC);
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** The clinic that was chosen, or typed: by the number of the register, or a name that no other clinic has. */
    private String clinicId(String typed) {
        if (typed.isBlank() || clinic(typed).isPresent()) {
            return typed;
        }
        List<Subject> found = office.records().exactly(Kind.CLINIC, "number", typed);
        List<Subject> named = found.isEmpty() ? office.records().exactly(Kind.CLINIC, "name", typed) : found;
        return named.size() == 1 ? named.get(0).id().toString() : "";
    }

    private Reply changeRole(Ask ask) {
        Optional<Role> role = role(ask.typed("role"));
        String clinic = role.equals(Optional.of(Role.CLINIC)) ? clinicId(ask.typed("clinic")) : "";
        if (role.isEmpty() || (role.get() == Role.CLINIC && clinic(clinic).isEmpty())) {
            return list(ask, Optional.of(ask.frame().say("accounts.user-incomplete")));
        }
        return withUser(
                ask,
                id -> logIns.changeRole(
                        id, role.get().word(), clinic, ask.person().name()));
    }

    private Reply resetPassword(Ask ask) {
        return withOwnPassword(
                ask,
                id -> logIns.resetPassword(
                        id,
                        Optional.ofNullable(ask.request().getParameter("password"))
                                .orElse(""),
                        ask.person().name()));
    }

    private Reply dropSecondFactor(Ask ask) {
        return withOwnPassword(ask, id -> {
            logIns.dropSecondFactor(id, ask.person().name());
            return Optional.empty();
        });
    }

    /** Ends the key with which a user signs: the secret is lost, or known to others. */
    private Reply endSigningKey(Ask ask) throws FilingException {
        Optional<Account> user = logIns.book().findById(ask.part("user"));
        String reason = ask.typed("reason");
        if (user.isEmpty()) {
            return noSuchUser(ask);
        }
        if (reason.isEmpty() || reason.length() > LONGEST_REASON) {
            return list(ask, Optional.of(ask.frame().say("accounts.key-reason-missing")));
        }
        SigningKeys keys = new SigningKeys(office.records());
        if (!keys.hasKey(user.get().name())) {
            return list(ask, Optional.of(ask.frame().say("accounts.key-none")));
        }
        if (!isConfirmed(ask)) {
            return list(ask, Optional.of(ask.frame().say("accounts.obstacle-old-password-wrong")));
        }
        keys.end(user.get().name(), reason, ask.author());
        logIns.keyEnded(user.get().id(), ask.person().name());
        return new Reply.Next("/users");
    }

    private Reply withOwnPassword(Ask ask, OnUser act) {
        return isConfirmed(ask)
                ? withUser(ask, act)
                : list(ask, Optional.of(ask.frame().say("accounts.obstacle-old-password-wrong")));
    }

    private Reply setActive(Ask ask) {
        boolean may = ask.typed("active").equals("yes");
        if (!may && account(ask).id().equals(ask.part("user"))) {
            return list(ask, Optional.of(ask.frame().say("accounts.not-yourself")));
        }
        return withUser(ask, id -> logIns.setActive(id, may, ask.person().name()));
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
            return noSuchUser(ask);
        }
        return act.act(user.get().id())
                .map(obstacle -> list(ask, Optional.of(ask.frame().say("accounts.obstacle-" + obstacle.word()))))
                .orElse(new Reply.Next("/users"));
    }

    private static Reply noSuchUser(Ask ask) {
        return new Reply.Refusal(
                404, ask.frame().say("accounts.no-such-user"), ask.frame().say("accounts.no-such-user-remedy"));
    }

    /** Names of the users of some lines. */
    private Map<String, String> names(List<LogInEntry> entries) {
        Map<String, String> names = new HashMap<>();
        addNames(names, entries);
        return names;
    }

    private void addNames(Map<String, String> names, List<LogInEntry> entries) {
        entries.stream()
                .map(LogInEntry::account)
                .filter(id -> !id.isEmpty())
                .distinct()
                .filter(id -> !names.containsKey(id))
                .forEach(id -> logIns.book().findById(id).ifPresent(account -> names.put(id, account.name())));
    }

    /** A page of the log; older ones by the number of the line that they end before. */
    private Reply log(Ask ask) {
        long before =
                NUMBER.matcher(ask.typed("before")).matches() ? Long.parseLong(ask.typed("before")) : Long.MAX_VALUE;
        List<LogInEntry> entries = logIns.book().logBefore(before, LOG_LINES + 1);
        boolean hasOlder = entries.size() > LOG_LINES;
        List<LogInEntry> shown = hasOlder ? entries.subList(0, LOG_LINES) : entries;
        return Reply.page(
                "accounts/log.jte",
                Map.of(
                        "log",
                        LogLine.of(shown, names(shown), office, ask),
                        "older",
                        hasOlder ? String.valueOf(shown.get(LOG_LINES - 1).nr()) : ""));
    }

    /** The whole log as a table, the newest line first; acts and results in English, times in UTC, as they are kept. */
    private Reply logTable(Ask ask) {
        Map<String, String> names = new HashMap<>();
        return new Reply.Attachment(
                "text/csv;charset=utf-8",
                out -> {
                    out.write(TableText.of(List.of("nr", "time", "user", "address", "act", "result"), List.of())
                            .getBytes(StandardCharsets.UTF_8));
                    long before = Long.MAX_VALUE;
                    List<LogInEntry> entries = logIns.book().logBefore(before, LINES_AT_ONCE);
                    while (!entries.isEmpty()) {
                        addNames(names, entries);
                        out.write(rows(entries, names).getBytes(StandardCharsets.UTF_8));
                        before = entries.get(entries.size() - 1).nr();
                        entries = logIns.book().logBefore(before, LINES_AT_ONCE);
                    }
                },
                Optional.of("log-ins.csv"));
    }

    private static String rows(List<LogInEntry> entries, Map<String, String> names) {
        return TableText.rows(entries.stream()
                .map(entry -> List.of(
                        String.valueOf(entry.nr()),
                        entry.at().toString(),
                        names.getOrDefault(entry.account(), ""),
                        entry.address(),
                        entry.act(),
                        entry.result()))
                .toList());
    }
}
