package org.steamwright.desk.web;

import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.servlet.http.Part;
import java.io.IOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.records.Author;
import org.steamwright.records.RecordsException;
import org.steamwright.records.RecordsMessage;
import org.steamwright.records.SubjectId;

/** A question to the desk: parts of its path, what was typed, files, and who asks. */
public final class Ask {

    private final HttpServletRequest request;
    private final HttpServletResponse response;
    private final Map<String, String> parts;
    private final Frame frame;

    Ask(HttpServletRequest request, HttpServletResponse response, Map<String, String> parts, Frame frame) {
        this.request = request;
        this.response = response;
        this.parts = Map.copyOf(parts);
        this.frame = frame;
    }

    /** What every page needs. */
    public Frame frame() {
        return frame;
    }

    /** Who asks. */
    public Person person() {
        return frame.person();
    }

    /** Who asks, as author of an entry. */
    public Author author() {
        return frame.person().author();
    }

    /**
     * The part of the path that stands for a name in braces.
     *
     * @throws IllegalArgumentException if the route's pattern has no such name
     */
    public String part(String name) {
        return Optional.ofNullable(parts.get(name))
                .orElseThrow(() -> new IllegalArgumentException("the route has no part '" + name + "'"));
    }

    /**
     * The part of the path that stands for a subject of the record.
     *
     * @throws RecordsException if no subject can be called so
     */
    public SubjectId subject(String name) {
        try {
            return SubjectId.parse(part(name));
        } catch (IllegalArgumentException noId) {
            throw new RecordsException(RecordsMessage.SUBJECT_UNKNOWN, "'" + part(name) + "' is no subject's id.");
        }
    }

    /** What was typed or chosen under a name, without blanks around it; empty text if nothing was. */
    public String typed(String name) {
        return Optional.ofNullable(request.getParameter(name)).orElse("").strip();
    }

    /** A secret exactly as it was typed, blanks and all; the caller clears it. */
    public char[] secret(String name) {
        return Optional.ofNullable(request.getParameter(name)).orElse("").toCharArray();
    }

    /** Everything that was chosen under a name. */
    public List<String> chosen(String name) {
        return Optional.ofNullable(request.getParameterValues(name))
                .map(Arrays::asList)
                .orElse(List.of());
    }

    /**
     * Files that were sent under a name.
     *
     * @throws IOException if the request ended early or is larger than the desk takes
     */
    public List<Part> files(String name) throws IOException {
        try {
            return request.getParts().stream()
                    .filter(part -> part.getName().equals(name) && part.getSubmittedFileName() != null)
                    .toList();
        } catch (ServletException noForm) {
            return List.of();
        }
    }

    /** Whether only a part of the page is wanted, because the page is already shown. */
    public boolean isPartial() {
        return "true".equals(request.getHeader("HX-Request"));
    }

    /** The answer's headers, for the rooms that guard. */
    public HttpServletResponse response() {
        return response;
    }

    /** The session and the address of who asks, for the rooms that guard. */
    public HttpServletRequest request() {
        return request;
    }
}
