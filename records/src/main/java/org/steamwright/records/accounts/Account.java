package org.steamwright.records.accounts;

import java.time.Instant;
import java.util.Optional;

/**
 * A user of an office.
 *
 * @param id identity, for ever
 * @param name by which the user logs in and that stands in the journal
 * @param role word of the role
 * @param clinic subject whose page a user of a clinic sees; empty for the others
 * @param password salted hash; empty if this user comes in through the office's identity provider only
 * @param secondFactor sealed secret of the one-time codes; empty if there is none
 * @param lastStep time step of the last one-time code that was taken, so that none is taken twice
 * @param failures attempts since the last log-in
 * @param lockedUntil no attempt is looked at before this
 * @param sessionsFrom sessions begun before this have ended
 * @param isActive whether this user may log in at all
 * @param mustChange whether the password is one that somebody else knows
 */
public record Account(
        String id,
        String name,
        String role,
        String clinic,
        String password,
        String secondFactor,
        long lastStep,
        int failures,
        Optional<Instant> lockedUntil,
        Instant sessionsFrom,
        boolean isActive,
        boolean mustChange) {

    private static final int LONGEST_NAME = 120;

    public Account {
        if (name.isBlank() || name.length() > LONGEST_NAME || name.chars().anyMatch(Character::isISOControl)) {
            throw new IllegalArgumentException(
                    "the name of a user has 1 to %s printable characters".formatted(LONGEST_NAME));
        }
    }

    /** The same with another hash of a password; sessions begun before have ended. */
    public Account withPassword(String hash, boolean isKnownToOthers, Instant now) {
        return new Account(
                id,
                name,
                role,
                clinic,
                hash,
                secondFactor,
                lastStep,
                0,
                Optional.empty(),
                now,
                isActive,
                isKnownToOthers);
    }

    /** The same with another second factor, or none; sessions begun before have ended. */
    public Account withSecondFactor(String sealed, Instant now) {
        return new Account(
                id, name, role, clinic, password, sealed, 0, failures, lockedUntil, now, isActive, mustChange);
    }

    /** The same after a one-time code was taken. */
    public Account withLastStep(long step) {
        return new Account(
                id,
                name,
                role,
                clinic,
                password,
                secondFactor,
                step,
                failures,
                lockedUntil,
                sessionsFrom,
                isActive,
                mustChange);
    }

    /** The same with a count of attempts. */
    public Account withFailures(int count, Optional<Instant> until) {
        return new Account(
                id,
                name,
                role,
                clinic,
                password,
                secondFactor,
                lastStep,
                count,
                until,
                sessionsFrom,
                isActive,
                mustChange);
    }

    /** The same with another role and clinic; sessions begun before have ended. */
    public Account withRole(String newRole, String newClinic, Instant now) {
        return new Account(
                id,
                name,
                newRole,
                newClinic,
                password,
                secondFactor,
                lastStep,
                failures,
                lockedUntil,
                now,
                isActive,
                mustChange);
    }

    /** The same, allowed to log in or not; sessions begun before have ended. */
    public Account withActive(boolean may, Instant now) {
        return new Account(
                id, name, role, clinic, password, secondFactor, lastStep, failures, lockedUntil, now, may, mustChange);
    }

    /** The same, with every session that runs now ended. */
    public Account withSessionsEnded(Instant now) {
        return withActive(isActive, now);
    }

    /** Neither hashes nor secrets belong in a message. */
    @Override
    public String toString() {
        return "account of " + name + " (" + role + ")";
    }
}
