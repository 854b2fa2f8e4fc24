package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.RealVisit;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.SigningKeys;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.signing.Receipts;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verifier;

/** Whose key is whose, at an office with users and at a laptop that several people share. */
class SigningAtTheDeskTest {

    private static final String KIM = RealVisit.TECHNICIAN;
    private static final String ROBIN = "Robin Example (invented)";
    private static final String LEE = "Lee Placeholder (invented)";
    private static final String SECRET = "correct horse battery";
    private static final String OTHER = "five small kettles sing";
    private static final String NUMBER = RealVisit.NUMBER;

    @TempDir
    static Path real;

    @TempDir
    private Path folder;

    @BeforeAll
    static void write_a_visit_that_may_be_signed() throws Exception {
        RealVisit.write(real);
    }

    private static String take(Records records) throws Exception {
        return "/visits/" + RealVisit.take(real, records).id();
    }

    private static Map<String, String> key(String name, String... more) {
        Map<String, String> typed = new HashMap<>(Map.of("name", name, "secret", SECRET, "again", SECRET));
        for (int i = 0; i < more.length; i += 2) {
            typed.put(more[i], more[i + 1]);
        }
        return typed;
    }

    /** What the page of the close sends, as it shows the visit now. */
    private static Map<String, String> signature(Records records, String name, String meaning, String secret)
            throws FilingException {
        String seen = Filing.content(new Filing(records).visit(NUMBER).visit()).hex();
        return Map.of("seen", seen, "name", name, "meaning", meaning, "secret", secret);
    }

    private static boolean hasKey(Records records, String name) {
        return new SigningKeys(records).hasKey(name);
    }

    @Test
    void with_users_a_key_is_made_renewed_and_used_by_its_bearer_alone() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            String visit = take(office.records);
            String kim = office.user(KIM, Role.TECHNICIAN);
            OpenOffice.Browser own = office.as(KIM);
            OpenOffice.Browser other = office.as("technician");

            assertThat(other.post(visit + "/keys", key(KIM)).statusCode())
                    .as("a key for somebody else")
                    .isEqualTo(403);
            assertThat(other.post(visit + "/keys", key("Nobody Anywhere (invented)"))
                            .statusCode())
                    .isEqualTo(403);
            assertThat(hasKey(office.records, KIM)).isFalse();
            assertThat(own.post(visit + "/keys", key(KIM)).statusCode()).isEqualTo(303);
            assertThat(hasKey(office.records, KIM)).isTrue();

            assertThat(other.post(
                                    visit + "/signatures",
                                    signature(office.records, KIM, "performed and recorded", SECRET))
                            .statusCode())
                    .as("even with the secret, another user does not sign")
                    .isEqualTo(403);
            assertThat(other.post(visit + "/keys", key(KIM, "old", SECRET)).statusCode())
                    .isEqualTo(403);
            assertThat(own.post(visit + "/keys", key(KIM, "secret", OTHER, "again", OTHER))
                            .statusCode())
                    .as("without the old secret")
                    .isEqualTo(409);
            assertThat(own.post(visit + "/keys", key(KIM, "secret", OTHER, "again", OTHER, "reason", "lost"))
                            .statusCode())
                    .as("a reason is the office's to give")
                    .isEqualTo(409);
            assertThat(own.post(visit + "/keys", key(KIM, "old", SECRET, "secret", OTHER, "again", OTHER))
                            .statusCode())
                    .isEqualTo(303);

