package org.steamwright.records.store;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.steamwright.records.Kind;
import org.steamwright.records.Use;
import org.steamwright.records.json.JsonText;

/**
 * Which facts can be searched for, and which say that something was used. The only place where the record looks into a
 * fact; what stands in no row is kept and not found by its words.
 */
final class SearchTable {

    /** Number of this table; another table gets another number, and old stores are indexed again. */
    static final int VERSION = 6;

    private enum How {
        /** Each word of the text. */
        WORDS,
        /** The text as a whole, without punctuation, and its words. */
        NUMBER,
        /** A use: found by reverse look-up only. */
        USE
    }

    private record Rule(Set<Kind> kinds, String property, How how, Optional<Use> use) {

        boolean isFor(Kind kind, String path) {
            return kinds.contains(kind) && (property.endsWith("/") ? path.startsWith(property) : path.equals(property));
        }
    }

    private static Rule words(String property, Kind... kinds) {
        return new Rule(Set.of(kinds), property, How.WORDS, Optional.empty());
    }

    private static Rule number(String property, Kind... kinds) {
        return new Rule(Set.of(kinds), property, How.NUMBER, Optional.empty());
    }

    private static Rule use(Use use, String property, Kind... kinds) {
        return new Rule(Set.of(kinds), property, How.USE, Optional.of(use));
    }

    /** Facts that name rooms. */
    static final List<String> OF_ROOMS = List.of("stated/sites", "stated/room", "stated/movements");

    private static final List<Rule> RULES = List.of(
            number(
                    "name",
                    Kind.CLINIC,
                    Kind.SITE,
                    Kind.STERILIZER,
                    Kind.TECHNICIAN,
                    Kind.INSTRUMENT,
                    Kind.LOT,
                    Kind.PART,
                    Kind.BATCH),
            words("address", Kind.CLINIC, Kind.SITE),
            words("clinic-name", Kind.STERILIZER, Kind.VISIT, Kind.ISSUE, Kind.NONCONFORMITY),
            words("maker", Kind.STERILIZER, Kind.INSTRUMENT),
            words("model", Kind.STERILIZER, Kind.INSTRUMENT),
            words("standing", Kind.ISSUE),
            number("serial", Kind.STERILIZER, Kind.INSTRUMENT, Kind.VISIT, Kind.ISSUE),
            number(
                    "number",
                    Kind.CLINIC,
                    Kind.STERILIZER,
                    Kind.INSTRUMENT,
                    Kind.LOT,
                    Kind.PART,
                    Kind.VISIT,
                    Kind.ISSUE,
                    Kind.NONCONFORMITY,
                    Kind.BATCH),
            number("date", Kind.VISIT, Kind.ISSUE, Kind.NONCONFORMITY),
            use(Use.CLINIC, "clinic", Kind.SITE, Kind.STERILIZER, Kind.VISIT, Kind.NONCONFORMITY),
            use(Use.SITE, "site", Kind.STERILIZER, Kind.VISIT),
            use(Use.STERILIZER, "sterilizer", Kind.VISIT, Kind.ISSUE, Kind.NONCONFORMITY),
            use(Use.TECHNICIAN, "technicians", Kind.VISIT, Kind.ISSUE),
            use(Use.INSTRUMENT, "instruments", Kind.VISIT, Kind.ISSUE),
            use(Use.LOT, "lots", Kind.VISIT, Kind.ISSUE),
            use(Use.PART, "parts", Kind.VISIT, Kind.ISSUE),
            use(Use.CRITERIA_SET, "criteria-set", Kind.VISIT, Kind.ISSUE),
            use(Use.ALGORITHM_VERSION, "algorithm-version", Kind.VISIT, Kind.ISSUE),
            use(Use.VISIT, "visit", Kind.ISSUE, Kind.NONCONFORMITY),
            use(Use.SIMULATED, "simulated", Kind.VISIT),
            use(Use.STANDING, "standing", Kind.ISSUE),
            use(Use.AMENDED, "amends", Kind.VISIT, Kind.ISSUE),
            use(Use.ROOM, "stated/sites", Kind.CLINIC),
            use(Use.ROOM, "stated/room", Kind.STERILIZER),
            use(Use.ROOM, "stated/movements", Kind.STERILIZER),
            use(Use.SIGNED_WITH, "signature", Kind.ISSUE),
            use(Use.SIGNED_WITH, "receipt", Kind.VISIT),
            use(Use.BEARS, "keys/", Kind.TECHNICIAN),
            use(Use.FILE, "files/", Kind.values()));

