package org.steamwright.intake.certificate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.certificate.ResultGroup.Role;

/**
 * From columns to rows of reference and indicated value.
 *
 * <p>The sign follows from the names of the columns: error = indicated - reference, correction = reference - indicated.
 * Where more columns are given than are needed, they have to agree.
 *
 * @source JCGM 200:2012 (VIM), 2.16 measurement error, 2.53 correction
 */
final class TableMaker {

    private final Notes notes;

    TableMaker(Notes notes) {
        this.notes = notes;
    }

    ResultTable make(
            ResultGroup group,
            int number,
            String title,
            List<String> ids,
            List<String> items,
            ResultTable.Stage stage) {
        Rows rows = rows(group);
        Optional<String> why = rows.why();
        if (why.isEmpty() && rows.kind().quantity().isEmpty()) {
            why = Optional.of(notUsed(rows.kind()));
        }
        List<String> figures = new ArrayList<>(group.figures());
        if (rows.points().isEmpty()) {
            for (Role role : group.roles()) {
                group.find(role).ifPresent(column -> figures.add(role.title() + ": " + ResultGroup.values(column)));
            }
        }
        ResultTable table = new ResultTable(
                number,
                title,
                ids,
                items,
                stage,
                rows.kind(),
                rows.referenceUnit(),
                rows.kind().unit(),
                rows.kind().differenceUnit(),
                rows.points(),
                figures,
                why);
        why.ifPresent(reason -> notes.add(
                CertificateMessage.TABLE_NOT_USED,
                Rank.NOTE,
                group.holder(),
                "Result " + table.name() + " is read, but no reading is corrected by it: " + reason));
        conformity(group, table);
        return table;
    }

    private static String notUsed(MeasuredKind kind) {
        return switch (kind) {
            case RESISTANCE ->
                "it gives the resistance of the sensor over temperature, and a recording holds degrees. A certificate"
                        + " of sensor and instrument together is needed, or one of the instrument that shows degrees.";
            case HUMIDITY -> "nothing of a cycle is judged by humidity.";
            case OTHER -> "its units are neither of temperature nor of pressure.";
            case TEMPERATURE, PRESSURE -> throw new IllegalArgumentException("a table of " + kind + " is used");
        };
    }

    /** What could be made of the columns. */
    private record Rows(MeasuredKind kind, String referenceUnit, List<TablePoint> points, Optional<String> why) {

        static Rows none(MeasuredKind kind, String why) {
            return new Rows(kind, kind.unit(), List.of(), Optional.of(why));
        }
    }

    private Rows rows(ResultGroup group) {
        MeasuredKind kind = kind(group);
        if (!group.doubled().isEmpty()) {
            return Rows.none(
                    kind,
                    "several of its columns are called "
                            + group.doubled().stream().map(Role::title).collect(Collectors.joining(" and "))
                            + ", and nothing says which belong together. Type the pairs from the certificate.");
        }
        if (!group.isTable()) {
            return Rows.none(kind, noTable(group));
        }
        Optional<String> uneven = uneven(group);
        if (uneven.isPresent()) {
            return Rows.none(kind, uneven.get());
        }
        Optional<String> mixed = mixed(group, kind);
        if (mixed.isPresent()) {
            return Rows.none(kind, mixed.get());
        }
        List<Double> reference = reference(group);
        List<Double> indicated = indicated(group);
        agree(group, reference, indicated);
        Optional<SiColumn> doubt = doubt(group);
        List<Double> expanded = doubt.map(SiColumn::expandedInside).orElse(List.of());
        List<TablePoint> points = new ArrayList<>();
        for (int i = 0; i < reference.size(); i++) {
            Optional<Double> size = i < expanded.size() ? Optional.of(expanded.get(i)) : Optional.empty();
            points.add(new TablePoint(
                    reference.get(i),
                    indicated.get(i),
                    size,
                    size.isEmpty() ? Optional.empty() : stated(doubt.get().factor(), i),
                    size.isEmpty() ? Optional.empty() : stated(doubt.get().probability(), i),
                    size.isEmpty() ? "" : doubt.get().distribution().get(i),
                    word(group.conformity(), i, reference.size()),
                    limits(group, "acceptancelimit", i, kind),
                    limits(group, "tolerancelimit", i, kind)));
        }
        String referenceUnit = kind == MeasuredKind.RESISTANCE ? MeasuredKind.TEMPERATURE.unit() : kind.unit();
        return new Rows(kind, referenceUnit, points, Optional.empty());
    }

