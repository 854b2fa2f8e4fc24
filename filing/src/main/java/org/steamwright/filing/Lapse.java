package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.intake.register.RegisterFile;
import org.steamwright.records.Subject;
import org.steamwright.records.json.JsonText;
import org.steamwright.visit.due.Due;
import org.steamwright.visit.due.DueList;
import org.steamwright.visit.due.DueRules;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Register;

/**
 * Something that the office has and that ends: a calibration, a lot, a competence. What took its place, and what is in quarantine
 * without an end, ends no more.
 *
 * @param of what it is
 * @param name id of an instrument, number of a lot, name of a person
 * @param what ends, in words
 * @param day last day, in it; empty if the entry does not state it, as where it stands in the certificate's own file
 */
public record Lapse(Of of, String name, String what, Optional<LocalDate> day) {

    /** What ends. */
    public enum Of {
        CALIBRATION,
        CALIBRATION_OF_TESTER,
        LOT,
        COMPETENCE
    }

    private static final String CALIBRATION = "Calibration";

    /** Read once; for machines, of which there are none here. */
    private static final class Shipped {
        private static final DueRules RULES = DataFiles.dueRules();
    }

    /** What of a subject ends, the earliest first and what states no day before all. */
    public static List<Lapse> of(Subject subject) {
        Map<String, Object> entry = RegisterReading.statedEntry(subject);
        if (entry.isEmpty()) {
            return List.of();
        }
        List<Lapse> lapses = switch (subject.kind()) {
            case LOT -> ofList(Shelf.LOTS, entry);
            case TECHNICIAN -> ofList(Shelf.TECHNICIANS, entry);
            case INSTRUMENT -> Shelf.INSTRUMENTS.holds(entry) ? instrument(entry) : ofList(Shelf.TESTERS, entry);
            default -> List.of();
        };
        return lapses.stream()
                .sorted(Comparator.comparing(one -> one.day().orElse(LocalDate.MIN)))
                .toList();
    }

    private static List<Lapse> ofList(Shelf shelf, Map<String, Object> entry) {
        try {
            Register register = RegisterFile.read(
                    JsonText.of(Map.of(
                                    RegisterReading.VERSION_KEY,
                                    String.valueOf(RegisterFile.FORMAT_VERSION),
                                    shelf.key(),
                                    List.of(entry)))
                            .text()
                            .getBytes(StandardCharsets.UTF_8),
                    RegisterFile.FILE_NAME);
            List<Lapse> lapses = new ArrayList<>();
            for (Lot lot : register.lots()) {
                lapses.add(new Lapse(Of.LOT, lot.number(), lot.kind().words(), Optional.of(lot.expires())));
            }
            for (Due due : DueList.of(register, Shipped.RULES, LocalDate.MAX)) {
                lapses.add(new Lapse(
                        due.subject().kind() == Due.Subject.Kind.TECHNICIAN ? Of.COMPETENCE : Of.CALIBRATION_OF_TESTER,
                        due.subject().kind() == Due.Subject.Kind.TECHNICIAN
                                ? due.subject().title()
                                : due.subject().id(),
                        due.title(),
                        due.day()));
            }
            return lapses;
        } catch (RegisterException | IllegalArgumentException unreadable) {
            // whoever opens the entry is told why; the record keeps what it was given
            return List.of();
        }
    }

    /** The certificate that was made last decides; points and files are of no account here. */
    private static List<Lapse> instrument(Map<String, Object> entry) {
        boolean isOut = nodes(entry, "quarantine").anyMatch(one -> !one.has("until"));
        if (isOut) {
            return List.of();
        }
        Optional<JsonNode> last = Stream.concat(nodes(entry, "certificates"), nodes(entry, "certificate"))
                .filter(JsonNode::isObject)
                .reduce((one, other) -> madeOn(other).compareTo(madeOn(one)) < 0 ? one : other);
        return List.of(new Lapse(
                Of.CALIBRATION,
                entry.get("id") instanceof JsonNode id ? id.asText() : "",
                CALIBRATION,
                last.flatMap(one -> day(one.path("due-on").asText()))));
    }

    /** One that states no day is of a file, and stands where it was put: behind those before it. */
    private static String madeOn(JsonNode certificate) {
        return certificate.has("calibrated-on")
                ? certificate.path("calibrated-on").asText()
                : "9999";
    }

    private static Stream<JsonNode> nodes(Map<String, Object> entry, String key) {
        if (!(entry.get(key) instanceof JsonNode node)) {
            return Stream.of();
        }
        List<JsonNode> nodes = new ArrayList<>();
        if (node.isArray()) {
            node.forEach(nodes::add);
        } else {
            nodes.add(node);
        }
        return nodes.stream();
    }

    private static Optional<LocalDate> day(String text) {
        try {
            return Optional.of(LocalDate.parse(text));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }
}
