package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OneTimeCodesTest {

    private static final byte[] SECRET = "12345678901234567890".getBytes(StandardCharsets.US_ASCII);

    private final OneTimeCodes codes = new OneTimeCodes();

    /** RFC 6238, appendix B, the rows of SHA-1: its codes have eight digits, of which six are the last. From memory. */
    @ParameterizedTest
    @CsvSource({
        "59,          94287082",
        "1111111109,  07081804",
        "1111111111,  14050471",
        "1234567890,  89005924",
        "2000000000,  69279037",
        "20000000000, 65353130",
    })
    void gives_the_codes_of_the_rfc(long seconds, String eightDigits) {
        assertThat(codes.code(SECRET, Instant.ofEpochSecond(seconds))).isEqualTo(eightDigits.substring(2));
    }

    /** RFC 4648, section 10. From memory. */
    @ParameterizedTest
    @CsvSource({"f, MY", "fo, MZXQ", "foo, MZXW6", "foob, MZXW6YQ", "fooba, MZXW6YTB", "foobar, MZXW6YTBOI"})
    void writes_base_32_as_the_rfc_does(String plain, String base32) {
        assertThat(Base32.text(plain.getBytes(StandardCharsets.US_ASCII))).isEqualTo(base32);
    }

    @Test
    void takes_the_neighbouring_steps_and_none_twice() {
        Instant now = Instant.parse("2026-03-02T09:00:10Z");
        long step = now.getEpochSecond() / 30;
        assertThat(codes.stepOf(SECRET, codes.code(SECRET, now), now, 0)).hasValue(step);
        assertThat(codes.stepOf(SECRET, codes.code(SECRET, now.minusSeconds(30)), now, 0))
                .hasValue(step - 1);
        assertThat(codes.stepOf(SECRET, codes.code(SECRET, now.plusSeconds(30)), now, 0))
                .hasValue(step + 1);
        assertThat(codes.stepOf(SECRET, codes.code(SECRET, now.minusSeconds(60)), now, 0))
                .isEmpty();
        assertThat(codes.stepOf(SECRET, codes.code(SECRET, now), now, step))
                .as("taken before")
                .isEmpty();
        String code = codes.code(SECRET, now);
        assertThat(codes.stepOf(SECRET, code.substring(0, 3) + " " + code.substring(3), now, 0))
                .as("as people type it")
                .hasValue(step);
    }

    @Test
    void the_address_for_an_authenticator_names_program_and_user() {
        assertThat(OneTimeCodes.address(SECRET, "Alex Example"))
                .isEqualTo("otpauth://totp/Steamwright:Alex%20Example?secret=GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ"
                        + "&issuer=Steamwright&period=30&digits=6");
    }
}
