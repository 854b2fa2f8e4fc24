package org.steamwright.desk.web;

import java.io.IOException;
import java.io.OutputStream;
import java.net.URI;
import java.util.Map;
import java.util.Optional;

/** What goes back. */
public sealed interface Reply {

    /**
     * A page, or a part of one, from a template.
     *
     * @param template path of the template, such as {@code today/today.jte}
     * @param values parameters of the template besides the frame
     * @param status of HTTP
     */
    record Page(String template, Map<String, Object> values, int status) implements Reply {

        public Page {
            values = Map.copyOf(values);
        }
    }

    /**
     * Go there next, and look.
     *
     * @param path within the desk
     */
    record Next(String path) implements Reply {}

    /**
     * Leave the desk for the office's provider of identities.
     *
     * @param address of a page there
     */
    record Away(URI address) implements Reply {}

    /**
     * A file.
     *
     * @param type media type
     * @param content writes it
     * @param name for keeping it; empty if it is to be shown in the page
     */
    record Attachment(String type, Content content, Optional<String> name) implements Reply {}

    /** Writes a file to whoever asked for it. */
    @FunctionalInterface
    interface Content {

        /** Writes all of it and leaves the stream open. */
        void writeTo(OutputStream out) throws IOException;
    }

    /**
     * A refusal in words.
     *
     * @param status of HTTP, 400 and above
     * @param what is the matter
     * @param remedy how to mend it
     */
    record Refusal(int status, String what, String remedy) implements Reply {

        /** One that the program below words in English; the frame says it in the reader's language. */
        public static Refusal heard(Frame frame, int status, String what, String remedy) {
            return new Refusal(status, frame.heard(what), frame.heard(remedy));
        }
    }

    /** A page that can be shown. */
    static Page page(String template, Map<String, Object> values) {
        return new Page(template, values, 200);
    }
}