            OpenOffice.Browser desk = office.as("office");
            String end = "/users/" + kim + "/signing-key";
            assertThat(desk.post(end, Map.of("reason", "lost")).statusCode())
                    .as("the office shows its own password")
                    .isEqualTo(422);
            assertThat(desk.post(end, Map.of("own", OpenOffice.PASSWORD)).statusCode())
                    .as("and gives a reason")
                    .isEqualTo(422);
            assertThat(hasKey(office.records, KIM)).isTrue();
            assertThat(desk.post(end, Map.of("reason", "the secret is lost", "own", OpenOffice.PASSWORD))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(hasKey(office.records, KIM)).isFalse();
            assertThat(whys(office.records)).contains("the secret is lost");
            assertThat(office.logIns.book().log(5))
                    .anySatisfy(line -> assertThat(line.result()).isEqualTo("ended by office"));
            assertThat(own.post(visit + "/keys", key(KIM)).statusCode()).isEqualTo(303);

            assertThat(own.post(visit + "/signatures", signature(office.records, KIM, "reviewed and approved", SECRET))
                            .statusCode())
                    .as("who performed does not review")
                    .isEqualTo(409);
            assertThat(own.post(visit + "/signatures", signature(office.records, KIM, "released for ever", SECRET))
                            .statusCode())
                    .isEqualTo(409);
            assertThat(new Filing(office.records).visit(NUMBER).issue()).isEmpty();

            for (int i = 0; i < 5; i++) {
                assertThat(own.post(
                                        visit + "/signatures",
                                        signature(office.records, KIM, "performed and recorded", "wrong " + i))
                                .statusCode())
                        .isEqualTo(409);
            }
            assertThat(own.post(visit + "/signatures", signature(office.records, KIM, "performed and recorded", SECRET))
                            .statusCode())
                    .as("guessing a secret is braked like guessing a password")
                    .isEqualTo(429);
            office.clock.forward(java.time.Duration.ofMinutes(1));
            assertThat(office.as(KIM)
                            .post(
                                    visit + "/signatures",
                                    signature(office.records, KIM, "performed and recorded", SECRET))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(new Filing(office.records).visit(NUMBER).issue()).isPresent();
        }
    }

    @Test
    void a_representative_without_a_user_signs_the_receipt_at_the_technicians_desk_and_nothing_else() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            String visit = take(office.records);
            office.user(ROBIN, Role.REVIEWER);
            OpenOffice.Browser desk = office.as("technician");
            assertThat(desk.get(visit + "/close").body()).contains(ROBIN + " signs as a user of their own.");
            assertThat(desk.post(visit + "/keys", key(LEE)).statusCode()).isEqualTo(303);
            for (String meaning : List.of("performed and recorded", "reviewed and approved")) {
                assertThat(desk.post(visit + "/signatures", signature(office.records, LEE, meaning, SECRET))
                                .statusCode())
                        .as(meaning)
                        .isEqualTo(409);
            }
            assertThat(desk.post(
                                    visit + "/signatures",
                                    signature(office.records, LEE, "received and understood", SECRET))
                            .statusCode())
                    .isEqualTo(303);
            Subject signed = new Filing(office.records).visit(NUMBER).visit();
            assertThat(office.records.isSealed(signed.id()))
                    .as("a receipt issues no report")
                    .isFalse();
            assertThat(Receipts.of(signed)).get().satisfies(receipt -> {
                assertThat(receipt.name()).isEqualTo(LEE);
                assertThat(receipt.isOfThis()).isTrue();
            });
            assertThat(desk.get(visit + "/close").body()).contains(LEE + " has received and understood this answer.");

