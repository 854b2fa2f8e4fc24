package org.steamwright.report.language;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The catalogues against each other and against the sources of what they say. */
class CatalogueTest {

    private static final Pattern PLACE = Pattern.compile("%(?:(\\d+)\\$)?[sdw]");

    /** Places of a sentence in the sources, and what parts sentences. */
    private static final Pattern BETWEEN = Pattern.compile("%[-+#0-9.$]*[a-zA-Z]|%%|(?<=[.!?;:]) ");

    /** What stands behind this is to be typed as it stands. */
    private static final Pattern TO_TYPE = Pattern.compile("(?<=Add a line like: )(?!%).*");

    /** How a row of the matrix tells its source. */
    private static final Pattern WITH_SOURCE = Pattern.compile(" \\(%s; %s\\)$");

    private static final Pattern LETTERS = Pattern.compile("[a-z]{2}");

    /** A piece of a sentence that is shorter may be anything. */
    private static final int LETTERS_OF_A_PIECE = 12;

    /** A phrase with fewer words in a row is glued together in too many ways to be looked for. */
    private static final int ROWS_TO_JUDGE = 3;

    /** Statements that speak to programmers, to files or to machines. */
    private static final Pattern NOT_FOR_READERS = Pattern.compile(
            "\\bthrow |Exception\\(|@SuppressWarnings|requireNonNull|\\.matches\\(|Pattern\\.compile|ofPattern|Ids\\."
                    + "|\\bsay\\(\\s*Says\\."); // words that people type as results of checks

    /** Refusals of a file are thrown, and said to people; what XML and checks of arguments throw is not. */
    private static final Pattern NOT_OF_READING = Pattern.compile("@SuppressWarnings|requireNonNull|\\.matches\\("
            + "|Pattern\\.compile|ofPattern|IllegalArgumentException\\(|IllegalStateException\\(|XMLStreamException\\("
            + "|SAXException\\(|IOException\\(\"|super\\(\"|\\.needText\\(|\\.need\\(|-> true|SIMULATED_MARK"
            + "|EXAMPLE|needed\\(|noVisit\\(|case [A-Z_]+ -> \"\\d");

    private static final Pattern NOTHING = Pattern.compile("@SuppressWarnings");

    /** Sources of intake whose sentences no page of the desk shows: they speak of files that are written by hand. */
    private static final Set<String> NOT_ON_THE_DESK = Set.of(
            "/register/", // the register as a file or a table
            "/certificate/", // certificates as files: notes for whoever writes the visit's file
            "/profile/", // profiles of reading lie in folders
            "/AfterChangeFile", // a matrix that an office writes
            "/OtherYaml",
            "/LoadFile", // a load beside the command line
            "/Register",
            "/TaskLists", // a list that an office writes
            "/SingleRecording", // a recording without a visit, at the command line
            "/QuestionsException",
            "/BoundedStream", // what the reader of workbooks words itself
            "/GuardedReader",
            "/Measure", // units, which are looked for as they stand
            "/StampText", // names of months in files
            "/YamlSource"); // text that is no YAML

    /** What the catalogues leave as it is, each with its reason. */
    private static final Set<String> LEFT = Set.of(
            "T = 42.6776 K − 3892.70 K / (ln(p/MPa) − 9.48654)", // formula
            "IAPWS R7-97(2012), region 4", // title of a document
            "the visit file"); // for text that is no YAML

    @ParameterizedTest
    @CsvSource({"findings", "visit", "reading", "records", "lists", "report"})
    void every_language_says_the_same_phrases_with_the_same_places(String room) {
        Map<String, String> german = Catalogue.of(room, Language.GERMAN);
        Map<String, String> french = Catalogue.of(room, Language.FRENCH);

        assertThat(french.keySet()).containsExactlyElementsOf(german.keySet());
        for (Map<String, String> phrases : List.of(german, french)) {
            phrases.forEach((english, said) ->
                    assertThat(places(said)).as("%s → %s", english, said).isEqualTo(places(english)));
            assertThat(phrases.keySet())
                    .as("two places that touch can't be told apart")
                    .noneMatch(english -> english.matches(".*%[sdw]%[sdw].*"));
        }
    }

    @Test
    void one_phrase_is_said_in_one_way() {
        for (Language language : List.of(Language.GERMAN, Language.FRENCH)) {
            Map<String, String> findings = Catalogue.of("findings", language);
            Map<String, String> visit = Catalogue.of("visit", language);
            visit.forEach((english, said) ->
                    assertThat(findings.getOrDefault(english, said)).as(english).isEqualTo(said));
            assertThat(Catalogue.of("reading", language).keySet())
                    .doesNotContainAnyElementsOf(findings.keySet())
                    .doesNotContainAnyElementsOf(visit.keySet());
            assertThat(Catalogue.of("records", language).keySet())
                    .doesNotContainAnyElementsOf(findings.keySet())
                    .doesNotContainAnyElementsOf(visit.keySet())
                    .doesNotContainAnyElementsOf(
                            Catalogue.of("reading", language).keySet());
            assertThat(Catalogue.of("lists", language).keySet())
                    .doesNotContainAnyElementsOf(findings.keySet())
                    .doesNotContainAnyElementsOf(visit.keySet())
                    .doesNotContainAnyElementsOf(
                            Catalogue.of("reading", language).keySet())
                    .doesNotContainAnyElementsOf(
                            Catalogue.of("report", language).keySet());
        }
    }

