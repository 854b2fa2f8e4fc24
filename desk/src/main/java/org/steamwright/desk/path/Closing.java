package org.steamwright.desk.path;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.records.signing.Keys;
import org.steamwright.visit.AssessedVisit;

/**
 * The end of a visit: the answer in plain words, what is missing, and who can sign.
 *
 * @param assessed what follows from the visit; empty if it can't be read yet
 * @param signers people of the visit who may sign
 * @param isSigned whether it is signed
 * @param isInvented whether its recordings are invented, so that nobody signs it
 * @param seen what the visit says, in one word: goes back with a signature, which is for nothing else
 */
public record Closing(
        Optional<AssessedVisit> assessed, List<Signer> signers, boolean isSigned, boolean isInvented, String seen) {

    /**
     * Somebody who may sign.
     *
     * @param name as it stands in the visit
     * @param hasKey whether there is an own secret to sign with
     */
    public record Signer(String name, boolean hasKey) {}

    public Closing {
        signers = List.copyOf(signers);
    }

    /** The class of the frame around the verdict word, which is its key too. */
    public String verdictClass() {
        return assessed.map(
                        one -> one.standing().name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .orElse("not-assessed");
    }

    static Closing of(Draft draft, DraftReading reading, Office office) {
        List<Signer> signers = IntStream.rangeClosed(1, draft.count(FactPath.of("people")))
                .mapToObj(i -> draft.text(FactPath.of("people", i, "name")))
                .filter(name -> !name.isBlank())
                .distinct()
                .map(name -> new Signer(name, hasKey(name, office)))
                .toList();
        return new Closing(
                reading.assessed(),
                signers,
                draft.isSigned(),
                draft.subject().text("simulated").equals("true"),
                Filing.content(draft.subject()).hex());
    }

    private static boolean hasKey(String name, Office office) {
        try {
            return !Keys.history(office.records().subject(office.filing().technician(name)))
                    .isEmpty();
        } catch (FilingException unknown) {
            return false;
        }
    }
}
