package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.words;

import java.util.List;
import org.steamwright.report.language.Sentence;

/** What a correction changed against the issue that it corrects. */
final class DifferenceSection {

    private final Sheet sheet;
    private final Issued issued;

    DifferenceSection(Sheet sheet, Issued issued) {
        this.sheet = sheet;
        this.issued = issued;
    }

    void write() {
        if (issued.amends().isBlank()) {
            return;
        }
        sheet.chapter("What this correction changes", true);
        sheet.paragraph(issued.amends());
        sheet.aside(
                "Computed from what was signed then and what stands here now. Where there is no difference, nothing is listed;"
                        + " the issue before stays readable.");
        part("Results", true);
        part("Facts and files", false);
    }

    private void part(String heading, boolean isResult) {
        List<Issued.Difference> differences = issued.differences().stream()
                .filter(one -> one.isResult() == isResult)
                .toList();
        sheet.heading(heading);
        if (differences.isEmpty()) {
            sheet.paragraph("No difference to the issue before.");
            return;
        }
        sheet.table(words("Where", 44), words("Then", 65), words("Now", 65));
        for (Issued.Difference one : differences) {
            sheet.cells(where(one), said(one.before()), said(one.after()));
        }
        sheet.endTable();
    }

    private static String where(Issued.Difference one) {
        String places = Sentence.list(
                "; ",
                one.apart().stream().map(place -> Sentence.list(", ", place)).toList());
        return one.common().isEmpty() ? places : Sentence.of("%s: %s", one.common(), places);
    }

    private static String said(List<String> texts) {
        return texts.isEmpty() ? "–" : Sentence.list("; ", texts);
    }
}
