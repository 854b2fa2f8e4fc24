package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.web.Method;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;

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
                "GET /clinic/{clinic}/reports/{visit}");
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
                "POST /users/{user}/sessions");
        allow(
                STAFF,
                "GET /today",
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
                "GET /review/{visit}");
        allow(
                "office",
                "POST /register/entries/{id}",
                "GET /register/new/{list}",
                "POST /register/new/{list}",
                "GET /register/table",
                "POST /register/table",
                "POST /register/table/enter",
                "POST /register/table/undo");
        allow("technician office", "POST /register/instruments/{id}/quarantine");
        allow("reviewer office", "POST /nonconformities/{id}/close");
        allow("reviewer", "POST /review/{visit}");
    }

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

    @Test
    void every_route_of_these_rooms_says_who_may_use_it() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            Set<String> ours = new TreeSet<>();
            office.routes.forEach(route -> ours.add(name(route)));
            assertThat(ours).as("routes in the table are there").containsAll(EXPECTED.keySet());
            for (Route route : office.routes) {
                if (EXPECTED.containsKey(name(route))) {
                    Set<String> who = new TreeSet<>();
                    route.roles().forEach(role -> who.add(role.word()));
                    if (route.roles().isEmpty()) {
                        who.addAll(List.of(EVERYBODY.split(" ")));
                    }
                    assertThat(who)
                            .as(name(route))
                            .isEqualTo(new TreeSet<>(List.of(
                                    EXPECTED.getOrDefault(name(route), "").split(" "))));
                } else {
                    assertThat(route.roles())
                            .as("%s is open to strangers and stands in no table", name(route))
                            .isNotEmpty();
                }
            }
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
                    boolean isKeptOut = answer.statusCode() == 403
                            || (one.getKey().equals("stranger")
                                    && !route.roles().isEmpty()
                                    && answer.statusCode() == 303
                                    && answer.headers()
                                            .firstValue("Location")
                                            .orElse("")
                                            .equals("/log-in"));
                    boolean may = route.roles().isEmpty()
                            || route.roles().stream()
                                    .anyMatch(role -> role.word().equals(one.getKey()));
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
}