    private static String noTable(ResultGroup group) {
        if (!group.without().isEmpty()) {
            if (!group.isList()) {
                return "it holds single figures without a reference type, such as coefficients ("
                        + String.join(", ", group.without())
                        + "). If they are a calibration point, type it as the pair of reference and indicated value.";
            }
            return "its columns (" + String.join(", ", group.without())
                    + ") carry no reference type, so nothing but their names says what they are, and a name may mean the"
                    + " opposite sign. If they are calibration points, type them as pairs of reference and indicated value.";
        }
        return "it has no pair of columns from which reference and indicated value follow (found "
                + (group.roles().isEmpty()
                        ? "none of them"
                        : group.roles().stream().map(Role::title).collect(Collectors.joining(", ")))
                + "). Type the pairs from the certificate.";
    }

    /** By the units of the columns; a resistance over temperature is a kind of its own. */
    private static MeasuredKind kind(ResultGroup group) {
        MeasuredKind shown = Stream.of(Role.INDICATED, Role.REFERENCE, Role.ERROR, Role.CORRECTION)
                .flatMap(role -> group.find(role).stream())
                .map(column -> column.unit().kind())
                .findFirst()
                .orElse(MeasuredKind.OTHER);
        boolean isOverTemperature = group.find(Role.REFERENCE)
                .filter(column -> column.unit().kind() == MeasuredKind.TEMPERATURE)
                .isPresent();
        return shown == MeasuredKind.RESISTANCE && !isOverTemperature ? MeasuredKind.OTHER : shown;
    }

    private static Optional<String> uneven(ResultGroup group) {
        List<String> sizes = new ArrayList<>();
        int most = 0;
        for (Role role : group.roles()) {
            int size = group.find(role).orElseThrow().size();
            most = Math.max(most, size);
            sizes.add(size + " of " + role.title());
        }
        for (Role role : group.roles()) {
            int size = group.find(role).orElseThrow().size();
            boolean isForAll = size == 1 && (role == Role.UNCERTAINTY || role == Role.FACTOR);
            if (size != most && !isForAll) {
                return Optional.of("its columns have different numbers of values: " + String.join(", ", sizes)
                        + ". Type the pairs from the certificate.");
            }
        }
        return Optional.empty();
    }

    private static Optional<String> mixed(ResultGroup group, MeasuredKind kind) {
        for (Role role : group.roles()) {
            MeasuredKind own = group.find(role).orElseThrow().unit().kind();
            boolean isSensor = kind == MeasuredKind.RESISTANCE && role == Role.REFERENCE;
            if (own != kind && !isSensor && role != Role.FACTOR) {
                return Optional.of("its column of " + role.title() + " is of " + own.title() + ", the others of "
                        + kind.title() + ". Type the pairs from the certificate.");
            }
        }
        if (kind == MeasuredKind.RESISTANCE && group.find(Role.INDICATED).isEmpty()) {
            return Optional.of("it gives no resistance for its temperatures.");
        }
        return Optional.empty();
    }

    private static List<Double> reference(ResultGroup group) {
        return group.find(Role.REFERENCE).map(SiColumn::inside).orElseGet(() -> {
            SiColumn indicated = group.find(Role.INDICATED).orElseThrow();
            return group.find(Role.ERROR)
                    .map(error -> sum(indicated, error, -1))
                    .orElseGet(() -> sum(indicated, group.find(Role.CORRECTION).orElseThrow(), 1));
        });
    }

    private static List<Double> indicated(ResultGroup group) {
        return group.find(Role.INDICATED).map(SiColumn::inside).orElseGet(() -> {
            SiColumn reference = group.find(Role.REFERENCE).orElseThrow();
            return group.find(Role.ERROR)
                    .map(error -> sum(reference, error, 1))
                    .orElseGet(() -> sum(reference, group.find(Role.CORRECTION).orElseThrow(), -1));
        });
    }

    private static List<Double> sum(SiColumn value, SiColumn difference, int sign) {
        List<Double> sums = new ArrayList<>();
        int decimals = Math.max(value.decimals(), difference.decimals());
        List<Double> values = value.inside();
        List<Double> differences = difference.differences();
        for (int i = 0; i < values.size(); i++) {
            sums.add(SiColumn.clean(values.get(i) + sign * differences.get(i), decimals));
        }
        return sums;
    }

