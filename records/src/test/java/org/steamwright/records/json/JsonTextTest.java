package org.steamwright.records.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class JsonTextTest {

    @Test
    void writes_the_example_of_the_standard() {
        // RFC 8785, section 3.2.2 and 3.2.3; from memory
        assertThat(JsonText.parse("""
                        {
                          "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
                          "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
                          "literals": [null, true, false]
                        }
                        """).text())
                .isEqualTo("{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
                        + "\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
    }

    @Test
    void members_come_in_the_order_of_the_standard() {
        assertThat(JsonText.of(Map.of("b", 1, "a", List.of(1.0, "x"), "€", true))
                        .text())
                .isEqualTo("{\"a\":[1,\"x\"],\"b\":1,\"€\":true}");
    }

    @Test
    void a_value_without_object_or_list_is_written_too() {
        assertThat(JsonText.parse(" 4.0 ").text()).isEqualTo("4");
        assertThat(JsonText.parse("null")).isEqualTo(JsonText.NULL);
        assertThat(JsonText.of("line\n").text()).isEqualTo("\"line\\n\"");
        assertThat(JsonText.of("line\n").plain()).isEqualTo("line\n");
        assertThat(JsonText.of(12).plain()).isEqualTo("12");
    }

    @Property(tries = 300)
    void a_text_quoted_by_hand_is_what_the_library_writes(@ForAll String text) {
        boolean isWhole = java.nio.charset.StandardCharsets.UTF_8.newEncoder().canEncode(text);
        if (isWhole) {
            assertThat(JsonText.quote(text))
                    .isEqualTo(JsonText.parse(JsonText.quote(text).text()));
            assertThat(JsonText.quote(text).plain()).isEqualTo(text);
        } else {
            assertThatThrownBy(() -> JsonText.quote(text)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"12345678901234567890", "0.12345678901234567890123", "1e999"})
    void a_number_that_would_lose_digits_is_refused(String number) {
        assertThatThrownBy(() -> JsonText.parse("{\"serial\":" + number + "}"))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("write it as text");
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "{", "{\"a\":1,\"a\":2}", "1 2", "\"\\ud800\"", "nul"})
    void what_is_no_json_is_refused(String text) {
        assertThatThrownBy(() -> JsonText.parse(text)).isInstanceOf(IllegalArgumentException.class);
    }
}
