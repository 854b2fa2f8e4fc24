package org.steamwright.records.retention;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;

/** Works out until when a record has to be kept. Nothing is ever deleted by it. */
public final class Retention {

    /** Fact that keeps a subject without end, whatever the rules say; its value is the reason. */
    public static final String LEGAL_HOLD = "legal-hold";

    private static final String RESOURCE = "retention.json";

    private final List<RetentionRule> rules;

    private Retention(List<RetentionRule> rules) {
        this.rules = List.copyOf(rules);
    }

    /** The rules that come with the program. */
    public static Retention standard() {
        try (InputStream in = Retention.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException(RESOURCE + " is missing from the program");
            }
            return of(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Rules of one's own.
     *
     * @param json a list of objects with id, where, years, from (last-entry or end-of-life), source and certainty
     * @throws IllegalArgumentException if a member is missing, with the place
     */
    public static Retention of(String json) {
        List<RetentionRule> rules = new ArrayList<>();
        for (JsonNode node : JsonText.parse(json).node()) {
            String place = "retention rule " + (rules.size() + 1) + ": ";
            int years = node.path("years").asInt();
            if (years < 1) {
                throw new IllegalArgumentException(place + "'years' is a whole number from 1 on");
            }
            rules.add(new RetentionRule(
                    text(node, "id", place),
                    text(node, "where", place),
                    years,
                    RetentionRule.Start.valueOf(
                            text(node, "from", place).toUpperCase(Locale.ROOT).replace('-', '_')),
                    text(node, "source", place),
                    text(node, "certainty", place)));
        }
        return new Retention(rules);
    }

    private static String text(JsonNode node, String name, String place) {
        String text = node.path(name).asText();
        if (text.isBlank()) {
            throw new IllegalArgumentException(place + "'" + name + "' is missing");
        }
        return text;
    }

    /** All rules. */
    public List<RetentionRule> rules() {
        return rules;
    }

    /**
     * How long to keep.
     *
     * @param until last day, included; empty for without end
     * @param reason the rule that asks for most, or the hold
     */
    public record Keep(Optional<LocalDate> until, String reason) {}

    /**
     * Until when a record has to be kept: the longest of the rules.
     *
     * @param ids rules that apply; none means without end, since nobody has said which apply
     * @param lastEntry day of the last entry
     * @param endOfLife day on which the equipment was taken out of use for good; empty if it is in use, and then a rule that
     *     counts from there has no end yet
     * @throws IllegalArgumentException if an id is not in the list
     */
    public Keep keep(List<String> ids, LocalDate lastEntry, Optional<LocalDate> endOfLife) {
        if (ids.isEmpty()) {
            return new Keep(Optional.empty(), "no rule was chosen");
        }
        Keep longest = new Keep(Optional.of(LocalDate.MIN), "");
        for (String id : ids) {
            RetentionRule rule = rules.stream()
                    .filter(candidate -> candidate.id().equals(id))
                    .findFirst()
                    .orElseThrow(() -> new IllegalArgumentException("no retention rule is called '%s'; there are %s"
                            .formatted(id, rules.stream().map(RetentionRule::id).toList())));
            Optional<LocalDate> start =
                    rule.from() == RetentionRule.Start.LAST_ENTRY ? Optional.of(lastEntry) : endOfLife;
            String reason = "%s: %s years from %s (%s)"
                    .formatted(
                            rule.where(),
                            rule.years(),
                            rule.from() == RetentionRule.Start.LAST_ENTRY ? "the last entry" : "the end of its life",
                            rule.source());
            if (start.isEmpty()) {
                return new Keep(Optional.empty(), reason);
            }
            LocalDate until = start.get().plusYears(rule.years());
            if (until.isAfter(longest.until().orElse(LocalDate.MAX))) {
                longest = new Keep(Optional.of(until), reason);
            }
        }
        return longest;
    }

    /** The same for a subject of the record, counted from its last entry; a legal hold has no end. */
    public Keep keep(Records records, SubjectId id, List<String> ids, Optional<LocalDate> endOfLife) {
        Subject subject = records.subject(id);
        if (subject.fact(LEGAL_HOLD).isPresent()) {
            return new Keep(Optional.empty(), "legal hold: " + subject.text(LEGAL_HOLD));
        }
        LocalDate last = records.history(id).stream()
                .map(entry -> entry.at().atOffset(entry.offset()).toLocalDate())
                .max(LocalDate::compareTo)
                .orElseThrow();
        return keep(ids, last, endOfLife);
    }
}
