package org.steamwright.desk.shelf;

/**
 * What an office has settled for all its visits.
 *
 * @param isWithUsers whether everybody logs in, so that the desk knows who somebody is
 * @param isSignedOnlyWhenApproved whether a visit is signed only while a reviewer's approval of its facts stands
 */
public record Rules(boolean isWithUsers, boolean isSignedOnlyWhenApproved) {

    /** One person at a laptop, where nothing is settled. */
    public static final Rules USUAL = new Rules(false, false);
}
