package org.steamwright.records;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.UUID;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;

/**
 * One change of one fact, kept for ever.
 *
 * @param number place in the journal, from 0 without holes
 * @param submission identity of the submission that it came with; the same for all entries that came together
 * @param author who
 * @param at when, to the microsecond
 * @param offset of the author's clock from UTC
 * @param isClockSetBack the clock showed less than at an earlier entry
 * @param kind what the subject is
 * @param subject whose fact
 * @param property which fact
 * @param oldValue value before; null if there was none
 * @param newValue value after; null if it was taken away
 * @param why reason, may be blank
 * @param stated when the fact held, if that was said
 * @param isLate the fact was entered long after it held
 */
public record JournalEntry(
        long number,
        UUID submission,
        Author author,
        Instant at,
        ZoneOffset offset,
        boolean isClockSetBack,
        Kind kind,
        SubjectId subject,
        String property,
        JsonText oldValue,
        JsonText newValue,
        String why,
        Optional<Instant> stated,
        boolean isLate) {

    /** Name of the form; another form gets another name, old entries keep theirs. */
    public static final String FORM = "steamwright-journal-1";

    /** Canonical JSON of the entry: what its hash is taken of, and what an export holds. */
    public JsonText toJson() {
        // members in the order of RFC 8785, so that no parser has to put them there; a test compares with the library
        StringBuilder object = new StringBuilder(512);
        object.append("{\"at\":").append(JsonText.quote(at.toString()));
        object.append(",\"author\":{\"name\":").append(JsonText.quote(author.name()));
        object.append(",\"role\":").append(JsonText.quote(author.role())).append('}');
        object.append(",\"clockSetBack\":").append(isClockSetBack);
        object.append(",\"form\":\"").append(FORM).append('"');
        object.append(",\"kind\":").append(JsonText.quote(kind.word()));
        object.append(",\"late\":").append(isLate);
        object.append(",\"new\":").append(newValue);
        object.append(",\"number\":").append(number);
        object.append(",\"offset\":").append(JsonText.quote(offset.getId()));
        object.append(",\"old\":").append(oldValue);
        object.append(",\"property\":").append(JsonText.quote(property));
        stated.ifPresent(when -> object.append(",\"stated\":").append(JsonText.quote(when.toString())));
        object.append(",\"subject\":\"").append(subject).append('"');
        object.append(",\"submission\":\"").append(submission).append('"');
        object.append(",\"why\":").append(JsonText.quote(why)).append('}');
        return new JsonText(object.toString());
    }

    /**
     * Hash of the entry in the tree.
     *
     * @source RFC 9162, section 2.1.1, over RFC 8785
     */
    public Hash hash() {
        return Hash.ofLeaf(toJson().bytes());
    }
}
