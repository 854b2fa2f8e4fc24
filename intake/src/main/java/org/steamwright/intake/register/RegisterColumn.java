package org.steamwright.intake.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The columns of a table of machines, in the order in which they are written, with other headings by which they are known. */
public enum RegisterColumn {
    ID("id", "machine id", "asset", "asset id", "asset number", "inventory number"),
    SERIAL("serial", "serial number", "serial no", "s/n", "sn"),
    MAKER("maker", "manufacturer", "make", "brand"),
    MODEL("model", "type of machine"),
    FAMILY("family", "model family"),
    YEAR("year", "year of manufacture", "built"),
    CHAMBER("chamber", "volume", "chamber volume", "litres", "liters"),
    CHAMBER_SIZE("chamber-size", "chamber dimensions", "inside dimensions", "usable space"),
    TRAY_LEVELS("tray-levels", "levels of trays", "number of trays"),
    STATUS("status", "state"),
    CLINIC_ID("clinic-id", "customer number", "customer id"),
    CLINIC("clinic", "customer", "practice", "client"),
    SITE_ID("site-id"),
    SITE("site", "branch", "premises"),
    ADDRESS("address", "street"),
    ZONE("zone", "time zone", "timezone"),
    ROOM_ID("room-id"),
    ROOM("room", "location"),
    MOVED_ON("moved-on"),
    CYCLES("cycles", "programs", "programmes"),
    COUNTER("counter", "cycle counter", "cycle count", "counter reading"),
    COUNTER_ON("counter-on", "counter date", "reading date"),
    VALIDATED_ON("last-validation", "last validated", "validated on", "validation date"),
    SERVICED_ON("last-service", "last serviced", "serviced on", "service date"),
    ELECTRICAL_ON("last-electrical-test", "electrical test", "test and tag"),
    PERIODIC_ON("last-periodic-test", "quarterly test"),
    PRESSURE_DOCUMENT("pressure-document", "pressure certificate"),
    PRESSURE_ON("pressure-examined-on", "pressure examination"),
    PRESSURE_NEXT("pressure-next-by", "pressure due");

    private final String word;
    private final List<String> others;

    RegisterColumn(String word, String... others) {
        this.word = word;
        this.others = List.of(others);
    }

    /** The heading that is written, and by which a mapping names the column. */
    public String word() {
        return word;
    }

    /** Other headings. */
    public List<String> others() {
        return others;
    }

    static List<String> words() {
        List<String> words = new ArrayList<>();
        for (RegisterColumn column : values()) {
            words.add(column.word);
        }
        return words;
    }

    static Optional<RegisterColumn> find(String word) {
        for (RegisterColumn column : values()) {
            if (column.word.equals(word)) {
                return Optional.of(column);
            }
        }
        return Optional.empty();
    }

    /** The column that a heading means, whatever its case, hyphens and blanks. */
    static Optional<RegisterColumn> ofHeading(String heading) {
        String folded = fold(heading);
        for (RegisterColumn column : values()) {
            if (fold(column.word).equals(folded)
                    || column.others.stream().anyMatch(other -> fold(other).equals(folded))) {
                return Optional.of(column);
            }
        }
        return Optional.empty();
    }

    private static String fold(String text) {
        return text.strip()
                .toLowerCase(Locale.ROOT)
                .replace('_', ' ')
                .replace('-', ' ')
                .replace(".", "")
                .replaceAll(" +", " ");
    }
}
