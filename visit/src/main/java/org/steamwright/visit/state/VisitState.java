package org.steamwright.visit.state;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/**
 * Where a visit stands on its way from the first entry to a report that somebody may rely on.
 *
 * <p>What may follow what is the one table at the end; there is no other way. Signed things are never altered: after
 * {@link #PERFORMED} a correction is a new issue, and this one becomes {@link #REPLACED}.
 *
 * @source own choice; the words follow the trade's draft, interim and final report
 */
public enum VisitState {
    /** Being worked on; facts may still change, and each change is kept. */
    OPEN("open"),
    /** Signed by who made the tests; its facts are fixed. */
    PERFORMED("performed"),
    /** Out with an end date, because something is still awaited. */
    INTERIM("interim"),
    /** Final and out. */
    ISSUED("issued"),
    /** A newer issue stands in its place; this one stays readable. */
    REPLACED("replaced"),
    /** Not to be relied on any more; the reason stands with it. */
    WITHDRAWN("withdrawn"),
    /** Given up before it was signed; what was found stays readable. */
    BROKEN_OFF("broken off");

    private static final Map<VisitState, Set<VisitState>> FOLLOWERS = new EnumMap<>(VisitState.class);

    static {
        FOLLOWERS.put(OPEN, EnumSet.of(PERFORMED, BROKEN_OFF));
        FOLLOWERS.put(PERFORMED, EnumSet.of(INTERIM, ISSUED, REPLACED, WITHDRAWN));
        FOLLOWERS.put(INTERIM, EnumSet.of(ISSUED, REPLACED, WITHDRAWN));
        FOLLOWERS.put(ISSUED, EnumSet.of(REPLACED, WITHDRAWN));
        FOLLOWERS.put(REPLACED, EnumSet.noneOf(VisitState.class));
        FOLLOWERS.put(WITHDRAWN, EnumSet.noneOf(VisitState.class));
        FOLLOWERS.put(BROKEN_OFF, EnumSet.noneOf(VisitState.class));
    }

    private final String words;

    VisitState(String words) {
        this.words = words;
    }

    /** As printed. */
    public String words() {
        return words;
    }

    /** Whether that state may follow this one directly. No state follows itself. */
    public boolean mayBecome(VisitState next) {
        return followers().contains(next);
    }

    /** The states that may follow directly, in the order of their declaration. */
    public Set<VisitState> followers() {
        return Set.copyOf(FOLLOWERS.getOrDefault(this, Set.of()));
    }

    /** Whether nothing can follow. */
    public boolean isFinal() {
        return followers().isEmpty();
    }

    /** Whether facts may still be entered or changed. */
    public boolean isOpenForFacts() {
        return this == OPEN;
    }

    /** Whether somebody outside may rely on it: interim within its end date, or issued. */
    public boolean isOut() {
        return this == INTERIM || this == ISSUED;
    }
}