    /** Errors and corrections that are given beside the pairs have to follow from them. */
    private void agree(ResultGroup group, List<Double> reference, List<Double> indicated) {
        if (group.find(Role.REFERENCE).isEmpty() || group.find(Role.INDICATED).isEmpty()) {
            return;
        }
        for (Role role : List.of(Role.ERROR, Role.CORRECTION)) {
            Optional<SiColumn> stated = group.find(role);
            if (stated.isEmpty()) {
                continue;
            }
            double allowed = 1.01
                    * (stated.get().halfStep()
                            + group.find(Role.REFERENCE).orElseThrow().halfStep()
                            + group.find(Role.INDICATED).orElseThrow().halfStep());
            int sign = role == Role.ERROR ? 1 : -1;
            List<Double> differences = stated.get().differences();
            for (int i = 0; i < reference.size(); i++) {
                double derived = sign * (indicated.get(i) - reference.get(i));
                double given = differences.get(i);
                if (Math.abs(derived - given) > allowed) {
                    boolean isOpposite = Math.abs(derived + given) <= allowed;
                    notes.add(
                            CertificateMessage.VALUES_DISAGREE,
                            Rank.DOUBT,
                            group.holder(),
                            "Row " + (i + 1) + ": the " + role.title() + " is given as " + SiColumn.print(given)
                                    + ", but reference " + SiColumn.print(reference.get(i)) + " and indicated "
                                    + SiColumn.print(indicated.get(i)) + " give "
                                    + SiColumn.print(SiColumn.clean(derived, 3)) + ". "
                                    + (isOpposite ? "It has the opposite sign. " : "")
                                    + "The pair is used. Ask the laboratory which holds.");
                }
            }
        }
    }

    /** The column whose uncertainty is that of the calibration. */
    private Optional<SiColumn> doubt(ResultGroup group) {
        List<Role> stated = new ArrayList<>();
        for (Role role : List.of(Role.ERROR, Role.CORRECTION, Role.INDICATED, Role.REFERENCE)) {
            if (group.find(role).filter(SiColumn::hasUncertainty).isPresent()) {
                stated.add(role);
            }
        }
        Optional<SiColumn> own = group.find(Role.UNCERTAINTY).map(column -> asUncertainty(group, column));
        if (own.isPresent() && stated.isEmpty()) {
            return own;
        }
        if (stated.isEmpty()) {
            return Optional.empty();
        }
        Role used = stated.get(0);
        if (used == Role.REFERENCE || stated.size() > 1 || own.isPresent()) {
            notes.add(
                    CertificateMessage.UNCERTAINTY_ELSEWHERE,
                    used == Role.REFERENCE ? Rank.DOUBT : Rank.NOTE,
                    group.holder(),
                    used == Role.REFERENCE
                            ? "An uncertainty stands at the reference value only. It is used as that of the calibration."
                                    + " Ask the laboratory whether the comparison itself is in it."
                            : "Several columns state an uncertainty. That of the " + used.title() + " is used.");
        }
        return group.find(used);
    }

    private static SiColumn asUncertainty(ResultGroup group, SiColumn column) {
        int rows = group.find(Role.REFERENCE)
                .or(() -> group.find(Role.INDICATED))
                .orElseThrow()
                .size();
        List<Double> factors = group.find(Role.FACTOR).map(SiColumn::values).orElse(List.of(Double.NaN));
        List<Double> sizes = column.values();
        return new SiColumn(
                column.unit(),
                column.values(),
                column.decimals(),
                sizes.size() == rows ? sizes : Collections.nCopies(rows, sizes.get(0)),
                factors.size() == rows ? factors : Collections.nCopies(rows, factors.get(0)),
                Collections.nCopies(rows, Double.NaN),
                Collections.nCopies(rows, ""));
    }

    private static Optional<Double> stated(List<Double> figures, int row) {
        double figure = figures.get(row);
        return Double.isNaN(figure) ? Optional.empty() : Optional.of(figure);
    }

    private static String word(List<String> words, int row, int rows) {
        if (words.size() == rows) {
            return words.get(row);
        }
        return words.size() == 1 ? words.get(0) : "";
    }

    private static String limits(ResultGroup group, String name, int row, MeasuredKind kind) {
        Optional<Double> lower = group.limit(name + "lower", row);
        Optional<Double> upper = group.limit(name + "upper", row);
        if (lower.isEmpty() && upper.isEmpty()) {
            return "";
        }
        return lower.map(value -> "from " + SiColumn.print(value)).orElse("")
                + (lower.isPresent() && upper.isPresent() ? " " : "")
                + upper.map(value -> "to " + SiColumn.print(value)).orElse("")
                + " " + kind.differenceUnit();
    }

    private void conformity(ResultGroup group, ResultTable table) {
        List<String> worse = group.conformity().stream()
                .filter(word -> !word.equals("pass"))
                .distinct()
                .toList();
        if (!worse.isEmpty()) {
            notes.add(
                    CertificateMessage.NOT_CONFORMING,
                    table.stage() == ResultTable.Stage.BEFORE ? Rank.NOTE : Rank.DOUBT,
                    group.holder(),
                    "The laboratory's statement of conformity on result " + table.name() + " ("
                            + table.stage().title() + ") is: " + String.join(", ", worse)
                            + (table.stage() == ResultTable.Stage.BEFORE
                                    ? ". What was judged with the instrument since its calibration before that is in question."
                                    : ". The points are used as measured; whether the instrument is fit is for you to say."));
        }
    }
}
