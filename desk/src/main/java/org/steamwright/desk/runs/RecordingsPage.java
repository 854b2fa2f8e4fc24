package org.steamwright.desk.runs;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.steamwright.assessment.plausibility.Oddity;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.desk.path.Earlier;
import org.steamwright.desk.path.Trail;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftProblem;
import org.steamwright.filing.DraftReading;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.visit.AssessedRun;

/**
 * The recordings of a run: how they were read, where the sensors sat, whose clock is whose, and what follows.
 *
 * @param visitId of the record
 * @param visitNumber of the report
 * @param number of the run
 * @param isSigned whether nothing changes any more
 * @param files recordings
 * @param clocks of several recordings; empty for one
 * @param oddities what looks odd in the curves, and its effect
 * @param problems for which this run can't be assessed yet
 * @param word of the verdict; blank if there is none yet
 * @param frame of the word
 * @param cause why
 * @param plan where the sensors sit
 * @param trail last change
 * @param doubts about reading the visit that name this run
 * @param lastTime what was said the last time about columns of which nothing is said yet, by their names
 * @param instruments that can be named: those of the visit, and those of the register that come along, with what they are
 * @param like runs whose columns this run's are like, by the names of the files
 * @param counts from what the instruments of the visit count, {@code absolute} or {@code gauge}, where they say so, by their ids
 */
