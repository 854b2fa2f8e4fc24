package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.RealVisit;
import org.steamwright.desk.web.Method;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.Filing;
import org.steamwright.filing.SigningKeys;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;

/** Every route with every role, and with nobody: what the table says is what the server does. */
class RightsTest {

    private static final String EVERYBODY = "stranger technician reviewer office clinic";
    private static final String USERS = "technician reviewer office clinic";
    private static final String STAFF = "technician reviewer office";

    /** Who may use what. A route that is not here makes the test fail, so that nobody forgets to say it. */
    private static final Map<String, String> EXPECTED = new HashMap<>();

    static {
        allow(
                EVERYBODY,
                "GET /",
                "POST /language",
                "GET /log-in",
                "POST /log-in",
                "POST /log-in/code",
                "POST /log-in/password",
                "POST /log-in/second-factor");
        allow(
                USERS,
                "POST /log-out",
                "GET /account",
                "POST /account/password",
                "GET /account/second-factor",
                "POST /account/second-factor",
                "POST /account/sessions",
                "GET /clinic",
                "GET /clinic/{clinic}",
                "GET /clinic/{clinic}/load",
                "GET /clinic/{clinic}/cards/{machine}",
                "GET /clinic/{clinic}/photos/{visit}",
                "GET /clinic/{clinic}/induction",
                "GET /clinic/{clinic}/reports/{visit}",
                "GET /clinic/{clinic}/reports/{visit}/{machine}");
        allow(
                "office",
                "GET /users",
                "POST /users",
                "GET /users/log",
                "GET /users/log.csv",
                "POST /users/{user}/role",
                "POST /users/{user}/password",
                "POST /users/{user}/second-factor",
                "POST /users/{user}/active",
                "POST /users/{user}/sessions",
                "POST /users/{user}/signing-key",
                "GET /users/keys",
                "POST /users/keys/{key}");
        allow(
                STAFF,
                "GET /today",
                "GET /expiring",
                "GET /due",
                "GET /due.ics",
                "GET /due.csv",
                "GET /plan",
                "GET /register",
                "GET /register/clinics",
                "GET /register/sterilizers",
                "GET /register/sterilizers/{id}",
                "GET /register/instruments",
                "GET /register/instruments/{id}",
                "GET /register/people",
                "GET /register/lots",
                "GET /register/parts",
                "GET /register/entries/{id}",
                "GET /register/sterilizer",
                "GET /register/instrument",
                "GET /find",
                "GET /affected",
                "GET /trends",
                "GET /trends/one",
                "GET /measures",
                "GET /nonconformities",
                "POST /nonconformities",
                "GET /nonconformities/{id}",
                "POST /nonconformities/{id}",
                "GET /review",
                "GET /review/{visit}",
                "GET /visits",
                "GET /visits/{visit}",
                "GET /visits/{visit}/answer",
                "GET /visits/{visit}/go",
                "GET /visits/{visit}/identity",
                "GET /visits/{visit}/as-found",
                "GET /visits/{visit}/maintenance",
                "GET /visits/{visit}/installation",
                "GET /visits/{visit}/instruments",
                "GET /visits/{visit}/runs",
                "GET /visits/{visit}/load",
                "GET /visits/{visit}/indicators",
                "GET /visits/{visit}/indication",
                "GET /visits/{visit}/safety",
                "GET /visits/{visit}/failures",
                "GET /visits/{visit}/close",
                "GET /visits/{visit}/context",
                "GET /visits/{visit}/compare",
                "GET /visits/{visit}/report.pdf",
                "GET /visits/{visit}/certificates",
                "GET /visits/{visit}/result.json",
                "GET /visits/{visit}/files",
                "GET /visits/{visit}/runs/{run}",
                "GET /visits/{visit}/runs/{run}/recordings",
                "GET /visits/{visit}/runs/{run}/traces",
                "GET /visits/{visit}/runs/{run}/whole.svg",
                "GET /visits/{visit}/runs/{run}/plateau.svg",
                "GET /visits/{visit}/runs/{run}/recordings/follows",
                "GET /visits/{visit}/runs/{run}/recordings/clocks",
                "POST /visits/{visit}/corrections");
        allow(
                "technician office",
                "POST /register/instruments/{id}/quarantine",
                "POST /visits",
                "POST /visits/{visit}/facts",
                "POST /visits/{visit}/entries",
                "POST /visits/{visit}/offers",
                "POST /visits/{visit}/removals",
                "POST /visits/{visit}/lines",
                "POST /visits/{visit}/copies",
                "POST /visits/{visit}/again",
                "POST /visits/{visit}/set-asides",
                "POST /visits/{visit}/scope",
                "POST /visits/{visit}/readings",
                "POST /visits/{visit}/criteria-sets",
                "POST /visits/{visit}/instruments",
                "POST /visits/{visit}/instrument-renewals",
                "POST /visits/{visit}/instrument-choices",
                "POST /visits/{visit}/same-checks",
                "POST /visits/{visit}/clock-readings",
                "POST /visits/{visit}/lots",
                "POST /visits/{visit}/running",
                "POST /visits/{visit}/photos",
                "POST /visits/{visit}/photo-removals",
                "POST /visits/{visit}/given-up",
                "POST /visits/{visit}/ink",
                "POST /visits/{visit}/undo");
        allow(
                "technician",
                "POST /visits/{visit}/runs/{run}/recordings",
                "POST /visits/{visit}/runs/{run}/recordings/remove",
                "POST /visits/{visit}/runs/{run}/recordings/reading",
                "POST /visits/{visit}/runs/{run}/recordings/channels",
                "POST /visits/{visit}/runs/{run}/recordings/clock",
                "POST /visits/{visit}/runs/{run}/recordings/places",
                "POST /visits/{visit}/runs/{run}/recordings/undo",
                "POST /visits/{visit}/runs/{run}/borders",
                "POST /visits/{visit}/runs/{run}/borders/remove");
        allow(
                "technician reviewer",
                "POST /visits/{visit}/keys",
                "POST /visits/{visit}/signatures",
                "POST /visits/{visit}/withdrawals");
        allow(
                "office",
                "POST /register/entries/{id}",
                "GET /register/new/{list}",
                "POST /register/new/{list}",
                "GET /register/table",
                "POST /register/table",
                "POST /register/table/enter",
                "POST /register/table/undo");
        allow("reviewer office", "POST /nonconformities/{id}/close");
        allow("reviewer", "POST /review/{visit}");
    }

