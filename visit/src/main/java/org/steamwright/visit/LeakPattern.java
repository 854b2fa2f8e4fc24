package org.steamwright.visit;

/**
 * What the air leakage tests without sensors, with them and after make together, and where to look.
 *
 * @source draft of EN 285, 16.1.3 (seen) for the test with sensors fitted; the reading of the patterns is common practice,
 *     no source
 */
public enum LeakPattern {
    TIGHT("tight", "nothing to look for"),
    STERILIZER("the steriliser leaks", "door seal, valves, pipework, air filter; or the chamber was wet"),
    CABLES("only with sensors", "the gland and the cables through it"),
    PORT("only after the sensors were taken out", "the plug of the port, and the door seal it was closed with"),
    WET_OR_COOLING("fails first and passes later", "a wet, warm or cooling chamber"),
    NOT_TOLD_APART("fails with sensors, never tested without", "a test without sensors"),
    PORT_UNKNOWN("the final test is missing", "a test after the port was closed"),
    UNDECIDED("not decided", "a test that can be decided"),
    NONE_MADE("not made", "an air leakage test");

    private final String words;
    private final String lookFor;

    LeakPattern(String words, String lookFor) {
        this.words = words;
        this.lookFor = lookFor;
    }

    /** As printed. */
    public String words() {
        return words;
    }

    /** What is looked at next, in words. */
    public String lookFor() {
        return lookFor;
    }
}
