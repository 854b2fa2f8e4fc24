package org.steamwright.assessment.trace;

/** What a channel stands for in the chamber. */
public enum ChannelRole {
    /** Beside the sterilizer's own controlling sensor; the plateau begins here. */
    REFERENCE_POINT(true),
    /** Steam in the free space of the chamber. */
    FREE_CHAMBER(true),
    /** On or in an item of the load. */
    LOAD(true),
    /** Inside the pack that is hardest for steam to reach. */
    CHALLENGE_PACK(true),
    /** Chamber pressure. */
    PRESSURE(false),
    /** Saturation temperature of the measured pressure; computed, never read from a file. */
    THEORETICAL(true),
    /** Air in the room. */
    AMBIENT(false);

    private final boolean judgedAgainstBand;

    ChannelRole(boolean judgedAgainstBand) {
        this.judgedAgainstBand = judgedAgainstBand;
    }

    /** Whether a temperature of this role has to stay inside the sterilization temperature band. */
    public boolean isJudgedAgainstBand() {
        return judgedAgainstBand;
    }
}
