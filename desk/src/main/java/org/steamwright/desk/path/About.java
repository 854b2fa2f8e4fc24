package org.steamwright.desk.path;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.filing.Draft;
import org.steamwright.filing.FactPath;

/** What a non-conformity is about, as it goes to the form in which it is opened. */
public final class About {

    /** Longest text that goes in an address. */
    private static final int MOST = 600;

    private final Draft visit;
    private final Map<String, String> values = new LinkedHashMap<>();

    private About(Draft visit) {
        this.visit = visit;
    }

    /** About a visit. */
    public static About of(Draft visit) {
        About about = new About(visit);
        about.values.put("visit", visit.number());
        return about;
    }

    /** About one of its sterilizers, by its key. */
    public About sterilizer(String key) {
        for (int i = 1; i <= visit.count(FactPath.of("sterilizers")); i++) {
            String serial = visit.text(FactPath.of("sterilizers", i, "serial"));
            if (visit.text(FactPath.of("sterilizers", i, "key")).equals(key) && !serial.isBlank()) {
                values.put("sterilizer", serial);
            }
        }
        return this;
    }

    /** About one of its runs. */
    public About run(Optional<Integer> number) {
        number.ifPresent(one -> values.put("run", String.valueOf(one)));
        return this;
    }

    About what(String text) {
        values.put(
                "what", text.length() <= MOST ? text : text.substring(0, MOST).strip() + " \u2026");
        return this;
    }

    /** Address of the form. */
    public String href() {
        return "/nonconformities?"
                + values.entrySet().stream()
                        .map(value ->
                                value.getKey() + "=" + URLEncoder.encode(value.getValue(), StandardCharsets.UTF_8))
                        .collect(Collectors.joining("&"))
                + "#open";
    }
}
