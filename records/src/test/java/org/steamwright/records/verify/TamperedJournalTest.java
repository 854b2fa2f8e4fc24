package org.steamwright.records.verify;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.SubjectId;
import org.steamwright.records.TestClock;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.TreeHead;

/**
 * Somebody who may write every table and knows this program makes a journal that fits itself in all respects: entries,
 * hashes, tree, facts, index. One head that was given out before shows it. The number is {@code -Drecords.tampered}.
 */
class TamperedJournalTest {

    private static final int JOURNALS = Integer.getInteger("records.tampered", 300);

    private enum Attack {
        EDIT_VALUE,
        EDIT_AUTHOR,
        EDIT_TIME,
        EDIT_REASON,
        DELETE,
        INSERT,
        SWAP,
        TRUNCATE,
        ROLL_BACK
    }

    @TempDir
    Path folder;

    @Test
    void every_forged_journal_is_found_with_one_earlier_head() throws IOException {
        List<JournalEntry> genuine;
        List<TreeHead> heads = new ArrayList<>();
        TestClock clock = new TestClock();
        try (Records records = Records.open(Place.folder(folder.resolve("genuine")), clock)) {
            List<SubjectId> lots = new ArrayList<>();
            for (int i = 0; i < 12; i++) {
                lots.add(records.newSubject());
            }
            SplittableRandom random = new SplittableRandom(1);
            for (int i = 0; i < 25; i++) {
                clock.forward(java.time.Duration.ofMinutes(7));
                SubjectId lot = lots.get(random.nextInt(lots.size()));
                heads.add(records.append(
                                new Author("Alex Example", "technician"),
                                List.of(
                                        Change.set(Kind.LOT, lot, "number", "LOT-" + i)
                                                .because("delivery " + i),
                                        Change.set(Kind.LOT, lot, "expires", "2027-01-" + (i + 1))))
                        .tree());
            }
            genuine = records.entries(0, 1000);
        }
        Place empty = Place.folder(folder.resolve("empty"));
        Records.open(empty, clock).close();
        byte[] template = Files.readAllBytes(empty.database());
        SplittableRandom random = new SplittableRandom(20260302);
        Map<Attack, Integer> done = new HashMap<>();
        for (int i = 0; i < JOURNALS; i++) {
            TreeHead known = heads.get(random.nextInt(heads.size()));
            Attack attack = Attack.values()[i % Attack.values().length];
            List<JournalEntry> forged = consistent(forge(genuine, attack, (int) known.size(), random));
            Place place = Place.folder(folder.resolve("forged"));
            Files.createDirectories(place.folder());
            Files.deleteIfExists(place.folder().resolve("records.sqlite-wal"));
            Files.deleteIfExists(place.folder().resolve("records.sqlite-shm"));
            Files.write(place.database(), template);
            try (Records records = Records.open(place, clock)) {
                records.replay(forged);
                assertThat(Verifier.verify(records, List.of(), Reassessment.NONE)
                                .differences())
                        .as("%s: the forgery fits itself, so nothing but a head can show it", attack)
                        .isEmpty();
                assertThat(Verifier.verify(records, List.of(known), Reassessment.NONE)
                                .differences())
                        .as("%s below entry %s", attack, known.size())
                        .isNotEmpty();
            }
            done.merge(attack, 1, Integer::sum);
        }
        System.out.println("forged journals: " + JOURNALS + ", all found " + done);
    }

