package org.steamwright.records.verify;

import java.util.Map;
import java.util.Optional;
import org.steamwright.records.json.JsonText;

/** Computes a result again from what was signed; implemented where the assessment is at hand. */
@FunctionalInterface
public interface Reassessment {

    /** Nothing is computed again. */
    Reassessment NONE = (document, files) -> Optional.empty();

    /**
     * The result as this program computes it.
     *
     * @param document signed document: facts, criteria set, version of the assessment, result
     * @param files bytes by name, as they were signed
     * @return empty if this program does not hold the version that assessed it
     */
    Optional<JsonText> result(JsonText document, Map<String, byte[]> files);
}
