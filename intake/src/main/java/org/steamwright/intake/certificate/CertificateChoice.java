package org.steamwright.intake.certificate;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.intake.certificate.ResultTable.Stage;

/**
 * What a person adds to a digital certificate so that readings can be corrected by it: which item, which result, and what the
 * file does not state. What the file does state is never overridden.
 *
 * @param instrument id of the instrument in the visit; looked for among the numbers of the items
 * @param quantity what the instrument measures
 * @param item number, id, name or place of the item; empty if not said
 * @param result number, id or title of the result; empty if not said
 * @param dueOn last day on which it may be relied on; empty if not said
 * @param expanded expanded uncertainty in kelvin or kilopascal where the file states none
 * @param factor coverage factor where the file states none
 */
public record CertificateChoice(
        String instrument,
        Quantity quantity,
        Optional<String> item,
        Optional<String> result,
        Optional<LocalDate> dueOn,
        Optional<Double> expanded,
        Optional<Double> factor) {

    /** A correction is looked up for every sample; more points than this are no calibration of a logger. */
    private static final int MOST_POINTS = 500;

    /** Two figures that a person has copied and a file states are the same up to this. */
    private static final double SAME = 1e-9;

    /** A certificate ready for use, with what was odd on the way. */
    public record Chosen(CalibrationCertificate certificate, List<Remark> remarks) {

        public Chosen {
            remarks = List.copyOf(remarks);
        }
    }

    /**
     * The certificate as it corrects readings: the last state counts, points in the order of their indicated values.
     *
     * @throws UnreadableCertificateException if something has to be said first, or no result can be used; it says what
     */
    public Chosen of(DigitalCertificate certificate) throws UnreadableCertificateException {
        Notes notes = new Notes(certificate.file());
        Optional<CalibratedItem> chosenItem = item(certificate, notes);
        List<ResultTable> usable = certificate.tables().stream()
                .filter(table -> table.whyNotUsed().isEmpty()
                        && table.kind().quantity().filter(quantity::equals).isPresent())
                .filter(table -> isOf(table, chosenItem, certificate))
                .toList();
        ResultTable table = table(certificate, usable);
        Optional<ResultTable> before = before(table, usable);
        LocalDate due = due(certificate, notes);
        List<CalibrationPoint> points = points(certificate, table, notes);
        List<CalibrationPoint> asFound = before.isEmpty() ? List.of() : asFound(before.get(), notes);
        CertificateFile file = new CertificateFile(
                certificate.file(),
                certificate.sha256(),
                certificate.schemaVersion(),
                chosenItem
                        .map(CalibratedItem::toString)
                        .orElseGet(() -> certificate.items().stream()
                                .map(CalibratedItem::toString)
                                .collect(Collectors.joining(" with "))),
                table.stage() == Stage.AFTER || before.isPresent()
                        ? CertificateFile.State.AS_LEFT
                        : CertificateFile.State.AS_CALIBRATED,
                certificate.signature().answer(),
                certificate.signature().text(),
                asFound);
        List<Remark> remarks = new ArrayList<>(certificate.remarks());
        remarks.addAll(notes.all());
        return new Chosen(
                new CalibrationCertificate(
                        certificate.number(),
                        certificate.laboratory(),
                        certificate.calibratedOn(),
                        due,
                        points,
                        Optional.of(file)),
                remarks);
    }

    /** The item meant; empty if the items of the certificate were calibrated as one. */
    private Optional<CalibratedItem> item(DigitalCertificate certificate, Notes notes)
            throws UnreadableCertificateException {
        List<CalibratedItem> items = certificate.items();
        if (item.isPresent()) {
            return Optional.of(named(certificate, item.get()));
        }
        List<CalibratedItem> byNumber =
                items.stream().filter(one -> one.isCalled(instrument)).toList();
        if (byNumber.size() == 1) {
            return Optional.of(byNumber.get(0));
        }
        if (items.size() == 1) {
            notes.add(
                    CertificateMessage.OTHER_NUMBER,
                    Rank.NOTE,
                    "None of the numbers of its item is " + instrument + ": " + items.get(0)
                            + ". See that the certificate belongs to this instrument.");
            return Optional.of(items.get(0));
        }
        boolean isOneSystem =
                certificate.tables().stream().allMatch(table -> table.items().isEmpty());
        long usable = certificate.tables().stream()
                .filter(table -> table.whyNotUsed().isEmpty()
                        && table.stage() != Stage.BEFORE
                        && table.kind().quantity().filter(quantity::equals).isPresent())
                .count();
        if (isOneSystem && usable <= 1) {
            return Optional.empty();
        }
        throw open(
                CertificateMessage.ITEM_OPEN,
                certificate,
                "the certificate is about " + items.size() + " items, and none of their numbers is " + instrument
                        + ". Say which is meant, with its number: " + listed(items) + ".");
    }

    private CalibratedItem named(DigitalCertificate certificate, String word) throws UnreadableCertificateException {
        List<CalibratedItem> items = certificate.items();
        List<CalibratedItem> called =
                items.stream().filter(one -> one.isCalled(word)).toList();
        if (called.size() == 1) {
            return called.get(0);
        }
        if (called.isEmpty() && word.strip().matches("[1-9][0-9]{0,3}")) {
            int place = Integer.parseInt(word.strip());
            if (place <= items.size()) {
                return items.get(place - 1);
            }
        }
        throw open(
                CertificateMessage.ITEM_OPEN,
                certificate,
                (called.isEmpty() ? "no item" : "more than one item") + " of the certificate is called \"" + word
                        + "\". Write one of its numbers, or its place: " + listed(items) + ".");
    }

    private static String listed(List<CalibratedItem> items) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < items.size(); i++) {
            text.append(i == 0 ? "" : "; ").append(i + 1).append(" is ").append(items.get(i));
        }
        return text.toString();
    }

    private static boolean isOf(ResultTable table, Optional<CalibratedItem> item, DigitalCertificate certificate) {
        List<String> known = certificate.items().stream()
                .map(CalibratedItem::id)
                .filter(id -> !id.isEmpty())
                .toList();
        List<String> named = table.items().stream().filter(known::contains).toList();
        return named.isEmpty() || item.isEmpty() || named.contains(item.get().id());
    }

    private ResultTable table(DigitalCertificate certificate, List<ResultTable> usable)
            throws UnreadableCertificateException {
        if (usable.isEmpty()) {
            String why = certificate.tables().stream()
                    .map(table -> "result " + table.name() + ": "
                            + table.whyNotUsed()
                                    .orElse("it is of " + table.kind().title() + ", or of another item"))
                    .collect(Collectors.joining("; "));
            throw open(
                    CertificateMessage.NOTHING_USABLE,
                    certificate,
                    "no result of it corrects a " + quantity.name().toLowerCase(Locale.ROOT) + " of " + instrument
                            + (why.isEmpty() ? ". " : " (" + why + ") ")
                            + "Name the right certificate, or type the points as pairs.");
        }
        List<ResultTable> last =
                usable.stream().filter(table -> table.stage() != Stage.BEFORE).toList();
        if (last.isEmpty()) {
            throw open(
                    CertificateMessage.AS_LEFT_MISSING,
                    certificate,
                    "it gives only points from before an adjustment, which say nothing about the instrument as it is now."
                            + " Ask the laboratory for the calibration after the adjustment.");
        }
        if (result.isPresent()) {
            String word = result.get().strip();
            List<ResultTable> meant = last.stream()
                    .filter(table -> String.valueOf(table.number()).equals(word)
                            || table.title().equalsIgnoreCase(word)
                            || table.ids().contains(word))
                    .toList();
            if (meant.size() == 1) {
                return meant.get(0);
            }
            throw open(
                    CertificateMessage.RESULT_OPEN,
                    certificate,
                    (meant.isEmpty() ? "no result" : "more than one result") + " that could be used is called \"" + word
                            + "\". Write its number: " + names(last) + ".");
        }
        List<ResultTable> after =
                last.stream().filter(table -> table.stage() == Stage.AFTER).toList();
        List<ResultTable> candidates = after.isEmpty() ? last : after;
        if (candidates.size() > 1) {
            throw open(
                    CertificateMessage.RESULT_OPEN,
                    certificate,
                    "several of its results could correct " + instrument + ", and nothing says which is meant."
                            + " Add the number of the one: " + names(candidates) + ".");
        }
        return candidates.get(0);
    }

    private static String names(List<ResultTable> tables) {
        return tables.stream().map(ResultTable::name).collect(Collectors.joining(", "));
    }

    /** What was found before an adjustment, where exactly one table can be that. */
    private static Optional<ResultTable> before(ResultTable table, List<ResultTable> usable) {
        List<ResultTable> before = usable.stream()
                .filter(one -> one.stage() == Stage.BEFORE && one.items().equals(table.items()))
                .toList();
        List<ResultTable> sameTitle =
                before.stream().filter(one -> one.title().equals(table.title())).toList();
        if (sameTitle.size() == 1) {
            return Optional.of(sameTitle.get(0));
        }
        return before.size() == 1 ? Optional.of(before.get(0)) : Optional.empty();
    }

    private LocalDate due(DigitalCertificate certificate, Notes notes) throws UnreadableCertificateException {
        Optional<LocalDate> stated = certificate.recalibrateBy();
        if (dueOn.isEmpty() && stated.isEmpty()) {
            throw open(
                    CertificateMessage.NO_DUE_DATE,
                    certificate,
                    "it states no day by which the instrument is to be calibrated again, and none is invented."
                            + " Add the last day of your interval, such as due-on: "
                            + certificate.calibratedOn().plusYears(1) + ".");
        }
        if (dueOn.isPresent() && stated.isPresent() && stated.get().isBefore(dueOn.get())) {
            notes.add(
                    CertificateMessage.DUE_EARLIER,
                    Rank.DOUBT,
                    "The visit has " + instrument + " due on " + dueOn.get() + ", the certificate states "
                            + stated.get() + ". The earlier day is used. Which of the two holds?");
            return stated.get();
        }
        LocalDate due = dueOn.or(() -> stated).orElseThrow();
        if (due.isBefore(certificate.calibratedOn())) {
            throw open(
                    CertificateMessage.NO_DUE_DATE,
                    certificate,
                    "it is due on " + due + ", before its calibration on " + certificate.calibratedOn()
                            + ". Correct the day.");
        }
        return due;
    }

    private List<CalibrationPoint> points(DigitalCertificate certificate, ResultTable table, Notes notes)
            throws UnreadableCertificateException {
        if (table.points().size() > MOST_POINTS) {
            throw open(
                    CertificateMessage.NOTHING_USABLE,
                    certificate,
                    "result " + table.name() + " has " + table.points().size() + " points, up to " + MOST_POINTS
                            + " are used. Type those around the temperatures that are judged.");
        }
        List<CalibrationPoint> points = new ArrayList<>();
        for (TablePoint point : table.points()) {
            contradiction(certificate, table, "U", point.expanded(), expanded);
            contradiction(certificate, table, "k", point.factor(), factor);
            Optional<Double> size = point.expanded().or(() -> expanded);
            Optional<Double> k = point.factor().or(() -> factor);
            if (size.isEmpty() || k.isEmpty()) {
                String lacking = size.isEmpty() ? (k.isEmpty() ? "no U and no k" : "no U") : "no k";
                throw open(
                        CertificateMessage.UNCERTAINTY_MISSING,
                        certificate,
                        "result " + table.name() + " states " + lacking + " at reference "
                                + SiColumn.print(point.reference()) + " " + table.referenceUnit()
                                + ". If the certificate says it in words or on paper, add it: "
                                + (size.isEmpty() ? "U: 0.06 " + table.differenceUnit() : "")
                                + (size.isEmpty() && k.isEmpty() ? " and " : "")
                                + (k.isEmpty() ? "k: 2" : "") + ".");
            }
            points.add(new CalibrationPoint(point.reference(), point.indicated(), size.get(), k.get()));
        }
        return merged(points, table, notes);
    }

    private void contradiction(
            DigitalCertificate certificate,
            ResultTable table,
            String name,
            Optional<Double> inFile,
            Optional<Double> said)
            throws UnreadableCertificateException {
        if (inFile.isPresent() && said.isPresent() && Math.abs(inFile.get() - said.get()) > SAME) {
            throw open(
                    CertificateMessage.CONTRADICTION,
                    certificate,
                    "result " + table.name() + " states " + name + " = " + SiColumn.print(inFile.get())
                            + ", the visit says " + SiColumn.print(said.get())
                            + ". The certificate is not overridden: remove " + name + " from the visit.");
        }
    }

    /** Rows with one indicated value become one point; half their difference goes into its uncertainty. */
    private static List<CalibrationPoint> merged(List<CalibrationPoint> points, ResultTable table, Notes notes) {
        List<CalibrationPoint> sorted = new ArrayList<>(points);
        sorted.sort(Comparator.comparingDouble(CalibrationPoint::indicated));
        List<CalibrationPoint> merged = new ArrayList<>();
        int i = 0;
        while (i < sorted.size()) {
            int end = i;
            double low = sorted.get(i).reference();
            double high = low;
            double sum = 0;
            CalibrationPoint widest = sorted.get(i);
            while (end < sorted.size()
                    && sorted.get(end).indicated() == sorted.get(i).indicated()) {
                CalibrationPoint point = sorted.get(end);
                low = Math.min(low, point.reference());
                high = Math.max(high, point.reference());
                sum += point.reference();
                if (point.expandedUncertainty() / point.coverageFactor()
                        > widest.expandedUncertainty() / widest.coverageFactor()) {
                    widest = point;
                }
                end++;
            }
            if (end - i == 1) {
                merged.add(sorted.get(i));
            } else {
                double k = widest.coverageFactor();
                double standard = widest.expandedUncertainty() / k;
                double between = (high - low) / 2 / Math.sqrt(3);
                merged.add(new CalibrationPoint(
                        SiColumn.clean(sum / (end - i), 3),
                        widest.indicated(),
                        SiColumn.clean(k * Math.sqrt(standard * standard + between * between), 3),
                        k));
                notes.add(
                        CertificateMessage.POINTS_MERGED,
                        Rank.NOTE,
                        "Result " + table.name() + " has " + (end - i) + " rows indicated at "
                                + SiColumn.print(widest.indicated()) + " " + table.indicatedUnit()
                                + ", with references from " + SiColumn.print(low) + " to " + SiColumn.print(high)
                                + ". Their mean is used, half the difference goes into U as a rectangular part.");
            }
            i = end;
        }
        return merged;
    }

    /** Points before the adjustment are kept for the look-back; one without an uncertainty can't be, which is said. */
    private List<CalibrationPoint> asFound(ResultTable before, Notes notes) {
        List<CalibrationPoint> points = new ArrayList<>();
        for (TablePoint point : before.points()) {
            Optional<Double> size = point.expanded().or(() -> expanded);
            Optional<Double> k = point.factor().or(() -> factor);
            if (size.isPresent() && k.isPresent()) {
                points.add(new CalibrationPoint(point.reference(), point.indicated(), size.get(), k.get()));
            }
        }
        if (points.size() < before.points().size()) {
            notes.add(
                    CertificateMessage.TABLE_NOT_USED,
                    Rank.NOTE,
                    "Result " + before.name() + ", as found, states no U or no k for "
                            + (before.points().size() - points.size())
                            + " of its points. Those are not kept for a look-back.");
        }
        return points;
    }

    private static UnreadableCertificateException open(
            CertificateMessage message, DigitalCertificate certificate, String text) {
        return new UnreadableCertificateException(message, certificate.file(), "", text);
    }
}
