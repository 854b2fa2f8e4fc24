package org.steamwright.visit.due;

import java.time.LocalDate;
import java.util.Optional;

/** When a cycle counter reaches a total. */
public sealed interface Forecast {

    /**
     * A reading shows the total already.
     *
     * @param seenOn day of the first reading at or above it; it was reached on that day or before
     * @param cycles total of that reading
     */
    record Reached(LocalDate seenOn, long cycles) implements Forecast {}

    /**
     * It has not been reached by the last reading.
     *
     * @param day on which it is most likely reached
     * @param earliest first day of the interval of about 95 %
     * @param latest last day of that interval; empty if the readings don't bound it
     * @param cyclesPerWorkingDay average use
     * @param readings that the average rests on
     * @param lastReading day of the last of them
     */
    record Expected(
            LocalDate day,
            LocalDate earliest,
            Optional<LocalDate> latest,
            double cyclesPerWorkingDay,
            int readings,
            LocalDate lastReading)
            implements Forecast {}

    /**
     * Nothing can be said.
     *
     * @param why in words
     */
    record NotKnown(String why) implements Forecast {}
}
