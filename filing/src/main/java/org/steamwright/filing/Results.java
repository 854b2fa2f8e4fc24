package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.verify.Reassessment;
import org.steamwright.report.result.ResultJson;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visits;

/** The result of a visit as the record keeps it, and the same computed again from the files. */
public final class Results implements Reassessment {

    /** Version of the assessment that this program holds. */
    public static final String ALGORITHM_VERSION = Assessment.ALGORITHM_VERSION;

    /**
     * The whole result without the version of the program: a later one with the same rules must come to the same.
     *
     * @param assessed visit with everything that follows
     */
    public static JsonText of(AssessedVisit assessed) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        ResultJson.write(assessed, bytes);
        JsonNode result = JsonText.parse(bytes.toString(StandardCharsets.UTF_8)).node();
        if (result.path("program") instanceof ObjectNode program) {
            program.remove("version");
        }
        return JsonText.of(result);
    }

    @Override
    public Optional<JsonText> result(JsonText document, Map<String, byte[]> files) {
        if (!document.node().path("algorithmVersion").asText().equals(ALGORITHM_VERSION)) {
            return Optional.empty();
        }
        try (ScratchFolder scratch = new ScratchFolder(files)) {
            return Optional.of(of(Visits.assess(VisitFolder.read(scratch.folder(), new Presets()))));
        } catch (IOException | FilingException | VisitFolderException e) {
            // a document whose files can't be read any more differs, and the reason is what it differs by
            return Optional.of(JsonText.of(Map.of("notAssessed", String.valueOf(e.getMessage()))));
        }
    }
}
