package org.steamwright.desk.office;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;

/**
 * A page that is read: paragraphs, tables, drawings and links under headings, one below the other.
 *
 * @param title of the page
 * @param parts in order
 */
public record Sheet(String title, List<Part> parts) {

    public Sheet {
        parts = List.copyOf(parts);
    }

    /**
     * One heading with what stands under it.
     *
     * @param heading blank for what stands at the top
     * @param paragraphs above the table
     * @param table empty if there is none
     * @param drawing SVG of this program's own making; blank if there is none
     * @param pictures beside one another
     * @param links below
     */
    public record Part(
            String heading,
            List<Told> paragraphs,
            Optional<Table> table,
            String drawing,
            List<Picture> pictures,
            List<Link> links) {

        public Part {
            paragraphs = List.copyOf(paragraphs);
            pictures = List.copyOf(pictures);
            links = List.copyOf(links);
        }
    }

    private static final int WIDE = 4;
    /** Signs in a cell from which three columns are too many for a telephone. */
    private static final int LONG = 40;

    /**
     * Rows under one line of headings. A column in which no row says anything is left out.
     *
     * @param caption what the table shows
     * @param heads of the columns
     * @param rows each as long as the heads
     */
    public record Table(String caption, List<String> heads, List<List<Cell>> rows) {

        public Table {
            List<List<Cell>> all = rows;
            List<Integer> said = IntStream.range(0, heads.size())
                    .filter(column ->
                            all.stream().anyMatch(row -> !row.get(column).isEmpty()))
                    .boxed()
                    .toList();
            List<String> names = heads;
            heads = said.stream().map(names::get).toList();
            rows = rows.stream()
                    .map(row -> said.stream().map(row::get).toList())
                    .toList();
        }

        /** Whether it has more columns than stand side by side on a telephone; its rows are stacked there. */
        public boolean isWide() {
            return heads.size() >= WIDE
                    || (heads.size() == WIDE - 1
                            && rows.stream()
                                    .flatMap(List::stream)
                                    .anyMatch(cell -> cell.text().text().length() > LONG));
        }
    }

    /**
     * One cell.
     *
     * @param text as shown
     * @param path where it leads; blank for nowhere
     * @param look class of the cell: blank, figure, day, later, or verdict and its word
     */
    public record Cell(Told text, String path, String look) {

        /** Text alone. */
        public static Cell of(String text) {
            return of(Told.asItIs(text));
        }

        /** What the program says, as the reader gets it. */
        public static Cell of(Told text) {
            return new Cell(text, "", "");
        }

        /** Whether it says nothing, so that a stacked row can leave it out. */
        public boolean isEmpty() {
            return text.text().isBlank() || text.text().equals("–");
        }

        /** What it looks like, in words of the style sheet; empty if like any other. */
        public String style() {
            return ((look.equals("figure") || look.equals("day") ? look : "") + (isEmpty() ? " none" : "")).strip();
        }

        /** A figure, aligned with those above it. */
        public static Cell figure(String text) {
            return new Cell(Told.asItIs(text), "", "figure");
        }

        /** A day or a moment, which is not broken over lines. */
        public static Cell day(String text) {
            return new Cell(Told.asItIs(text), "", "day");
        }

        /** Text that leads somewhere within the desk. */
        public static Cell link(String text, String path) {
            return new Cell(Told.asItIs(text), path, "");
        }

        /** What comes from an address of the desk when the row is seen. */
        public static Cell later(String words, String path) {
            return new Cell(Told.asItIs(words), path, "later");
        }

        /** A verdict word of the program in its frame. */
        public static Cell verdict(Frame frame, String word) {
            return new Cell(frame.hear(word), "", "verdict " + word.replace(' ', '-'));
        }
    }

    /**
     * A link that stands by itself.
     *
     * @param text as shown
     * @param path within the desk
     */
    public record Link(String text, String path) {}

    /**
     * A photo.
     *
     * @param path within the desk
     * @param words what it shows
     */
    public record Picture(String path, String words) {}

    /** Puts a sheet together, part by part. */
    public static final class Writer {

        private final String title;
        private final List<Part> parts = new ArrayList<>();

        /** @param title of the page */
        public Writer(String title) {
            this.title = title;
        }

        /** Paragraphs under a heading. */
        public Writer say(String heading, List<String> paragraphs) {
            return hear(heading, told(paragraphs));
        }

        /** Paragraphs under a heading, some of which the program says. */
        public Writer hear(String heading, List<Told> paragraphs) {
            parts.add(new Part(heading, paragraphs, Optional.empty(), "", List.of(), List.of()));
            return this;
        }

        /** A table under a heading, or a sentence where it would have no rows. */
        public Writer table(String heading, String empty, List<String> heads, List<List<Cell>> rows) {
            parts.add(new Part(
                    heading,
                    rows.isEmpty() ? List.of(Told.asItIs(empty)) : List.of(),
                    rows.isEmpty()
                            ? Optional.empty()
                            : Optional.of(new Table(heading.isBlank() ? under() : heading, heads, rows)),
                    "",
                    List.of(),
                    List.of()));
            return this;
        }

        private static List<Told> told(List<String> paragraphs) {
            return paragraphs.stream().map(Told::asItIs).toList();
        }

        /** The heading that a part without one stands under. */
        private String under() {
            return parts.stream()
                    .map(Part::heading)
                    .filter(heading -> !heading.isBlank())
                    .reduce(title, (before, heading) -> heading);
        }

        /** A drawing under a heading. */
        public Writer draw(String heading, String drawing, List<String> paragraphs) {
            parts.add(new Part(heading, told(paragraphs), Optional.empty(), drawing, List.of(), List.of()));
            return this;
        }

        /** Photos beside one another; nothing if there are none. */
        public Writer pictures(List<Picture> pictures) {
            if (!pictures.isEmpty()) {
                parts.add(new Part("", List.of(), Optional.empty(), "", pictures, List.of()));
            }
            return this;
        }

        /** Links that stand by themselves. */
        public Writer links(Link... links) {
            parts.add(new Part("", List.of(), Optional.empty(), "", List.of(), List.of(links)));
            return this;
        }

        /** The sheet so far. */
        public Sheet sheet() {
            return new Sheet(title, parts);
        }

        /** The sheet as an answer. */
        public Reply reply() {
            return Reply.page("office/sheet.jte", Map.of("sheet", sheet()));
        }
    }
}