    /** Rooms of a site, and where a movement led. */
    private static final List<String> ROOM_MEMBERS = List.of("rooms", "to");

    /** A use as it stands in the index. */
    record UsedKey(Use use, String folded) {}

    private SearchTable() {}

    /** Words by which the fact is found. */
    static Set<String> words(Kind kind, String property, JsonText value) {
        Set<String> words = new LinkedHashSet<>();
        for (Rule rule : RULES) {
            if (rule.how != How.USE && rule.isFor(kind, property)) {
                for (String text : texts(value)) {
                    words.addAll(Folding.words(text));
                    if (rule.how == How.NUMBER && !Folding.whole(text).isEmpty()) {
                        words.add(Folding.whole(text));
                    }
                }
            }
        }
        return words;
    }

    /** What the fact says was used. */
    static Set<UsedKey> uses(Kind kind, String property, JsonText value) {
        Set<UsedKey> uses = new LinkedHashSet<>();
        for (Rule rule : RULES) {
            if (rule.how == How.USE && rule.isFor(kind, property)) {
                for (String text : used(rule.use.orElseThrow(), property, value)) {
                    String folded = Folding.whole(text);
                    if (!folded.isEmpty()) {
                        uses.add(new UsedKey(rule.use.orElseThrow(), folded));
                    }
                }
            }
        }
        return uses;
    }

    private static List<String> used(Use use, String property, JsonText value) {
        return switch (use) {
            case ROOM -> rooms(value);
            case SIGNED_WITH -> keys(value);
            case BEARS ->
                value.isNull() || value.node().has("until")
                        ? List.of()
                        : List.of(Use.IN_USE, property.substring(property.indexOf('/') + 1));
            default -> texts(value);
        };
    }

    /** Key of a signature, and of a receipt that somebody signed. */
    private static List<String> keys(JsonText value) {
        if (value.isNull()) {
            return List.of();
        }
        JsonNode node = value.node();
        return Stream.of(
                        node.path("keyId"),
                        node.path("document").path("signedBy").path("keyId"))
                .filter(JsonNode::isTextual)
                .map(JsonNode::asText)
                .toList();
    }

    private static List<String> texts(JsonText value) {
        List<String> texts = new ArrayList<>();
        if (!value.isNull()) {
            collect(value.node(), texts);
        }
        return texts;
    }

    /** A text stands for itself, a list for its elements, an object for its id or its hash. */
    private static void collect(JsonNode node, List<String> texts) {
        if (node.isArray()) {
            node.forEach(element -> collect(element, texts));
        } else if (node.isObject()) {
            for (String name : List.of("id", "sha256")) {
                JsonNode member = node.get(name);
                if (member != null) {
                    texts.add(member.asText());
                }
            }
        } else if (!node.isNull()) {
            texts.add(node.asText());
        }
    }

    /** Ids of rooms: a text is one, of sites those of their rooms, of movements those that they led to. */
    private static List<String> rooms(JsonText value) {
        List<String> rooms = new ArrayList<>();
        if (value.isNull()) {
            return rooms;
        }
        JsonNode node = value.node();
        if (!node.isArray()) {
            return texts(value);
        }
        for (JsonNode element : node) {
            for (String name : ROOM_MEMBERS) {
                JsonNode member = element.path(name);
                if (member.isTextual()) {
                    rooms.add(member.asText());
                }
                member.forEach(room -> rooms.add(room.path("id").asText()));
            }
        }
        return rooms;
    }
}
