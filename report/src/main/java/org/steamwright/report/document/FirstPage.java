package org.steamwright.report.document;

import static org.steamwright.report.document.Sheet.Column.words;

import org.steamwright.report.language.Language;
import org.steamwright.report.language.Sentence;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.Whole;
import org.steamwright.visit.job.Scope;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.validity.ValidatedState;

/** The page for those who read one page: what was tested, the answer, what may be run, until when, what is open. */
final class FirstPage {

    private final Sheet sheet;
    private final AssessedVisit assessed;
    private final Visit visit;
    private final Issued issued;

    FirstPage(Sheet sheet, AssessedVisit assessed, Issued issued) {
        this.sheet = sheet;
        this.assessed = assessed;
        this.issued = issued;
        this.visit = assessed.visit();
    }

    void write() {
        Html html = sheet.html();
        whatItIs(sheet, machines());
        sheet.html().open("h1");
        html.text(isEnded() ? issued.ended() : first());
        html.close();
        html.open("p", "class", "lead").text("The visit as a whole: ");
        sheet.verdict(assessed.standing());
        html.close();
        if (visit.sterilizers().size() > 1) {
            for (Sterilizer sterilizer : visit.sterilizers()) {
                html.open("p", "class", "lead").text(Sentence.of("Steriliser serial %s", sterilizer.serial()));
                html.text(": ");
                sheet.verdict(Whole.of(assessed, sterilizer.key()));
                html.close();
            }
        }
        for (String sentence : assessed.summary().stream().skip(1).toList()) {
            html.element("p", "lead", sentence);
        }
        facts();
        if (!assessed.qualifications().isEmpty()) {
            sheet.keep(this::qualifications);
        }
        sheet.keep(this::mayBeRun);
        sheet.keep(this::open);
        if (assessed.runs().size() > 1) {
            // a single run is told by the part that it belongs to
            sheet.keep(this::runs);
        }
        sheet.keep(() -> new SignatureBlock(sheet, visit, issued).write());
    }

    private String machines() {
        return visit.sterilizers().size() == 1
                ? "Report on the test of one steam steriliser"
                : Sentence.of(
                        "Report on the test of %s steam sterilisers",
                        visit.sterilizers().size());
    }

    /** What the document is and, in any language but English, which of two is to be believed. */
    static void whatItIs(Sheet sheet, String title) {
        Html html = sheet.html().open("p", "class", "wide small aside").text(title);
        if (sheet.speaker().language() != Language.ENGLISH) {
            html.text(". ")
                    .text(
                            "The record is kept and signed in English; should this translation of the same sealed data differ"
                                    + " from the English report, the English report is decisive.");
        }
        html.close();
    }

    private void facts() {
        Sheet.Facts facts = sheet.facts();
        for (Sterilizer sterilizer : visit.sterilizers()) {
            facts.add(Sentence.of("Steriliser %s", sterilizer.key()), describe(sterilizer));
        }
        visitFacts(visit, facts);
        facts.end();
    }

    /** For whom, by whom, when, why and by which criteria. */
    static void visitFacts(Visit visit, Sheet.Facts facts) {
        facts.add(
                "For",
                visit.clinic()
                        .map(c -> Wording.join(", ", c.name(), c.address(), c.room()))
                        .orElse(""));
        facts.add(
                "By",
                Wording.join(
                        ", ",
                        visit.people().stream().findFirst().map(Person::name).orElse(""),
                        visit.company()));
        facts.need("Day of the tests", visit.date().map(Wording::day).orElse(""));
        facts.add("Purpose", visit.purpose());
        if (visit.job().scope().isNarrowed()) {
            facts.add("Asked for", asked(visit.job().scope()));
        }
        facts.add(
                "Judged by",
                Wording.join(
                        ", ", visit.criteriaSet().title(), visit.criteriaSet().identity()));
    }