public record RecordingsPage(
        String visitId,
        String visitNumber,
        int number,
        boolean isSigned,
        List<ReadFile> files,
        List<ClockRow> clocks,
        List<Oddity> oddities,
        List<DraftProblem> problems,
        String word,
        String frame,
        String cause,
        ChamberPlan plan,
        Trail trail,
        List<Remark> doubts,
        Map<String, Map<String, String>> lastTime,
        Map<String, String> instruments,
        Map<String, LikeRun> like,
        Map<String, String> counts) {

    public RecordingsPage {
        files = List.copyOf(files);
        clocks = List.copyOf(clocks);
        oddities = List.copyOf(oddities);
        problems = List.copyOf(problems);
        doubts = List.copyOf(doubts);
        lastTime = Map.copyOf(lastTime);
        instruments = Collections.unmodifiableMap(new TreeMap<>(instruments));
        like = Map.copyOf(like);
        counts = Map.copyOf(counts);
    }

    /**
     * Key of what a column without a role stands for: nothing, or what the reading takes for granted where nothing at all is said
     * and there are at most one temperature and one pressure.
     */
    public String unsaid(ReadFile.ColumnRow column) {
        List<ReadFile.ColumnRow> all =
                files.stream().flatMap(file -> file.columns().stream()).toList();
        long pressures = all.stream().filter(ReadFile.ColumnRow::isPressure).count();
        boolean isObvious = pressures <= 1
                && all.size() - pressures <= 1
                && all.stream().allMatch(one -> one.role().isEmpty());
        return !isObvious ? "runs.role-none" : column.isPressure() ? "runs.role-only" : "runs.role-only-point";
    }

    /** From what a pressure counts by its instrument, where its file leaves that open; blank if nothing says so. */
    public String byInstrument(ReadFile.ColumnRow column) {
        return column.isReferenceOpen() ? counts.getOrDefault(column.instrument(), "") : "";
    }

    /** Whether somebody has to say, or has said, from what a pressure counts: neither its file nor its instrument settles it. */
    public boolean isCountAsked(ReadFile.ColumnRow column) {
        return column.isPressure()
                && (column.reference().isEmpty()
                        ? column.isReferenceOpen() && byInstrument(column).isEmpty()
                        : !column.reference().equals(byInstrument(column)));
    }

    /** What was said about a column the last time, in words; blank if nothing was. */
    public String lastTime(String column, Frame frame) {
        return lastTime.getOrDefault(column, Map.of()).entrySet().stream()
                .map(fact -> switch (fact.getKey()) {
                    case "role" -> frame.say("runs.role." + fact.getValue());
                    case "reference" -> frame.say("runs.reference." + fact.getValue());
                    default -> fact.getValue();
                })
                .collect(Collectors.joining(", "));
    }

    private static Map<String, Map<String, String>> lastTime(
            RunFacts facts, List<ReadFile> files, Optional<Earlier> earlier) {
        Map<String, Map<String, String>> lastTime = new HashMap<>();
        for (ReadFile file : files) {
            for (ReadFile.ColumnRow column : file.columns()) {
                Map<String, String> said = earlier.map(
                                before -> before.channel(facts.draft(), facts.number(), column.name()))
                        .orElse(Map.of());
                if (column.role().isEmpty() && RoleWord.ofFiles().contains(said.getOrDefault("role", ""))) {
                    lastTime.put(column.name(), said);
                }
            }
        }
        return lastTime;
    }

    static RecordingsPage of(
            RunFacts facts,
            FileReading reader,
            Optional<DraftReading> reading,
            Trail trail,
            Optional<Earlier> earlier,
            Map<String, String> instruments)
            throws IOException, FilingException {
        Draft draft = facts.draft();
        List<ReadFile> files = reader.all(facts);
        Optional<AssessedRun> run =
                reading.flatMap(DraftReading::assessed).flatMap(visit -> visit.find(facts.number()));
        List<DraftProblem> all = reading.map(DraftReading::problems).orElse(List.of());
        List<DraftProblem> problems = new ArrayList<>();
        for (DraftProblem problem : all) {
            if (isOfRun(problem, facts.number(), files)) {
                problems.add(problem);
            }
        }
        return new RecordingsPage(
                draft.id().toString(),
                draft.number(),
                facts.number(),
                draft.isSigned(),
                files,
                files.size() > 1 ? run.map(ClockRow::of).orElse(List.of()) : List.of(),
                run.map(one -> one.evaluation().oddities()).orElse(List.of()),
                problems.isEmpty() ? all : problems,
                run.map(AssessedRun::word).orElse(""),
                run.map(one -> FindingRow.frame(one.word())).orElse(""),
                run.map(AssessedRun::cause).orElse(""),
                ChamberPlan.of(files, run, facts.chamberSize(), facts.trayLevels(), facts.laid()),
                trail,
                reading.flatMap(DraftReading::assessed)
                        .map(visit -> RunPage.doubts(visit, facts.number()))
                        .orElse(List.of()),
                lastTime(facts, files, earlier),
                instruments,
                like(facts, files),
                counts(draft));
    }

    private static Map<String, LikeRun> like(RunFacts facts, List<ReadFile> files) {
        Map<String, LikeRun> like = new HashMap<>();
        for (ReadFile file : files) {
            LikeRun.of(
                            facts,
                            file.name(),
                            file.columns().stream()
                                    .map(ReadFile.ColumnRow::name)
                                    .toList())
                    .ifPresent(one -> like.put(file.name(), one));
        }
        return like;
    }

    /** A run whose columns those of a file are like; empty if there is none, or something is said already. */
    public Optional<LikeRun> like(ReadFile file) {
        return Optional.ofNullable(like.get(file.name()));
    }

    private static Map<String, String> counts(Draft draft) throws IOException, FilingException {
        Map<String, String> counts = new HashMap<>();
        draft.instruments()
                .read()
                .references()
                .forEach((id, reference) -> counts.put(id, reference.name().toLowerCase(Locale.ROOT)));
        return counts;
    }

    private static boolean isOfRun(DraftProblem problem, int number, List<ReadFile> files) {
        List<String> run = List.of("runs", String.valueOf(number));
        return problem.path()
                        .map(FactPath::steps)
                        .filter(steps -> steps.size() >= run.size()
                                && steps.subList(0, run.size()).equals(run))
                        .isPresent()
                || files.stream().anyMatch(file -> file.name().equals(problem.file()));
    }
}
