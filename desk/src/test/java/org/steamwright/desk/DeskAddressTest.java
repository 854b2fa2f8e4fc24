package org.steamwright.desk;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class DeskAddressTest {

    @TempDir
    private Path folder;

    @Test
    void the_address_of_the_database_is_the_one_line_of_its_file() throws IOException {
        Path file = Files.writeString(folder.resolve("server"), "jdbc:postgresql://localhost/steamwright?user=a\n");
        assertThat(Desk.address(file)).isEqualTo("jdbc:postgresql://localhost/steamwright?user=a");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "secret-of-the-test",
                "jdbc:sqlite:secret-of-the-test",
                "jdbc:postgresql://a\nsecret-of-the-test"
            })
    void anything_else_is_refused_without_repeating_it(String text) throws IOException {
        Path file = Files.writeString(folder.resolve("server"), text);
        assertThatThrownBy(() -> Desk.address(file))
                .hasMessageContaining("one line is expected")
                .hasMessageNotContaining("secret-of-the-test");
    }

    @Test
    void a_file_that_is_not_there_is_named() {
        assertThatThrownBy(() -> Desk.address(folder.resolve("none")))
                .hasMessageContaining("none: there is no such file");
    }
}
