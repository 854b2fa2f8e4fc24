package org.steamwright.visit.due;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;

/**
 * One thing that is due, with every reason and the one that comes first.
 *
 * @param subject what it is about
 * @param title what is to be done
 * @param today day at the place of the subject
 * @param first reason that decides
 * @param reasons all, the deciding one among them
 */
public record Due(Subject subject, String title, LocalDate today, Candidate first, List<Candidate> reasons) {

    /**
     * What something is due of.
     *
     * @param kind machine, instrument or person
     * @param id in the register
     * @param title for people
     * @param place clinic, site and room; blank where that says nothing
     */
    public record Subject(Kind kind, String id, String title, String place) {
        /** Kinds of subjects. */
        public enum Kind {
            STERILIZER("steriliser"),
            INSTRUMENT("instrument"),
            TECHNICIAN("technician");

            private final String word;

            Kind(String word) {
                this.word = word;
            }

            public String word() {
                return word;
            }
        }
    }

    /** How pressing it is; in the order of a due list. */
    public enum Urgency {
        /** Nothing shows that it was ever done. */
        NO_EVIDENCE("no evidence"),
        OVERDUE("overdue"),
        /** Past its day, within the tolerance that its rule grants. */
        TOLERATED("tolerated"),
        TODAY("today"),
        AHEAD("ahead"),
        /** No reason gives a day. */
        NOT_KNOWN("not known");

        private final String word;

        Urgency(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    public Due {
        reasons = List.copyOf(reasons);
    }

    /** Last day that is still in time. */
    public Optional<LocalDate> day() {
        return first.day();
    }

    public Urgency urgency() {
        if (first.cause() == Candidate.Cause.NO_EVIDENCE) {
            return Urgency.NO_EVIDENCE;
        }
        if (first.day().isEmpty()) {
            return Urgency.NOT_KNOWN;
        }
        LocalDate day = first.day().get();
        if (day.isBefore(today)) {
            return first.toleratedUntil().orElse(day).isBefore(today) ? Urgency.OVERDUE : Urgency.TOLERATED;
        }
        return day.equals(today) ? Urgency.TODAY : Urgency.AHEAD;
    }

    /** When, in words. */
    public String when() {
        LocalDate day = first.day().orElse(today);
        return switch (urgency()) {
            case NO_EVIDENCE -> "due now, never recorded as done";
            case NOT_KNOWN -> "day not known";
            case TODAY -> "due today" + forecast();
            case AHEAD -> "due in " + days(ChronoUnit.DAYS.between(today, day)) + ", on " + day + forecast();
            case TOLERATED ->
                "was due on " + day + ", tolerated until "
                        + first.toleratedUntil().orElse(day);
            case OVERDUE ->
                "overdue since " + day.plusDays(1) + " (" + days(ChronoUnit.DAYS.between(day, today)) + ")"
                        + forecast();
        };
    }

    private String forecast() {
        return first.forecast()
                .map(expected -> "; forecast between " + expected.earliest() + " and "
                        + expected.latest().map(LocalDate::toString).orElse("a day that is not known"))
                .orElse("");
    }

    private static String days(long days) {
        return days + (days == 1 ? " day" : " days");
    }

    /** Whether it has to be looked at up to a day: by its day, by the early end of a forecast, or for lack of either. */
    public boolean concerns(LocalDate until) {
        return switch (urgency()) {
            case NO_EVIDENCE, NOT_KNOWN -> true;
            default ->
                reasons.stream()
                        .anyMatch(reason ->
                                reason.day().filter(day -> !day.isAfter(until)).isPresent()
                                        || reason.forecast()
                                                .filter(expected ->
                                                        !expected.earliest().isAfter(until))
                                                .isPresent());
        };
    }
}
