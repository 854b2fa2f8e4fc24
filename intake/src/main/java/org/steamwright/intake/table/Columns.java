package org.steamwright.intake.table;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.IntakeMessage;
import org.steamwright.intake.MeasuringUnit;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

/** The columns of a table: what they are called, what their headings say, and what a person chose for them. */
final class Columns {

    private final TableHead head;
    private final TableHeader header;
    private final ReadingChoices choices;
    private final ReadingNotes notes;

    Columns(TableHead head, TableHeader header, ReadingChoices choices, ReadingNotes notes) {
        this.head = head;
        this.header = header;
        this.choices = choices;
        this.notes = notes;
    }

    int width() {
        return header.headings().size();
    }

    String name(int c) {
        return header.names().get(c);
    }

    Heading heading(int c) {
        return header.headings().get(c);
    }

    String allNames() {
        return String.join(", ", header.names());
    }

    /** Columns of a kind that nobody chose to skip. */
    List<Integer> columnsOf(CellKind kind) {
        List<Integer> found = new ArrayList<>();
        for (int c = 0; c < width(); c++) {
            if (head.type(c) == kind && !isSkipped(c)) {
                found.add(c);
            }
        }
        return found;
    }

    /** The unit that was chosen for a column. */
    Optional<MeasuringUnit> chosenUnit(int c) {
        return chosenFor(choices.units(), c);
    }

    /** What was chosen for a column, by its name or by all that its heading says. */
    <T> Optional<T> chosenFor(Map<String, T> chosen, int c) {
        String name = ReadingChoices.key(name(c));
        return Optional.ofNullable(
                chosen.containsKey(name)
                        ? chosen.get(name)
                        : chosen.get(ReadingChoices.key(heading(c).full())));
    }

    boolean isSkipped(int c) {
        return choices.skipped().contains(ReadingChoices.key(name(c)))
                || choices.skipped().contains(ReadingChoices.key(heading(c).full()));
    }

    /** Notes that a column is not read. */
    void notUsed(int c, String why) {
        notes.remark(
                IntakeMessage.COLUMN_NOT_USED,
                Rank.NOTE,
                "column " + place(c),
                Sentence.of(
                        "This column is not read: it %s.", why.equals("as chosen") ? "was left out as chosen" : why));
        notes.explain(Sentence.of("column %s: not read, %s", place(c), why));
    }

    /** A column as a person finds it: its number and its name. */
    String place(int c) {
        return Sentence.of("%d \"%s\"", c + 1, name(c));
    }

    /** @throws UnreadableFileException if something was chosen for a column that is not there */
    void checkChoices() throws UnreadableFileException {
        Set<String> known = new HashSet<>();
        for (int c = 0; c < width(); c++) {
            known.add(ReadingChoices.key(name(c)));
            known.add(ReadingChoices.key(heading(c).full()));
        }
        Set<String> asked = new HashSet<>(choices.units().keySet());
        asked.addAll(choices.references().keySet());
        asked.addAll(choices.skipped());
        List<String> absent = new ArrayList<>();
        for (String key : asked) {
            if (!known.contains(key)) {
                absent.add("\"" + key + "\"");
            }
        }
        if (!absent.isEmpty()) {
            absent.sort(null);
            throw notes.refusal(
                    IntakeMessage.CHOICE_DOES_NOT_FIT,
                    "",
                    Sentence.of(
                            "a choice was made for column %s, which the file does not have. Its columns are: %s.",
                            String.join(", ", absent), allNames()));
        }
    }
}
