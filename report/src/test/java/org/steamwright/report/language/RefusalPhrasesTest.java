package org.steamwright.report.language;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.steamwright.report.language.SaidArguments.Call;

/**
 * Every refusal that can reach a page is in the catalogues as a whole, as the sources put it together; those that reach nobody but
 * whoever works at the command line are named with the reason.
 */
class RefusalPhrasesTest {

    /** Messages of the record that no page of the desk can show. */
    private static final Map<String, String> NO_PAGE_YET = Map.of(
            "STORE_UNREACHABLE", "said before the desk is open",
            "FOLDER_ON_NETWORK", "said before the desk is open",
            "NOT_DURABLE", "said before the desk is open",
            "STORE_NEWER", "said before the desk is open",
            "NOT_A_STORE", "said before the desk is open",
            "FOLDER_SYNCHRONISED", "said before the desk is open",
            "EXPORT_UNREADABLE", "a record is imported at the command line");

    /** Sources whose refusals no page of the desk can show, with what they say where that is not all of them. */
    private static final Map<String, String> NO_PAGE = Map.ofEntries(
            Map.entry("Transfer.java", "a record is moved at the command line"),
            Map.entry("PlainExport.java", "a record is exported and imported at the command line"),
            Map.entry("Backup.java", "a record is backed up and restored at the command line"),
            Map.entry("VisitFiles.java holds", "a folder is taken in at the command line"),
            Map.entry("RegisterTaking.java", "a register's file is taken in at the command line"),
            Map.entry("Filing.java the visit has no report number", "a folder is taken in at the command line"),
            Map.entry("Filing.java nothing is overwritten", "a folder is given back at the command line"),
            Map.entry(
                    "CoverageInRecord.java the record knows no steriliser",
                    "the desk asks by the steriliser and not by what is typed"),
            Map.entry(
                    "RegisterFile.java the register was not read from a folder",
                    "a register's file is read at the command line"),
            Map.entry("RegisterFile.java of the format", "a register's file is read at the command line"),
            Map.entry("YamlSource.java", "a file is read by the command line, and the record writes its own"),
            Map.entry(
                    "Register.java the version of the format of a register",
                    "a visit's register of instruments is read as it is taken in at the command line"),
            Map.entry("RegisterTable.java the mapping names it", "a mapping is named at the command line"),
            Map.entry("AfterChangeFile.java", "an office's matrix is read at the command line"),
            Map.entry("TaskLists.java", "an office's list of tasks is read at the command line"),
            Map.entry("LoadFile.java", "a file of a load is read at the command line"),
            Map.entry("SingleRecording.java", "a recording without a visit is read at the command line"));

    @Test
    void every_refusal_of_the_record_that_can_reach_a_page_is_known() throws IOException {
        Set<String> unknown = new TreeSet<>();
        int looked = 0;
        for (String module : List.of("records", "filing", "desk")) {
            for (Call call : SaidArguments.of(module, Set.of("RecordsException"), Set.of())) {
                String message = call.first().substring(call.first().indexOf('.') + 1);
                if (!NO_PAGE_YET.containsKey(message) && !isElsewhere(call)) {
                    looked += look(call, call.arguments().get(1), "", unknown);
                }
            }
        }
        assertThat(unknown).isEmpty();
        assertThat(looked).isGreaterThan(35);
    }

    @Test
    void every_refusal_of_filing_that_can_reach_a_page_is_known() throws IOException {
        Set<String> unknown = new TreeSet<>();
        int looked = 0;
        for (String module : List.of("filing", "desk")) {
            for (Call call : SaidArguments.of(
                    module,
                    Set.of("FilingException", "DraftRefusal", "NoPlaceException", "VisitChangedException"),
                    Set.of())) {
                int text = call.name().equals("DraftRefusal") ? 1 : 0;
                if (!isElsewhere(call)) {
                    looked += look(call, call.arguments().get(text), ".", unknown);
                    if (call.arguments().size() > text + 1) {
                        looked += look(call, call.arguments().get(text + 1), "", unknown);
                    }
                }
            }
        }
        for (Call call : SaidArguments.of("filing", Set.of("Refused"), Set.of("Refused.of"))) {
            if (call.where().startsWith("RegisterEntries.java") && !call.first().startsWith("List.of")) {
                // keys of the words of the desk are said by it
                Set<String> texts = new LinkedHashSet<>(call.arguments().get(1));
                texts.removeIf(text -> text.startsWith("office.") || text.equals("true") || text.equals("false"));
                looked += look(call, texts, "", unknown);
            }
        }
        assertThat(unknown).isEmpty();
        assertThat(looked).isGreaterThan(100);
    }

    /** Whatever their sort: of all others the remedy is said too. */
    @Test
    void every_flaw_of_a_visit_that_can_reach_a_page_is_known() throws IOException {
        Set<String> unknown = new TreeSet<>();
        int looked = 0;
        for (String module : List.of("intake", "filing")) {
            for (Call call : SaidArguments.of(module, Set.of(), Set.of("Flaw.of", "Flaw.with"))) {
                if (!isElsewhere(call)) {
                    for (Set<String> argument : call.arguments()) {
                        looked += look(call, argument, "", unknown);
                    }
                }
            }
        }
        assertThat(unknown).isEmpty();
        assertThat(looked).isGreaterThan(150);
    }

    @Test
    void sources_that_reach_no_page_are_there() throws IOException {
        List<Call> all = new ArrayList<>();
        for (String module : List.of("records", "filing", "intake", "desk")) {
            all.addAll(SaidArguments.of(
                    module,
                    Set.of("RecordsException", "FilingException", "DraftRefusal"),
                    Set.of("Flaw.of", "Flaw.with")));
        }
        assertThat(NO_PAGE.keySet()).allSatisfy(where -> assertThat(all).anyMatch(call -> isOf(where, call)));
    }

    @Test
    void what_the_sources_put_together_is_read() throws IOException {
        Set<String> said = new LinkedHashSet<>();
        SaidArguments.of("records", Set.of("RecordsException"), Set.of())
                .forEach(call -> said.addAll(call.arguments().get(1)));
        assertThat(said)
                .contains(
                        "visit Q7 (Q7) is signed. Make a correction: a new issue with its reason.",
                        "issue Q7 of visit Q7 was withdrawn. Only the issue in force is corrected or withdrawn.",
                        "the secret has Q7 characters; 8 or more are needed, several words are best.");
        assertThat(isKnown("visit Q7 was eaten by the dog.")).isFalse();
    }

    private static boolean isElsewhere(Call call) {
        return NO_PAGE.keySet().stream().anyMatch(where -> isOf(where, call));
    }

    private static boolean isOf(String where, Call call) {
        String[] fileAndText = where.split(" ", 2);
        return call.where().startsWith(fileAndText[0] + ":")
                && (fileAndText.length < 2
                        || call.arguments().stream()
                                .flatMap(Set::stream)
                                .anyMatch(text -> text.contains(fileAndText[1])));
    }

    private static int look(Call call, Set<String> texts, String end, Set<String> unknown) {
        int looked = 0;
        for (String text : texts) {
            boolean isText = text.replace(SaidArguments.MARK, "").chars().anyMatch(Character::isLetter);
            if (isText) {
                looked++;
                if (!isKnown((text + end).strip())) {
                    unknown.add(call.where() + " " + text + end);
                }
            }
        }
        return looked;
    }

    private static boolean isKnown(String text) {
        return Phrasebook.in(Language.GERMAN).find(text).isPresent()
                && Phrasebook.in(Language.FRENCH).find(text).isPresent();
    }
}
