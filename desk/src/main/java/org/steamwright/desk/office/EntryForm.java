package org.steamwright.desk.office;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.MissingNode;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.ProblemText;
import org.steamwright.filing.RegisterEntries.Complaint;
import org.steamwright.filing.RegisterField;
import org.steamwright.filing.RegisterField.Listed;
import org.steamwright.filing.RegisterField.Look;
import org.steamwright.filing.RegisterForm;
import org.steamwright.records.json.JsonText;

/** The fields of an entry of the register as a page shows them, in the reader's language. */
public final class EntryForm {

    private static final String KEY = "office.field.";
    private static final String WORD = "office.word.";
    /** The field of points and the number of one of them. */
    private static final Pattern POINT = Pattern.compile("((?:.*/)?(?:points|as-found))/(\\d+)(?:/.*)?");

    private final Frame frame;
    private final List<Complaint> complaints;

    EntryForm(Frame frame, List<Complaint> complaints) {
        this.frame = frame;
        this.complaints = List.copyOf(complaints);
    }

    /**
     * One choice.
     *
     * @param value as it is kept
     * @param label as it is read
     */
    public record Option(String value, String label) {}

    /**
     * One field.
     *
     * @param name under which it is sent
     * @param label its name
     * @param look how it is written
     * @param value as it stands, or as it was written and refused
     * @param options to choose from
     * @param chosen those that are
     * @param hint beside it; may be blank
     * @param isNeeded whether an entry can't be without it
     * @param isFixed whether it never changes
     * @param isRoom whether it names a room
     * @param complaint why it can't be used
     * @param rows fields that belong together, the last of a list for a new one
     */
    public record Input(
            String name,
            String label,
            Look look,
            String value,
            List<Option> options,
            List<String> chosen,
            String hint,
            boolean isNeeded,
            boolean isFixed,
            boolean isRoom,
            Optional<Told> complaint,
            List<Row> rows) {
        public Input {
            options = List.copyOf(options);
            chosen = List.copyOf(chosen);
            rows = List.copyOf(rows);
        }

        /** Whether it is folded away: points before an adjustment, which few papers have. */
        public boolean isFolded() {
            return look == Look.POINTS && name.endsWith("/as-found") && value.isBlank() && complaint.isEmpty();
        }

        /** Identity in the page. */
        public String id() {
            return name.replace('/', '-');
        }

        /** Identities of hint and complaint. */
        public Optional<String> describedBy() {
            String described =
                    (hint.isBlank() ? "" : id() + "-hint ") + (complaint.isPresent() ? id() + "-problem" : "");
            return Optional.of(described.strip()).filter(text -> !text.isEmpty());
        }
    }

    /**
     * Fields that belong together.
     *
     * @param name under which it is sent
     * @param title by which it is told from the others
     * @param was place in the list as it stands, from 1; 0 for a new one
     * @param isNew whether it is the place for a new one
     * @param inputs of it
     */
    public record Row(String name, String title, int was, boolean isNew, List<Input> inputs) {
        public Row {
            inputs = List.copyOf(inputs);
        }

        /** Whether something in it can't be used, so that it has to be seen. */
        public boolean isOpen() {
            return inputs.stream()
                    .anyMatch(input ->
                            input.complaint.isPresent() || input.rows.stream().anyMatch(Row::isOpen));
        }
    }

    /** The label of a key. */
    static String label(Frame frame, Listed list, String key) {
        return frame.words()
                .find(KEY + list.word() + "." + key)
                .or(() -> frame.words().find(KEY + key))
                .orElse(key);
    }

    private String label(String within, String key) {
        String list = within.replaceAll("/\\d+", "").replaceFirst("^.*/", "");
        return frame.words()
                .find(KEY + list + "." + key)
                .or(() -> frame.words().find(KEY + key))
                .orElse(key);
    }

    private static String word(Frame frame, String word) {
        return frame.words().find(WORD + word).orElse(word);
    }

