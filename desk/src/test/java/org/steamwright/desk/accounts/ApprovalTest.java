package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.RealVisit;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.records.Author;

/** Who approves what in an office where everybody logs in. */
class ApprovalTest {

    private static final String NAME = "Kim Sample (invented)";
    private static final Author KIM = new Author(NAME, "technician");
    private static final String NUMBER = "DEMO-2026-001";
    private static final Pattern SEEN = Pattern.compile("name=\"seen\" value=\"([0-9a-f]{64})\"");

    @TempDir
    static Path year;

    @TempDir
    Path folder;

    @BeforeAll
    static void write_the_year_as_if_it_were_real() throws IOException {
        RealVisit.writeYear(year);
    }

    private static String visit(OpenOffice office) throws Exception {
        Filing filing = new Filing(office.records);
        filing.take(year.resolve("2-final"), KIM, "");
        return filing.visit(NUMBER).visit().id().toString();
    }

    private static String seen(OpenOffice.Browser browser, String visit) throws Exception {
        Matcher seen = SEEN.matcher(browser.get("/review/" + visit).body());
        assertThat(seen.find()).isTrue();
        return seen.group(1);
    }

    @Test
    void nobody_approves_a_visit_of_their_own_whatever_their_role() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            String visit = visit(office);
            office.user(NAME, Role.REVIEWER);
            OpenOffice.Browser own = office.as(NAME);
            assertThat(own.get("/review/" + visit).body())
                    .contains("You have a part in this visit, so somebody else approves it.");
            Map<String, String> approval = Map.of("answer", "approve", "why", "agreed", "seen", seen(own, visit));
            var refused = own.post("/review/" + visit, approval);
            assertThat(refused.statusCode()).isEqualTo(422);
            assertThat(refused.body()).contains("so somebody else approves it");
            OpenOffice.Browser other = office.as("reviewer");
            assertThat(other.get("/review").body()).contains("waits for review").doesNotContain("approved");
            assertThat(other.post("/review/" + visit, approval).statusCode()).isEqualTo(303);
            assertThat(other.get("/review").body()).contains("approved");
        }
    }

    @Test
    void an_answer_is_about_what_the_reviewer_saw_or_it_is_refused() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            String visit = visit(office);
            OpenOffice.Browser reviewer = office.as("reviewer");
            String seen = seen(reviewer, visit);
            new Drafts(office.records)
                    .find(NUMBER)
                    .orElseThrow()
                    .set(FactPath.of("purpose"), Optional.of("after a repair"), KIM, "");
            for (String answer : List.of("approve", "send-back")) {
                var refused = reviewer.post("/review/" + visit, Map.of("answer", answer, "why", "seal", "seen", seen));
                assertThat(refused.statusCode()).isEqualTo(422);
                assertThat(refused.body()).contains("The visit was changed since you opened it");
            }
            assertThat(reviewer.post("/review/" + visit, Map.of("answer", "approve"))
                            .statusCode())
                    .as("an answer that says not what was seen")
                    .isEqualTo(422);
            assertThat(reviewer.get("/review").body()).contains("waits for review");
            Map<String, String> back = Map.of(
                    "answer", "send-back", "why", "photo of the plate is missing", "seen", seen(reviewer, visit));
            assertThat(reviewer.post("/review/" + visit, back).statusCode()).isEqualTo(303);
            OpenOffice.Browser technician = office.as("technician");
            for (String path : List.of("/today", "/visits/" + visit, "/visits/" + visit + "/close")) {
                assertThat(technician.get(path).body())
                        .as(path)
                        .contains("Sent back by reviewer: photo of the plate is missing");
            }
            new Drafts(office.records)
                    .find(NUMBER)
                    .orElseThrow()
                    .set(FactPath.of("purpose"), Optional.of("after a repair, with a photo"), KIM, "");
            assertThat(technician.get("/today").body())
                    .contains("Sent back by reviewer, and changed since then, so it waits for review:"
                            + " photo of the plate is missing");
        }
    }

    @Test
    void an_office_may_sign_only_what_was_approved_as_it_stands() throws Exception {
        OfficeSettings settings = new OfficeSettings(
                Optional.empty(),
                EnumSet.allOf(Role.class),
                EnumSet.noneOf(Role.class),
                Map.of(),
                true,
                Optional.empty());
        try (OpenOffice office = new OpenOffice(folder, settings)) {
            String visit = visit(office);
            office.user(NAME, Role.TECHNICIAN);
            OpenOffice.Browser kim = office.as(NAME);
            String address = "/visits/" + visit;
            kim.post(
                    address + "/keys",
                    Map.of("name", NAME, "secret", "open sesame 1 again", "again", "open sesame 1 again"));
            assertThat(sign(kim, address)).contains("This office signs only what a reviewer has approved");
            OpenOffice.Browser reviewer = office.as("reviewer");
            reviewer.post(
                    "/review/" + visit, Map.of("answer", "approve", "why", "agreed", "seen", seen(reviewer, visit)));
            new Drafts(office.records)
                    .find(NUMBER)
                    .orElseThrow()
                    .set(FactPath.of("purpose"), Optional.of("after a repair"), KIM, "");
            assertThat(sign(kim, address))
                    .as("approved, and changed after that")
                    .contains("no approval of this visit as it stands is there");
            assertThat(new Filing(office.records).visit(NUMBER).issue()).isEmpty();
            reviewer.post(
                    "/review/" + visit, Map.of("answer", "approve", "why", "agreed", "seen", seen(reviewer, visit)));
            assertThat(sign(kim, address)).isEmpty();
            assertThat(new Filing(office.records).visit(NUMBER).issue()).isPresent();
        }
    }

    @Test
    void nobody_withdraws_a_report_in_the_name_of_somebody_else() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            String visit = visit(office);
            office.user(NAME, Role.TECHNICIAN);
            OpenOffice.Browser kim = office.as(NAME);
            String address = "/visits/" + visit;
            kim.post(
                    address + "/keys",
                    Map.of("name", NAME, "secret", "open sesame 1 again", "again", "open sesame 1 again"));
            assertThat(sign(kim, address)).isEmpty();
            Map<String, String> withdrawal =
                    Map.of("name", NAME, "reason", "another machine", "secret", "open sesame 1 again");
            assertThat(office.as("technician")
                            .post(address + "/withdrawals", withdrawal)
                            .statusCode())
                    .isEqualTo(403);
            assertThat(kim.post(address + "/withdrawals", withdrawal).statusCode())
                    .isEqualTo(303);
        }
    }

    private static String sign(OpenOffice.Browser browser, String address) throws Exception {
        Map<String, String> signature = new HashMap<>(
                Map.of("name", NAME, "meaning", "performed and recorded", "secret", "open sesame 1 again"));
        Matcher seen = SEEN.matcher(browser.get(address + "/close").body());
        if (seen.find()) {
            signature.put("seen", seen.group(1));
        }
        return browser.post(address + "/signatures", signature).body();
    }
}
