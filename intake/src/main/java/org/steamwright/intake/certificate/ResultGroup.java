package org.steamwright.intake.certificate;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.xml.XmlElement;

/** Quantities that stand side by side in a certificate, sorted by the role that their reference type states. */
final class ResultGroup {

    /** What a column of a table of results is. */
    enum Role {
        REFERENCE("reference value", "referencevalue"),
        INDICATED("measured value", "measuredvalue", "indicatedvalue"),
        ERROR("measurement error", "measurementerror"),
        CORRECTION("correction", "correction"),
        UNCERTAINTY("uncertainty", "uncertainty"),
        FACTOR("coverage factor", "coveragefactor");

        private final String title;
        private final List<String> words;

        Role(String title, String... words) {
            this.title = title;
            this.words = List.of(words);
        }

        String title() {
            return title;
        }

        /** The role that one of the reference types of a quantity names; the sign is in the name, never in the values. */
        static Optional<Role> of(XmlElement quantity) {
            for (String type : types(quantity)) {
                String plain = type.toLowerCase(Locale.ROOT);
                for (Role role : values()) {
                    if (role.words.stream().anyMatch(plain::endsWith)) {
                        return Optional.of(role);
                    }
                }
            }
            return Optional.empty();
        }
    }

    private final XmlElement holder;
    private final Map<Role, SiColumn> columns = new EnumMap<>(Role.class);
    private final Set<Role> doubled = new LinkedHashSet<>();
    private final List<String> figures = new ArrayList<>();
    private final List<String> without = new ArrayList<>();
    private final List<String> conformity = new ArrayList<>();
    private final Map<String, List<Double>> limits = new TreeMap<>();
    private boolean isList;

    private ResultGroup(XmlElement holder) {
        this.holder = holder;
    }

    /** The groups of a {@code data} or {@code list}: its own quantities, and each list inside. */
    static List<ResultGroup> in(XmlElement data, SiReader si, Notes notes) {
        List<ResultGroup> groups = new ArrayList<>();
        List<XmlElement> own = data.children("quantity");
        if (!own.isEmpty()) {
            groups.add(of(data, own, si, notes));
        }
        List<ResultGroup> inside = new ArrayList<>();
        for (XmlElement list : data.children("list")) {
            inside.addAll(in(list, si, notes));
        }
        groups.addAll(isRowByRow(inside) ? List.of(joined(inside)) : inside);
        return groups;
    }

    private static ResultGroup of(XmlElement holder, List<XmlElement> quantities, SiReader si, Notes notes) {
        ResultGroup group = new ResultGroup(holder);
        for (XmlElement quantity : quantities) {
            group.add(quantity, si, notes);
        }
        holder.children("measurementMetaData").forEach(meta -> group.conformity(meta, si));
        return group;
    }

    private void add(XmlElement quantity, SiReader si, Notes notes) {
        String name = name(quantity);
        quantity.children("measurementMetaData").forEach(meta -> conformity(meta, si));
        quantity.child("relativeUncertainty")
                .ifPresent(relative -> notes.add(
                        CertificateMessage.NOT_UNDERSTOOD,
                        Rank.DOUBT,
                        relative,
                        "The uncertainty of \"" + name
                                + "\" is given relative to the value, which this program does not"
                                + " read. Type U and k from the certificate if it has to be used."));
        Optional<SiColumn> read = si.column(quantity);
        if (read.isEmpty()) {
            quantity.child("noQuantity").ifPresent(text -> figures.add(name + ": " + DccText.of(text)));
            return;
        }
        SiColumn column = read.get();
        isList |= column.size() > 1;
        Optional<Role> role = Role.of(quantity);
        if (role.isPresent() && columns.putIfAbsent(role.get(), column) == null) {
            return;
        }
        role.ifPresent(doubled::add);
        if (types(quantity).isEmpty()) {
            without.add(name);
        }
        figures.add(name + ": " + values(column));
    }

    /** Values as the certificate has them, in the units inside. */
    static String values(SiColumn column) {
        StringBuilder text = new StringBuilder();
        List<Double> inside = column.inside();
        int shown = Math.min(inside.size(), 20);
        for (int i = 0; i < shown; i++) {
            text.append(i == 0 ? "" : ", ").append(SiColumn.print(inside.get(i)));
        }
        if (shown < inside.size()) {
            text.append(", and ").append(inside.size() - shown).append(" more");
        }
        String unit = column.unit().symbol();
        return text + (unit.equals("\\one") ? "" : " " + unit);
    }

