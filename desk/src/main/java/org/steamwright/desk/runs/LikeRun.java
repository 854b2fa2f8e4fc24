package org.steamwright.desk.runs;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Another run of the same visit with the same columns, so that what they stand for is said once and not for each run.
 *
 * @param run its number
 * @param kind of that run, as the visit names it
 */
public record LikeRun(int run, String kind) {

    private static final List<String> SAID = List.of("role", "position", "place", "instrument", "reference");

    /**
     * The run before, of the same kind if there is one, that says what each of these columns stands for; empty if this run says
     * something of them already.
     */
    static Optional<LikeRun> of(RunFacts facts, String file, List<String> columns) {
        boolean isUnsaid =
                columns.stream().allMatch(column -> facts.channel(file, column).isEmpty());
        if (!isUnsaid || columns.isEmpty()) {
            return Optional.empty();
        }
        List<RunFacts> others = IntStream.iterate(facts.number() - 1, run -> run >= 1, run -> run - 1)
                .mapToObj(run -> new RunFacts(facts.draft(), run))
                .filter(other -> other.machine().equals(facts.machine()))
                .filter(other ->
                        columns.stream().noneMatch(column -> said(other, column).isEmpty()))
                .toList();
        return Stream.concat(others.stream().filter(other -> other.kind().equals(facts.kind())), others.stream())
                .findFirst()
                .map(other -> new LikeRun(other.number(), other.kind()));
    }

    /** What a run says of a column by its name, whatever file it came in. */
    static Map<String, Object> said(RunFacts run, String column) {
        Map<String, Object> said = new LinkedHashMap<>();
        Stream.concat(run.files().stream().map(file -> run.channel(file, column)), Stream.of(run.channel("", column)))
                .filter(one -> !RunFacts.text(one, "role").isEmpty())
                .findFirst()
                .ifPresent(said::putAll);
        said.keySet().retainAll(SAID);
        return said;
    }
}
