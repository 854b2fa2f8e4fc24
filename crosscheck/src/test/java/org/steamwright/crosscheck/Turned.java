package org.steamwright.crosscheck;

import static org.assertj.core.api.Assertions.assertThat;

/** A change of the demo's text, so that the visit has something else to say, or is a mistake. */
record Turned(String from, String to) {

    /** The text with the change; it has to hold what is changed. */
    String in(String text) {
        assertThat(text).as(from).contains(from);
        return text.replace(from, to);
    }
}
