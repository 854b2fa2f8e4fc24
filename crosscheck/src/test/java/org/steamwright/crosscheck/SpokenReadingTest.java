package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.profile.ReadingProfiles;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Phrasebook;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.Visit;

/** What is said of files as they are read, and of a visit that can't be assessed yet, has to be in every catalogue. */
class SpokenReadingTest {

    private static final Path CORPORA = Path.of("..", "intake", "src", "test", "resources");

    /** Words that no German or French sentence has. */
    private static final Pattern ENGLISH = Pattern.compile(
            "\\b(?:the|is|were|are|of|and|not|with|before|after|has|have|at|by|its|they|this|expected)\\b");

    /** Names, and what stands in files, in the quotes of each language; and what is to be typed. */
    private static final Pattern QUOTED = Pattern.compile("„[^“]*“|«[^»]*»|\"[^\"]*\"|\\{[^}]*\\}|\\([^()]*\\)"
            + "|Unclosed quoted field.*line \\d+"); // the words of the library that reads CSV

    /** Keys of the visit's file that are English words, where they are named as what to write. */
    private static final Pattern KEYS = Pattern.compile("before and after|as-found|as-left|[a-z]+(?:-[a-z]+)+|one of ");

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void what_the_files_of_the_corpora_provoke_is_known(Language language) throws IOException {
        Set<String> said = new TreeSet<>();
        for (Path folder : folders("cases")) {
            said.addAll(
                    of(folder.resolve("recording.csv"), folder, Files.readAllLines(folder.resolve("expected.txt"))));
        }
        for (Path folder : folders("workbooks")) {
            said.addAll(of(folder.resolve("recording.xlsx"), folder, List.of()));
        }

        assertThat(said).hasSizeGreaterThan(500);
        assertThat(unknown(said, language)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void what_a_visit_lacks_is_known(Language language, @TempDir Path folder) throws IOException {
        Set<String> said = new TreeSet<>();
        List<String> accepted = new ArrayList<>();
        Path visit = DemoVisit.writeYear(folder).stream()
                .filter(one -> one.endsWith("2-final"))
                .findFirst()
                .orElseThrow();
        Path file = visit.resolve(VisitFolder.FILE_NAME);
        String text = Files.readString(file);
        for (Turned turned : TURNED) {
            Files.writeString(file, turned.in(text));
            try {
                Visit read = VisitFolder.read(visit, new Presets());
                read.remarks().forEach(remark -> said.add(remark.text()));
                accepted.add(turned.to());
            } catch (VisitFolderException refused) {
                for (Problem problem : refused.problems()) {
                    said.add(problem.text());
                }
            }
        }

        assertThat(accepted).as("changes that leave nothing to say").hasSizeLessThan(3);
        assertThat(said).hasSizeGreaterThan(20);
        assertThat(unknown(said, language)).isEmpty();
    }

    @Test
    void a_sentence_that_nobody_translated_is_found() {
        assertThat(unknown(Set.of("The moon rose in row 4."), Language.GERMAN)).hasSize(1);
        assertThat(unknown(Set.of("found \"x\", expected the moon."), Language.FRENCH))
                .hasSize(1);
    }

    private static final List<Turned> TURNED = List.of(
            new Turned("steamwright-visit: 1", "steamwright-visit: 99"),
            new Turned("\nzone:", "\nzoen:"),
            new Turned("zone: Australia/Adelaide", "zone: Adelaide"),
            new Turned("chamber: 17 L", "chamber: 17"),
            new Turned("chamber: 17 L", "chamber: \"17,5 L\""),
            new Turned("chamber: 17 L", "chamber: large"),
            new Turned("type: B", "type: Q"),
            new Turned("barometer: 100.9 kPa", "barometer: 1009 kPa"),
            new Turned("date: 2026-03-02", "date: 2026-02-30"),
            new Turned("counter-at-departure: 1489", "counter-at-departure: 1"),
            new Turned("criteria-set: au-as5369", "criteria-set: au-as5396"),
            new Turned("criteria-set: au-as5369\n", ""),
            new Turned("role: challenge-pack", "role: challenge"),
            new Turned("role: reviewer", "role: [reviewer]"),
            new Turned("sterilizing-temperature: 134 °C", "sterilizing-temperature: 134"),
            new Turned("expires: 2026-12-31", "expires: soon"),
            new Turned("population: 2.1e6", "population: many"),
            new Turned("population: 2.1e6", "population: 0"),
            new Turned("after: 1241 g", "after: 1241"),
            new Turned("d-value: 1.9 min, ", ""),
            new Turned("result: no-growth", "result: none"),
            new Turned("machine-cycle: 1484", "machine-cycle: many"));

    private static List<Path> folders(String corpus) throws IOException {
        try (Stream<Path> folders = Files.list(CORPORA.resolve(corpus))) {
            return folders.filter(Files::isDirectory).sorted().toList();
        }
    }

    private static Set<String> of(Path file, Path folder, List<String> expected) throws IOException {
        String zone = "Australia/Hobart";
        for (String line : expected) {
            zone = line.startsWith("zone ") ? line.substring("zone ".length()).strip() : zone;
        }
        ReadingChoices.Builder choices = ReadingChoices.inZone(ZoneId.of(zone));
        for (String line : expected) {
            if (line.startsWith("choose ")) {
                String[] choice = line.substring("choose ".length()).split(" = ", 2);
                choices.answer(choice[0].strip(), choice[1]);
            }
        }
        Set<String> said = new TreeSet<>();
        try {
            ReadingProfiles profiles = ReadingProfiles.in(List.of(folder.resolve(ReadingProfiles.FOLDER)));
            Recording recording = Recordings.read(file, profiles.complete(file, choices.build()));
            said.addAll(recording.explanation());
            for (Remark remark : recording.remarks()) {
                said.add(remark.text());
                if (!remark.where().equals(String.valueOf(file.getFileName()))) {
                    said.add(remark.where());
                }
            }
        } catch (UnreadableFileException refused) {
            if (refused.questions().isEmpty()) {
                said.add(refused.text());
            }
            if (!refused.where().isEmpty()) {
                said.add(refused.where());
            }
            for (Question question : refused.questions()) {
                said.addAll(List.of(question.text(), question.evidence()));
            }
        }
        return said;
    }

    /** What no catalogue knows, or knows in part only. */
    private static List<String> unknown(Set<String> said, Language language) {
        Phrasebook book = Phrasebook.in(language);
        List<String> unknown = new ArrayList<>();
        for (String sentence : said) {
            Optional<String> other = book.find(sentence);
            if (other.isEmpty()) {
                unknown.add(sentence);
            } else if (ENGLISH.matcher(KEYS.matcher(QUOTED.matcher(other.get()).replaceAll("…"))
                            .replaceAll("…"))
                    .find()) {
                unknown.add(sentence + " → " + other.get());
            }
        }
        return unknown.stream().limit(80).toList();
    }
}