    /** Changes something among the first {@code size} entries. */
    private static List<JournalEntry> forge(
            List<JournalEntry> genuine, Attack attack, int size, SplittableRandom random) {
        List<JournalEntry> forged = new ArrayList<>(genuine);
        int place = random.nextInt(size);
        JournalEntry entry = forged.get(place);
        switch (attack) {
            case EDIT_VALUE ->
                forged.set(
                        place, with(entry, entry.author(), entry.at().toString(), JsonText.of("FORGED"), entry.why()));
            case EDIT_AUTHOR ->
                sameSubmission(forged, entry)
                        .forEach(at -> forged.set(
                                at,
                                with(
                                        forged.get(at),
                                        new Author("Somebody Else", "technician"),
                                        entry.at().toString(),
                                        forged.get(at).newValue(),
                                        forged.get(at).why())));
            case EDIT_TIME ->
                sameSubmission(forged, entry)
                        .forEach(at -> forged.set(
                                at,
                                with(
                                        forged.get(at),
                                        entry.author(),
                                        entry.at().minusSeconds(60).toString(),
                                        forged.get(at).newValue(),
                                        forged.get(at).why())));
            case EDIT_REASON ->
                forged.set(
                        place, with(entry, entry.author(), entry.at().toString(), entry.newValue(), entry.why() + "!"));
            case DELETE -> forged.remove(place);
            // every submission here has two entries; the new one comes between two submissions
            case INSERT -> forged.add(place - place % 2, other(entry, random));
            case SWAP -> {
                int neighbour = place % 2 == 0 ? place + 1 : place - 1;
                JournalEntry other = forged.get(neighbour);
                forged.set(place, moved(other, entry));
                forged.set(neighbour, moved(entry, other));
            }
            case TRUNCATE -> forged.subList(place, forged.size()).clear();
            case ROLL_BACK -> {
                forged.subList(place, forged.size()).clear();
                for (int i = 0; i <= size; i++) {
                    forged.add(other(entry, random));
                }
            }
        }
        return forged;
    }

    private static List<Integer> sameSubmission(List<JournalEntry> entries, JournalEntry entry) {
        List<Integer> places = new ArrayList<>();
        for (int i = 0; i < entries.size(); i++) {
            if (entries.get(i).submission().equals(entry.submission())) {
                places.add(i);
            }
        }
        return places;
    }

    private static JournalEntry other(JournalEntry like, SplittableRandom random) {
        return new JournalEntry(
                0,
                new UUID(random.nextLong(), random.nextLong()),
                like.author(),
                like.at(),
                like.offset(),
                false,
                Kind.LOT,
                like.subject(),
                "note",
                JsonText.NULL,
                JsonText.of(Long.toString(random.nextLong())),
                "",
                Optional.empty(),
                false);
    }

    private static JournalEntry with(JournalEntry entry, Author author, String at, JsonText value, String why) {
        return new JournalEntry(
                entry.number(),
                entry.submission(),
                author,
                java.time.Instant.parse(at),
                entry.offset(),
                entry.isClockSetBack(),
                entry.kind(),
                entry.subject(),
                entry.property(),
                entry.oldValue(),
                value,
                why,
                entry.stated(),
                entry.isLate());
    }

    /** What one entry says, in the place and submission of another. */
    private static JournalEntry moved(JournalEntry content, JournalEntry to) {
        return new JournalEntry(
                to.number(),
                to.submission(),
                to.author(),
                to.at(),
                to.offset(),
                to.isClockSetBack(),
                content.kind(),
                content.subject(),
                content.property(),
                content.oldValue(),
                content.newValue(),
                content.why(),
                content.stated(),
                content.isLate());
    }

    /** Numbers and values before as a genuine journal would have them. */
    private static List<JournalEntry> consistent(List<JournalEntry> entries) {
        Map<String, JsonText> facts = new HashMap<>();
        List<JournalEntry> consistent = new ArrayList<>();
        for (JournalEntry entry : entries) {
            String fact = entry.subject() + " " + entry.property();
            consistent.add(new JournalEntry(
                    consistent.size(),
                    entry.submission(),
                    entry.author(),
                    entry.at(),
                    entry.offset(),
                    entry.isClockSetBack(),
                    entry.kind(),
                    entry.subject(),
                    entry.property(),
                    facts.getOrDefault(fact, JsonText.NULL),
                    entry.newValue(),
                    entry.why(),
                    entry.stated(),
                    entry.isLate()));
            facts.put(fact, entry.newValue());
        }
        return consistent;
    }
}
