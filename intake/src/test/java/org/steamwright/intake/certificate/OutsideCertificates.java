package org.steamwright.intake.certificate;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Assumptions;

/** Example certificates of the schema's authors, which lie beside the checkout and are never copied into it. */
final class OutsideCertificates {

    private OutsideCertificates() {}

    static Path path(String name) {
        Path file = Path.of(System.getProperty("steamwright.data", ""))
                .resolve("dcc")
                .resolve(name);
        Assumptions.assumeTrue(
                Files.exists(file),
                "outside data 'dcc/" + name
                        + "' is not beside this checkout (system property steamwright.data); skipped");
        return file;
    }
}
