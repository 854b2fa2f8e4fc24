package org.steamwright.intake.register;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Optional;
import org.steamwright.visit.register.Register;

/** The invented office of the documentation, and registers from a text. */
final class Office {

    static final Path FOLDER = Path.of(System.getProperty("steamwright.root"), "docs", "examples", "office");

    private Office() {}

    static Register example() {
        try {
            return RegisterFile.read(FOLDER).register();
        } catch (IOException | RegisterException broken) {
            throw new IllegalStateException(broken);
        }
    }

    static Register read(String yaml) throws RegisterException {
        try {
            return RegisterFile.read(yaml.getBytes(StandardCharsets.UTF_8), "register.yaml", Optional.empty())
                    .register();
        } catch (IOException disk) {
            throw new IllegalStateException(disk);
        }
    }
}
