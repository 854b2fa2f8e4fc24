package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NearestWordTest {

    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource({
        "kitten, sitting, 3, textbook example of the edit distance",
        "saturday, sunday, 3, textbook example",
        "'', abc, 3, three letters to insert",
        "abc, '', 3, three to delete",
        "abc, abc, 0, the same",
    })
    void counts_the_letters_to_change(String one, String other, int distance, String why) {
        assertThat(NearestWord.distance(one, other)).as(why).isEqualTo(distance);
    }

    @Test
    void keeps_the_order_of_equally_near_words() {
        assertThat(NearestWord.sorted("ax", List.of("bx", "ax", "cx"))).containsExactly("ax", "bx", "cx");
    }

    @Test
    void does_not_mind_capitals() {
        assertThat(NearestWord.of("TITLE", List.of("name", "title"))).isEqualTo("title");
    }
}
