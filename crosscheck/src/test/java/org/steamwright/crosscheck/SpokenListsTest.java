package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.ShippedTaskLists;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Phrasebook;
import org.steamwright.visit.failure.ChangeMatrix;
import org.steamwright.visit.job.EarlierEvidence.Kind;
import org.steamwright.visit.job.Task;
import org.steamwright.visit.job.TaskList;

/** What the task lists, the criteria sets and the after-change matrix say that come with the program, has to be in every catalogue. */
class SpokenListsTest {

    /** Words that no German or French sentence has. */
    private static final Pattern ENGLISH = Pattern.compile(
            "\\b(?:the|is|were|are|of|and|not|with|before|after|has|have|at|by|its|they|never|seen|asked)\\b");

    /** Titles of documents keep their language. */
    private static final Pattern TITLES = Pattern.compile("RACGP infection prevention [^;)]*");

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void every_task_and_every_caution_is_known(Language language) {
        Set<String> said = new TreeSet<>();
        Set<String> cautions = new TreeSet<>();
        for (String name : ShippedTaskLists.names()) {
            TaskList list = ShippedTaskLists.find(name).orElseThrow();
            said.addAll(
                    List.of(list.family(), list.interval(), list.provenance().strip()));
            for (Task task : list.tasks()) {
                said.add(task.title());
                cautions.add(task.caution());
                task.limit().ifPresent(limit -> said.add(limit.source()));
            }
        }
        cautions.remove("");

        assertThat(cautions).hasSizeGreaterThan(10);
        assertThat(said).hasSizeGreaterThan(50);
        assertThat(unknown(said, language)).isEmpty();
        assertThat(unknown(cautions, language)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void every_title_and_every_note_of_a_criteria_set_is_known(Language language) {
        Presets presets = new Presets();
        Set<String> said = new TreeSet<>();
        for (String name : presets.names()) {
            CriteriaSet set = presets.get(name);
            said.addAll(
                    List.of(set.title(), set.notes().strip(), set.curveSource().note()));
            set.revalidationSource().map(Source::note).ifPresent(said::add);
            set.consecutiveRunsSource().map(Source::note).ifPresent(said::add);
            set.cycles().forEach(cycle -> {
                said.add(cycle.holdingTime().source().note());
                cycle.bandWidth().map(Limit::source).map(Source::note).ifPresent(said::add);
            });
            set.requirements().values().forEach(requirement -> {
                said.add(requirement.source().note());
                requirement.limit().map(Limit::source).map(Source::note).ifPresent(said::add);
                requirement.secondLimit().map(Limit::source).map(Source::note).ifPresent(said::add);
            });
        }
        said.remove("");

        assertThat(said).hasSizeGreaterThan(80);
        assertThat(unknown(said, language)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void every_row_of_the_matrix_is_known(Language language) {
        Set<String> said = new TreeSet<>();
        DataFiles.afterChange().rows().forEach(row -> said.addAll(List.of(row.title(), row.note())));
        said.remove("");

        assertThat(said).hasSizeGreaterThan(25);
        assertThat(unknown(said, language)).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(names = {"GERMAN", "FRENCH"})
    void the_scope_of_a_repetition_after_one_change_or_two_is_known(Language language) {
        ChangeMatrix matrix = ChangeMatrix.of(DataFiles.afterChange());
        List<String> words = DataFiles.afterChange().words();
        Set<String> said = new TreeSet<>();
        for (String word : words) {
            said.add(matrix.scope(List.of(word), Kind.AIR_LEAKAGE).because());
            said.add(matrix.scope(List.of(word, words.get(0)), Kind.AIR_LEAKAGE).because());
        }

        assertThat(said).hasSizeGreaterThan(20);
        assertThat(unknown(said, language)).isEmpty();
    }

    @Test
    void a_caution_that_nobody_translated_is_found() {
        assertThat(unknown(Set.of("Never look at the moon."), Language.GERMAN)).hasSize(1);
        assertThat(unknown(Set.of("Unplug before touching."), Language.GERMAN)).isEmpty();
    }

    private static List<String> unknown(Set<String> said, Language language) {
        Phrasebook book = Phrasebook.in(language);
        List<String> unknown = new ArrayList<>();
        for (String sentence : said) {
            Optional<String> other = book.find(sentence);
            if (other.isEmpty()
                    || other.get().equals(sentence)
                    || ENGLISH.matcher(TITLES.matcher(other.get()).replaceAll(""))
                            .find()) {
                unknown.add(sentence + " → " + other.orElse("?"));
            }
        }
        return unknown;
    }
}
