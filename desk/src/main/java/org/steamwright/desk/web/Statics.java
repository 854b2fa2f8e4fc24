package org.steamwright.desk.web;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.steamwright.records.proof.Hash;

/** Scripts, styles, typefaces: those named here and no others. */
final class Statics {

    private static final String OWN = "/org/steamwright/desk/static/";
    private static final String FACES = "/net/sf/jasperreports/fonts/dejavu/";
    private static final String LIBRARIES = "/META-INF/resources/webjars/";

    /** Where each lies in the jars. */
    private static final Map<String, String> PLACES = Map.ofEntries(
            Map.entry("desk.css", OWN + "desk.css"),
            Map.entry("desk.js", OWN + "desk.js"),
            Map.entry("runs.css", OWN + "runs.css"),
            Map.entry("plots.js", OWN + "plots.js"),
            Map.entry("clocks.js", OWN + "clocks.js"),
            Map.entry("drop.js", OWN + "drop.js"),
            Map.entry("htmx.js", LIBRARIES + "htmx.org/2.0.10/dist/htmx.min.js"),
            Map.entry("uplot.js", LIBRARIES + "uplot/1.6.30/dist/uPlot.iife.min.js"),
            Map.entry("uplot.css", LIBRARIES + "uplot/1.6.30/dist/uPlot.min.css"),
            Map.entry("sans.ttf", FACES + "DejaVuSans.ttf"),
            Map.entry("sans-bold.ttf", FACES + "DejaVuSans-Bold.ttf"));

    private static final class Kept {

        private final byte[] bytes;
        private final String tag;

        Kept(byte[] bytes) {
            this.bytes = bytes;
            this.tag = "\"" + Hash.ofContent(bytes).hex().substring(0, 24) + "\"";
        }
    }

    private final Map<String, Kept> kept = new ConcurrentHashMap<>();

    void answer(String name, HttpServletRequest request, HttpServletResponse response) throws IOException {
        Optional<String> place = Optional.ofNullable(PLACES.get(name));
        if (place.isEmpty()) {
            response.setStatus(HttpServletResponse.SC_NOT_FOUND);
            return;
        }
        Kept file = kept(name, place.get());
        response.setHeader("Cache-Control", "no-cache");
        response.setHeader("ETag", file.tag);
        if (file.tag.equals(request.getHeader("If-None-Match"))) {
            response.setStatus(HttpServletResponse.SC_NOT_MODIFIED);
            return;
        }
        response.setContentType(type(name));
        response.setContentLength(file.bytes.length);
        response.getOutputStream().write(file.bytes);
    }

    private Kept kept(String name, String place) throws IOException {
        Kept known = kept.get(name);
        if (known != null) {
            return known;
        }
        try (InputStream in = Statics.class.getResourceAsStream(place)) {
            if (in == null) {
                throw new IOException(place + " is missing from the program's jars");
            }
            byte[] bytes = in.readAllBytes();
            Kept read = new Kept(bytes);
            kept.put(name, read);
            return read;
        }
    }

    private static String type(String name) {
        String end = name.substring(name.lastIndexOf('.') + 1);
        return switch (end) {
            case "css" -> "text/css;charset=" + StandardCharsets.UTF_8;
            case "js" -> "text/javascript;charset=" + StandardCharsets.UTF_8;
            default -> "font/ttf";
        };
    }
}
