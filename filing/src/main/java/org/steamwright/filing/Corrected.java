package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.proof.Hash;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.report.document.Issued.Difference;
import org.steamwright.visit.qualification.Qualification;

/**
 * What a correction changes against the issue that it takes the place of: what was signed then beside what stands now, result by
 * result, fact by fact and file by file. Nobody types it.
 */
public final class Corrected {

    private static final int HASH_SHOWN = 16;
    private static final String WHOLE = "The visit as a whole";

    private final Records records;
    private final Issues issues;

    /** @param records opened */
    public Corrected(Records records) {
        this.records = records;
        this.issues = new Issues(records);
    }

    /** The issue that a visit corrects; empty if it corrects none. */
    public Optional<Issue> corrects(Subject visit) {
        return visit.fact("amends")
                .map(amends -> SubjectId.parse(amends.node().path("id").asText()))
                .flatMap(records::find)
                .map(Issue::of);
    }

    /**
     * The differences, those of results first; none if the visit corrects nothing.
     *
     * @param now result as it was signed, or as it would be; empty if nothing follows from the visit yet, then facts alone are told
     */
    public List<Difference> differences(Subject visit, Optional<JsonText> now) {
        Optional<Issue> corrected = corrects(visit);
        if (corrected.isEmpty()) {
            return List.of();
        }
        List<Difference> differences = new ArrayList<>();
        JsonNode then = issues.document(corrected.get()).node().path("result");
        now.ifPresent(result -> results(then, result.node(), differences));
        Subject before = records.subject(corrected.get().visit());
        facts(Draft.tree(before), Draft.tree(visit), differences);
        files(before, visit, differences);
        return together(differences);
    }

    /** The result of a visit as it was signed; empty if it is not signed. */
    public Optional<JsonText> signedResult(StatedVisit stated) {
        return stated.issue()
                .map(issue -> JsonText.of(issues.document(issue).node().path("result")));
    }

    private static void results(JsonNode then, JsonNode now, List<Difference> differences) {
        differ(
                true,
                List.of(WHOLE),
                word(then.path("answer").path("standing")),
                word(now.path("answer").path("standing")),
                differences);
        Map<List<String>, List<String>> before = answers(then);
        Map<List<String>, List<String>> after = answers(now);
        Set<List<String>> places = new LinkedHashSet<>(before.keySet());
        places.addAll(after.keySet());
        places.forEach(place -> differ(
                true, place, before.getOrDefault(place, List.of()), after.getOrDefault(place, List.of()), differences));
        List<String> openThen = texts(then.path("answer").path("openPoints"));
        List<String> openNow = texts(now.path("answer").path("openPoints"));
        openThen.stream()
                .filter(point -> !openNow.contains(point))
                .forEach(point -> differ(true, List.of("open point"), List.of(point), List.of(), differences));
        openNow.stream()
                .filter(point -> !openThen.contains(point))
                .forEach(point -> differ(true, List.of("open point"), List.of(), List.of(point), differences));
    }

    /** What a result says of each qualification, of each run and of each criterion, by the place. */
    private static Map<List<String>, List<String>> answers(JsonNode result) {
        Map<List<String>, List<String>> answers = new LinkedHashMap<>();
        Map<String, String> serials = new LinkedHashMap<>();
        result.path("visit")
                .path("sterilizers")
                .forEach(one ->
                        serials.put(one.path("key").asText(), one.path("serial").asText()));
        answers.put(
                List.of("valid until"),
                filled(result.path("answer").path("validUntil").asText("")));
        result.path("answer")
                .path("qualifiedCycles")
                .forEach(cycle -> answers.put(List.of(cycle.asText(), "qualified cycle"), List.of("qualified")));
        for (JsonNode one : result.path("qualifications")) {
            answers.put(
                    List.of(
                            "steriliser "
                                    + serials.getOrDefault(
                                            one.path("sterilizer").asText(),
                                            one.path("sterilizer").asText()),
                            one.path("cycle").asText(),
                            title(one.path("kind").asText())),
                    sentence(one.path("standing"), one.path("sentence")));
        }
        for (JsonNode run : result.path("runs")) {
            String number = "run " + run.path("number").asText();
            JsonNode verdict = run.path("verdict").path("inForce");
            answers.put(
                    List.of(number, "verdict"),
                    run.path("isAwaited").asBoolean()
                            ? List.of("awaited")
                            : sentence(verdict.path("outcome"), verdict.path("cause")));
            for (String list : List.of("findings", "loadFindings")) {
                for (JsonNode finding : run.path(list)) {
                    answers.put(
                            List.of(number, finding.path("title").asText()),
                            sentence(finding.path("outcome"), finding.path("sentence")));
                }
            }
        }
        return answers;
    }