    Optional<Told> complaint(String field) {
        List<Told> told = complaints.stream()
                .filter(one -> one.field().equals(field))
                .map(this::told)
                .toList();
        return told.isEmpty()
                ? Optional.empty()
                : Optional.of(new Told(
                        told.stream().map(Told::text).collect(Collectors.joining(" ")),
                        told.stream().anyMatch(Told::isEnglish)));
    }

    /** What is said of a field of points: of all of them, or of a line. */
    private Optional<Told> complaintOfPoints(String field) {
        List<Told> told = new ArrayList<>();
        complaint(field).ifPresent(told::add);
        for (Complaint one : complaints) {
            Matcher line = POINT.matcher(one.field());
            if (line.matches() && line.group(1).equals(field)) {
                Told said = told(one);
                told.add(new Told(frame.say("office.point-line", line.group(2)) + " " + said.text(), said.isEnglish()));
            }
        }
        return told.isEmpty()
                ? Optional.empty()
                : Optional.of(new Told(
                        told.stream().map(Told::text).collect(Collectors.joining(" ")),
                        told.stream().anyMatch(Told::isEnglish)));
    }

    /** What is said by a key of this room's words, or by a part of the program that speaks English. */
    Told told(Complaint complaint) {
        return complaint
                .flaw()
                .map(flaw -> ProblemText.of(frame, flaw))
                .orElseGet(() -> frame.words()
                        .find(complaint.text())
                        .map(Told::asItIs)
                        .orElseGet(() -> frame.hear(complaint.text())));
    }

    /** What is said of the entry as a whole, or of a row of it. */
    List<Told> complaintsOfNoField() {
        return complaints.stream()
                .filter(one -> one.field().isBlank() || one.field().matches(".*/\\d+"))
                .filter(one -> !POINT.matcher(one.field()).matches())
                .map(this::told)
                .toList();
    }

    /** The fields of an entry. */
    List<Input> inputs(List<RegisterField> fields, JsonNode entry, JsonNode stands) {
        return inputs(fields, "", entry, stands);
    }

    private List<Input> inputs(List<RegisterField> fields, String within, JsonNode entry, JsonNode stands) {
        List<Input> inputs = new ArrayList<>();
        for (RegisterField field : fields) {
            JsonNode value = entry.path(field.key());
            if (RegisterForm.isShown(field, value)) {
                inputs.add(input(field, within, value, stands.path(field.key())));
            }
        }
        return inputs;
    }

    private Input input(RegisterField field, String within, JsonNode value, JsonNode stands) {
        String name = RegisterForm.name(within, field.key());
        String text = RegisterForm.shown(field, value);
        List<Option> options = field.look() == Look.YES_NO
                ? List.of(option("yes"), option("no"))
                : field.choices().stream().map(this::option).toList();
        boolean isRoom = (within.isEmpty() && field.key().equals("room"))
                || (within.startsWith("movements/")
                        && (field.key().equals("from") || field.key().equals("to")));
        String example = field.look() == Look.DAY || field.look() == Look.COUNT ? "" : field.example();
        boolean isTyped = options.isEmpty() && !example.isBlank();
        return new Input(
                "f/" + name,
                label(within, field.key()),
                field.look(),
                field.look() == Look.QUANTITY || field.look() == Look.POINTS
                        ? frame.figures().of(text)
                        : text,
                options,
                field.look() == Look.CHOICES ? RegisterForm.chosen(value) : List.of(text),
                field.key().equals("id")
                        ? frame.say("office.id-hint")
                        : field.look() == Look.TEXTS || field.look() == Look.POINTS
                                ? frame.say(field.look() == Look.TEXTS ? "office.lines-hint" : "office.points-hint")
                                : isTyped
                                        ? frame.say(
                                                "office.such-as",
                                                field.look() == Look.QUANTITY
                                                        ? frame.figures().of(example)
                                                        : example)
                                        : "",
                field.isNeeded() && !field.key().equals("id"),
                RegisterForm.isFixed(field, stands),
                isRoom,
                field.look() == Look.POINTS ? complaintOfPoints(name) : complaint(name),
                rows(field, name, value, stands));
    }

    private Option option(String word) {
        return new Option(word, word(frame, word));
    }