    /** What a provider of identities adds. */
    private static final Map<String, String> OF_PROVIDER = Map.of(
            "GET /log-in/provider", EVERYBODY,
            "GET /log-in/provider/return", EVERYBODY,
            "GET /log-in/provider/finish", EVERYBODY,
            "POST /users/{user}/identity", "office");

    private static void allow(String who, String... routes) {
        for (String route : routes) {
            EXPECTED.put(route, who);
        }
    }

    @TempDir
    private Path folder;

    private static String name(Route route) {
        return route.method() + " " + route.pattern();
    }

    private static Set<String> words(Route route) {
        Set<String> who = new TreeSet<>();
        route.roles().forEach(role -> who.add(role.word()));
        if (route.roles().isEmpty()) {
            who.addAll(List.of(EVERYBODY.split(" ")));
        }
        return who;
    }

    private static Map<String, Set<String>> told(Map<String, String> table) {
        Map<String, Set<String>> told = new TreeMap<>();
        table.forEach((route, who) -> told.put(route, new TreeSet<>(List.of(who.split(" ")))));
        return told;
    }

    private static Map<String, Set<String>> found(List<Route> routes) {
        Map<String, Set<String>> found = new TreeMap<>();
        routes.forEach(route -> found.put(name(route), words(route)));
        return found;
    }