    @ParameterizedTest
    @CsvSource({
        "findings, assessment",
        "visit, assessment visit filing",
        "reading, intake filing visit desk",
        "records, records filing desk"
    })
    void no_phrase_is_left_from_a_sentence_that_nobody_says_any_more(String room, String modules) throws IOException {
        String spoken = String.join(
                        "\n",
                        literals(
                                modules,
                                Set.of(),
                                room.equals("reading") || room.equals("records") ? NOTHING : NOT_FOR_READERS))
                .toLowerCase(Locale.ROOT);
        List<String> dead = new ArrayList<>();
        for (String english : Catalogue.of(room, Language.GERMAN).keySet()) {
            List<String> rows = rows(english);
            long said = rows.stream().filter(row -> isSaid(row, spoken)).count();
            if (rows.size() >= ROWS_TO_JUDGE && said * 2 < rows.size()) {
                dead.add(english);
            }
        }

        assertThat(dead).isEmpty();
    }

    @Test
    void every_phrase_of_the_lists_stands_in_a_file_that_the_program_brings_with_it() throws IOException {
        StringBuilder shipped = new StringBuilder();
        for (String folder : List.of("intake", "criteria-sets")) {
            try (Stream<Path> files = Files.walk(Path.of("..", folder, "src", "main", "resources"))) {
                for (Path file :
                        files.filter(one -> one.toString().endsWith(".yaml")).toList()) {
                    shipped.append(Files.readString(file).replaceAll("\\s+", " "))
                            .append('\n');
                }
            }
        }

        assertThat(Catalogue.of("lists", Language.GERMAN).keySet())
                .hasSizeGreaterThan(150)
                .allSatisfy(english -> assertThat(shipped)
                        .contains(WITH_SOURCE.matcher(english).replaceAll("").split(", after-change matrix")));
    }

    @ParameterizedTest
    @CsvSource({"assessment", "visit", "intake"})
    void every_sentence_of_the_sources_is_in_a_catalogue(String module) throws IOException {
        boolean isReading = module.equals("intake");
        String known = Stream.of("findings", "visit", "reading")
                .flatMap(room -> Catalogue.of(room, Language.GERMAN).keySet().stream())
                .collect(Collectors.joining("\n"))
                .toLowerCase(Locale.ROOT);
        Set<String> missing = new TreeSet<>();
        for (String literal : isReading
                ? literals(module, NOT_ON_THE_DESK, NOT_OF_READING)
                : literals(module, Set.of(), NOT_FOR_READERS)) {
            if (!LEFT.contains(literal)) {
                pieces(literal).filter(piece -> !isSaid(piece, known)).forEach(missing::add);
            }
        }

        assertThat(missing).isEmpty();
    }

    @Test
    void a_search_of_the_sources_finds_what_they_say() throws IOException {
        assertThat(literals("assessment", Set.of(), NOT_FOR_READERS))
                .contains("Not assessed: there was no plateau.")
                .hasSizeGreaterThan(400);
        assertThat(literals("visit", Set.of(), NOT_FOR_READERS)).hasSizeGreaterThan(400);
        assertThat(literals("intake", NOT_ON_THE_DESK, NOT_OF_READING))
                .contains("the file vanished while it was being opened. Try again.")
                .hasSizeGreaterThan(400);
    }

    private static List<Integer> places(String phrase) {
        List<Integer> places = new ArrayList<>();
        Matcher place = PLACE.matcher(phrase);
        while (place.find()) {
            places.add(place.group(1) == null ? places.size() + 1 : Integer.parseInt(place.group(1)));
        }
        return places.stream().sorted().toList();
    }

    /** What stands fixed between the places, without what the code may glue on in another way. */
    private static Stream<String> pieces(String phrase) {
        return Stream.of(BETWEEN.split(TO_TYPE.matcher(phrase).replaceAll("")))
                .map(piece -> piece.replaceAll("^[\\W]+|[\\W]+$", ""))
                .filter(piece -> piece.length() >= LETTERS_OF_A_PIECE
                        && piece.indexOf(' ') > 0
                        && LETTERS.matcher(piece).find());
    }

    /** Every three words in a row between places. Where code glues a sentence together, some of them are in no text. */
    private static List<String> rows(String phrase) {
        List<String> rows = new ArrayList<>();
        for (String piece : BETWEEN.split(phrase)) {
            String[] words = piece.replaceAll("^[\\s.!?;:,]+|[\\s.!?;:,]+$", "").split(" ");
            for (int i = 0; i + 2 < words.length; i++) {
                rows.add(words[i] + " " + words[i + 1] + " " + words[i + 2]);
            }
        }
        return rows;
    }

    /** Whether the words stand there, with large or small letters: the code may begin a sentence with them or not. */
    private static boolean isSaid(String piece, String where) {
        return where.contains(piece.toLowerCase(Locale.ROOT));
    }

    private static Set<String> literals(String modules, Set<String> leftOut, Pattern except) throws IOException {
        Set<String> all = new LinkedHashSet<>();
        for (String module : modules.split(" ")) {
            try (Stream<Path> files = Files.walk(Path.of("..", module, "src", "main", "java"))) {
                for (Path file : files.filter(one -> one.toString().endsWith(".java"))
                        .filter(one -> leftOut.stream().noneMatch(one.toString()::contains))
                        .toList()) {
                    all.addAll(JavaLiterals.of(Files.readString(file), except));
                }
            }
        }
        return all;
    }
}
