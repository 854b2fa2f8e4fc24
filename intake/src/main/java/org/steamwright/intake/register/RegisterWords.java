package org.steamwright.intake.register;

import java.time.DayOfWeek;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.SterilizerRecord;

/** The fixed words of a register and what they stand for, in the order of the reference page. */
final class RegisterWords {

    static final Map<String, SterilizerRecord.Status> STATUS =
            words(SterilizerRecord.Status.values(), SterilizerRecord.Status::word);
    static final Map<String, Duty> DUTY = words(Duty.values(), Duty::word);
    static final Map<String, Lot.Kind> LOT = words(Lot.Kind.values(), Lot.Kind::word);
    static final Map<String, DayOfWeek> DAY =
            words(DayOfWeek.values(), day -> day.name().toLowerCase(Locale.ROOT));

    private RegisterWords() {}

    private static <E> Map<String, E> words(E[] meanings, Function<E, String> word) {
        Map<String, E> words = new LinkedHashMap<>();
        for (E meaning : meanings) {
            words.put(word.apply(meaning), meaning);
        }
        return words;
    }
}
