package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;

/** The criteria set that was named on the command line: a preset, or a file of one's own. */
final class CriteriaChoice {
    /** A criteria file is a page or two of text; anything larger is something else. */
    private static final long LARGEST_BYTES = 1_000_000;

    private CriteriaChoice() {}

    static CriteriaSet of(String typed, CriteriaSets sets, Surroundings surroundings) throws Refusal, IOException {
        if (sets.names().contains(typed)) {
            return sets.get(typed);
        }
        Path file = surroundings.resolve(typed);
        if (!Files.isRegularFile(file)) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    "--criteria " + typed + ": there is no criteria set and no file of that name.",
                    "Presets: " + String.join(", ", sets.names()) + ".",
                    "'steamwright criteria' lists them with their sources.");
        }
        if (Files.size(file) > LARGEST_BYTES) {
            throw new Refusal(
                    ExitStatus.UNREADABLE,
                    typed + ": " + Files.size(file) + " bytes are too many for a criteria set (at most " + LARGEST_BYTES
                            + ").",
                    "Name a criteria file in YAML, or a preset.");
        }
        try {
            return sets.read(Files.readAllBytes(file), typed);
        } catch (IllegalArgumentException unusable) {
            throw new Refusal(ExitStatus.UNREADABLE, String.valueOf(unusable.getMessage()));
        }
    }
}
