package org.steamwright.criteriasets;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSet.CycleLimits;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Use;

/** The pages about criteria, messages and sets against the program. Tables are written with -Dgolden=write. */
class CriteriaDocumentsTest {

    private static final Path DOCS =
            Path.of(System.getProperty("steamwright.root", "..")).resolve("docs");
    private static final Path REFERENCE = DOCS.resolve("reference/criteria-sets.md");
    private static final List<String> HEADINGS = List.of(
            "Question",
            "What is measured",
            "Boundary",
            "Worked example",
            "Invalid or not assessed",
            "Where documents disagree");

    private final Presets presets = new Presets();

    @Test
    void every_criterion_has_its_page_and_every_page_its_criterion() {
        assertThat(pages("criteria", ""))
                .containsExactlyInAnyOrderElementsOf(
                        Stream.of(CriterionId.values()).map(CriterionId::word).toList());
    }

    @ParameterizedTest
    @EnumSource(CriterionId.class)
    void a_page_of_a_criterion_answers_six_questions(CriterionId id) {
        String page = text(DOCS.resolve("criteria/" + id.word() + ".md"));
        assertThat(page).startsWith("# " + id.word() + ": " + id.title() + "\n");
        assertThat(page.lines().filter(line -> line.startsWith("## ")).map(line -> line.substring(3)))
                .containsExactlyElementsOf(HEADINGS);
        assertThat(Arrays.stream(page.split("\n## [^\n]*\n")).skip(1).map(String::strip))
                .allMatch(part -> part.length() > 20, "says something under each heading");
    }

    @ParameterizedTest
    @EnumSource(CriterionId.class)
    void links_of_a_page_lead_to_other_pages(CriterionId id) {
        String page = text(DOCS.resolve("criteria/" + id.word() + ".md"));
        Pattern.compile("\\]\\(([^)]+)\\)")
                .matcher(page)
                .results()
                .forEach(link -> assertThat(DOCS.resolve("criteria").resolve(link.group(1)))
                        .exists());
    }

    @Test
    void every_message_has_its_page_and_every_page_its_message() {
        assertThat(pages("messages", "CRITERIA-"))
                .containsExactlyInAnyOrderElementsOf(Stream.of(CriteriaMessage.values())
                        .map(CriteriaMessage::id)
                        .toList());
    }

    @Test
    void message_ids_count_from_one_without_a_hole() {
        List<String> ids =
                Stream.of(CriteriaMessage.values()).map(CriteriaMessage::id).toList();
        for (int i = 0; i < ids.size(); i++) {
            assertThat(ids.get(i)).isEqualTo(String.format(Locale.ROOT, "CRITERIA-%03d", i + 1));
        }
    }

    @ParameterizedTest
    @EnumSource(CriteriaMessage.class)
    void a_page_of_a_message_shows_it_and_mends_it(CriteriaMessage message) {
        String page = text(DOCS.resolve("messages/" + message.id() + ".md"));
        assertThat(page)
                .startsWith("# " + message.id() + ": ")
                .contains("## What it means", "## How it reads", "## How to mend it", "\n" + message.id() + " ");
    }

    @ParameterizedTest
    @EnumSource(CriteriaMessage.class)
    void a_page_of_a_message_quotes_a_sentence_that_the_program_says(CriteriaMessage message) {
        if (message == CriteriaMessage.UNKNOWN_PRESET || message == CriteriaMessage.PRESET_CHANGED) {
            return; // these two are asserted in CriteriaFileErrorsTest and quoted with shortened hashes
        }
        String page = text(DOCS.resolve("messages/" + message.id() + ".md"));
        assertThat(CriteriaFileErrorsTest.cases().stream().map(CriteriaFileErrorsTest.Refused::message))
                .anyMatch(page::contains);
    }

