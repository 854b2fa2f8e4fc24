package org.steamwright.report.document;

import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.steamwright.report.language.Sentence;
import org.steamwright.visit.Visit;

/** Who signed, what that means, and by what it can be checked; or that nobody did. */
final class SignatureBlock {

    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("HH:mm:ss xxx", Locale.ROOT);

    private final Sheet sheet;
    private final Visit visit;
    private final Issued issued;

    SignatureBlock(Sheet sheet, Visit visit, Issued issued) {
        this.sheet = sheet;
        this.visit = visit;
        this.issued = issued;
    }

    void write() {
        sheet.heading("Signatures");
        if (issued.signature().isEmpty()) {
            sheet.paragraph(
                    visit.isSimulated()
                            ? "Not signed. Recordings of this visit were simulated, so it can never be signed."
                            : "Not signed. The results stand as computed; nobody has put a name to them in this file.");
            return;
        }
        Issued.Signature signature = issued.signature().get();
        Sheet.Facts facts = sheet.facts();
        facts.add("Issue", Wording.join("; ", String.valueOf(issued.number()), issued.amends()));
        if (!issued.ended().isBlank()) {
            facts.add("Standing", () -> sheet.html().element("span", "act", issued.ended()));
        }
        issued.interimUntil()
                .ifPresent(last -> facts.add(
                        "Standing",
                        () -> sheet.html()
                                .element(
                                        "span",
                                        "act",
                                        Sentence.of(
                                                "Interim: biological indicators are still to be read. It ends by"
                                                        + " itself after %s.",
                                                Wording.day(last)))));
        facts.add("Signed by", Wording.join(", ", signature.name(), signature.role()));
        facts.add("Meaning", signature.meaning());
        facts.add("Time", Wording.join(", ", Wording.day(signature.at().toLocalDate()), TIME.format(signature.at())));
        facts.add("Key", Wording.join(", ", "Ed25519", signature.keyId()));
        facts.add(
                "Signed document",
                () -> sheet.html().text("SHA-256 ").element("span", "digits", signature.documentSha256()));
        facts.add(
                "Journal",
                () -> sheet.html()
                        .text(Sentence.of("%s entries, head ", signature.journalSize()))
                        .element("span", "digits", signature.journalRoot()));
        issued.receipt().ifPresent(receipt -> receipt(receipt, facts));
        facts.end();
        sheet.aside(
                "The signature is over the facts, the hashes of all recordings, the criteria set and the result, not"
                        + " over this print. 'steamwright verify' checks it, and computes the result again.");
    }

    /** What the clinic's representative signed, and how far that is somebody else's doing. */
    private static void receipt(Issued.Receipt receipt, Sheet.Facts facts) {
        facts.add(
                "Received and understood",
                Wording.join(
                        ", ",
                        receipt.name(),
                        Wording.day(receipt.at().toLocalDate()),
                        TIME.format(receipt.at()),
                        receipt.isOfThis()
                                ? "approves no technical result"
                                : "an earlier answer: facts of the visit have changed since"));
        facts.add(
                "Key of the receipt",
                Wording.join(
                        ", ",
                        receipt.keyMadeBy().isBlank() ? "" : Sentence.of("made by %s", receipt.keyMadeBy()),
                        receipt.enteredBy().isBlank()
                                ? ""
                                : Sentence.of("signed at the desk of %s", receipt.enteredBy())));
    }
}
