package org.steamwright.records.signing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Change;
import org.steamwright.records.KeptFile;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.SampleRecord;
import org.steamwright.records.SubjectId;
import org.steamwright.records.TestClock;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.TreeHead;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.records.verify.Verification;
import org.steamwright.records.verify.Verifier;

class IssuesTest {

    @TempDir
    Path folder;

    final TestClock clock = new TestClock();
    Records records;
    SampleRecord sample;
    Issues issues;

    @BeforeEach
    void open() {
        records = Records.open(Place.folder(folder), clock);
        sample = new SampleRecord(records);
        issues = new Issues(records);
    }

    @AfterEach
    void close() {
        records.close();
    }

    @Test
    void a_signed_document_says_who_what_when_and_over_which_journal() {
        TreeHead before = head();
        Issue issue = sample.signed();
        JsonText document = issues.document(issue);
        assertThat(document.node().path("signedBy").path("name").asText()).isEqualTo("Alex Example");
        assertThat(document.node().path("signedBy").path("role").asText()).isEqualTo("technician");
        assertThat(document.node().path("signedBy").path("meaning").asText()).isEqualTo("performed and assessed");
        assertThat(document.node().path("at").asText()).isEqualTo("2026-03-02T09:00:00Z");
        assertThat(document.node().path("offset").asText()).isEqualTo("+10:00");
        assertThat(document.node().path("files").get(0).path("sha256").asText())
                .isEqualTo(org.steamwright.records.proof.Hash.ofContent(SampleRecord.recording("V-2026-001"))
                        .hex());
        assertThat(document.node().path("journalHead").path("size").asLong())
                .as("one entry for the key lies between")
                .isEqualTo(before.size() + 1);
        assertThat(new SignatureCheck(records)
                        .check(records.subject(issue.id()))
                        .complaints())
                .isEmpty();
        assertThat(issue.number()).isEqualTo(1);
    }

    private TreeHead head() {
        return records.head().tree();
    }

    @Test
    void after_signing_no_fact_of_the_visit_changes() {
        Issue issue = sample.signed();
        TreeHead before = head();
        assertThatThrownBy(() -> records.append(
                        SampleRecord.ALEX, List.of(Change.set(Kind.VISIT, sample.visit, "date", "2026-03-03"))))
                .hasMessageStartingWith("RECORD-012 visit " + sample.visit + ", 'date': it is signed");
        assertThatThrownBy(() -> records.append(
                        SampleRecord.ALEX, List.of(Change.set(Kind.VISIT, sample.visit, "afterthought", "x"))))
                .hasMessageStartingWith("RECORD-012");
        assertThatThrownBy(() -> records.append(
                        SampleRecord.ALEX, List.of(Change.set(Kind.ISSUE, issue.id(), "signature", "x"))))
                .hasMessageStartingWith("RECORD-012");
        assertThatThrownBy(() -> issues.sign(sample.request(sample.visit), SampleRecord.secret()))
                .hasMessageStartingWith("RECORD-035");
        assertThat(head()).isEqualTo(before);
    }

    @Test
    void a_result_is_signed_with_the_facts_from_which_it_follows_and_no_others() {
        new Keys(records).make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        SignRequest request = sample.request(sample.visit);
        records.append(SampleRecord.ALEX, List.of(Change.set(Kind.VISIT, sample.visit, "date", "2026-03-05")));
        TreeHead before = head();
        assertThatThrownBy(() -> issues.sign(request, SampleRecord.secret()))
                .hasMessageStartingWith("RECORD-039 visit V-2026-001")
                .hasMessageContaining("was changed after it was assessed");
        assertThat(head()).isEqualTo(before);
        assertThat(issues.of(sample.visit)).isEmpty();
        SignRequest again = sample.request(sample.visit);
        records.append(SampleRecord.ALEX, List.of(Change.set(Kind.STERILIZER, sample.sterilizer, "room", "2")));
        assertThat(issues.sign(again, SampleRecord.secret()).number())
                .as("what changes elsewhere does not matter")
                .isEqualTo(1);
    }

