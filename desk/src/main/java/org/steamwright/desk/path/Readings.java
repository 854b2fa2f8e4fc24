package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.ProblemText;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.FactPath;

/**
 * Indicators that were read at one moment by one person: each with its own result, the moment and the name once.
 *
 * @param rows indicators of which nobody says when or by whom they were read
 * @param on day and time of the reading, as typed
 * @param by who read them
 * @param complaint why nothing was kept; empty if nothing stands against it
 */
public record Readings(List<Row> rows, String on, String by, Optional<String> complaint) {

    private static final String AWAITED = "awaited";

    /**
     * One indicator.
     *
     * @param path of its entry
     * @param words run, mark and lot
     * @param result as it is chosen
     * @param seen as it stood on the page
     */
    public record Row(String path, String words, String result, String seen) {

        private boolean isRead() {
            return !result.isBlank() && !result.equals(AWAITED);
        }
    }

    public Readings {
        rows = List.copyOf(rows);
    }

    /** Those of a visit; empty where there is none or only one, which has its own fields. */
    static Optional<Readings> of(Draft draft, Frame frame) {
        List<Row> rows = new ArrayList<>();
        for (int run = 1; run <= draft.count(FactPath.of("runs")); run++) {
            FactPath list = FactPath.of("runs", run, "indicators");
            for (int i = 1; i <= draft.count(list); i++) {
                FactPath one = list.then(i);
                if (draft.text(one.then("read-on")).isBlank()
                        || draft.text(one.then("read-by")).isBlank()) {
                    String result = draft.text(one.then("result"));
                    rows.add(new Row(one.toString(), words(draft, frame, run, one), result, result));
                }
            }
        }
        return rows.size() < 2
                ? Optional.empty()
                : Optional.of(new Readings(rows, "", frame.person().name(), Optional.empty()));
    }

    private static String words(Draft draft, Frame frame, int run, FactPath one) {
        boolean isControl = draft.text(one.then("control")).equals("yes");
        String id = draft.text(one.then("id"));
        String lot = draft.text(one.then("lot"));
        return frame.say(
                isControl ? "path.readings.control" : "path.readings.exposed",
                run,
                id.isBlank() ? "–" : id,
                lot.isBlank() ? "–" : lot);
    }

    /** What was typed about them. */
    static Readings typed(Draft draft, Ask ask) {
        Frame frame = ask.frame();
        List<String> paths = ask.chosen("of");
        List<String> results = ask.chosen("result");
        List<String> seen = ask.chosen("was");
        List<Row> rows = new ArrayList<>();
        for (int i = 0; i < Math.min(paths.size(), Math.min(results.size(), seen.size())); i++) {
            if (paths.get(i).matches("runs/[1-9][0-9]{0,3}/indicators/[1-9][0-9]{0,3}")) {
                FactPath one = FactPath.parse(paths.get(i));
                int run = Integer.parseInt(one.steps().get(1));
                rows.add(new Row(paths.get(i), words(draft, frame, run, one), results.get(i), seen.get(i)));
            }
        }
        String on = ask.typed("on");
        String by = ask.typed("by");
        Optional<String> complaint = rows.stream().noneMatch(Row::isRead)
                ? Optional.of(frame.say("path.readings.none"))
                : on.isBlank() || by.isBlank() ? Optional.of(frame.say("path.readings.unsaid")) : Optional.empty();
        return new Readings(rows, on, by, complaint);
    }

    /** What has to be done to keep them; what says already when or by whom stays. */
    DraftChange change(Draft draft, Frame frame) {
        DraftChange change = draft.change();
        for (Row row : rows) {
            FactPath one = FactPath.parse(row.path);
            if (!row.isRead()) {
                continue;
            }
            change.set(
                    one.then("result"),
                    Optional.of(row.result),
                    row.seen.isBlank() ? Optional.empty() : Optional.of(row.seen));
            String moment = Typing.read(one.then("read-on").toString(), on, frame)
                    .kept()
                    .orElse(on);
            put(draft, change, one.then("read-on"), moment);
            put(draft, change, one.then("read-by"), by);
        }
        return change;
    }

    private static void put(Draft draft, DraftChange change, FactPath path, String value) {
        if (draft.text(path).isBlank()) {
            change.set(path, Optional.of(value), Optional.empty());
        }
    }

    /** The same with what the visit could not be read with. */
    Readings complaining(List<DraftProblem> problems, Frame frame) {
        return problems.stream()
                .filter(problem -> rows.stream()
                        .anyMatch(row -> row.isRead()
                                && problem.path()
                                        .filter(path -> path.toString().startsWith(row.path + "/"))
                                        .isPresent()))
                .findFirst()
                .map(problem -> new Readings(
                        rows,
                        on,
                        by,
                        Optional.of((ProblemText.what(frame, problem).text() + " "
                                        + ProblemText.remedy(frame, problem).text())
                                .strip())))
                .orElse(this);
    }
}
