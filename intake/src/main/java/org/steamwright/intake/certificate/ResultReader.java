package org.steamwright.intake.certificate;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.certificate.ResultTable.Stage;
import org.steamwright.intake.xml.XmlElement;

/** The measured part of a certificate: results, what was found before an adjustment, and the conditions of the day. */
final class ResultReader {

    private final Notes notes;
    private final SiReader si;
    private final TableMaker maker;
    private final List<ResultTable> tables = new ArrayList<>();
    private final List<String> conditions = new ArrayList<>();
    private final List<String> statements = new ArrayList<>();

    ResultReader(Notes notes, SiReader si) {
        this.notes = notes;
        this.si = si;
        this.maker = new TableMaker(notes);
    }

    List<ResultTable> tables() {
        return tables;
    }

    List<String> conditions() {
        return conditions;
    }

    List<String> statements() {
        return statements;
    }

    void read(XmlElement measurementResults) {
        for (XmlElement measurement : measurementResults.children("measurementResult")) {
            measurement(measurement);
        }
    }

    private void measurement(XmlElement measurement) {
        List<String> items = references(measurement);
        for (XmlElement method : inside(measurement, "usedMethods", "usedMethod")) {
            List<String> norms = method.children("norm").stream()
                    .map(norm -> DccText.oneLine(norm.text()))
                    .toList();
            conditions.add(
                    "method: " + DccText.name(method) + (norms.isEmpty() ? "" : ", " + String.join(", ", norms)));
        }
        for (XmlElement equipment : inside(measurement, "measuringEquipments", "measuringEquipment")) {
            conditions.add("standard used: " + DccText.name(equipment));
        }
        Stage usual = Stage.PLAIN;
        for (XmlElement condition : inside(measurement, "influenceConditions", "influenceCondition")) {
            Optional<Stage> stage =
                    stage(condition.child("status").map(XmlElement::text).orElse(""));
            if (stage.isEmpty()) {
                condition(condition);
            } else if (tables(condition, DccText.name(condition), items, stage.get())) {
                usual = stage.get() == Stage.BEFORE ? Stage.AFTER : usual;
            } else {
                usual = stage.get();
                condition(condition);
            }
        }
        for (XmlElement result : inside(measurement, "results", "result")) {
            Stage own = stage(String.join(" ", ResultGroup.types(result))).orElse(usual);
            List<String> ownItems = references(result);
            String title = DccText.name(result);
            if (!tables(
                    result,
                    title.isEmpty() ? DccText.name(measurement) : title,
                    ownItems.isEmpty() ? items : ownItems,
                    own)) {
                figures(result, title);
            }
        }
        measurement.children("measurementMetaData").stream()
                .flatMap(list -> list.children("metaData").stream())
                .forEach(meta -> statements.add(statement(meta)));
    }

    private static List<XmlElement> inside(XmlElement element, String list, String name) {
        return element.children(list).stream()
                .flatMap(one -> one.children(name).stream())
                .toList();
    }

    /** Ids of other elements that an element refers to; those of items tell what was calibrated. */
    private static List<String> references(XmlElement element) {
        return element.attribute("refId")
                .filter(text -> !text.isEmpty())
                .map(text -> List.of(text.split("\\s+")))
                .orElse(List.of());
    }

    private static Optional<Stage> stage(String words) {
        String plain = words.toLowerCase(Locale.ROOT);
        if (plain.contains("beforeadjustment") || plain.contains("beforerepair") || plain.contains("asfound")) {
            return Optional.of(Stage.BEFORE);
        }
        if (plain.contains("afteradjustment") || plain.contains("afterrepair") || plain.contains("asleft")) {
            return Optional.of(Stage.AFTER);
        }
        return Optional.empty();
    }

    /** Adds the tables of a result; false if there are no columns in it from which rows follow. */
    private boolean tables(XmlElement holder, String title, List<String> items, Stage stage) {
        boolean isAny = false;
        for (XmlElement data : holder.children("data")) {
            others(data);
            for (ResultGroup group : ResultGroup.in(data, si, notes)) {
                boolean isMeant = group.isTable() || holder.name().equals("result");
                if (isMeant && !(group.roles().isEmpty() && group.figures().isEmpty())) {
                    List<String> own = references(group.holder());
                    String name = DccText.name(group.holder());
                    tables.add(maker.make(
                            group,
                            tables.size() + 1,
                            name.isEmpty() ? title : title.isEmpty() ? name : title + ", " + name,
                            ids(holder, group.holder()),
                            own.isEmpty() ? items : own,
                            stage));
                    isAny = true;
                }
                nested(group.holder());
            }
        }
        return isAny;
    }

