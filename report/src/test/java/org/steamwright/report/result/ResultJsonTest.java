package org.steamwright.report.result;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.steamwright.report.SampleVisits;
import org.steamwright.visit.AssessedVisit;

class ResultJsonTest {
    private static final ObjectMapper JSON = new ObjectMapper();

    @Test
    void a_full_visit_follows_the_published_schema() throws IOException {
        assertThat(complaints(tree(SampleVisit.full()))).isEmpty();
    }

    @Test
    void a_visit_with_as_little_as_can_be_follows_it_too() throws IOException {
        assertThat(complaints(tree(SampleVisit.bare()))).isEmpty();
    }

    @Test
    void a_visit_with_a_job_sheet_follows_it_and_says_what_may_be_run() throws IOException {
        ObjectNode result = tree(SampleVisits.job());
        assertThat(complaints(result)).isEmpty();
        JsonNode state = result.get("job").get("validity").get(0);
        assertThat(state.get("until").textValue()).isEqualTo("2027-11-25");
        assertThat(state.get("untilCount").intValue()).isEqualTo(5421);
        assertThat(state.get("cycles").get(0).get("status").textValue()).isEqualTo("qualified");
        JsonNode lookBack = result.get("job").get("failures").get(0).get("lookBack");
        assertThat(lookBack.get("fromCycle").intValue()).isEqualTo(3831);
        assertThat(lookBack.get("toCycle").intValue()).isEqualTo(3911);
    }

    @Test
    void the_schema_itself_is_a_draft_2020_12_schema() throws IOException {
        JsonSchema meta = JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                .getSchema(java.net.URI.create("https://json-schema.org/draft/2020-12/schema"));
        assertThat(meta.validate(JSON.readTree(schemaBytes()))).isEmpty();
    }

    @Test
    void the_schema_refuses_a_field_that_it_does_not_know() throws IOException {
        ObjectNode result = tree(SampleVisit.full());
        ((ObjectNode) result.get("runs").get(0)).put("surprise", 1);
        assertThat(complaints(result)).hasSize(1);
    }

    @Test
    void the_schema_refuses_a_measured_figure_without_a_unit_in_its_name() throws IOException {
        ObjectNode result = tree(SampleVisit.full());
        ObjectNode measured =
                (ObjectNode) result.get("runs").get(0).get("findings").get(0).get("measured");
        measured.set("value", measured.remove("valueSeconds"));
        assertThat(complaints(result)).isNotEmpty();
    }

    @Test
    void every_property_of_the_schema_is_written_for_a_full_visit_somewhere() throws IOException {
        List<String> described = new ArrayList<>();
        collectProperties(JSON.readTree(schemaBytes()), described);
        List<String> written = new ArrayList<>();
        collectFields(tree(SampleVisit.full()), written);
        collectFields(tree(SampleVisits.job()), written);
        collectFields(tree(SampleVisits.borders()), written);
        collectFields(tree(SampleVisits.reasoned(SampleVisits.borders())), written);
        // a full visit has no channel of the other quantity in these places
        described.removeAll(List.of("depthCelsius", "heightCelsius", "rangeLowKilopascal", "rangeHighKilopascal"));
        described.removeIf(name -> name.endsWith("Kilopascal"));
        // and its leak test was made with a logger whose rate has no budget
        described.removeIf(name -> name.endsWith("ncertaintyKilopascalPerMinute"));
        assertThat(written).containsAll(described);
    }

    @Test
    void the_same_visit_gives_the_same_bytes() throws IOException {
        assertThat(bytes(SampleVisit.full())).isEqualTo(bytes(SampleVisit.full()));
    }

    @Test
    void lines_end_the_same_way_everywhere() throws IOException {
        assertThat(text(SampleVisit.full())).doesNotContain("\r").endsWith("}\n");
    }

    @Test
    void numbers_read_back_to_the_same_double() throws IOException {
        JsonNode measured = tree(SampleVisit.full())
                .get("runs")
                .get(0)
                .get("findings")
                .get(0)
                .get("measured");
        assertThat(measured.get("valueSeconds").doubleValue()).isEqualTo(17.0);
        assertThat(measured.get("lowSeconds").doubleValue()).isEqualTo(17.0 - 1.0 / 3);
        assertThat(measured.get("highSeconds").doubleValue()).isEqualTo(17.0 + 1.0 / 3);
    }

    @Test
    void what_is_not_finite_is_left_out_and_never_written_as_a_word() throws IOException {
        assertThat(text(SampleVisit.full())).doesNotContain("NaN").doesNotContain("Infinity");
        JsonNode gauge = tree(SampleVisit.full()).get("instruments").get(0);
        assertThat(gauge.get("id").textValue()).isEqualTo("PL-01");
        assertThat(gauge.has("rangeLowKilopascal")).isFalse();
    }

