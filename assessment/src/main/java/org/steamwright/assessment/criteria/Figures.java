package org.steamwright.assessment.criteria;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** How figures are printed: with one decimal more than the limit has, cut towards the side that looks worse. */
public final class Figures {

    /** Digits beyond which a binary fraction is noise: 0.13 read from text must not print as 0.12. */
    private static final int NOISE_DIGITS = 9;

    private Figures() {}

    /** A figure that is held against a lower limit: cut downwards. */
    public static String lowSide(double figure, int decimals) {
        return cut(figure, decimals, RoundingMode.FLOOR);
    }

    /** A figure that is held against an upper limit: cut upwards. */
    public static String highSide(double figure, int decimals) {
        return cut(figure, decimals, RoundingMode.CEILING);
    }

    /** A figure with its unit, one decimal more than usual limits have, cut towards the side that is worse for it. */
    public static String shown(double figure, Unit unit, Comparison comparison) {
        int decimals = unit.shownDecimals();
        String text = comparison == Comparison.AT_LEAST ? lowSide(figure, decimals) : highSide(figure, decimals);
        return unit.symbol().isEmpty() ? text : text + " " + unit.symbol();
    }

    /** A figure with its unit that is held against nothing. */
    public static String shown(double figure, Unit unit) {
        String text = nearest(figure, unit.shownDecimals());
        return unit.symbol().isEmpty() ? text : text + " " + unit.symbol();
    }

    /** A moment of the run as minutes and seconds from its start, cut to whole seconds: 14:05. */
    public static String moment(double seconds) {
        long whole = (long) Math.floor(seconds);
        long left = Math.abs(whole) % 60;
        return (whole < 0 ? "−" : "") + Math.abs(whole) / 60 + (left < 10 ? ":0" : ":") + left;
    }

    /** A figure that is held against nothing: nearest. */
    public static String nearest(double figure, int decimals) {
        return cut(figure, decimals, RoundingMode.HALF_EVEN);
    }

    /** A limit or setting, with as many decimals as it has and at least those of its unit where it has any. */
    public static String plain(double figure, Unit unit) {
        BigDecimal exact = BigDecimal.valueOf(figure).stripTrailingZeros();
        int scale = Math.max(exact.scale(), figure == Math.rint(figure) && unit.decimals() < 2 ? 0 : unit.decimals());
        return exact.setScale(Math.max(scale, 0), RoundingMode.UNNECESSARY).toPlainString();
    }

    /**
     * A figure without the noise of binary fractions: nearest at nine decimals. (6.50 − 5.20) / 10 is then 0.13 and not
     * 0.13000000000000006. Nine decimals lie far below any resolution in this trade; a microsecond short stays short.
     */
    public static double cleaned(double figure) {
        return Double.isFinite(figure) ? cleanedDecimal(figure).doubleValue() : figure;
    }

    private static BigDecimal cleanedDecimal(double figure) {
        return BigDecimal.valueOf(figure).setScale(NOISE_DIGITS, RoundingMode.HALF_EVEN);
    }

    private static String cut(double figure, int decimals, RoundingMode mode) {
        if (Double.isNaN(figure)) {
            return "–";
        }
        if (Double.isInfinite(figure)) {
            return figure > 0 ? "∞" : "−∞";
        }
        BigDecimal shown = cleanedDecimal(figure).setScale(decimals, mode);
        String text = shown.toPlainString();
        return shown.signum() < 0
                ? "−" + text.substring(1)
                : shown.signum() == 0 && text.startsWith("-") ? text.substring(1) : text;
    }
}