    private static String title(String kind) {
        for (Qualification.Kind one : Qualification.Kind.values()) {
            if (one.name().equalsIgnoreCase(kind)) {
                return one.title();
            }
        }
        return kind;
    }

    private static List<String> sentence(JsonNode outcome, JsonNode sentence) {
        List<String> said = new ArrayList<>(word(outcome));
        said.addAll(filled(sentence.asText("")));
        return said;
    }

    private static List<String> word(JsonNode word) {
        return filled(word.asText("").replace('-', ' '));
    }

    private static List<String> filled(String text) {
        return text.isBlank() ? List.of() : List.of(text);
    }

    private static List<String> texts(JsonNode list) {
        List<String> texts = new ArrayList<>();
        list.forEach(one -> texts.add(one.asText()));
        return texts;
    }

    private static void facts(FactTree before, FactTree after, List<Difference> differences) {
        for (ChangedFact change : FactTree.differences(before, after)) {
            differ(
                    false,
                    PlaceWords.parts(change.path()),
                    change.before().map(Corrected::value).orElse(List.of()),
                    change.after().map(Corrected::value).orElse(List.of()),
                    differences);
        }
    }

    /** A text as it was stated; of an entry each of its texts behind its place. */
    private static List<String> value(Object value) {
        List<String> texts = new ArrayList<>();
        collect("", value, texts);
        return texts;
    }

    private static void collect(String at, Object value, List<String> texts) {
        if (value instanceof Map<?, ?> map) {
            map.forEach((key, one) ->
                    collect((at.isEmpty() ? "" : at + ", ") + PlaceWords.spelled(String.valueOf(key)), one, texts));
        } else if (value instanceof List<?> list) {
            list.forEach(one -> collect(at, one, texts));
        } else {
            String text = stated(String.valueOf(value));
            texts.add(at.isEmpty() ? text : at + ": " + text);
        }
    }

    /** Words of a choice are kept with hyphens between them. */
    private static String stated(String text) {
        return text.matches("[a-z]+(-[a-z]+)+") ? text.replace('-', ' ') : text;
    }

    private static void files(Subject before, Subject after, List<Difference> differences) {
        Map<String, Hash> then = VisitFiles.of(before);
        Map<String, Hash> now = VisitFiles.of(after);
        Set<String> names = new TreeSet<>(then.keySet());
        names.addAll(now.keySet());
        names.remove(Filing.VISIT_FILE);
        for (String name : names) {
            differ(
                    false,
                    List.of(name, "file"),
                    shown(Optional.ofNullable(then.get(name))),
                    shown(Optional.ofNullable(now.get(name))),
                    differences);
        }
    }

    private static List<String> shown(Optional<Hash> hash) {
        return hash.map(one -> List.of("SHA-256 " + one.hex().substring(0, HASH_SHOWN) + "…"))
                .orElse(List.of());
    }

    private static void differ(
            boolean isResult,
            List<String> place,
            List<String> before,
            List<String> after,
            List<Difference> differences) {
        if (!Objects.equals(before, after)) {
            differences.add(new Difference(isResult, List.of(place), before, after));
        }
    }

    /** What changed in the same way at several places is told once. */
    private static List<Difference> together(List<Difference> differences) {
        record Change(boolean isResult, String innermost, List<String> before, List<String> after) {}
        Map<Change, List<List<String>>> changes = new LinkedHashMap<>();
        for (Difference one : differences) {
            List<String> place = one.places().get(0);
            changes.computeIfAbsent(
                            new Change(one.isResult(), place.get(place.size() - 1), one.before(), one.after()),
                            change -> new ArrayList<>())
                    .add(place);
        }
        return changes.entrySet().stream()
                .map(change -> new Difference(
                        change.getKey().isResult(),
                        change.getValue(),
                        change.getKey().before(),
                        change.getKey().after()))
                .toList();
    }
}
