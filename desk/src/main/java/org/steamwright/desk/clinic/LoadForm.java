package org.steamwright.desk.clinic;

import java.util.List;

/**
 * A load as it was typed, to be shown again.
 *
 * @param serial number of the steriliser
 * @param cycle that is to be run
 * @param counter cycle number that it will be
 * @param tests passed, failed, or blank if nobody said
 * @param names of the things, blank for lines not used
 * @param counts of the things
 * @param families of the things
 * @param packagings of the things
 */
public record LoadForm(
        String serial,
        String cycle,
        String counter,
        String tests,
        List<String> names,
        List<String> counts,
        List<String> families,
        List<String> packagings) {

    public LoadForm {
        names = List.copyOf(names);
        counts = List.copyOf(counts);
        families = List.copyOf(families);
        packagings = List.copyOf(packagings);
    }
}
