package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.CheckWords;
import org.steamwright.visit.Checklist;

/**
 * Lines of checklists that came with the visit, at the stage that they belong to. The desk begins none but those of the state as
 * found; what it works off by lists of tasks may stand in a checklist of a visit folder too, and decides there alike.
 */
final class ChecksSheet extends StageSheet {

    private static final String CHECKLISTS = "checklists";
    private static final String RESULT = "result";
    private static final String REMARK = "remark";

    private final Checklist.Section section;
    private final List<String> shownAlready;

    /** @param shownAlready titles of lines that the sheet of the stage shows itself */
    ChecksSheet(Checklist.Section section, List<String> shownAlready, Seen seen) {
        super(seen);
        this.section = section;
        this.shownAlready = List.copyOf(shownAlready);
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        for (int i = 1; i <= count(CHECKLISTS); i++) {
            if (section(draft, i).filter(section::equals).isPresent()) {
                lines(i, blocks);
            }
        }
        return blocks;
    }

    private void lines(int list, List<Block> blocks) {
        String key = text(CHECKLISTS, list, "sterilizer");
        String machine = machines().stream()
                .filter(one -> one.key().equals(key) || machines().size() == 1)
                .map(Machine::words)
                .findFirst()
                .orElse(key);
        List<Block> rows = new ArrayList<>();
        for (int i = 1; i <= count(CHECKLISTS, list, "items"); i++) {
            String title = text(CHECKLISTS, list, "items", i, "title");
            if (key.isBlank() || !shownAlready.contains(title)) {
                String item = CHECKLISTS + "/" + list + "/items/" + i;
                rows.add(new Block.Maker(Part.ROW, title)
                        .field(check(item, section))
                        .field(field(item, REMARK, Look.LONG))
                        .folded(field(item, "as-found"))
                        .folded(field(item, "as-left"))
                        .folded(named(item, "instrument", instruments()))
                        .make());
            }
        }
        if (!rows.isEmpty()) {
            blocks.add(new Block.Maker(Part.SECTION, say("block.checks", machine))
                    .note(say("note.checks"))
                    .make());
            blocks.addAll(rows);
        }
    }

    /** The section of a checklist of a visit; empty if it has none that is known. */
    static Optional<Checklist.Section> section(Draft draft, int list) {
        String word = draft.text(FactPath.of(CHECKLISTS, list, "section"));
        return Arrays.stream(Checklist.Section.values())
                .filter(one -> word(one).equals(word))
                .findFirst();
    }

    private static String word(Checklist.Section section) {
        return section.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Whether the path is that of a result of a check. */
    static boolean isResult(String path) {
        return path.startsWith(CHECKLISTS + "/") && path.endsWith("/" + RESULT);
    }

    /** Whether a saved result left the words that stood there as the remark, so that more than its field is new. */
    static boolean isKeepingWords(Draft before, String path, String value) {
        return isResult(path)
                && !value.isBlank()
                && isOfWords(KeyedPath.parse(path).text(before), value);
    }

    /** Words that stood where a result is chosen now become the remark, or part of it. */
    static void keepWords(Draft draft, DraftChange change, FactPath result, String value) {
        String words = draft.text(result).strip();
        if (value.isBlank() || !isOfWords(words, value)) {
            return;
        }
        List<String> steps = result.steps();
        FactPath remark = new FactPath(steps.subList(0, steps.size() - 1)).then(REMARK);
        String before = draft.text(remark).strip();
        if (!before.contains(words)) {
            change.set(remark, Optional.of(before.isEmpty() ? words : words + "; " + before));
        }
    }

    private static boolean isOfWords(String before, String value) {
        return !before.isBlank() && !before.equals(value) && !CheckWords.isChosen(before);
    }
}
