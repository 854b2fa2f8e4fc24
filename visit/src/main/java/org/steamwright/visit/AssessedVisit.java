package org.steamwright.visit;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.propagation.Propagation;
import org.steamwright.visit.qualification.Qualification;

/**
 * A visit with everything that follows from its facts.
 *
 * @param visit the facts
 * @param runs in order of their numbers
 * @param qualifications per sterilizer, cycle and kind
 * @param standing of the whole visit: the worst that counts
 * @param summary the answer in plain words, a few sentences, the first one says it all
 * @param qualifiedCycles per line 'sterilizer serial: cycle'; empty if none
 * @param validUntil last day of validity by the criteria set; empty if nothing is qualified or the set says nothing
 * @param points what is missing or awaited, each with its place
 */
public record AssessedVisit(
        Visit visit,
        List<AssessedRun> runs,
        List<Qualification> qualifications,
        Qualification.Standing standing,
        List<String> summary,
        List<String> qualifiedCycles,
        Optional<LocalDate> validUntil,
        List<OpenPoint> points) {

    /** The run of that number; empty if there is none, or it has no recording yet. */
    public Optional<AssessedRun> find(int number) {
        return runs.stream().filter(run -> run.run().number() == number).findFirst();
    }

    /** What is missing or awaited, in words. */
    public List<String> openPoints() {
        return points.stream().map(OpenPoint::sentence).toList();
    }

    /** Remarks that have to be answered before anybody signs; each of them is an open point too. */
    public List<Doubt> doubts() {
        return Doubt.of(visit, runs);
    }

    public AssessedVisit {
        runs = List.copyOf(runs);
        qualifications = List.copyOf(qualifications);
        summary = List.copyOf(summary);
        qualifiedCycles = List.copyOf(qualifiedCycles);
        points = List.copyOf(points);
    }

    /** The same visit with the figures of its recordings propagated in another way; no verdict changes by it. */
    public AssessedVisit propagatedBy(Propagation propagation) {
        return new AssessedVisit(
                visit,
                runs.stream().map(run -> run.propagatedBy(propagation)).toList(),
                qualifications,
                standing,
                summary,
                qualifiedCycles,
                validUntil,
                points);
    }
}