    @Test
    void every_route_stands_in_the_table_with_who_may_use_it() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            assertThat(found(office.routes)).isEqualTo(told(EXPECTED));
        }
    }

    @Test
    void with_a_provider_its_routes_are_added_and_no_others() throws Exception {
        Map<String, String> both = new HashMap<>(EXPECTED);
        both.putAll(OF_PROVIDER);
        try (TestProvider provider = new TestProvider();
                OpenOffice office = new OpenOffice(
                        folder,
                        new OfficeSettings(
                                Optional.of(provider.settings()),
                                EnumSet.allOf(Role.class),
                                EnumSet.noneOf(Role.class),
                                Map.of()))) {
            assertThat(found(office.routes)).isEqualTo(told(both));
        }
    }

    @Test
    void the_server_lets_in_and_keeps_out_as_the_table_says() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            Map<String, OpenOffice.Browser> browsers = new HashMap<>();
            browsers.put("stranger", office.browser());
            for (Role role : Role.values()) {
                browsers.put(role.word(), office.as(role.word()));
            }
            List<String> wrong = new ArrayList<>();
            int asked = 0;
            for (Route route : office.routes) {
                if (name(route).equals("POST /log-out") || name(route).equals("POST /account/sessions")) {
                    continue;
                }
                String path = route.pattern()
                        .replace("{clinic}", office.clinic.toString())
                        .replaceAll("\\{[a-z]+}", "nothing");
                for (Map.Entry<String, OpenOffice.Browser> one : browsers.entrySet()) {
                    var answer = route.method() == Method.GET
                            ? one.getValue().get(path)
                            : one.getValue().post(path, Map.of());
                    Set<String> allowed = told(EXPECTED).getOrDefault(name(route), Set.of());
                    boolean isKeptOut = answer.statusCode() == 403
                            || (one.getKey().equals("stranger")
                                    && !allowed.contains("stranger")
                                    && answer.statusCode() == 303
                                    && answer.headers()
                                            .firstValue("Location")
                                            .orElse("")
                                            .equals("/log-in"));
                    boolean may = allowed.contains(one.getKey());
                    asked++;
                    if (isKeptOut == may) {
                        wrong.add(name(route) + " as " + one.getKey() + ": " + answer.statusCode());
                    }
                }
            }
            assertThat(wrong).isEmpty();
            assertThat(asked).isGreaterThan(200);
        }
    }

    @Test
    void a_user_of_a_clinic_sees_no_other_clinic() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            OpenOffice.Browser nurse = office.as("clinic");
            assertThat(nurse.get("/clinic").headers().firstValue("Location")).contains("/clinic/" + office.clinic);
            assertThat(nurse.get("/clinic/" + office.clinic).body()).contains("Example Dental (invented)");
            for (String path : List.of("", "/load", "/reports/" + office.clinic)) {
                assertThat(nurse.get("/clinic/" + office.otherClinic + path).statusCode())
                        .as("the other clinic is not there")
                        .isEqualTo(404);
            }
            assertThat(office.as("office").get("/clinic/" + office.otherClinic).body())
                    .contains("Sample Podiatry (invented)");
        }
    }

    @Test
    void a_signed_visit_of_another_clinic_is_reached_by_no_path() throws Exception {
        Path real = folder.resolve("real");
        RealVisit.write(real);
        try (OpenOffice office = new OpenOffice(folder)) {
            Subject visit = RealVisit.take(real, office.records);
            office.user(RealVisit.TECHNICIAN, Role.TECHNICIAN);
            Author kim = new Author(RealVisit.TECHNICIAN, "technician");
            new SigningKeys(office.records).make(kim.name(), Set.of(), "correct horse battery".toCharArray(), kim);
            Filing filing = new Filing(office.records);
            filing.sign(visit, kim.name(), "", "correct horse battery".toCharArray(), kim);
            String clinic = office.records.subjects(Kind.CLINIC, 10).stream()
                    .map(one -> one.id().toString())
                    .filter(id -> !id.equals(office.clinic.toString()) && !id.equals(office.otherClinic.toString()))
                    .findFirst()
                    .orElseThrow();
            String report = "/clinic/" + clinic + "/reports/" + visit.id();
            assertThat(office.as("office").get(report + "/EX-1001").statusCode())
                    .as("it is there for those who may see it")
                    .isEqualTo(200);
            OpenOffice.Browser nurse = office.as("clinic");
            List<String> reached = new ArrayList<>();
            int asked = 0;
            for (Route route : office.routes) {
                if (route.method() != Method.GET || !route.pattern().contains("{")) {
                    continue;
                }
                for (String ofClinic : List.of(clinic, office.clinic.toString())) {
                    for (String ofVisit : List.of(visit.id().toString(), RealVisit.NUMBER)) {
                        String path = route.pattern()
                                .replace("{clinic}", ofClinic)
                                .replace("{visit}", ofVisit)
                                .replace("{serial}", "EX-1001")
                                .replace("{sterilizer}", "A")
                                .replace("{run}", "1")
                                .replace("{folder}/{name}", "recordings/run-1.csv")
                                .replaceAll("\\{[a-z]+}", visit.id().toString());
                        asked++;
                        var answer = nurse.get(path);
                        boolean isOwnPage = ofClinic.equals(office.clinic.toString())
                                && !path.contains("/reports/")
                                && path.startsWith("/clinic/");
                        if ((answer.statusCode() != 403 && answer.statusCode() != 404 && !isOwnPage)
                                || answer.body().replace(path, "").contains("EX-1001")
                                || answer.body().contains(RealVisit.TECHNICIAN)) {
                            reached.add(path + ": " + answer.statusCode());
                        }
                    }
                }
            }
            assertThat(reached).isEmpty();
            assertThat(asked).isGreaterThan(100);
        }
    }
}
