package org.steamwright.visit.whatif;

import java.math.BigDecimal;

/** Numbers with their sign, whichever it is. */
final class Signed {

    private Signed() {}

    /** As short as it can be written exactly, with plus or a true minus sign. */
    static String of(double value) {
        String digits = BigDecimal.valueOf(Math.abs(value)).stripTrailingZeros().toPlainString();
        return (value < 0 ? "−" : "+") + digits;
    }
}