    private List<Row> rows(RegisterField field, String name, JsonNode value, JsonNode stands) {
        if (field.look() == Look.ENTRY) {
            return List.of(new Row("f/" + name, "", 1, false, inputs(field.fields(), name, value, stands)));
        }
        List<Row> rows = new ArrayList<>();
        if (field.look() == Look.ENTRIES) {
            int place = 0;
            for (JsonNode one : value) {
                place++;
                String row = RegisterForm.name(name, String.valueOf(place));
                boolean isWritten = one.isObject();
                rows.add(new Row(
                        "f/" + row,
                        frame.say("office.row", place, isWritten ? summary(field, one) : one.toString()),
                        place,
                        false,
                        isWritten ? inputs(field.fields(), row, one, stands.path(place - 1)) : List.of()));
            }
            String row = RegisterForm.name(name, String.valueOf(place + 1));
            rows.add(new Row(
                    "f/" + row,
                    frame.say("office.row-new", label(name, field.key())),
                    0,
                    true,
                    inputs(field.fields(), row, MissingNode.getInstance(), MissingNode.getInstance())));
        }
        return rows;
    }

    private String summary(RegisterField field, JsonNode row) {
        return field.fields().stream()
                .filter(one -> row.path(one.key()).isValueNode())
                .map(one -> shown(frame, one, row.path(one.key())))
                .limit(3)
                .collect(Collectors.joining(", "));
    }

    /** What an entry states, to be read. */
    void say(Sheet.Writer writer, List<RegisterField> fields, JsonNode entry) {
        List<List<Cell>> rows = new ArrayList<>();
        for (RegisterField field : fields) {
            JsonNode value = entry.path(field.key());
            if (!value.isMissingNode()) {
                rows.add(List.of(Cell.of(label("", field.key())), Cell.of(shown(frame, field, value))));
            }
        }
        writer.table(
                "",
                frame.say("office.only-by-visits"),
                List.of(frame.say("office.fact"), frame.say("office.value")),
                rows);
    }

    /** What a fact of the journal stated, in the reader's words. */
    static String words(Frame frame, Listed list, String key, JsonText value) {
        if (value.isNull()) {
            return "–";
        }
        return RegisterField.of(list).stream()
                .filter(field -> field.key().equals(key))
                .findFirst()
                .map(field -> shown(frame, field, value.node()))
                .orElseGet(() -> EntryPages.plain(value));
    }

    private static String shown(Frame frame, RegisterField field, JsonNode value) {
        if (value instanceof MissingNode || value.isNull()) {
            return "";
        }
        return switch (field.look()) {
            case DAY -> day(frame, value.asText());
            case QUANTITY -> frame.figures().of(value.asText());
            case CHOICE, YES_NO -> word(frame, value.asText());
            case CHOICES ->
                RegisterForm.chosen(value).stream().map(one -> word(frame, one)).collect(Collectors.joining(", "));
            case TEXTS -> RegisterForm.shown(field, value).replace("\n", ", ");
            case POINTS ->
                frame.figures()
                        .of(RegisterForm.shown(field, value)
                                .replace("; ", " / ")
                                .replace("\n", "; "));
            case ENTRY -> entry(frame, field, value);
            case ENTRIES -> {
                List<String> rows = new ArrayList<>();
                value.forEach(row -> rows.add(row.isObject() ? entry(frame, field, row) : row.toString()));
                yield String.join("; ", rows);
            }
            default -> value.asText();
        };
    }

    private static String entry(Frame frame, RegisterField field, JsonNode entry) {
        return field.fields().stream()
                .filter(one -> !entry.path(one.key()).isMissingNode())
                .map(one -> frame.words()
                                .find(KEY + field.key() + "." + one.key())
                                .or(() -> frame.words().find(KEY + one.key()))
                                .orElse(one.key())
                        + " " + shown(frame, one, entry.path(one.key())))
                .collect(Collectors.joining(", "));
    }

    private static String day(Frame frame, String text) {
        try {
            return frame.figures().day(LocalDate.parse(text));
        } catch (DateTimeException noDay) {
            return text;
        }
    }
}