    private void conformity(XmlElement metaDataList, SiReader si) {
        for (XmlElement meta : metaDataList.children("metaData")) {
            meta.child("conformity").ifPresent(word -> conformity.add(word.text()));
            meta.child("conformityXMLList")
                    .filter(list -> !list.text().isEmpty())
                    .ifPresent(list -> conformity.addAll(List.of(list.text().split("\\s+"))));
            for (XmlElement inside : meta.all()) {
                if (inside.name().equals("quantity")) {
                    for (String type : types(inside)) {
                        String plain = type.toLowerCase(Locale.ROOT);
                        for (String limit : List.of(
                                "acceptancelimitlower",
                                "acceptancelimitupper",
                                "tolerancelimitlower",
                                "tolerancelimitupper")) {
                            if (plain.endsWith(limit)) {
                                si.column(inside).ifPresent(column -> limits.put(limit, column.differences()));
                            }
                        }
                        if (plain.endsWith("calibrationvalue") || plain.endsWith("nominalvalue")) {
                            si.column(inside).ifPresent(column -> figures.add(name(inside) + ": " + values(column)));
                        }
                    }
                }
            }
            if (types(meta).stream()
                    .anyMatch(type -> type.toLowerCase(Locale.ROOT).endsWith("calibrationvalue"))) {
                meta.all().stream()
                        .filter(inside -> inside.name().equals("quantity"))
                        .findFirst()
                        .flatMap(si::column)
                        .ifPresent(column -> figures.add("calibration points aimed at: " + values(column)));
            }
        }
    }

    /** What a quantity is called: its name, its label, its formula, or its reference type. */
    static String name(XmlElement quantity) {
        String name = DccText.name(quantity);
        if (!name.isEmpty()) {
            return name;
        }
        for (XmlElement inside : quantity.all()) {
            if (inside.name().equals("label") || inside.name().equals("latex")) {
                return DccText.oneLine(inside.text());
            }
        }
        return types(quantity).isEmpty() ? "without a name" : types(quantity).get(0);
    }

    /** Reference types of an element; none if it has no such attribute. */
    static List<String> types(XmlElement element) {
        return element.attribute("refType")
                .filter(text -> !text.isEmpty())
                .map(text -> List.of(text.split("\\s+")))
                .orElse(List.of());
    }

    /** Some certificates put each row into a list of its own. Lists with names may be different channels. */
    private static boolean isRowByRow(List<ResultGroup> groups) {
        if (groups.size() < 2) {
            return false;
        }
        ResultGroup first = groups.get(0);
        return groups.stream()
                .allMatch(group -> !group.isList
                        && group.doubled.isEmpty()
                        && group.columns.size() > 1
                        && DccText.name(group.holder).isEmpty()
                        && group.holder.attribute("refId").equals(first.holder.attribute("refId"))
                        && group.columns.keySet().equals(first.columns.keySet())
                        && group.columns.keySet().stream()
                                .allMatch(role -> group.column(role)
                                                .unit()
                                                .equals(first.column(role).unit())
                                        && group.column(role).hasUncertainty()
                                                == first.column(role).hasUncertainty()));
    }

    private static ResultGroup joined(List<ResultGroup> rows) {
        ResultGroup joined = new ResultGroup(rows.get(0).holder);
        joined.isList = true;
        for (Role role : rows.get(0).columns.keySet()) {
            List<Double> values = new ArrayList<>();
            List<Double> expanded = new ArrayList<>();
            List<Double> factor = new ArrayList<>();
            List<Double> probability = new ArrayList<>();
            List<String> distribution = new ArrayList<>();
            int decimals = Integer.MAX_VALUE;
            for (ResultGroup row : rows) {
                SiColumn one = row.column(role);
                values.addAll(one.values());
                expanded.addAll(one.expanded());
                factor.addAll(one.factor());
                probability.addAll(one.probability());
                distribution.addAll(one.distribution());
                decimals = Math.min(decimals, one.decimals());
            }
            joined.columns.put(
                    role,
                    new SiColumn(
                            rows.get(0).column(role).unit(),
                            values,
                            decimals,
                            expanded,
                            factor,
                            probability,
                            distribution));
        }
        for (ResultGroup row : rows) {
            joined.figures.addAll(row.figures);
            joined.without.addAll(row.without);
            joined.conformity.addAll(row.conformity);
        }
        if (joined.conformity.size() != rows.size()) {
            joined.conformity.removeIf("pass"::equals);
        }
        return joined;
    }

    private SiColumn column(Role role) {
        return find(role).orElseThrow();
    }

    Optional<SiColumn> find(Role role) {
        return Optional.ofNullable(columns.get(role));
    }

    XmlElement holder() {
        return holder;
    }

    /** Whether a reading could be corrected by its columns. */
    boolean isTable() {
        return (columns.containsKey(Role.REFERENCE) && columns.size() > 1)
                || (columns.containsKey(Role.INDICATED)
                        && (columns.containsKey(Role.ERROR) || columns.containsKey(Role.CORRECTION)));
    }

    Set<Role> roles() {
        return columns.keySet();
    }

    Set<Role> doubled() {
        return doubled;
    }

    /** Every figure that is no column of the table, a line each. */
    List<String> figures() {
        return figures;
    }

    /** Names of quantities without a reference type. */
    List<String> without() {
        return without;
    }

    /** Verdicts of the laboratory: none, one for all rows, or one for each. */
    List<String> conformity() {
        return conformity;
    }

    /** A limit of the error at a row, in the unit inside; empty if there is none. */
    Optional<Double> limit(String name, int row) {
        return Optional.ofNullable(limits.get(name))
                .filter(values -> values.size() == 1 || row < values.size())
                .map(values -> values.get(values.size() == 1 ? 0 : row));
    }

    boolean isList() {
        return isList;
    }
}
