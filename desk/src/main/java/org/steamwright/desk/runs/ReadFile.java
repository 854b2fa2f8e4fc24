package org.steamwright.desk.runs;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.intake.Question;
import org.steamwright.intake.UnreadableFileException;

/**
 * A recording of a run as it was read, or why it was not.
 *
 * @param name of the file
 * @param bytes size
 * @param place row and column of the problem; blank if the whole file is meant
 * @param problem why it gives no recording, and how to mend it; blank if it was read
 * @param questions that it leaves open
 * @param explanation how it was understood
 * @param start clock at the first sample; blank if it has elapsed time only
 * @param samples how many
 * @param minutes how long
 * @param interval usual step in seconds
 * @param gaps longer steps, how many
 * @param columns with their meaning
 * @param rows first samples, the time first
 * @param remarks what was odd
 * @param clock what was said about its clock
 */
public record ReadFile(
        String name,
        long bytes,
        String place,
        String problem,
        List<Question> questions,
        List<String> explanation,
        String start,
        int samples,
        String minutes,
        String interval,
        int gaps,
        List<ColumnRow> columns,
        List<List<String>> rows,
        List<Remark> remarks,
        Map<String, Object> clock) {

    public ReadFile {
        questions = List.copyOf(questions);
        explanation = List.copyOf(explanation);
        columns = List.copyOf(columns);
        rows = List.copyOf(rows);
        remarks = List.copyOf(remarks);
        clock = Map.copyOf(clock);
    }

    /**
     * A column and what was said about it.
     *
     * @param name as in the file
     * @param unit as in the file
     * @param isPressure whether it is one
     * @param fileReference from what it counts as the file says, {@code absolute} or {@code gauge}; blank if it leaves that open
     * @param lowest value
     * @param highest value
     * @param empty samples without value, how many
     * @param role said; blank if nothing was
     * @param position letter on the plan
     * @param place in words
     * @param instrument id
     * @param reference said
     */
    public record ColumnRow(
            String name,
            String unit,
            boolean isPressure,
            String fileReference,
            String lowest,
            String highest,
            int empty,
            String role,
            String position,
            String place,
            String instrument,
            String reference) {

        /** Whether the file leaves open if it counts from vacuum or from the air. */
        public boolean isReferenceOpen() {
            return isPressure && fileReference.isEmpty();
        }

        static ColumnRow of(RunFacts facts, String file, ReadSummary.Held column) {
            Map<String, Object> said = facts.channel(file, column.name());
            return new ColumnRow(
                    column.name(),
                    column.unit(),
                    column.isPressure(),
                    column.fileReference(),
                    column.lowest(),
                    column.highest(),
                    column.empty(),
                    RunFacts.text(said, "role"),
                    RunFacts.text(said, "position"),
                    RunFacts.text(said, "place"),
                    RunFacts.text(said, "instrument"),
                    RunFacts.text(said, "reference"));
        }
    }

    static ReadFile of(RunFacts facts, String name, long bytes, ReadSummary summary) {
        return new ReadFile(
                name,
                bytes,
                "",
                "",
                List.of(),
                summary.explanation(),
                summary.start(),
                summary.samples(),
                summary.minutes(),
                summary.interval(),
                summary.gaps(),
                summary.columns().stream()
                        .map(column -> ColumnRow.of(facts, name, column))
                        .toList(),
                summary.rows(),
                summary.remarks(),
                clock(facts, name));
    }

    static ReadFile unread(
            RunFacts facts, String name, long bytes, Optional<UnreadableFileException> why, String told) {
        return new ReadFile(
                name,
                bytes,
                why.map(UnreadableFileException::where).orElse(""),
                why.filter(one -> !one.questions().isEmpty()).isPresent() ? "" : told,
                why.map(UnreadableFileException::questions).orElse(List.of()),
                List.of(),
                "",
                0,
                "",
                "",
                0,
                List.of(),
                List.of(),
                List.of(),
                clock(facts, name));
    }

    /** What was said about its clock, or what was typed of it and is not yet complete. */
    private static Map<String, Object> clock(RunFacts facts, String name) {
        Map<String, Object> clock = facts.clock(name);
        return clock.isEmpty() ? ClockNote.read(facts, name) : clock;
    }

    /** Whether it gives a recording. */
    public boolean isRead() {
        return samples > 0;
    }

    /** How its clock was said to be compared: {@code event}, {@code offset} or nothing. */
    public String clockWay() {
        return clock.containsKey("event") ? "event" : clock.containsKey("offset") ? "offset" : "";
    }

    /** A text that was said about its clock; blank if none. */
    public String clockText(String key) {
        return RunFacts.text(clock, key);
    }
}
