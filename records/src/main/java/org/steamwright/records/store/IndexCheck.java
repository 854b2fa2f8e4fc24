package org.steamwright.records.store;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.BiConsumer;
import org.steamwright.records.DueDate;
import org.steamwright.records.DueRule;
import org.steamwright.records.Kind;
import org.steamwright.records.json.JsonText;

/** Compares the words and uses with the facts that they follow from. */
public final class IndexCheck {

    /** Differences found. */
    public record Differences(List<String[]> pairs) {

        /** Tells each difference: place and text. */
        public void forEach(BiConsumer<String, String> taker) {
            pairs.forEach(pair -> taker.accept(pair[0], pair[1]));
        }
    }

    private IndexCheck() {}

    /** Looks at every subject that has facts, words or uses. */
    public static Differences check(Session session, DueRule dueRule) throws SQLException {
        List<String[]> found = new ArrayList<>();
        session.each(
                row -> {
                    String kindWord = row.getString(3);
                    Set<String> words = new HashSet<>();
                    try {
                        Kind kind = Kind.ofWord(kindWord);
                        List<String[]> facts = session.list(
                                fact -> new String[] {fact.getString(1), fact.getString(2)},
                                "select property, value from fact where subject = ?",
                                row.getLong(1));
                        for (String[] fact : facts) {
                            JsonText value = new JsonText(fact[1]);
                            SearchTable.words(kind, fact[0], value).forEach(word -> words.add(fact[0] + "\n" + word));
                        }
                    } catch (IllegalArgumentException e) {
                        found.add(new String[] {"subject " + row.getString(2), "can't be read: " + e.getMessage()});
                        return true;
                    }
                    Set<String> keptWords = new HashSet<>(session.list(
                            word -> word.getString(1) + "\n" + word.getString(2),
                            "select property, folded from word where subject = ?",
                            row.getLong(1)));
                    if (!keptWords.equals(words)) {
                        found.add(new String[] {
                            "index of subject " + row.getString(2),
                            "its words are not those of its facts; the index can be made again"
                        });
                    }
                    return true;
                },
                "select nr, id, kind from subject order by nr");
        checkUses(session, found);
        if (dueRule != DueRule.NONE) {
            // without a rule nobody knows what should fall due
            checkDue(session, dueRule, found);
        }
        AheadTable.check(session, dueRule, found);
        ResultTables.check(session, found);
        return new Differences(found);
    }

    private static void checkUses(Session session, List<String[]> found) throws SQLException {
        Set<String> kept = new HashSet<>();
        session.each(
                row -> {
                    kept.add(row.getString(1) + "\n" + row.getString(2) + "\n" + row.getLong(3) + "\n"
                            + row.getString(4));
                    return true;
                },
                "select role, folded, subject, property from used");
        session.each(
                row -> {
                    try {
                        for (SearchTable.UsedKey use : SearchTable.uses(
                                Kind.ofWord(row.getString(2)), row.getString(3), new JsonText(row.getString(4)))) {
                            String key = use.use().word() + "\n" + use.folded() + "\n" + row.getLong(1) + "\n"
                                    + row.getString(3);
                            if (!kept.remove(key)) {
                                found.add(new String[] {
                                    "index of subject number " + row.getLong(1),
                                    "use %s %s is missing; the index can be made again"
                                            .formatted(use.use().word(), use.folded())
                                });
                            }
                        }
                    } catch (IllegalArgumentException e) {
                        found.add(new String[] {
                            "fact '%s' of subject number %s".formatted(row.getString(3), row.getLong(1)),
                            "can't be read: " + e.getMessage()
                        });
                    }
                    return true;
                },
                "select s.nr, s.kind, f.property, f.value from fact f join subject s on s.nr = f.subject");
        for (String key : kept) {
            found.add(new String[] {
                "index entry " + key.replace('\n', ' '), "no fact says so; the index can be made again"
            });
        }
    }

    private static void checkDue(Session session, DueRule dueRule, List<String[]> found) throws SQLException {
        Set<String> kept = new HashSet<>(
                session.list(
                        row -> String.join(
                                "\n",
                                row.getString(1),
                                row.getString(2),
                                row.getString(3),
                                row.getString(4),
                                row.getString(5),
                                row.getString(6)),
                        "select s.id, d.reason, d.day, d.certainty, d.note, d.late_from from due d join subject s on s.nr = d.subject"));
        for (long sterilizer :
                session.list(row -> row.getLong(1), "select nr from subject where kind = 'sterilizer'")) {
            for (DueDate date : Index.expectedDue(session, sterilizer, dueRule)) {
                String key = String.join(
                        "\n",
                        date.sterilizer().toString(),
                        date.reason(),
                        date.day().toString(),
                        date.certainty(),
                        date.note(),
                        Index.lateFrom(date));
                if (!kept.remove(key)) {
                    found.add(new String[] {
                        "due date " + key.replace('\n', ' '), "is missing; the index can be made again"
                    });
                }
            }
        }
        for (String key : kept) {
            found.add(new String[] {"due date " + key.replace('\n', ' '), "no fact says so; the index can be made again"
            });
        }
    }
}
