package org.steamwright.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.ZoneOffset;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;

class TextReaderTest {

    static final ReadingChoices.Builder OPEN = ReadingChoices.inZone(ZoneOffset.UTC);

    @ParameterizedTest
    @ValueSource(strings = {"UTF-8", "UTF-16LE", "UTF-16BE", "UTF-32LE", "UTF-32BE", "windows-1251", "Shift_JIS"})
    void gives_the_same_characters_as_the_JDK_wherever_a_buffer_ends(String name)
            throws IOException, UnreadableFileException {
        Charset charset = Charset.forName(name);
        Random random = new Random(7);
        String letters = switch (name) {
            case "windows-1251" -> "Тд9,;\n";
            case "Shift_JIS" -> "温度ｱ9,;\n";
            default -> "°é温\uD83D\uDD25T9,;\n";
        };
        int[] points = letters.codePoints().toArray();
        for (int round = 0; round < 12; round++) {
            StringBuilder text = new StringBuilder();
            int size = random.nextInt(150_000);
            while (text.length() < size) {
                text.appendCodePoint(random.nextInt(4) == 0 ? points[random.nextInt(points.length)] : 'a');
            }
            byte[] bytes = text.toString().getBytes(charset);
            FakeFile file = new FakeFile("any.csv", bytes);
            Encoding encoding = Encoding.of(file, OPEN.answer("charset", name).build());
            StringBuilder read = new StringBuilder();
            char[] buffer = new char[9000];
            try (TextReader reader = new TextReader(file, encoding)) {
                while (true) {
                    int wanted = random.nextBoolean() ? 1 + random.nextInt(3) : 1 + random.nextInt(buffer.length);
                    int got = reader.read(buffer, 0, wanted);
                    if (got < 0) {
                        break;
                    }
                    assertThat(got).isBetween(1, wanted);
                    read.append(buffer, 0, got);
                }
                assertThat(reader.fingerprint().bytes()).isEqualTo(bytes.length);
            }
            assertThat(read.toString()).isEqualTo(text.toString());
        }
    }

    @Test
    void sees_a_character_that_the_end_of_the_file_cuts() throws IOException, UnreadableFileException {
        byte[] whole = "t_s,T (°C)\n0,121\n1,121 °".getBytes(StandardCharsets.UTF_8);
        FakeFile file = new FakeFile("cut.csv", java.util.Arrays.copyOf(whole, whole.length - 1));
        Encoding encoding = Encoding.of(file, OPEN.answer("charset", "UTF-8").build());
        try (TextReader reader = new TextReader(file, encoding)) {
            assertThatThrownBy(() -> reader.transferTo(new java.io.StringWriter()))
                    .isInstanceOf(TextReader.NotThatEncodingException.class);
        }
    }
}
