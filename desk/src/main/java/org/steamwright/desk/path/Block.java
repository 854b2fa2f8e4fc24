package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * Fields that belong together, under one heading.
 *
 * @param heading above them
 * @param caution to be read before; may be blank
 * @param notes sentences above the fields
 * @param fields always shown
 * @param more fields that are folded away until they are wanted
 * @param pictures that were taken or drawn
 * @param buttons acts
 * @param links to other pages
 * @param part how it is shown beside its neighbours
 * @param place identity in the page of an entry that can be added and taken away; blank if it can't
 * @param isHeldOpen whether it is in use, and not folded however much is filled in
 * @param untouched what its one line says as long as nothing of it is filled in; blank if it stands open from the beginning
 */
public record Block(
        String heading,
        String caution,
        List<String> notes,
        List<Field> fields,
        List<Field> more,
        List<Picture> pictures,
        List<Button> buttons,
        List<Link> links,
        Part part,
        String place,
        boolean isHeldOpen,
        String untouched) {

    /** Values of an entry that its one line tells, and how much of a long one. */
    private static final int VALUES_TOLD = 5;

    private static final int LETTERS_TOLD = 60;

    /** Rank of a block among its neighbours. */
    public enum Part {
        SECTION,
        ENTRY,
        ROW
    }

    /**
     * An act of one touch.
     *
     * @param label what it does
     * @param action last part of the address below the visit
     * @param values sent with it
     * @param kind of the field that goes with it; empty if none does
     * @param options to choose one from; empty if nothing is chosen
     */
    public record Button(
            String label,
            String action,
            Map<String, String> values,
            Optional<Upload> kind,
            List<Field.Option> options) {

        public Button {
            values = Map.copyOf(values);
            options = List.copyOf(options);
        }

        Button(String label, String action, Map<String, String> values, Optional<Upload> kind) {
            this(label, action, values, kind, List.of());
        }

        /** Whether it begins other entries, so that it stays in sight where this one is folded. */
        public boolean isAdding() {
            return action.equals("entries") || action.equals("same-checks");
        }
    }

    /** What is sent beside the values; a reason for the journal is proposed as the value {@code text}. */
    public enum Upload {
        PHOTO,
        INK,
        LINE,
        REASON,
        JOURNAL,
        SET,
        CHOICE
    }

    /**
     * A picture of the visit.
     *
     * @param file its name in the visit
     * @param words what it shows
     * @param isRemovable whether it can be taken away by itself
     */
    public record Picture(String file, String words, boolean isRemovable) {}

    /**
     * A way to another page.
     *
     * @param label in words
     * @param href address below the visit, or of the desk where it begins with a stroke
     */
    public record Link(String label, String href) {}

    public Block {
        notes = List.copyOf(notes);
        fields = List.copyOf(fields);
        more = List.copyOf(more);
        pictures = List.copyOf(pictures);
        buttons = List.copyOf(buttons);
        links = List.copyOf(links);
    }

    /** Whether a folded field is filled in, so that the fold stands open. */
    public boolean isOpen() {
        return more.stream()
                .anyMatch(field -> !field.value().isBlank() || field.complaint().isPresent());
    }

    /** Whether nothing of it is filled in yet and it is folded until somebody wants it. */
    public boolean isUntouched() {
        return !untouched.isBlank()
                && all().stream()
                        .allMatch(field -> field.value().isBlank()
                                && field.complaint().isEmpty()
                                && field.notice().isBlank());
    }

    /** Whether it is shown as one line that opens. */
    public boolean isFolded() {
        return isUntouched() || isSettled();
    }

    /**
     * Whether an entry wants nothing more at present, and is shown as one line that opens: begun with its first field, at most
     * a third of its fields empty, none refused, saved just now or with something offered.
     */
    public boolean isSettled() {
        long empty = fields.stream().filter(field -> field.value().isBlank()).count();
        return part == Part.ENTRY
                && !place.isBlank()
                && !isHeldOpen
                && !fields.isEmpty()
                && !fields.get(0).value().isBlank()
                && 3 * empty <= fields.size()
                && buttons.stream()
                        .allMatch(button -> button.kind()
                                .filter(kind -> kind != Upload.REASON && kind != Upload.CHOICE)
                                .isEmpty())
                && all().stream()
                        .allMatch(field -> field.complaint().isEmpty()
                                && field.notice().isBlank()
                                && field.proposal().isEmpty());
    }

    /** Whether its sentences follow from its fields, and change with them while the page stands. */
    public boolean isTold() {
        return part == Part.SECTION && !place.isBlank();
    }

    /** What a folded entry holds, in one line. */
    public String line() {
        return isUntouched() ? untouched : held();
    }

    private String held() {
        return fields.stream()
                .filter(field -> !field.value().isBlank())
                .limit(VALUES_TOLD)
                .map(Field::said)
                .map(text -> text.length() <= LETTERS_TOLD
                        ? text
                        : text.substring(0, LETTERS_TOLD).strip() + " \u2026")
                .collect(Collectors.joining(" \u00b7 "));
    }

    /** All fields. */
    List<Field> all() {
        List<Field> all = new ArrayList<>(fields);
        all.addAll(more);
        return all;
    }

    Block with(Field changed) {
        return new Block(
                heading,
                caution,
                notes,
                replaced(fields, changed),
                replaced(more, changed),
                pictures,
                buttons,
                links,
                part,
                place,
                isHeldOpen,
                untouched);
    }

    private static List<Field> replaced(List<Field> fields, Field changed) {
        return fields.stream()
                .map(field -> field.path().equals(changed.path()) ? changed : field)
                .toList();
    }

    /** Puts a block together. */
    static final class Maker {
        private final Part part;
        private final String heading;
        private String caution = "";
        private final List<String> notes = new ArrayList<>();
        private final List<Field> fields = new ArrayList<>();
        private final List<Field> more = new ArrayList<>();
        private final List<Picture> pictures = new ArrayList<>();
        private final List<Button> buttons = new ArrayList<>();
        private final List<Link> links = new ArrayList<>();
        private String place = "";
        private boolean isHeldOpen;
        private String untouched = "";

        Maker(Part part, String heading) {
            this.part = part;
            this.heading = heading;
        }

        Maker caution(String text) {
            caution = text;
            return this;
        }

        Maker note(String text) {
            if (!text.isBlank()) {
                notes.add(text);
            }
            return this;
        }

        Maker field(Field field) {
            fields.add(field);
            return this;
        }

        Maker folded(Field field) {
            more.add(field);
            return this;
        }

        Maker picture(String file, String words, boolean isRemovable) {
            pictures.add(new Picture(file, words, isRemovable));
            return this;
        }

        Maker button(String label, String action, Map<String, String> values) {
            buttons.add(new Button(label, action, values, Optional.empty()));
            return this;
        }

        Maker upload(String label, String action, Map<String, String> values, Upload kind) {
            buttons.add(new Button(label, action, values, Optional.of(kind)));
            return this;
        }

        /** An act that takes one of these along. */
        Maker choosing(String label, String action, Map<String, String> values, List<Field.Option> options) {
            buttons.add(new Button(label, action, values, Optional.of(Upload.CHOICE), options));
            return this;
        }

        Maker link(String label, String href) {
            links.add(new Link(label, href));
            return this;
        }

        /** An entry of a list, by its path. */
        Maker at(String path) {
            place = "e-" + Field.id(path);
            return this;
        }

        Maker heldOpen() {
            isHeldOpen = true;
            return this;
        }

        /** Folded as long as nothing is filled in. */
        Maker untouched(String line) {
            untouched = line;
            return this;
        }

        /** What takes the entry away comes last, so that a finger that slips from another act meets nothing worse. */
        Block make() {
            buttons.sort(Comparator.comparing(button -> button.action().equals("removals")));
            return new Block(
                    heading,
                    caution,
                    notes,
                    fields,
                    more,
                    pictures,
                    buttons,
                    links,
                    part,
                    place,
                    isHeldOpen,
                    untouched);
        }
    }
}
