package org.steamwright.assessment.remark;

/** How much a remark matters, from least to most. The order is part of the meaning. */
public enum Rank {
    /** Printed, nothing more. */
    NOTE,
    /** Somebody has to answer it before the visit is signed. */
    DOUBT,
    /** The stretch or channel can't be used; findings that need it are invalid or not assessed. */
    UNUSABLE
}
