package org.steamwright.visit;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.visit.job.PassCondition;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.qualification.Qualification.Kind;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Sterilizer;

/** The answer of a visit in plain words; the first sentence says it all. */
final class Summary {

    private final Visit visit;
    private final List<Qualification> qualifications;
    private final List<Qualification> qualified;
    private final List<Obstacle> obstacles;
    private final Whole whole;
    private final Optional<LocalDate> validUntil;
    private final int openPoints;

    /**
     * @param visit the facts
     * @param qualifications all of them
     * @param qualified the performance qualifications whose cycles may be run
     * @param obstacles beside the runs
     * @param whole how all of it stands
     * @param validUntil last day, itself good
     * @param openPoints how many
     */
    Summary(
            Visit visit,
            List<Qualification> qualifications,
            List<Qualification> qualified,
            List<Obstacle> obstacles,
            Whole whole,
            Optional<LocalDate> validUntil,
            int openPoints) {
        this.visit = visit;
        this.qualifications = qualifications;
        this.qualified = qualified;
        this.obstacles = obstacles;
        this.whole = whole;
        this.validUntil = validUntil;
        this.openPoints = openPoints;
    }

    List<String> write() {
        List<String> sentences = new ArrayList<>();
        sentences.add((visit.isSimulated() ? "Simulated, not a real steriliser: " : "") + answer());
        for (Qualification qualification : qualifications) {
            if (qualification.standing() != Standing.PASS && qualification.standing() != Standing.NOT_ASSESSED) {
                sentences.add("%s, %s: %s. %s"
                        .formatted(
                                qualification.kind().title(),
                                place(qualification),
                                qualification.standing().words(),
                                qualification.sentence()));
            }
        }
        for (Obstacle obstacle : obstacles) {
            Sterilizer sterilizer = visit.getSterilizer(obstacle.sterilizer());
            sentences.add("%s%s: %s"
                    .formatted(
                            obstacle.cycle().isBlank() ? "" : "Cycle " + Words.quoted(obstacle.cycle()) + " of ",
                            obstacle.cycle().isBlank()
                                    ? Words.capital(Words.sterilizer(sterilizer))
                                    : Words.sterilizer(sterilizer),
                            obstacle.sentence()));
        }
        sentences.addAll(StillToTest.of(visit, qualifications));
        if (!whole.missing().isEmpty() && whole.standing() != Standing.NOT_ASSESSED) {
            sentences.add(
                    "What was asked for and not assessed keeps the visit as a whole from a pass; it is listed as open.");
        }
        visit.job().conditions().stream()
                .filter(condition -> visit.date().filter(condition::isOpen).isPresent())
                .forEach(condition -> sentences.add(condition(condition)));
        if (openPoints > 0) {
            sentences.add(
                    openPoints == 1
                            ? "One point is open."
                            : "%s points are open; they are listed.".formatted(openPoints));
        }
        sentences.add(
                "This is the technician's evidence. What is released, and what becomes of loads already used, the clinic decides.");
        return List.copyOf(sentences);
    }

    private String answer() {
        if (!qualified.isEmpty()) {
            List<String> places = qualified.stream().map(this::place).toList();
            return "%s may be run with the load that was tested and nothing larger or harder%s%s."
                    .formatted(
                            places.size() == 1 && isAnythingElse()
                                    ? "Only " + places.get(0)
                                    : Words.capital(Words.list(places)),
                            validity(),
                            isAnythingElse() && places.size() > 1 ? "; nothing else is shown fit by this visit" : "");
        }
        Optional<Qualification> decisive = decisive();
        if (decisive.isEmpty() && !obstacles.isEmpty()) {
            return "Nothing may be run on the strength of this visit: the runs pass, but something beside them does not.";
        }
        if (decisive.isEmpty() && isAnyLoadShown()) {
            return "Nothing may be run on the strength of this visit: the loaded runs pass, but not everything else that it takes was shown.";
        }
        if (decisive.filter(q -> q.standing() == Standing.AWAITED).isPresent()) {
            return "Nothing may be run yet on the strength of this visit: the recordings pass, but the biological indicators of %s are not read."
                    .formatted(place(decisive.get()));
        }
        return "Nothing may be run on the strength of this visit: "
                + decisive.map(q -> "%s of %s: %s."
                                .formatted(
                                        lowerTitle(q.kind()),
                                        place(q),
                                        q.standing().words()))
                        .orElse(
                                isAnythingShown()
                                        ? "what was tested passes, but no loaded run shows that a load is reached."
                                        : "nothing was tested that could show it.");
    }

    private String condition(PassCondition condition) {
        return "On condition%s, to be put right by %s%s: %s"
                .formatted(
                        condition.cycle().isBlank() ? "" : " for cycle " + Words.quoted(condition.cycle()),
                        condition.owner().strip(),
                        Words.until(condition.until(), condition.untilCount()),
                        Words.sentence(condition.text()));
    }

    /** The day, and for a single steriliser the cycle number where the visit names one. */
    private String validity() {
        OptionalInt more = visit.job().cyclesUntilDue();
        OptionalInt departure =
                visit.sterilizers().size() == 1 ? visit.sterilizers().get(0).counterAtDeparture() : OptionalInt.empty();
        String text = Words.until(
                validUntil,
                more.isPresent() && departure.isPresent()
                        ? OptionalInt.of(Math.addExact(departure.getAsInt(), more.getAsInt()))
                        : OptionalInt.empty());
        return text.isEmpty() ? "" : "," + text;
    }

    /** The qualification that keeps the visit from passing: the worst, and of several the first. */
    private Optional<Qualification> decisive() {
        return qualifications.stream()
                .filter(q -> q.standing() != Standing.NOT_ASSESSED && q.standing() != Standing.PASS)
                .reduce((one, other) ->
                        Visits.severity(other.standing()) > Visits.severity(one.standing()) ? other : one);
    }

    private boolean isAnyLoadShown() {
        return qualifications.stream().anyMatch(q -> q.kind() == Kind.PERFORMANCE && q.standing() == Standing.PASS);
    }

    private boolean isAnythingShown() {
        return qualifications.stream().anyMatch(q -> q.standing() == Standing.PASS);
    }

    private boolean isAnythingElse() {
        return qualifications.stream().filter(q -> q.kind() == Kind.PERFORMANCE).count() > qualified.size();
    }

    private static String lowerTitle(Kind kind) {
        return switch (kind) {
            case LEAK -> "air leakage";
            case OPERATIONAL -> "operational qualification (OQ)";
            case PERFORMANCE -> "performance qualification (PQ)";
        };
    }

    private String place(Qualification qualification) {
        Sterilizer sterilizer = visit.getSterilizer(qualification.sterilizer());
        return qualification.cycle().isEmpty() || qualification.kind() == Kind.LEAK
                ? Words.sterilizer(sterilizer)
                : "cycle %s of %s".formatted(Words.quoted(qualification.cycle()), Words.sterilizer(sterilizer));
    }
}
