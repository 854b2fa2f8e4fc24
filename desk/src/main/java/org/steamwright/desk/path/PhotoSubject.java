package org.steamwright.desk.path;

import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import org.steamwright.filing.Draft;

/** What a photo shows that is no load; such a photo is kept with the visit under a name that says what it shows. */
enum PhotoSubject {
    PLATE(false),
    COUNTER(false),
    POSITIONS(true),
    INDICATORS(true);

    private final boolean isOfRun;

    PhotoSubject(boolean isOfRun) {
        this.isOfRun = isOfRun;
    }

    String word() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * Name of a photo.
     *
     * @param of key of the sterilizer, or number of the run
     * @param number from 1
     */
    String file(String of, int number) {
        return begin(of) + number + ".jpg";
    }

    private String begin(String of) {
        return "photos/" + word() + (isOfRun ? "-run-" : "-") + of.replaceAll("[^A-Za-z0-9]+", "_") + "-";
    }

    /** Names of the photos that a visit has. */
    List<String> of(Draft draft, String of) {
        Pattern name = Pattern.compile(Pattern.quote(begin(of)) + "[1-9][0-9]*\\.jpg");
        return draft.files().keySet().stream()
                .filter(file -> name.matcher(file).matches())
                .toList();
    }
}