            office.user(LEE, Role.CLINIC);
            assertThat(desk.post(
                                    visit + "/signatures",
                                    signature(office.records, LEE, "received and understood", SECRET))
                            .statusCode())
                    .as("who has a user signs as that user")
                    .isEqualTo(403);
            assertThat(office.as(ROBIN).post(visit + "/keys", key(ROBIN)).statusCode())
                    .isEqualTo(303);
            assertThat(office.as(ROBIN)
                            .post(
                                    visit + "/signatures",
                                    signature(office.records, ROBIN, "reviewed and approved", SECRET))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(new Filing(office.records)
                            .issued(new Filing(office.records).visit(NUMBER))
                            .receipt())
                    .get()
                    .satisfies(receipt -> {
                        assertThat(receipt.name()).isEqualTo(LEE);
                        assertThat(receipt.isOfThis()).isTrue();
                        assertThat(receipt.keyMadeBy())
                                .as("the key was made at the technician's desk, and the documents say so")
                                .isEqualTo("technician");
                        assertThat(receipt.enteredBy()).isEqualTo("technician");
                    });
            assertThat(Verifier.verify(office.records, List.of(), Reassessment.NONE)
                            .differences())
                    .as("the receipt is verified with the issue that covers it")
                    .isEmpty();
        }
    }

    @Test
    void the_office_ends_the_key_of_a_representative_who_has_no_user() throws Exception {
        try (OpenOffice office = new OpenOffice(folder)) {
            String visit = take(office.records);
            OpenOffice.Browser technician = office.as("technician");
            assertThat(technician.post(visit + "/keys", key(LEE)).statusCode()).isEqualTo(303);
            OpenOffice.Browser desk = office.as("office");
            assertThat(desk.get("/users/keys").body())
                    .contains(LEE, "no user", "Key since", "has not signed anything yet");
            assertThat(technician.get("/users/keys").statusCode()).isEqualTo(403);
            technician.post(visit + "/signatures", signature(office.records, LEE, "received and understood", SECRET));
            String page = desk.get("/users/keys").body();
            assertThat(page).contains("last signed on").doesNotContain("has not signed anything yet");
            Matcher form = Pattern.compile("action=\"(/users/keys/[0-9a-f]+)\"").matcher(page);
            assertThat(form.find()).isTrue();
            String end = form.group(1);

            assertThat(technician.post(end, Map.of("reason", "left the clinic")).statusCode())
                    .isEqualTo(403);
            assertThat(desk.post(end, Map.of("reason", "left the clinic")).statusCode())
                    .as("the office shows its own password")
                    .isEqualTo(422);
            assertThat(desk.post(end, Map.of("own", OpenOffice.PASSWORD)).statusCode())
                    .as("and gives a reason")
                    .isEqualTo(422);
            assertThat(hasKey(office.records, LEE)).isTrue();
            office.clock.forward(Duration.ofMinutes(1));
            Map<String, String> right = Map.of("reason", "left the clinic", "own", OpenOffice.PASSWORD);
            assertThat(desk.post(end, right).statusCode()).isEqualTo(303);
            assertThat(hasKey(office.records, LEE)).isFalse();
            assertThat(whys(office.records)).contains("left the clinic");
            assertThat(desk.get("/users/keys").body()).doesNotContain(LEE).contains("Nobody has a key");
            assertThat(desk.post(end, right).statusCode())
                    .as("ended already, as another window shows")
                    .isEqualTo(422);

            assertThat(technician
                            .post(
                                    visit + "/signatures",
                                    signature(office.records, LEE, "received and understood", SECRET))
                            .statusCode())
                    .as("an ended key signs nothing more")
                    .isEqualTo(409);
            assertThat(Receipts.of(new Filing(office.records).visit(NUMBER).visit()))
                    .as("what was signed before stays")
                    .get()
                    .satisfies(receipt -> assertThat(receipt.name()).isEqualTo(LEE));
            office.user(ROBIN, Role.REVIEWER);
            office.as(ROBIN).post(visit + "/keys", key(ROBIN));
            assertThat(office.as(ROBIN)
                            .post(
                                    visit + "/signatures",
                                    signature(office.records, ROBIN, "reviewed and approved", SECRET))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(Verifier.verify(office.records, List.of(), Reassessment.NONE)
                            .differences())
                    .as("and verifies")
                    .isEmpty();
        }
    }

    @Test
    void at_a_shared_laptop_a_secret_is_renewed_with_the_old_one_or_with_a_reason_that_stays() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            String visit = take(desk.records());
            assertThat(desk.post(visit + "/keys", key(KIM)).statusCode()).isEqualTo(303);
            assertThat(desk.post(visit + "/keys", key(LEE)).statusCode()).isEqualTo(303);
            assertThat(desk.post(visit + "/keys", key("Nobody Anywhere (invented)"))
                            .statusCode())
                    .as("who is not in the visit")
                    .isEqualTo(403);
            assertThat(desk.post(visit + "/keys", key(KIM, "secret", OTHER, "again", OTHER))
                            .statusCode())
                    .isEqualTo(409);
            assertThat(desk.post(visit + "/signatures", signature(desk.records(), KIM, "performed and recorded", OTHER))
                            .statusCode())
                    .isEqualTo(409);
            assertThat(desk.post(visit + "/keys", key(KIM, "old", SECRET, "secret", OTHER, "again", OTHER))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(desk.post(visit + "/keys", key(KIM, "reason", "read aloud by mistake"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(whys(desk.records())).contains("read aloud by mistake");
            assertThat(desk.post(
                                    visit + "/signatures",
                                    signature(desk.records(), KIM, "performed and recorded", SECRET))
                            .statusCode())
                    .isEqualTo(303);
        }
    }

    private static List<String> whys(Records records) {
        return records.entries(0, 10_000).stream()
                .map(JournalEntry::why)
                .distinct()
                .toList();
    }
}