    @Test
    void the_example_of_the_reference_can_be_read() {
        String page = text(REFERENCE);
        int from = page.indexOf("```yaml\n") + "```yaml\n".length();
        CriteriaSet set = Examples.read(page.substring(from, page.indexOf("```", from)));
        assertThat(set.name()).isEqualTo("mill-lane");
        assertThat(set.find(CriterionId.LEAK_RATE).orElseThrow().limit().orElseThrow())
                .hasToString("≤ 0.08 kPa/min");
    }

    @Test
    void the_tables_of_the_reference_are_those_of_the_program() throws IOException {
        String page = text(REFERENCE);
        String generated = page;
        for (Map.Entry<String, String> table : tables().entrySet()) {
            generated = replaced(generated, table.getKey(), table.getValue());
        }
        if ("write".equals(System.getProperty("golden"))) {
            Files.writeString(REFERENCE, generated);
        } else {
            assertThat(page)
                    .as("docs/reference/criteria-sets.md is out of date; write it with -Dgolden=write")
                    .isEqualTo(generated);
        }
    }

    private Map<String, String> tables() {
        Map<String, String> tables = new LinkedHashMap<>();
        tables.put("limits", limits());
        tables.put("presets", sideBySide());
        tables.put("sources", sources());
        return tables;
    }

    private static String replaced(String page, String name, String table) {
        String begin = "<!-- generated: " + name + " -->\n";
        int from = page.indexOf(begin) + begin.length();
        assertThat(from).as("mark " + name).isGreaterThan(begin.length());
        return page.substring(0, from) + table + page.substring(page.indexOf("<!-- end -->", from));
    }

    private static String limits() {
        StringBuilder table =
                new StringBuilder("| criterion | limit | unit | where it is stated |\n|---|---|---|---|\n");
        for (CriterionId id : CriterionId.values()) {
            CriterionShape shape = CriterionShape.of(id);
            boolean isOwn = shape.isStatedInEntry();
            String keys = isOwn
                    ? "`" + shape.key() + "`"
                            + shape.second()
                                    .map(second -> ", `" + second.key() + "`")
                                    .orElse("")
                    : shape.origin() == CriterionShape.Origin.NONE
                            ? "–"
                            : shape.comparison().sign();
            String unit = shape.origin() == CriterionShape.Origin.NONE
                    ? "–"
                    : shape.unit().symbol().isEmpty()
                            ? "count"
                            : shape.unit().symbol()
                                    + shape.second()
                                            .filter(second -> second.unit() != shape.unit())
                                            .map(second -> ", " + second.unit().symbol())
                                            .orElse("");
            table.append("| [%s](../criteria/%s.md) | %s | %s | %s |\n"
                    .formatted(id.word(), id.word(), keys, unit, shape.origin().words()));
        }
        return table.toString();
    }

    private String sideBySide() {
        List<CriteriaSet> sets = presets.names().stream().map(presets::get).toList();
        StringBuilder table = new StringBuilder();
        row(table, "", sets.stream().map(CriteriaSet::name).toList());
        table.append("|---".repeat(sets.size() + 1)).append("|\n");
        row(table, "version", sets.stream().map(CriteriaSet::version).toList());
        row(
                table,
                "SHA-256 begins",
                sets.stream().map(set -> set.sha256().substring(0, 12)).toList());
        row(table, "formula", sets.stream().map(set -> set.curve().id()).toList());
        row(
                table,
                "theoretical temperature in band",
                sets.stream()
                        .map(set -> set.isTheoreticalInBand() ? "yes" : "no")
                        .toList());
        row(
                table,
                "revalidation",
                sets.stream()
                        .map(set -> set.revalidation()
                                .map(months -> months + " months")
                                .orElse("not stated"))
                        .toList());
        row(
                table,
                "consecutive runs",
                sets.stream().map(set -> String.valueOf(set.consecutiveRuns())).toList());
        TreeSet<Double> temperatures = sets.stream()
                .flatMap(set -> set.cycles().stream())
                .map(CycleLimits::sterilizingCelsius)
                .collect(Collectors.toCollection(TreeSet::new));
        for (double celsius : temperatures.descendingSet()) {
            row(
                    table,
                    "%d °C".formatted((int) celsius),
                    sets.stream()
                            .map(set -> set.findCycle(celsius)
                                    .map(CriteriaDocumentsTest::cycle)
                                    .orElse("–"))
                            .toList());
        }
        for (CriterionId id : CriterionId.values()) {
            row(
                    table,
                    "[%s](../criteria/%s.md)".formatted(id.word(), id.word()),
                    sets.stream().map(set -> cell(set, id)).toList());
        }
        return table.toString();
    }

