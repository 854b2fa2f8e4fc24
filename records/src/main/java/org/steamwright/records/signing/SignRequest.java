package org.steamwright.records.signing;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.records.Change;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;

/**
 * What somebody is about to sign.
 *
 * @param visit whose facts and files are covered
 * @param facts hash of the facts from which the result follows; with other facts it is not signed
 * @param technician who signs; name and role are taken from the register now
 * @param meaning what the signature says, such as 'performed and assessed' or 'reviewed'
 * @param criteriaSet the set that judged, with its content hash
 * @param algorithmVersion version of the assessment
 * @param result result of the assessment
 * @param isSimulated whether any recording is invented; such a visit is not signed
 * @param interimUntil last day of an interim report; empty for a final one
 * @param also what follows from the signature for other subjects: kept together with it, both or neither
 */
public record SignRequest(
        SubjectId visit,
        Hash facts,
        SubjectId technician,
        String meaning,
        JsonText criteriaSet,
        String algorithmVersion,
        JsonText result,
        boolean isSimulated,
        Optional<LocalDate> interimUntil,
        List<Change> also) {

    /** A final report from which nothing follows for other subjects. */
    public SignRequest(
            SubjectId visit,
            Hash facts,
            SubjectId technician,
            String meaning,
            JsonText criteriaSet,
            String algorithmVersion,
            JsonText result,
            boolean isSimulated) {
        this(
                visit,
                facts,
                technician,
                meaning,
                criteriaSet,
                algorithmVersion,
                result,
                isSimulated,
                Optional.empty(),
                List.of());
    }

    public SignRequest {
        also = List.copyOf(also);
        if (meaning.isBlank()) {
            throw new IllegalArgumentException("a signature says what it means");
        }
    }
}
