package org.steamwright.report.document;

import java.time.LocalDate;
import java.util.List;
import org.steamwright.report.language.Sentence;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.failure.Failure;
import org.steamwright.visit.failure.FailurePath;
import org.steamwright.visit.failure.Letters;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.validity.InterimStanding;
import org.steamwright.visit.validity.ValidatedState;

/** The verdict of the visit: what may be run, with what, until when; and what follows from a failure. */
final class VerdictSection {

    private final Sheet sheet;
    private final AssessedVisit assessed;
    private final Visit visit;

    VerdictSection(Sheet sheet, AssessedVisit assessed) {
        this.sheet = sheet;
        this.assessed = assessed;
        this.visit = assessed.visit();
    }

    /** Nothing for a single recording: it is the verdict of a recording and of no visit. */
    void write() {
        if (visit.clinic().isEmpty()) {
            return;
        }
        sheet.chapter("What may be run", true);
        StateBlock block = new StateBlock(sheet, true);
        ValidatedState.of(assessed)
                .forEach(state -> sheet.keep(() -> {
                    sheet.heading(Sentence.of("Steriliser serial %s", state.serial()));
                    block.write(state);
                }));
        interim();
        List<Failure> failures = FailurePath.of(assessed);
        if (!failures.isEmpty()) {
            sheet.chapter("Failures and what follows", false);
            failures.forEach(failure -> sheet.keep(() -> failure(failure)));
        }
    }

    /** Letters ready to be read over, after everything else. */
    void writeLetters() {
        if (visit.clinic().isEmpty()) {
            return;
        }
        List<Letters.Letter> letters =
                Letters.of(assessed, FailurePath.of(assessed), visit.date().orElse(LocalDate.EPOCH));
        if (letters.isEmpty()) {
            return;
        }
        sheet.chapter("Letters to be sent", true);
        sheet.aside("Drafts from the facts of this visit, to be read over and signed by a person. They hold no data of"
                + " patients, and none belong into an answer.");
        for (Letters.Letter letter : letters) {
            sheet.keep(() -> {
                sheet.heading(letter.title());
                letter.paragraphs().forEach(sheet::paragraph);
            });
        }
    }

    private void interim() {
        InterimStanding interim = InterimStanding.of(assessed, visit.date().orElse(LocalDate.EPOCH));
        if (interim.standing() == InterimStanding.Standing.NONE
                || interim.standing() == InterimStanding.Standing.READ) {
            return;
        }
        sheet.keep(() -> {
            sheet.heading(
                    Sentence.of("Biological indicators: %s", interim.standing().words()));
            interim.sentences().forEach(sheet::paragraph);
        });
    }

    private void failure(Failure failure) {
        String serial = visit.getSterilizer(failure.sterilizer()).serial();
        sheet.heading(
                Sentence.of("Steriliser serial %s: %s", serial, failure.kind().words()));
        sheet.bullets(failure.what());
        Sheet.Facts facts = sheet.facts();
        facts.add("As found", failure.isAsFound() ? "yes; a repair changes nothing about the loads before" : "");
        facts.add("Points to", failure.blame().words());
        facts.add(
                "Out of service",
                failure.outOfService().isEmpty()
                        ? "no cycle now"
                        : failure.isAllOut() ? "the whole steriliser" : Sentence.list(", ", failure.outOfService()));
        facts.add("Re-test", Sentence.list("; ", failure.retests()));
        facts.add("Why these", failure.scope().because());
        failure.note().ifPresent(note -> note(note, facts));
        if (failure.note().isEmpty()) {
            facts.add("Cause and action", "nothing is written down yet");
        }
        failure.lookBack().ifPresent(lookBack -> {
            facts.add("Look-back", lookBack.words());
            facts.add(
                    "Other evidence",
                    Sentence.list(
                            "; ",
                            lookBack.others().stream()
                                    .map(evidence -> Sentence.of(
                                            "%s on %s, %s",
                                            evidence.kind().words(), Wording.day(evidence.on()), evidence.reference()))
                                    .toList()));
            facts.add("Loads already used", "The clinic decides. No data of patients belong here.");
        });
        facts.end();
    }

    private static void note(FailureNote note, Sheet.Facts facts) {
        facts.need("Cause", note.cause());
        facts.need("Action", note.action());
        facts.add("Changed", Sentence.list(", ", note.changes()));
        facts.add(
                "Closed",
                note.closedOn()
                        .map(day -> Wording.join(", ", Wording.day(day), note.closedBy(), note.effect()))
                        .orElse("open"));
    }
}
