package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.signing.Keys;
import org.steamwright.records.verify.Verifier;

/** A signature and what follows from it for the due list are kept together, or neither is. */
class SignedEvidenceTest {

    private static final int KILLS = Integer.getInteger("campaign.kills", 2);
    private static final String SHOWN = VisitEvidence.PREFIX + KilledSigner.NUMBER;

    @TempDir
    static Path year;

    @TempDir
    Path folder;

    @BeforeAll
    static void write_the_year_as_if_it_were_real() throws IOException {
        YearVisits.write(year);
    }

    private Records open() {
        return Records.open(Place.folder(folder.resolve("record")), KilledSigner.CLOCK, DueInRecord.RULE);
    }

    private static void ready(Records records) throws Exception {
        Filing filing = new Filing(records);
        filing.take(year.resolve("2-final"), KilledSigner.KIM, "");
        new Keys(records).make(filing.technician(KilledSigner.NAME), KilledSigner.secret(), KilledSigner.KIM);
    }

    private static Issue sign(Records records) throws Exception {
        Filing filing = new Filing(records);
        return filing.sign(
                        filing.open(KilledSigner.NUMBER).visit(),
                        KilledSigner.NAME,
                        "performed and recorded",
                        KilledSigner.secret(),
                        KilledSigner.KIM)
                .orElseThrow();
    }

    private static Subject machine(Records records) {
        return records.exactly(Kind.STERILIZER, "serial", "EX-1001").get(0);
    }

    private static Optional<JsonText> shown(Records records) {
        return machine(records).fact(SHOWN).filter(value -> !value.isNull());
    }

    @Test
    void issue_and_evidence_come_with_one_submission_of_the_signer() throws Exception {
        try (Records records = open()) {
            ready(records);
            Issue issue = sign(records);
            Set<Object> ofIssue = records.history(issue.id()).stream()
                    .map(JournalEntry::submission)
                    .collect(Collectors.toSet());
            JournalEntry entry = records.history(machine(records).id()).stream()
                    .filter(one -> one.property().equals(SHOWN))
                    .findFirst()
                    .orElseThrow();
            assertThat(ofIssue).containsExactly(entry.submission());
            assertThat(entry.author().name()).isEqualTo(KilledSigner.NAME);
        }
    }

    @Test
    void what_an_earlier_program_signed_without_evidence_is_made_up_once() throws Exception {
        try (Records records = open()) {
            ready(records);
            KeptResults results = new KeptResults(records, new Filing(records)::assess);
            results.catchUp(5);
            assertThat(shown(records))
                    .as("nothing is evidence before it is signed")
                    .isEmpty();
            sign(records);
            JsonText right = shown(records).orElseThrow();
            // as an earlier program left it
            records.append(
                    KilledSigner.KIM,
                    List.of(Change.set(Kind.STERILIZER, machine(records).id(), SHOWN, JsonText.NULL)));
            results.catchUp(5);
            assertThat(shown(records)).contains(right);
            long size = records.head().tree().size();
            results.book().awaitOthers("another version ");
            assertThat(results.book().countWaiting()).isPositive();
            results.catchUp(5);
            assertThat(results.book().countWaiting()).isZero();
            assertThat(records.head().tree().size()).as("made up once").isEqualTo(size);
            results.book().awaitOthers(Results.ALGORITHM_VERSION + " ");
            assertThat(results.book().countWaiting())
                    .as("what these rules came to does not wait again")
                    .isZero();

            Filing filing = new Filing(records);
            filing.withdraw(
                    filing.visit(KilledSigner.NUMBER),
                    KilledSigner.NAME,
                    "another machine",
                    KilledSigner.secret(),
                    KilledSigner.KIM);
            records.append(
                    KilledSigner.KIM,
                    List.of(Change.set(Kind.STERILIZER, machine(records).id(), SHOWN, JsonText.NULL)));
            results.catchUp(5);
            assertThat(shown(records)).as("a withdrawn report shows nothing").isEmpty();
        }
    }

    /** Killed at a moment drawn from the time that a signature takes. */
    @Test
    void killed_while_signing_there_is_both_or_neither() throws Exception {
        Random random = new Random(5);
        int signed = 0;
        for (int round = 0; round < KILLS; round++) {
            Path record = folder.resolve("record");
            try (Records records = open()) {
                ready(records);
            }
            boolean isTold = isToldThenKilled(record, round == 0 ? 20_000 : 200 + random.nextInt(2_500));
            try (Records records = open()) {
                Subject visit = new Filing(records).visit(KilledSigner.NUMBER).visit();
                boolean isSigned = !new Issues(records).of(visit.id()).isEmpty();
                assertThat(shown(records).isPresent()).as("round %d", round).isEqualTo(isSigned);
                assertThat(isSigned || !isTold).as("what was told is there").isTrue();
                assertThat(Verifier.verify(records, List.of(), new Results()).differences())
                        .isEmpty();
                signed += isSigned ? 1 : 0;
            }
            try (Stream<Path> all = Files.walk(record)) {
                all.sorted(Comparator.reverseOrder())
                        .forEach(one -> one.toFile().delete());
            }
        }
        assertThat(signed).as("of %d", KILLS).isPositive();
        System.out.printf("killed while signing: %d rounds, %d signed, none with half of it%n", KILLS, signed);
    }

    private boolean isToldThenKilled(Path record, int millis) throws Exception {
        Path told = folder.resolve("told.txt");
        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:TieredStopAtLevel=1",
                        "-XX:+UseSerialGC",
                        "-cp",
                        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                        KilledSigner.class.getName(),
                        record.toString())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .redirectOutput(told.toFile())
                .start();
        while (process.isAlive() && Files.size(told) == 0) {
            process.waitFor(5, TimeUnit.MILLISECONDS);
        }
        process.waitFor(millis, TimeUnit.MILLISECONDS);
        process.destroyForcibly();
        assertThat(process.waitFor(30, TimeUnit.SECONDS)).isTrue();
        return Files.readAllLines(told).contains("signed");
    }
}