    @Test
    void an_absent_plateau_is_named_with_its_reason() throws IOException {
        JsonNode run = tree(SampleVisit.bare()).get("runs").get(0);
        assertThat(run.has("plateau")).isFalse();
        assertThat(run.get("absent").toString())
                .contains("\"plateau\"")
                .contains("never reached the sterilizing temperature")
                .contains("no pressure was recorded");
    }

    @Test
    void a_finding_carries_all_that_an_auditor_needs() throws IOException {
        JsonNode finding =
                tree(SampleVisit.full()).get("runs").get(0).get("findings").get(0);
        assertThat(finding.get("criterion").textValue()).isEqualTo("equilibration-time");
        assertThat(finding.get("outcome").textValue()).isEqualTo("fail");
        assertThat(finding.get("judgement").get("fourWords").textValue()).isEqualTo("fail");
        assertThat(finding.get("limit").get("comparison").textValue()).isEqualTo("at-most");
        assertThat(finding.get("limit").get("valueSeconds").doubleValue()).isEqualTo(15);
        assertThat(finding.get("limit").get("source").get("document").textValue())
                .isEqualTo("example practice");
        assertThat(finding.get("marginSeconds").doubleValue()).isEqualTo(-2);
        assertThat(finding.get("evidence").get("atSeconds").doubleValue()).isEqualTo(19);
        assertThat(finding.get("evidence").get("channels").get(0).textValue()).isEqualTo("T1");
        assertThat(finding.get("sentence").textValue()).isEqualTo("The pack came 17 s after the drain.");
    }

    @Test
    void every_recording_is_listed_once_with_its_runs() throws IOException {
        JsonNode inputs = tree(SampleVisit.full()).get("inputs");
        assertThat(inputs).hasSize(2);
        assertThat(inputs.get(0).get("file").textValue()).isEqualTo("kitchen.csv");
        assertThat(inputs.get(0).get("isSimulated").booleanValue()).isTrue();
        assertThat(inputs.get(0).get("runNumbers").toString()).isEqualTo("[1,2]");
    }

    @Test
    void the_inputs_of_a_written_result_can_be_found_again() throws IOException {
        assertThat(ResultJson.findInputs(new ByteArrayInputStream(bytes(SampleVisit.full()))))
                .hasValue(List.of("a".repeat(64), "b".repeat(64)));
    }

    @Test
    void a_file_that_is_no_result_has_no_inputs() throws IOException {
        for (String other : List.of("", "no json", "[]", "{}", "{\"format\": \"else\", \"inputs\": []}", "{\"form")) {
            assertThat(ResultJson.findInputs(new ByteArrayInputStream(other.getBytes(StandardCharsets.UTF_8))))
                    .as(other)
                    .isEmpty();
        }
    }

    @Test
    void the_program_version_is_that_of_the_build() throws IOException {
        String pom = Files.readString(Path.of(System.getProperty("steamwright.root"), "pom.xml"));
        assertThat(pom).contains("<version>" + ResultJson.PROGRAM_VERSION + "</version>");
    }

    private static Set<ValidationMessage> complaints(JsonNode result) throws IOException {
        return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                .getSchema(new ByteArrayInputStream(schemaBytes()))
                .validate(result, context -> context.getExecutionConfig().setFormatAssertionsEnabled(true));
    }

    private static byte[] schemaBytes() throws IOException {
        try (InputStream stream = ResultJson.class.getResourceAsStream(ResultJson.SCHEMA)) {
            assertThat(stream).as("schema beside the class").isNotNull();
            return stream.readAllBytes();
        }
    }

    private static void collectProperties(JsonNode schema, List<String> names) {
        if (schema.has("properties")) {
            schema.get("properties").fieldNames().forEachRemaining(names::add);
        }
        schema.forEach(child -> collectProperties(child, names));
    }

    private static void collectFields(JsonNode node, List<String> names) {
        if (node.isObject()) {
            node.fieldNames().forEachRemaining(names::add);
        }
        node.forEach(child -> collectFields(child, names));
    }

    private static ObjectNode tree(AssessedVisit assessed) throws IOException {
        return (ObjectNode) JSON.readTree(bytes(assessed));
    }

    private static String text(AssessedVisit assessed) throws IOException {
        return new String(bytes(assessed), StandardCharsets.UTF_8);
    }

    private static byte[] bytes(AssessedVisit assessed) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ResultJson.write(assessed, out);
        return out.toByteArray();
    }
}
