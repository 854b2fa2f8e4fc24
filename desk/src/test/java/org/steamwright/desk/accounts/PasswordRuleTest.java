package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import com.nulabinc.zxcvbn.StandardDictionaries;
import java.io.IOException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.desk.accounts.PasswordRule.Weakness;

class PasswordRuleTest {

    @ParameterizedTest(name = "{0}: {1}, {2}")
    @CsvSource({
        "seven 7,              TOO_SHORT, seven characters",
        "ÄÖÜäöüß,              TOO_SHORT, seven characters in more bytes",
        "password,             COMMON,    the commonest",
        "PassWord1,            COMMON,    case does not help",
        "12345678,             COMMON,    a row of keys",
        "!!autoclave2026,      COMMON,    a word of the place with a year",
        "zzzzzzzzzzzz,         COMMON,    one sign repeated",
        "Example-2026,         OWN_NAME,  the user's name with a year",
        "drain valve 7 o'clock,,          several words",
        "kbxqzwvj,             ,          eight characters and no rule of composition",
        "高圧蒸気滅菌器点検表,  ,          another script",
    })
    void refuses_what_is_tried_first_and_nothing_else(String password, Weakness weakness, String why) {
        assertThat(PasswordRule.weakness(password, "Alex Example").orElse(null))
                .as(why)
                .isEqualTo(weakness);
    }

    @Test
    void allows_long_ones_up_to_a_thousand_characters() {
        String words = "basket over pouch, ".repeat(60);
        assertThat(PasswordRule.weakness(words.substring(0, 64), "Alex")).isEmpty();
        assertThat(PasswordRule.weakness(words.substring(0, 1_000), "Alex")).isEmpty();
        assertThat(PasswordRule.weakness(words.substring(0, 1_001), "Alex")).contains(Weakness.TOO_LONG);
    }

    @Test
    void refuses_more_than_the_3000_commonest_that_are_long_enough() throws IOException {
        List<String> commonest = StandardDictionaries.PASSWORDS_LOADER.load().getFrequencies().stream()
                .filter(one -> one.length() >= PasswordRule.SHORTEST)
                .toList();
        assertThat(commonest).as("as the rule's source asks").hasSizeGreaterThan(3_000);
        assertThat(commonest)
                .allSatisfy(
                        one -> assertThat(PasswordRule.weakness(one, "Alex")).isPresent());
    }
}
