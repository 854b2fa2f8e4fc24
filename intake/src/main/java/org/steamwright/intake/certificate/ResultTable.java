package org.steamwright.intake.certificate;

import java.util.List;
import java.util.Optional;

/**
 * A table of results of a certificate, in the order of its rows.
 *
 * @param number from 1, in the order of the file
 * @param title of the result, as the certificate has it
 * @param ids by which the result can be called: ids in the file, and reference types
 * @param items ids of the items that it refers to; empty if the file does not say
 * @param stage before or after an adjustment, as far as the file says
 * @param kind what was measured
 * @param referenceUnit unit of the reference values
 * @param indicatedUnit unit of the indicated values
 * @param differenceUnit unit of uncertainties and limits
 * @param points rows; empty if there are none that could be understood
 * @param figures what else stands there, a line each: coefficients, nominal values, other columns
 * @param whyNotUsed why a reading can not be corrected by it; empty if it can
 */
public record ResultTable(
        int number,
        String title,
        List<String> ids,
        List<String> items,
        Stage stage,
        MeasuredKind kind,
        String referenceUnit,
        String indicatedUnit,
        String differenceUnit,
        List<TablePoint> points,
        List<String> figures,
        Optional<String> whyNotUsed) {

    public ResultTable {
        ids = List.copyOf(ids);
        items = List.copyOf(items);
        points = List.copyOf(points);
        figures = List.copyOf(figures);
    }

    /** When a table was measured. */
    public enum Stage {
        /** The file says nothing of an adjustment for this table. */
        PLAIN("as calibrated"),
        BEFORE("as found, before adjustment"),
        AFTER("as left, after adjustment");

        private final String title;

        Stage(String title) {
            this.title = title;
        }

        /** As printed. */
        public String title() {
            return title;
        }
    }

    /** Number and title, for people. */
    public String name() {
        return number + (title.isEmpty() ? "" : " '" + title + "'");
    }
}