    @Test
    void a_correction_is_a_new_issue_with_its_reason_and_the_old_one_stays_readable() {
        Issue first = sample.signed();
        JsonText document = issues.document(first);
        assertThatThrownBy(() -> issues.amend(first.id(), " ", SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-037");
        SubjectId corrected = issues.amend(first.id(), "date misread", SampleRecord.ALEX);
        assertThat(issues.standing(first.id())).isEqualTo(Issues.Standing.STANDS);
        records.append(
                SampleRecord.ALEX,
                List.of(Change.set(Kind.VISIT, corrected, "date", "2026-03-01").because("misread")));
        Issue second = issues.sign(sample.request(corrected), SampleRecord.secret());
        assertThat(second.number()).isEqualTo(2);
        assertThat(second.amends()).contains(first.id());
        assertThat(issues.document(second).node().path("amends").path("reason").asText())
                .isEqualTo("date misread");
        assertThat(issues.standing(first.id())).isEqualTo(Issues.Standing.CORRECTED);
        assertThat(issues.standing(second.id())).isEqualTo(Issues.Standing.STANDS);
        assertThat(issues.document(first)).isEqualTo(document);
        assertThat(records.subject(sample.visit).text("date")).isEqualTo("2026-03-02");
        assertThat(verify().differences()).isEmpty();
    }

    @Test
    void an_issue_is_withdrawn_by_a_signature_of_its_own() {
        Issue issue = sample.signed();
        Issue withdrawal = issues.withdraw(issue.id(), sample.technician, "indicator grew", SampleRecord.secret());
        assertThat(issues.standing(issue.id())).isEqualTo(Issues.Standing.WITHDRAWN);
        assertThat(withdrawal.isWithdrawal()).isTrue();
        assertThat(issues.document(withdrawal)
                        .node()
                        .path("withdraws")
                        .path("reason")
                        .asText())
                .isEqualTo("indicator grew");
        assertThat(verify().differences()).isEmpty();
    }

    @Test
    void only_the_issue_in_force_is_corrected_or_withdrawn() {
        Issue first = sample.signed();
        SubjectId correction = issues.amend(first.id(), "date misread", SampleRecord.ALEX);
        assertThat(issues.openCorrection(first.id())).contains(correction);
        assertThatThrownBy(() -> issues.amend(first.id(), "a second at once", SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-038 issue " + first.id() + " is being corrected already");
        issues.breakOff(correction, "not needed", SampleRecord.ALEX);
        assertThatThrownBy(() -> issues.breakOff(correction, "again", SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-038");
        assertThatThrownBy(() -> issues.sign(sample.request(correction), SampleRecord.secret()))
                .hasMessageContaining("was broken off, so it is not signed");
        assertThat(issues.openCorrection(first.id())).isEmpty();

        SubjectId other = issues.amend(first.id(), "lot misread", SampleRecord.ALEX);
        Issue withdrawal = issues.withdraw(first.id(), sample.technician, "grew", SampleRecord.secret());
        assertThatThrownBy(() -> issues.sign(sample.request(other), SampleRecord.secret()))
                .as("what it corrects stands no more")
                .hasMessageContaining("was withdrawn");
        assertThatThrownBy(() -> issues.withdraw(first.id(), sample.technician, "x", SampleRecord.secret()))
                .hasMessageContaining("was withdrawn");
        assertThatThrownBy(() -> issues.withdraw(withdrawal.id(), sample.technician, "x", SampleRecord.secret()))
                .hasMessageContaining("is itself a withdrawal");
        assertThat(records.subject(withdrawal.id()).text("number"))
                .as("found by the number of the report")
                .isEqualTo(records.subject(first.id()).text("number"));
        assertThat(verify().differences()).isEmpty();
    }

    private Verification verify() {
        return Verifier.verify(records, List.of(), Reassessment.NONE);
    }

    @Test
    void a_simulated_visit_is_not_signed_whoever_says_it_is_real() {
        new Keys(records).make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        KeptFile invented = records.files()
                .put("# Steamwright simulated recording - invented data, not a real cycle\ntime;T1\n"
                        .getBytes(StandardCharsets.UTF_8));
        records.append(
                SampleRecord.ALEX,
                List.of(Change.set(
                        Kind.VISIT,
                        sample.visit,
                        "files/run-2.csv",
                        JsonText.of(Map.of("sha256", invented.sha256().hex(), "size", invented.size())))));
        assertThatThrownBy(() -> issues.sign(sample.request(sample.visit), SampleRecord.secret()))
                .hasMessageStartingWith("RECORD-031");
        assertThat(records.isSealed(sample.visit)).isFalse();
    }

    @Test
    void the_secret_of_another_signs_nothing() {
        new Keys(records).make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        TreeHead before = head();
        assertThatThrownBy(() -> issues.sign(sample.request(sample.visit), "another secret".toCharArray()))
                .hasMessageStartingWith("RECORD-032");
        assertThat(head()).isEqualTo(before);
        assertThatThrownBy(() -> new Keys(records).make(sample.technician, "short".toCharArray(), SampleRecord.ALEX))
                .hasMessageStartingWith("RECORD-033 the secret has 5 characters");
    }

    @Test
    void an_old_signature_verifies_after_the_key_was_renewed_and_the_name_changed() {
        Issue first = sample.signed();
        clock.forward(Duration.ofDays(200));
        PublicKeyRecord second = new Keys(records)
                .renew(
                        sample.technician,
                        SampleRecord.secret(),
                        "another long secret".toCharArray(),
                        SampleRecord.ALEX);
        records.append(
                SampleRecord.ALEX,
                List.of(Change.set(Kind.TECHNICIAN, sample.technician, "name", "Alex Othername")
                        .because("married")));
        assertThat(second.id()).isNotEqualTo(first.keyId());
        assertThat(Keys.history(records.subject(sample.technician)))
                .hasSize(2)
                .first()
                .satisfies(key -> assertThat(key.until()).contains(second.from()));
        assertThat(verify().differences()).isEmpty();
        assertThat(issues.document(first).node().path("signedBy").path("name").asText())
                .as("the name at that time")
                .isEqualTo("Alex Example");
        SubjectId corrected = issues.amend(first.id(), "wrong lot", SampleRecord.ALEX);
        assertThatThrownBy(() -> issues.sign(sample.request(corrected), SampleRecord.secret()))
                .as("the old secret belongs to the old key")
                .hasMessageStartingWith("RECORD-032");
        Issue next = issues.sign(sample.request(corrected), "another long secret".toCharArray());
        assertThat(next.keyId()).isEqualTo(second.id());
        assertThat(verify().differences()).isEmpty();
    }

    @Test
    void a_changed_secret_opens_the_same_key() {
        Issue first = sample.signed();
        new Keys(records).changeSecret(sample.technician, SampleRecord.secret(), "a new long secret".toCharArray());
        SubjectId corrected = issues.amend(first.id(), "wrong lot", SampleRecord.ALEX);
        Issue second = issues.sign(sample.request(corrected), "a new long secret".toCharArray());
        assertThat(second.keyId()).isEqualTo(first.keyId());
    }

    @Test
    void a_visit_with_a_damaged_recording_is_not_signed() throws Exception {
        new Keys(records).make(sample.technician, SampleRecord.secret(), SampleRecord.ALEX);
        Path file = records.files()
                .path(org.steamwright.records.proof.Hash.ofContent(SampleRecord.recording("V-2026-001")));
        byte[] bytes = java.nio.file.Files.readAllBytes(file);
        bytes[12] ^= 1;
        java.nio.file.Files.write(file, bytes);
        assertThatThrownBy(() -> issues.sign(sample.request(sample.visit), SampleRecord.secret()))
                .hasMessageStartingWith("RECORD-017");
    }

    @Test
    void a_result_that_comes_out_otherwise_is_told_with_its_place() {
        sample.signed();
        assertThat(Verifier.verify(records, List.of(), sample::sameResult))
                .satisfies(same -> assertThat(same.isGood()).isTrue())
                .satisfies(same -> assertThat(same.reassessed()).isEqualTo(1));
        Verification other = Verifier.verify(records, List.of(), (document, files) -> {
            assertThat(files).containsOnlyKeys("run-1.csv");
            return java.util.Optional.of(
                    JsonText.of(Map.of("verdict", "PASS", "runs", List.of(Map.of("holding", 214.0)))));
        });
        assertThat(other.differences())
                .singleElement()
                .satisfies(
                        difference -> assertThat(difference.text())
                                .isEqualTo(
                                        "assessed again it gives another result: at /runs/0/holding signed 215.5, computed 214"));
        assertThat(verify().notReassessed())
                .as("not assessed again is not equal")
                .isEqualTo(1);
    }
}