    private static String cycle(CycleLimits cycle) {
        return cycle.holdingTime()
                + cycle.bandWidth()
                        .map(width -> ", band " + width.toString().substring(2))
                        .orElse("");
    }

    private static String cell(CriteriaSet set, CriterionId id) {
        Optional<Requirement> asked = set.find(id);
        if (asked.isEmpty()) {
            return "–";
        }
        Requirement requirement = asked.get();
        List<String> parts = new ArrayList<>();
        requirement.limit().map(Limit::toString).ifPresent(parts::add);
        requirement
                .secondLimit()
                .map(second ->
                        CriterionShape.of(id).second().orElseThrow().key().replaceFirst("-at-(most|least)", "") + " "
                                + second)
                .ifPresent(parts::add);
        CriterionShape.Origin origin = CriterionShape.of(id).origin();
        if (origin == CriterionShape.Origin.CYCLE_TABLE || origin == CriterionShape.Origin.CYCLE_DEFINITION) {
            parts.add("by cycle");
        }
        if (requirement.rule() != DecisionRule.SIMPLE) {
            parts.add(requirement.rule().word());
        }
        String limits = String.join(", ", parts);
        return (limits.isEmpty() ? "" : limits + " ") + "("
                + requirement.use().word().charAt(0) + ")";
    }

    private String sources() {
        StringBuilder table = new StringBuilder(
                "| set | value | limit | source | how obtained | sure |\n|---|---|---|---|---|---|\n");
        for (CriteriaSet set : presets.names().stream().map(presets::get).toList()) {
            for (CycleLimits cycle : set.cycles()) {
                String celsius = "%d °C".formatted((int) cycle.sterilizingCelsius());
                source(
                        table,
                        set,
                        celsius + ", holding time",
                        cycle.holdingTime().toString(),
                        cycle.holdingTime().source());
                cycle.bandWidth()
                        .ifPresent(width ->
                                source(table, set, celsius + ", band width", width.toString(), width.source()));
            }
            for (CriterionId id : CriterionId.values()) {
                set.find(id)
                        .filter(asked ->
                                asked.use() == Use.DECIDES && asked.limit().isPresent())
                        .ifPresent(asked -> source(
                                table,
                                set,
                                id.word(),
                                asked.limit().orElseThrow()
                                        + asked.secondLimit()
                                                .map(second -> "; " + second)
                                                .orElse(""),
                                asked.source()));
            }
        }
        return table.toString();
    }

    private static void source(StringBuilder table, CriteriaSet set, String value, String limit, Source source) {
        table.append("| %s | %s | %s | %s | %s | %s |\n"
                .formatted(
                        set.name(),
                        value,
                        limit,
                        source.citation(),
                        source.provenance().words(),
                        CriteriaFile.word(source.confidence())));
    }

    private static void row(StringBuilder table, String head, List<String> cells) {
        table.append("| ")
                .append(head)
                .append(" | ")
                .append(String.join(" | ", cells))
                .append(" |\n");
    }

    private static List<String> pages(String folder, String prefix) {
        try (Stream<Path> files = Files.list(DOCS.resolve(folder))) {
            return files.map(file -> file.getFileName().toString())
                    .filter(name -> name.endsWith(".md") && name.startsWith(prefix))
                    .map(name -> name.substring(0, name.length() - ".md".length()))
                    .toList();
        } catch (IOException problem) {
            throw new UncheckedIOException(problem);
        }
    }

    private static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException problem) {
            throw new UncheckedIOException(problem);
        }
    }
}
