package org.steamwright.intake.register;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.intake.DateOrder;
import org.steamwright.intake.folder.Entry;
import org.steamwright.intake.folder.Fields;
import org.steamwright.intake.folder.Flaw;
import org.steamwright.intake.folder.KeyedShape;
import org.steamwright.intake.folder.OtherYaml;
import org.steamwright.intake.folder.Problem;

/**
 * How a table of machines is to be understood where its headings don't say.
 *
 * @param columns heading to column; a heading that is not named here is sniffed
 * @param dateOrder of dates that are not year-month-day; empty refuses them
 * @param zone of new sites whose row says none
 */
public record TableMapping(Map<String, RegisterColumn> columns, Optional<DateOrder> dateOrder, Optional<ZoneId> zone) {

    /** Nothing is said: all is sniffed. */
    public static final TableMapping SNIFFED = new TableMapping(Map.of(), Optional.empty(), Optional.empty());

    private static final int MAX_BYTES = 100_000;

    private static final KeyedShape SHAPE = new KeyedShape() {
        @Override
        public String word() {
            return "table-mapping";
        }

        @Override
        public List<String> keys() {
            return List.of("steamwright-table-mapping", "date-order", "zone", "columns");
        }
    };

    public TableMapping {
        columns = Map.copyOf(columns);
    }

    /**
     * The mapping in a file.
     *
     * @throws RegisterException with all problems at once
     */
    public static TableMapping read(Path file) throws IOException, RegisterException {
        String name = String.valueOf(file.getFileName());
        if (!Files.isRegularFile(file)) {
            throw new RegisterException(List.of(
                    Problem.ofFile(RegisterMessage.NO_REGISTER, name, 0, "found no such file.", "Check the path.")));
        }
        byte[] bytes;
        try (var in = Files.newInputStream(file)) {
            bytes = in.readNBytes(MAX_BYTES + 1);
        }
        OtherYaml.Answer<TableMapping> answer = OtherYaml.read(
                bytes,
                new OtherYaml.Kind(
                        name,
                        "the mapping",
                        "steamwright-table-mapping: 1",
                        "docs/reference/register-table.md",
                        MAX_BYTES),
                TableMapping::mapping);
        if (answer.value().isEmpty()) {
            throw new RegisterException(answer.problems());
        }
        return answer.value().get();
    }

    private static Optional<TableMapping> mapping(Entry root) {
        Optional<Fields> opened = RegisterFile.versioned(root, SHAPE, "steamwright-table-mapping", 1);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Map<String, DateOrder> orders = new LinkedHashMap<>();
        for (DateOrder order : DateOrder.values()) {
            orders.put(order.name().toLowerCase(Locale.ROOT).replace('_', '-'), order);
        }
        Optional<DateOrder> dateOrder = fields.find("date-order").flatMap(entry -> entry.word(orders));
        Optional<ZoneId> zone = fields.find("zone").flatMap(Entry::zone);
        Map<String, RegisterColumn> columns = new LinkedHashMap<>();
        fields.find("columns")
                .flatMap(Entry::entries)
                .ifPresent(entries -> entries.forEach((heading, entry) -> {
                    Optional<String> word = entry.text();
                    if (word.isEmpty()) {
                        return;
                    }
                    Optional<RegisterColumn> column = RegisterColumn.find(word.get());
                    if (column.isEmpty()) {
                        entry.problem(
                                RegisterMessage.MAPPING,
                                Flaw.notAmong(
                                        "found \"%s\", expected a column: %s.", word.get(), RegisterColumn.words()));
                        return;
                    }
                    columns.put(heading, column.get());
                }));
        return Optional.of(new TableMapping(columns, dateOrder, zone));
    }
}
