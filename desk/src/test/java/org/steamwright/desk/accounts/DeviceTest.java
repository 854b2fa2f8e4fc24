package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DeviceTest {

    /** Headers in the forms that the makers of browsers document. */
    @ParameterizedTest(name = "{0}")
    @CsvSource({
        "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0, Firefox, Linux",
        "'Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Safari/537.36 Edg/140.0.0.0', Edge, Windows",
        "'Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/140.0.0.0 Mobile Safari/537.36', Chrome, Android",
        "'Mozilla/5.0 (iPad; CPU OS 18_0 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.0 Mobile/15E148 Safari/604.1', Safari, iPad",
        "'Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.0 Safari/605.1.15', Safari, Mac",
        "Java-http-client/17.0.12, '', ''",
        "'<script>alert(1)</script>', '', ''",
    })
    void a_browser_is_named_by_what_it_says(String said, String browser, String system) {
        assertThat(Device.of(said)).isEqualTo(new Device(browser, system));
    }
}