    /** What the visit was asked for, where that is less than everything, and why. */
    private static String asked(Scope scope) {
        return Wording.join(
                "; ",
                Sentence.list(", ", scope.titles()),
                scope.cycles().isEmpty() ? "" : Sentence.of("cycles: %s", Sentence.list(", ", scope.cycles())),
                "nothing else",
                scope.because());
    }

    private void runs() {
        sheet.heading("Run by run");
        sheet.table(words("Run", 35.6), words("Cycle", 44), words("Verdict", 25), words("Why", 69.4));
        Html html = sheet.html();
        for (AssessedRun assessedRun : assessed.runs()) {
            VisitRun run = assessedRun.run();
            html.open("tr");
            html.element(
                    "td",
                    "",
                    Wording.join(
                            " – ",
                            String.valueOf(run.number()),
                            run.test().kind().words()));
            html.open("td").text(run.test().cycle().name());
            html.element("span", "under", Sentence.of("steriliser %s", run.sterilizer()))
                    .close();
            html.open("td");
            sheet.verdict(assessedRun);
            html.close();
            html.element("td", "last", assessedRun.cause()).close();
        }
        sheet.endTable();
    }

    static String describe(Sterilizer sterilizer) {
        return Wording.join(
                ", ",
                Wording.join(" ", sterilizer.maker(), sterilizer.model()),
                Sentence.of("serial %s", sterilizer.serial()),
                sterilizer.location());
    }

    private void qualifications() {
        sheet.heading("The answer, part by part");
        sheet.table(words("Steriliser", 35.6), words("Part", 44), words("Standing", 25), words("Why", 69.4));
        Html html = sheet.html();
        for (Qualification part : assessed.qualifications()) {
            html.open("tr");
            html.open("td")
                    .text(Wording.join(
                            " – ",
                            part.sterilizer(),
                            visit.getSterilizer(part.sterilizer()).serial()))
                    .close();
            html.open("td").text(part.kind().title());
            html.element("span", "under", Wording.join(" · ", part.cycle(), runNumbers(part)));
            html.close();
            html.open("td");
            sheet.verdict(part.standing());
            html.close();
            html.element("td", "last", part.sentence()).close();
        }
        sheet.endTable();
    }

    /** Whether it was replaced or withdrawn: then it lets nothing be run, whatever it said. */
    private boolean isEnded() {
        return !issued.ended().isBlank();
    }

    private String first() {
        return assessed.summary().isEmpty()
                ? "Nothing was assessed."
                : assessed.summary().get(0);
    }

    private static String runNumbers(Qualification part) {
        if (part.runNumbers().isEmpty()) {
            return "no run";
        }
        String numbers = Sentence.list(
                ", ", part.runNumbers().stream().map(String::valueOf).toList());
        return Sentence.of(part.runNumbers().size() == 1 ? "run %s" : "runs %s", numbers);
    }

    private void mayBeRun() {
        boolean isNothing = isEnded() || assessed.qualifiedCycles().isEmpty();
        sheet.heading("What may be run, and until when");
        if (isNothing) {
            sheet.paragraph("By this report no cycle is qualified.");
        } else {
            sheet.bullets(assessed.qualifiedCycles());
        }
        Sheet.Facts facts = sheet.facts();
        facts.add(
                "Valid",
                isNothing
                        ? "nothing is qualified, so nothing is valid"
                        : Sentence.list(
                                "; ",
                                ValidatedState.of(assessed).stream()
                                        .filter(ValidatedState::isAnyQualified)
                                        .map(StateBlock::validity)
                                        .distinct()
                                        .toList()));
        if (!isNothing) {
            facts.add(
                    "Ends earlier",
                    "when the steriliser is moved, repaired or changed, its program or settings are altered, or a load "
                            + "larger or harder for steam than the tested one is to be run");
        }
        facts.end();
    }

    private void open() {
        sheet.heading("What is open");
        if (assessed.openPoints().isEmpty()) {
            sheet.paragraph("Nothing is open.");
            return;
        }
        sheet.warnings(assessed.openPoints());
    }
}
