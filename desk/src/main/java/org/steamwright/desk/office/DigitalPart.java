package org.steamwright.desk.office;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.servlet.http.Part;
import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.filing.RegisterEntries.Complaint;
import org.steamwright.filing.RegisterEntries.Refused;
import org.steamwright.records.proof.Hash;

/**
 * The part of an instrument's form in which the file of a digital certificate is put in, and said what the file leaves open.
 *
 * @param held name of the file that the entry has; blank if it has none
 * @param said what is said about it, by key
 * @param complaint why it can't be used
 */
public record DigitalPart(String held, Map<String, String> said, Optional<Told> complaint) {

    /** Under which the file is sent. */
    private static final String FILE = "certificate-file";

    private static final String CERTIFICATE = "certificate";
    /** Fields that nothing but a file has. */
    private static final Set<String> OWN = Set.of(FILE, "certificate/file", "certificate/item", "certificate/result");

    private static final List<String> KEYS = List.of("due-on", "item", "result");
    private static final int LARGEST = 10_000_000;
    private static final int MARK = 8;
    private static final int LONGEST = 60;

    public DigitalPart {
        said = Map.copyOf(said);
    }

    /** What is said under a key; blank if nothing is. */
    public String of(String key) {
        return said.getOrDefault(key, "");
    }

    /** Whether what a file may leave open is shown: there is a file, or it can't be used. */
    public boolean isOpen() {
        return !held.isBlank() || complaint.isPresent();
    }

    static DigitalPart of(ObjectNode entry, List<Complaint> complaints, Function<Complaint, Told> told) {
        Map<String, String> said = new TreeMap<>();
        boolean isFile = entry.path(CERTIFICATE).has("file");
        for (String key : KEYS) {
            if (isFile) {
                said.put(key, entry.path(CERTIFICATE).path(key).asText());
            }
        }
        List<Told> all = complaints.stream()
                .filter(one ->
                        OWN.contains(one.field()) || (isFile && (one.field() + "/").startsWith(CERTIFICATE + "/")))
                .map(told)
                .toList();
        return new DigitalPart(
                isFile ? entry.path(CERTIFICATE).path("file").asText() : "",
                said,
                all.isEmpty()
                        ? Optional.empty()
                        : Optional.of(new Told(
                                all.stream().map(Told::text).collect(Collectors.joining(" ")),
                                all.stream().anyMatch(Told::isEnglish))));
    }

    /**
     * Puts what was sent into the entry: a file in the place of what was typed of the certificate.
     *
     * @return the file by the name by which the entry names it; empty if none was sent
     */
    static NavigableMap<String, byte[]> take(Ask ask, ObjectNode entry) throws IOException, Refused {
        NavigableMap<String, byte[]> files = new TreeMap<>();
        Optional<Part> sent =
                ask.files(FILE).stream().filter(part -> part.getSize() > 0).findFirst();
        ObjectNode certificate = JsonNodeFactory.instance.objectNode();
        if (sent.isPresent()) {
            if (sent.get().getSize() > LARGEST) {
                throw Refused.of(FILE, "office.digital-large");
            }
            byte[] bytes;
            try (InputStream in = sent.get().getInputStream()) {
                bytes = in.readAllBytes();
            }
            String name = name(sent.get().getSubmittedFileName(), Hash.ofContent(bytes));
            files.put(name, bytes);
            certificate.put("file", name);
        } else if (entry.path(CERTIFICATE).has("file")) {
            certificate.put("file", entry.path(CERTIFICATE).path("file").asText());
        } else {
            return files;
        }
        String typedDay = entry.path(CERTIFICATE).path("due-on").asText();
        for (String key : KEYS) {
            String text = ask.typed("digital-" + key);
            String usual = key.equals("due-on") && !entry.path(CERTIFICATE).has("file") ? typedDay : "";
            if (!text.isBlank() || !usual.isBlank()) {
                certificate.put(key, text.isBlank() ? usual : text);
            }
        }
        entry.set(CERTIFICATE, certificate);
        return files;
    }

    /** One file has one name, and another file another one, so that those of several instruments can lie side by side. */
    private static String name(String submitted, Hash hash) {
        String last = submitted.replace('\\', '/');
        String bare = last.substring(last.lastIndexOf('/') + 1)
                .replaceFirst("(?i)\\.xml$", "")
                .replaceAll("[^\\p{L}\\p{N}._-]+", "-")
                .replaceFirst("^[.-]+", "");
        String shortened = bare.length() > LONGEST ? bare.substring(0, LONGEST) : bare;
        return "certificates/" + shortened + "-" + hash.hex().substring(0, MARK) + ".xml";
    }
}
