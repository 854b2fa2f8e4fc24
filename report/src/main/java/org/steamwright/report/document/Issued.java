package org.steamwright.report.document;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import org.steamwright.report.language.Sentence;

/**
 * How a report stands in the record that it is printed from: which issue it is, who signed it, and whether anybody may
 * still rely on it.
 *
 * @param number of the issue, from 1; 0 while nothing was signed
 * @param signature of the issue; empty while nothing was signed
 * @param interimUntil last day of an interim report, indicators being awaited; empty for any other
 * @param ended why nobody may rely on it any more, as one sentence; blank while it is in force
 * @param amends what this issue corrects and why, as one sentence; blank for a first issue
 * @param receipt of the clinic's representative; empty if nobody signed one
 * @param differences what a correction changes against the issue that it corrects, results first; none for a first issue
 */
public record Issued(
        int number,
        Optional<Signature> signature,
        Optional<LocalDate> interimUntil,
        String ended,
        String amends,
        Optional<Receipt> receipt,
        List<Difference> differences) {

    public Issued {
        differences = List.copyOf(differences);
    }

    /** A first issue. */
    public Issued(
            int number,
            Optional<Signature> signature,
            Optional<LocalDate> interimUntil,
            String ended,
            String amends,
            Optional<Receipt> receipt) {
        this(number, signature, interimUntil, ended, amends, receipt, List.of());
    }

    /**
     * What became another by a correction, in the same way at one place or at several.
     *
     * @param isResult whether it follows from the facts; else it is a fact or a file
     * @param places each in words, from the outermost on; several have the innermost in common
     * @param before what was said: texts that belong together; none if nothing was
     * @param after what is said now; none if nothing is
     */
    public record Difference(boolean isResult, List<List<String>> places, List<String> before, List<String> after) {
        public Difference {
            places = places.stream().map(List::copyOf).toList();
            before = List.copyOf(before);
            after = List.copyOf(after);
        }

        /** What the places have in common, where there are several; blank for one. */
        public String common() {
            return places.size() < 2 ? "" : places.get(0).get(places.get(0).size() - 1);
        }

        /** The places without what they have in common. */
        public List<List<String>> apart() {
            return places.size() < 2
                    ? places
                    : places.stream()
                            .map(place -> place.subList(0, place.size() - 1))
                            .toList();
        }
    }

    /** A report that nobody has signed yet and that corrects an earlier one. */
    public static Issued draftOf(String amends, List<Difference> differences) {
        return new Issued(0, Optional.empty(), Optional.empty(), "", amends, Optional.empty(), differences);
    }

    /** An issue that nobody of the clinic signed for. */
    public Issued(
            int number, Optional<Signature> signature, Optional<LocalDate> interimUntil, String ended, String amends) {
        this(number, signature, interimUntil, ended, amends, Optional.empty());
    }

    /**
     * That somebody of the clinic has received the answer and understood it.
     *
     * @param name at that time
     * @param at when
     * @param isOfThis whether the facts are still those that were received
     * @param keyMadeBy who made the key that it was signed with; blank if not known
     * @param enteredBy at whose desk it was signed; blank if not known
     */
    public record Receipt(String name, OffsetDateTime at, boolean isOfThis, String keyMadeBy, String enteredBy) {}

    /** A report of results that nobody has put a name to. */
    public static final Issued NOT_SIGNED = new Issued(0, Optional.empty(), Optional.empty(), "", "");

    /**
     * What somebody signed, and with which key.
     *
     * @param name at that time
     * @param role at that time
     * @param meaning of the signature in words
     * @param at when, with the offset of that place and day
     * @param keyId which key of the record
     * @param documentSha256 of the signed document, lower-case hexadecimal
     * @param journalSize entries of the journal that the signed document names
     * @param journalRoot head of that journal, lower-case hexadecimal
     */
    public record Signature(
            String name,
            String role,
            String meaning,
            OffsetDateTime at,
            String keyId,
            String documentSha256,
            long journalSize,
            String journalRoot) {}

    /** For the head of every page. */
    String mark() {
        if (signature.isEmpty()) {
            return "not signed";
        }
        if (!ended.isBlank()) {
            return Sentence.of("issue %s, no longer in force", number);
        }
        return interimUntil
                .map(last -> Sentence.of("issue %s, interim until %s", number, Wording.day(last)))
                .orElse(Sentence.of("issue %s, signed", number));
    }

    /** Whether somebody has to act or beware; such marks stand out. */
    boolean isWarning() {
        return signature.isEmpty() || !ended.isBlank() || interimUntil.isPresent();
    }

    /** For the properties of the document. */
    String subject() {
        return signature
                .map(one -> Sentence.of(
                        "Issue %s, signed by %s on %s",
                        number, one.name(), Wording.day(one.at().toLocalDate())))
                .orElse("Not signed");
    }
}
