package org.steamwright.report.picture;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/** What a photo shows that is no load; such a photo is kept with the visit under a name that says what it shows. */
public enum PhotoSubject {
    PLATE(false),
    COUNTER(false),
    POSITIONS(true),
    INDICATORS(true);

    private final boolean isOfRun;

    PhotoSubject(boolean isOfRun) {
        this.isOfRun = isOfRun;
    }

    /** As it stands in names and forms. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Name of a photo.
     *
     * @param of key of the sterilizer, or number of the run
     * @param number from 1
     */
    public String file(String of, int number) {
        return begin(of) + number + ".jpg";
    }

    private String begin(String of) {
        return "photos/" + word() + (isOfRun ? "-run-" : "-") + of.replaceAll("[^A-Za-z0-9]+", "_") + "-";
    }

    /**
     * Those of the names that are photos of it, in their order.
     *
     * @param names of the files of a visit
     * @param of key of the sterilizer, or number of the run
     */
    public List<String> of(Collection<String> names, String of) {
        Pattern name = Pattern.compile(Pattern.quote(begin(of)) + "[1-9][0-9]*\\.jpg");
        return names.stream()
                .filter(file -> name.matcher(file).matches())
                .sorted(Comparator.comparingInt(String::length).thenComparing(Comparator.naturalOrder()))
                .toList();
    }
}
