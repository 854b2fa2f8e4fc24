package org.steamwright.intake;

/** In which order a file writes day, month and year. */
public enum DateOrder {
    /** 25.11.2026 */
    DAY_MONTH_YEAR("DMY"),
    /** 11/25/2026 */
    MONTH_DAY_YEAR("MDY"),
    /** 2026-11-25 */
    YEAR_MONTH_DAY("YMD");

    private final String symbol;

    DateOrder(String symbol) {
        this.symbol = symbol;
    }

    /** Three letters, as an answer is written. */
    public String symbol() {
        return symbol;
    }
}
