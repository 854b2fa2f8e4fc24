package org.steamwright.desk.path;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Person;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.Duty;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.filing.SigningKeys;
import org.steamwright.records.signing.Receipts;
import org.steamwright.visit.AssessedVisit;

/**
 * The end of a visit: the answer in plain words, what is missing, and who can sign.
 *
 * @param assessed what follows from the visit; empty if it can't be read yet
 * @param signers people of the visit who may sign, and whoever asks if that one may review
 * @param receipt what the clinic's representative has signed; empty if nobody has
 * @param isSigned whether it is signed
 * @param isInvented whether its recordings are invented, so that nobody signs it
 * @param isWithReason whether a lost secret is replaced here, with a reason; the office does that where there are users
 * @param isWhole whether all of it was assessed; only then it can be signed
 * @param seen what the visit says, in one word: goes back with a signature, which is for nothing else
 */
public record Closing(
        Optional<AssessedVisit> assessed,
        List<Signer> signers,
        Optional<Receipts.Receipt> receipt,
        boolean isSigned,
        boolean isInvented,
        boolean isWithReason,
        boolean isWhole,
        String seen) {

    /**
     * Somebody who may sign.
     *
     * @param name as it stands in the visit
     * @param duty from which follows what the signature says
     * @param hasKey whether there is an own secret to sign with
     * @param isOpen whether whoever asks may let that one sign here
     */
    public record Signer(String name, Duty duty, boolean hasKey, boolean isOpen) {}

    public Closing {
        signers = List.copyOf(signers);
    }

    /** The class of the frame around the verdict word, which is its key too. */
    public String verdictClass() {
        // what was left out may be what did not pass
        return assessed.map(
                        one -> one.standing().name().toLowerCase(Locale.ROOT).replace('_', '-'))
                .map(word -> !isWhole && word.startsWith("pass") ? "incomplete" : word)
                .orElse("not-assessed");
    }

    static Closing of(Draft draft, DraftReading reading, Office office, Person asker) {
        SigningKeys keys = new SigningKeys(office.records());
        Set<String> names = new LinkedHashSet<>();
        for (int i = 1; i <= draft.count(FactPath.of("people")); i++) {
            names.add(draft.text(FactPath.of("people", i, "name")));
        }
        names.remove("");
        if (asker.isOneOf(Set.of(Role.REVIEWER)) && keys.isKnown(asker.name())) {
            names.add(asker.name());
        }
        List<Signer> signers = new ArrayList<>();
        for (String name : names) {
            Set<Duty> duties = duties(draft, name);
            boolean isOpen = keys.isOpenTo(name, duties, asker.author());
            duties.forEach(duty -> signers.add(new Signer(name, duty, keys.hasKey(name), isOpen)));
        }
        return new Closing(
                reading.assessed(),
                signers,
                Receipts.of(draft.subject()),
                draft.isSigned(),
                draft.subject().text("simulated").equals("true"),
                !keys.hasUsers(),
                reading.isWhole(),
                Filing.content(draft.subject()).hex());
    }

    /** What somebody is in a visit for. */
    static Set<Duty> duties(Draft draft, String name) {
        return Filing.duties(IntStream.rangeClosed(1, draft.count(FactPath.of("people")))
                .filter(i -> draft.text(FactPath.of("people", i, "name")).equals(name))
                .mapToObj(i -> draft.text(FactPath.of("people", i, "role")))
                .toList());
    }

    /** Whether the visit names somebody so. */
    static boolean isNamed(Draft draft, String name) {
        return !name.isBlank()
                && IntStream.rangeClosed(1, draft.count(FactPath.of("people")))
                        .anyMatch(i ->
                                draft.text(FactPath.of("people", i, "name")).equals(name));
    }
}
