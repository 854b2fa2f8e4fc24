package org.steamwright.filing;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.visit.state.VisitState;

/** Where the visits of a record stand. A state is never kept: it follows from what was signed, corrected and withdrawn. */
public final class VisitStates {

    private final Records records;
    private final Issues issues;

    /** @param records opened */
    public VisitStates(Records records) {
        this.records = records;
        this.issues = new Issues(records);
    }

    /** Where a visit stands. */
    public StatedVisit of(Subject visit) {
        Optional<Issue> issue = issues.of(visit.id()).stream().findFirst();
        if (issue.isEmpty()) {
            Optional<String> given = visit.fact(Issues.BROKEN_OFF).map(reason -> reason.plain());
            return new StatedVisit(
                    visit,
                    given.isPresent() ? VisitState.BROKEN_OFF : VisitState.OPEN,
                    Optional.empty(),
                    Optional.empty(),
                    given.orElse(amends(visit)));
        }
        Issues.Standing standing = issues.standing(issue.get().id());
        if (standing != Issues.Standing.STANDS) {
            return new StatedVisit(
                    visit,
                    standing == Issues.Standing.WITHDRAWN ? VisitState.WITHDRAWN : VisitState.REPLACED,
                    issue,
                    Optional.empty(),
                    laterReason(issue.get().id()));
        }
        Optional<LocalDate> until =
                records.subject(issue.get().id()).fact(Issues.INTERIM_UNTIL).map(day -> LocalDate.parse(day.plain()));
        return new StatedVisit(
                visit, until.isPresent() ? VisitState.INTERIM : VisitState.ISSUED, issue, until, amends(visit));
    }

    private static String amends(Subject subject) {
        return subject.fact("amends")
                .map(amends -> amends.node().path("reason").asText())
                .orElse("");
    }

    private String laterReason(SubjectId issue) {
        return records.usedBy(Use.AMENDED, issue.toString(), Optional.empty(), Integer.MAX_VALUE).stream()
                .filter(later -> later.kind() == Kind.ISSUE)
                .findFirst()
                .map(VisitStates::amends)
                .orElse("");
    }

    /** Number and standing of an issue, in words. */
    public String ofIssue(Subject subject) {
        Issue issue = Issue.of(subject);
        if (issue.isWithdrawal()) {
            return "withdrawal";
        }
        String words = switch (issues.standing(issue.id())) {
            case STANDS ->
                subject.fact(Issues.INTERIM_UNTIL).isPresent() ? VisitState.INTERIM.words() : VisitState.ISSUED.words();
            case CORRECTED -> VisitState.REPLACED.words();
            case WITHDRAWN -> VisitState.WITHDRAWN.words();
        };
        return "issue " + issue.number() + ", " + words;
    }

    /** Every visit of that report number, the newest first. */
    public List<StatedVisit> ofNumber(String reportNumber) {
        return records.exactly(Kind.VISIT, "number", reportNumber).stream()
                .sorted(Comparator.comparing((Subject subject) -> subject.id().value())
                        .reversed())
                .map(this::of)
                .toList();
    }

    /** Every visit to a steriliser, the last day first and of one day the newest. */
    public List<StatedVisit> ofSterilizer(SubjectId sterilizer) {
        List<StatedVisit> visits = new ArrayList<>();
        for (Subject visit :
                records.usedBy(Use.STERILIZER, sterilizer.toString(), Optional.empty(), Integer.MAX_VALUE)) {
            if (visit.kind() == Kind.VISIT) {
                visits.add(of(visit));
            }
        }
        visits.sort(Comparator.comparing((StatedVisit one) -> one.visit().text("date"))
                .reversed()
                .thenComparing(one -> one.visit().id().value(), Comparator.reverseOrder()));
        return visits;
    }

    /**
     * The visit before another one, of one steriliser: the last of an earlier day that is open or stands. What was broken off,
     * withdrawn or replaced is none, and neither is another issue of the same report.
     */
    public Optional<StatedVisit> before(Subject visit, SubjectId sterilizer) {
        String day = visit.text("date");
        return records.usedBy(Use.STERILIZER, sterilizer.toString(), Optional.empty(), Integer.MAX_VALUE).stream()
                .filter(one -> one.kind() == Kind.VISIT && !one.id().equals(visit.id()))
                .filter(one -> !one.text("number").equals(visit.text("number")))
                .filter(one -> day.isBlank() || one.text("date").compareTo(day) < 0)
                .sorted(Comparator.comparing((Subject one) -> one.text("date"))
                        .reversed()
                        .thenComparing(one -> one.id().value(), Comparator.reverseOrder()))
                .map(this::of)
                .filter(one -> one.state() == VisitState.OPEN || one.state().isOut())
                .findFirst();
    }

    /** The one that somebody may rely on. */
    public static Optional<StatedVisit> inForce(List<StatedVisit> visits) {
        return visits.stream().filter(one -> one.state().isOut()).findFirst();
    }

    /** The one whose facts may still change. */
    public static Optional<StatedVisit> open(List<StatedVisit> visits) {
        return visits.stream().filter(one -> one.state().isOpenForFacts()).findFirst();
    }

    /** The last that was signed, else the last. */
    static Optional<StatedVisit> last(List<StatedVisit> visits) {
        return visits.stream()
                .filter(one -> one.issue().isPresent())
                .findFirst()
                .or(() -> visits.stream().findFirst());
    }

    /** How many visits of the record are in which state. */
    public Map<VisitState, Integer> count() {
        Map<VisitState, Integer> counts = new EnumMap<>(VisitState.class);
        records.eachSubject(Kind.VISIT, visit -> counts.merge(of(visit).state(), 1, Integer::sum));
        return counts;
    }

    /** Report numbers of which more than one issue would stand, with how many. There is none in a sound record. */
    public Map<String, Integer> inForceTwice() {
        Map<String, Integer> standing = new java.util.TreeMap<>();
        records.eachSubject(Kind.VISIT, visit -> {
            if (of(visit).state().isOut()) {
                standing.merge(visit.text("number"), 1, Integer::sum);
            }
        });
        standing.values().removeIf(count -> count < 2);
        return standing;
    }
}
