package org.steamwright.journeys;

import java.util.Locale;

/** Rows of an invented recording of five temperatures and a pressure by formula, one cycle after another. */
final class UsualRows {

    /** First lines: that it is invented, and what the columns are. */
    static final String HEAD = "# Steamwright simulated recording - invented data, not a real cycle\n"
            + "Time [s],T1 [°C],T2 [°C],T3 [°C],T4 [°C],T5 [°C],P [kPa abs]\n";

    /** Rows of one cycle. */
    static final int OF_ONE_CYCLE = 3_000;

    private UsualRows() {}

    /** A row with its line end. */
    static String line(int row) {
        int at = row % OF_ONE_CYCLE;
        double celsius = at < 900 ? 30 + at * 0.115 : at < 2_100 ? 134.5 : 134.5 - (at - 2_100) * 0.09;
        return String.format(
                Locale.ROOT,
                "%d,%.2f,%.2f,%.2f,%.2f,%.2f,%.1f\n",
                row,
                celsius,
                celsius - 0.02,
                celsius - 0.04,
                celsius - 0.06,
                celsius - 0.08,
                100 + celsius);
    }
}