    private static List<String> ids(XmlElement... elements) {
        List<String> ids = new ArrayList<>();
        for (XmlElement element : elements) {
            element.attribute("id").ifPresent(ids::add);
            ids.addAll(ResultGroup.types(element));
        }
        return ids;
    }

    /** Conditions that hold for one list of quantities only. */
    private void nested(XmlElement holder) {
        holder.children().stream()
                .filter(child -> child.name().equals("quantity") || child == holder)
                .forEach(child -> inside(child, "influenceConditions", "influenceCondition")
                        .forEach(this::condition));
        inside(holder, "influenceConditions", "influenceCondition").forEach(this::condition);
    }

    private void others(XmlElement data) {
        for (XmlElement child : data.children()) {
            switch (child.name()) {
                case "text" -> statements.add(DccText.of(child));
                case "byteData" -> attachment(child, notes);
                case "formula", "xml" ->
                    notes.add(
                            CertificateMessage.NOT_UNDERSTOOD,
                            Rank.NOTE,
                            child,
                            "Found a " + (child.name().equals("xml") ? "part in a form of its own" : "formula")
                                    + " among the results, which this program does not read. It is not used.");
                default -> {
                    // quantities and lists are read as groups
                }
            }
        }
    }

    static void attachment(XmlElement file, Notes notes) {
        notes.add(
                CertificateMessage.ATTACHMENT,
                Rank.NOTE,
                file,
                "The certificate carries the file \""
                        + file.child("fileName")
                                .map(name -> DccText.oneLine(name.text()))
                                .orElse("without a name")
                        + "\" ("
                        + file.child("mimeType")
                                .map(type -> DccText.oneLine(type.text()))
                                .orElse("kind not stated")
                        + "). It is not opened.");
    }

    private void figures(XmlElement result, String title) {
        notes.add(
                CertificateMessage.TABLE_NOT_USED,
                Rank.NOTE,
                result,
                "Result '" + title + "' holds no quantities that this program reads.");
    }

    private void condition(XmlElement condition) {
        List<String> parts = new ArrayList<>();
        for (XmlElement quantity : condition.all()) {
            if (quantity.name().equals("quantity")) {
                String values = si.column(quantity)
                        .map(ResultGroup::values)
                        .or(() -> quantity.child("noQuantity").map(DccText::of))
                        .orElse("not read");
                String name = DccText.name(quantity);
                parts.add(name.isEmpty() ? values : name + " " + values);
            }
        }
        String status =
                condition.child("status").map(word -> " (" + word.text() + ")").orElse("");
        String description = DccText.of(condition.child("description"));
        conditions.add(DccText.name(condition)
                + status
                + (parts.isEmpty() ? "" : ": " + String.join("; ", parts))
                + (description.isEmpty() ? "" : ". " + description));
    }

    /** A statement or a metadata entry in one line: what it says, by which rule, with its verdict and date. */
    String statement(XmlElement statement) {
        List<String> parts = new ArrayList<>();
        String declaration = DccText.of(statement.child("declaration"));
        statement.children("norm").forEach(norm -> parts.add(DccText.oneLine(norm.text())));
        statement.children("reference").forEach(reference -> parts.add(DccText.oneLine(reference.text())));
        if (!declaration.isEmpty()) {
            parts.add(declaration);
        }
        statement.child("conformity").ifPresent(word -> parts.add("conformity: " + DccText.oneLine(word.text())));
        statement
                .child("conformityXMLList")
                .ifPresent(word -> parts.add("conformity: " + DccText.oneLine(word.text())));
        statement.child("valid").ifPresent(word -> parts.add("valid: " + DccText.oneLine(word.text())));
        statement.child("date").ifPresent(word -> parts.add("date: " + DccText.oneLine(word.text())));
        statement.child("period").ifPresent(word -> parts.add("period: " + DccText.oneLine(word.text())));
        for (XmlElement data : statement.children("data")) {
            for (XmlElement quantity : data.all()) {
                if (quantity.name().equals("quantity")) {
                    si.column(quantity)
                            .ifPresent(
                                    column -> parts.add(ResultGroup.name(quantity) + " " + ResultGroup.values(column)));
                }
            }
        }
        return parts.stream().map(part -> part.replaceFirst("[:;,.]+$", "")).collect(Collectors.joining(", "));
    }
}
