package org.steamwright.report.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.assessment.verdict.RunVerdict.RunOutcome;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.plot.Drawing;
import org.steamwright.report.plot.VerdictFrame;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.validity.QualifiedCycle;

/** The pages being written, in the terms of the house look: chapters, facts in the margin, tables, verdict frames. */
final class Sheet {

    /** Right padding of all but the last cell in a row, in millimetres, as in the style sheet. */
    private static final double CELL_PADDING = 2.4;

    private final Html html;
    private final Speaker speaker;
    private final List<Drawing> drawings = new ArrayList<>();

    Sheet(Speaker speaker) {
        this.speaker = speaker;
        this.html = new Html(speaker);
    }

    /** A column of a table: heading, width in millimetres, and whether figures stand in it. */
    record Column(String title, double millimetres, boolean isFigure) {
        static Column words(String title, double millimetres) {
            return new Column(title, millimetres, false);
        }

        static Column figures(String title, double millimetres) {
            return new Column(title, millimetres, true);
        }
    }

    Html html() {
        return html;
    }

    /** Who says what is written here in the language of the reader. */
    Speaker speaker() {
        return speaker;
    }

    List<Drawing> drawings() {
        return drawings;
    }

    /** Opens a heading of the first size; the caller closes it. */
    Sheet openChapter(boolean onNewPage) {
        html.open("h1", "class", onNewPage ? "chapter" : "next");
        return this;
    }

    Sheet chapter(String title, boolean onNewPage) {
        openChapter(onNewPage);
        html.text(title).close();
        return this;
    }

    /** Content that stays on one page where it fits on one, so that no heading stands alone. */
    Sheet keep(Runnable content) {
        html.open("div", "class", "keep");
        content.run();
        html.close();
        return this;
    }

    /** A heading at the top of a new page. */
    Sheet headingOnNewPage(String title) {
        html.element("h2", "chapter", title);
        return this;
    }

    Sheet heading(String title) {
        html.element("h2", "", title);
        return this;
    }

    Sheet paragraph(String text) {
        html.element("p", "", text);
        return this;
    }

    Sheet aside(String text) {
        html.element("p", "small aside", text);
        return this;
    }

    Sheet bullets(List<String> lines) {
        html.open("ul");
        for (String line : lines) {
            html.element("li", "", line);
        }
        html.close();
        return this;
    }

    /** Lines on which somebody has to act. */
    Sheet warnings(List<String> lines) {
        html.open("ul");
        for (String line : lines) {
            html.open("li").element("span", "act", line).close();
        }
        html.close();
        return this;
    }

    /** Terms in the margin, what they stand at beside them. */
    Facts facts() {
        return new Facts();
    }

    /** Collects facts and writes them as one table. */
    final class Facts {
        private boolean open;

        /** A fact; left out where nothing was said. */
        Facts add(String term, String text) {
            if (!text.isBlank()) {
                row(term);
                html.element("td", "", text).close();
            }
            return this;
        }

        /** A fact that has to be there: its absence is printed. */
        Facts need(String term, String text) {
            return add(term, Wording.orNotStated(text));
        }

        /** A fact with content of its own. */
        Facts add(String term, Runnable content) {
            row(term);
            html.open("td");
            content.run();
            html.close().close();
            return this;
        }

        void end() {
            if (open) {
                html.close().close();
            }
        }

        private void row(String term) {
            if (!open) {
                html.open("table", "class", "facts").open("tbody");
                open = true;
            }
            html.open("tr").open("th", "scope", "row").text(term).close();
        }
    }

    /** Opens a table with its head; rows follow with {@link #cells} and {@link #endTable()}. */
    Sheet table(Column... columns) {
        html.open("table").open("thead").open("tr");
        for (int i = 0; i < columns.length; i++) {
            Column column = columns[i];
            String kind = (column.isFigure() ? "n" : "t") + (i == columns.length - 1 ? " last" : "");
            html.open(
                            "th",
                            "scope",
                            "col",
                            "class",
                            kind,
                            "style",
                            String.format(
                                    Locale.ROOT,
                                    "width:%.1fmm",
                                    column.millimetres() - (i == columns.length - 1 ? 0 : CELL_PADDING)))
                    .text(column.title())
                    .close();
        }
        html.close().close().open("tbody");
        this.columns = columns;
        return this;
    }

    private Column[] columns = {};

    /** A row of plain cells, as many as the table has columns. */
    Sheet cells(String... texts) {
        if (texts.length != columns.length) {
            throw new IllegalArgumentException(texts.length + " cells for " + columns.length + " columns");
        }
        html.open("tr");
        for (int i = 0; i < texts.length; i++) {
            html.element("td", cellClass(i), texts[i]);
        }
        html.close();
        return this;
    }

    String cellClass(int index) {
        return (columns[index].isFigure() ? "n" : "t") + (index == columns.length - 1 ? " last" : "");
    }

    Sheet endTable() {
        html.close().close();
        return this;
    }

    /** A drawing in a block of its own. */
    Sheet figure(Drawing drawing) {
        html.open("div", "class", "figure");
        object(drawing, "block");
        html.close();
        return this;
    }

    /** A drawing in the line. */
    Sheet object(Drawing drawing, String cssClass) {
        drawings.add(drawing);
        html.open(
                        "object",
                        "type",
                        DrawingPrinter.TYPE,
                        "class",
                        cssClass,
                        "data",
                        Integer.toString(drawings.size() - 1),
                        "alt",
                        drawing.description(),
                        "title",
                        drawing.description(),
                        "style",
                        String.format(Locale.ROOT, "width:%.2fpt;height:%.2fpt", drawing.width(), drawing.height()))
                .close();
        return this;
    }

    Sheet verdict(Outcome outcome) {
        return frame(
                switch (outcome) {
                    case PASS -> "pass";
                    case FAIL -> "fail";
                    case UNDECIDED -> "undecided";
                    case AWAITED -> "awaited";
                    case INVALID -> "invalid";
                    case NOT_ASSESSED -> "plain";
                },
                outcome.words());
    }

    /** The run as a whole: its recording, its load and its indicators. */
    Sheet verdict(AssessedRun run) {
        if (run.isPass()) {
            return verdict(Outcome.PASS);
        }
        if (run.isFail()) {
            return verdict(Outcome.FAIL);
        }
        return verdict(run.isAwaited() ? Outcome.AWAITED : Outcome.INVALID);
    }

    Sheet verdict(RunOutcome outcome) {
        return frame(
                switch (outcome) {
                    case PASS -> "pass";
                    case FAIL -> "fail";
                    case INVALID -> "invalid";
                },
                outcome.words());
    }

    /** Whether a cycle may be run. */
    Sheet verdict(QualifiedCycle.Status status) {
        return frame(
                switch (status) {
                    case QUALIFIED -> "pass";
                    case AWAITED -> "awaited";
                    case NOT_QUALIFIED -> "fail";
                },
                status.words());
    }

    Sheet verdict(Standing standing) {
        return frame(
                switch (standing) {
                    case PASS -> "pass";
                    case FAIL -> "fail";
                    case INCOMPLETE -> "undecided";
                    case AWAITED -> "awaited";
                    case NOT_ASSESSED -> "plain";
                },
                standing.words());
    }

    private Sheet frame(String kind, String word) {
        if (kind.equals("invalid")) {
            return object(VerdictFrame.hatched(speaker.say(word)), "inline");
        }
        html.element("span", "word " + kind, kind.equals("plain") ? Sentence.of("[%s]", word) : word);
        return this;
    }
}
