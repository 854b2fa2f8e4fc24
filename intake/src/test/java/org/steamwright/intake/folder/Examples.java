package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.util.LinkedHashMap;
import java.util.Map;
import org.steamwright.intake.certificate.DccSample;
import org.steamwright.intake.certificate.InventedSigners;

/** The examples of the reference page, which is their only place. */
final class Examples {

    static final Path ROOT = Path.of(System.getProperty("steamwright.root", ".."));
    static final Path PAGE = ROOT.resolve("docs/reference/visit-folder.md");

    private Examples() {}

    /** The YAML examples of the page by their names. */
    static Map<String, String> all() throws IOException {
        Map<String, String> examples = new LinkedHashMap<>();
        String page = Files.readString(PAGE);
        int at = page.indexOf("<!-- example: ");
        while (at >= 0) {
            String name = page.substring(at + "<!-- example: ".length(), page.indexOf(" -->", at));
            int from = page.indexOf("```yaml\n", at) + "```yaml\n".length();
            examples.put(name, page.substring(from, page.indexOf("```", from)));
            at = page.indexOf("<!-- example: ", from);
        }
        return examples;
    }

    static String get(String name) throws IOException {
        String example = all().get(name);
        if (example == null) {
            throw new IllegalArgumentException("no example '" + name + "' in " + PAGE);
        }
        return example;
    }

    private static byte[] root() throws IOException {
        try {
            return InventedSigners.certificate("root").getEncoded();
        } catch (GeneralSecurityException e) {
            throw new IOException(e);
        }
    }

    /** The example of the page about the register. */
    static String register() throws IOException {
        String page = Files.readString(ROOT.resolve("docs/reference/instrument-register.md"));
        int from = page.indexOf("```yaml\n") + "```yaml\n".length();
        return page.substring(from, page.indexOf("```", from));
    }

    private static byte[] matrix() throws IOException {
        try (InputStream in = AfterChangeFile.class.getResourceAsStream(AfterChangeFile.SHIPPED)) {
            return in.readAllBytes();
        }
    }

    /** The full example with everything that it names. */
    static VisitFixture full(Path folder) throws IOException {
        return new VisitFixture(folder)
                .yaml(get("full"))
                .file(
                        "certificates/TL-08.xml",
                        new DccSample()
                                .items(DccSample.item("", "SN-2208", "TL-08"))
                                .text())
                .file("trusted/root.crt", root())
                .file("instruments.yaml", register())
                .file("leak.csv", VisitFixture.elapsed("P [kPa]", 5.0))
                .file(
                        "empty.csv",
                        VisitFixture.stamped("02.03.2026", 10, "T1,T2,P", 121.5, 121.4, 206.0)
                                .replace(',', ';')
                                .replaceAll("(\\d)\\.(\\d\\d)(?=[;\n])", "$1,$2")
                                // after ten seconds the chamber is exhausted and dries under vacuum
                                .replaceAll("(:00:1\\d);.*", "$1;95,00;94,90;60,00"))
                .file("load-1.csv", VisitFixture.stamped("2026-03-02", 11, "T1 [°C],P [kPa abs]", 134.5, 310.0))
                .file("load-2.csv", VisitFixture.SIMULATED + VisitFixture.elapsed("T1 [°C],T2 [°C]", 134.2, 134.3))
                .file("our-matrix.yaml", matrix())
                .file("2025-result.json", "{\"inputs\": []}")
                .file("load.jpg", "not really a photo");
    }
}
