package org.steamwright.assessment;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Files from outside the project, kept beside the checkout; a test that finds none is skipped and says so. */
public final class OutsideData {

    private OutsideData() {}

    /** The lines of a file below the folder of outside data, such as 'steam/psat_95_140_if97_vs_iapws95.csv'. */
    public static List<String> lines(String file) {
        String folder = System.getProperty("steamwright.data", "");
        Path path = Path.of(folder, file);
        assumeTrue(
                !folder.isEmpty() && Files.isRegularFile(path),
                "outside data '" + file + "' is not beside this checkout (system property steamwright.data); skipped");
        try {
            return Files.readAllLines(path, StandardCharsets.ISO_8859_1);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The rows of a comma-separated file without quoted commas, header left out. */
    public static List<String[]> rows(String file) {
        return lines(file).stream()
                .skip(1)
                .filter(line -> !line.isBlank())
                .map(line -> line.split(",", -1))
                .toList();
    }

    /** The number behind a key in a small JSON file; the first if the key comes more than once. */
    public static double jsonNumber(String file, String key) {
        Matcher matcher = Pattern.compile("\"" + Pattern.quote(key) + "\"\\s*:\\s*(-?[0-9.]+(?:[eE][-+]?[0-9]+)?)")
                .matcher(String.join("\n", lines(file)));
        if (!matcher.find()) {
            throw new IllegalArgumentException(file + " has no number '" + key + "'");
        }
        return Double.parseDouble(matcher.group(1));
    }
}
