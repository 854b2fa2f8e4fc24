package org.steamwright.visit.validity;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Outcome;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;

/**
 * How the biological indicators of a visit stand on a day, and what follows for a report that is out.
 *
 * @param standing in one word
 * @param until last day of the interim report; empty if none was set
 * @param sentences why and what to do
 */
public record InterimStanding(Standing standing, Optional<LocalDate> until, List<String> sentences) {

    /** In one word. */
    public enum Standing {
        /** No indicator decides anything in this visit. */
        NONE("no indicators"),
        READ("read, none grew"),
        AWAITED("awaited"),
        /** Still awaited after the last day of the interim report: it has lapsed. */
        LAPSED("lapsed"),
        /** Something made the test prove nothing, such as a control that did not grow. */
        VOID("void"),
        /** Spores survived. */
        POSITIVE("growth");

        private final String words;

        Standing(String words) {
            this.words = words;
        }

        /** As printed. */
        public String words() {
            return words;
        }
    }

    public InterimStanding {
        sentences = List.copyOf(sentences);
    }

    /**
     * How they stand.
     *
     * @param assessed the visit with what has been read by now
     * @param day on which it is asked; the last day of an interim report is itself good
     */
    public static InterimStanding of(AssessedVisit assessed, LocalDate day) {
        Optional<LocalDate> until = assessed.visit().job().interimUntil();
        List<String> positive = sentences(assessed, Outcome.FAIL);
        if (!positive.isEmpty()) {
            List<String> all = new ArrayList<>(positive);
            all.add(
                    "Withdraw every report of this visit that is out, tell the clinic at once, and begin the look-back. One grown indicator beside good recordings and a good control is repeated and investigated; what becomes of loads, the clinic decides.");
            return new InterimStanding(Standing.POSITIVE, until, all);
        }
        List<String> invalid = sentences(assessed, Outcome.INVALID);
        if (!invalid.isEmpty()) {
            return new InterimStanding(Standing.VOID, until, invalid);
        }
        List<String> awaited = sentences(assessed, Outcome.AWAITED);
        if (!awaited.isEmpty()) {
            List<String> all = new ArrayList<>(awaited);
            boolean isLapsed = until.filter(day::isAfter).isPresent();
            all.add(until.map(last -> isLapsed
                            ? "The interim report ended with %s and nothing was read: nothing is qualified by this visit."
                                    .formatted(last)
                            : "The interim report stands up to and including %s. Until the indicators are read nothing is qualified by them."
                                    .formatted(last))
                    .orElse("No last day is stated, so no interim report can be given out."));
            return new InterimStanding(isLapsed ? Standing.LAPSED : Standing.AWAITED, until, all);
        }
        boolean isAny = !sentences(assessed, Outcome.PASS).isEmpty();
        return new InterimStanding(isAny ? Standing.READ : Standing.NONE, until, List.of());
    }

    private static List<String> sentences(AssessedVisit assessed, Outcome outcome) {
        List<String> sentences = new ArrayList<>();
        for (AssessedRun run : assessed.runs()) {
            for (Finding finding : run.loadFindings()) {
                if (finding.id() == CriterionId.BIOLOGICAL_INDICATORS && finding.outcome() == outcome) {
                    sentences.add("Run %s: %s".formatted(run.run().number(), finding.sentence()));
                }
            }
        }
        return sentences;
    }
}
