package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion.VersionFlag;
import com.networknt.schema.ValidationMessage;
import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** The published schema, checked by an outside validator, against the presets and against files that the reader refuses. */
class CriteriaSetSchemaTest {

    private static final JsonSchema SCHEMA = JsonSchemaFactory.getInstance(VersionFlag.V202012)
            .getSchema(new ByteArrayInputStream(Presets.resource("criteria-set.schema.json")));

    @ParameterizedTest
    @MethodSource("org.steamwright.criteriasets.PresetsTest#names")
    void accepts_every_preset(String name) {
        assertThat(problems(new String(Presets.bytes(name), StandardCharsets.UTF_8)))
                .isEmpty();
    }

    @Test
    void accepts_the_small_sets_of_the_tests() {
        assertThat(problems(Examples.WHOLE)).isEmpty();
        assertThat(problems(Examples.BASED)).isEmpty();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("org.steamwright.criteriasets.CriteriaFileErrorsTest#seenBySchemaToo")
    void refuses_what_the_reader_refuses(String why, String file) {
        assertThat(problems(file)).as(why).isNotEmpty();
    }

    private static Set<ValidationMessage> problems(String yaml) {
        Object tree = new Load(LoadSettings.builder().build()).loadFromString(yaml);
        JsonNode json = new ObjectMapper().valueToTree(tree);
        return SCHEMA.validate(json);
    }
}
