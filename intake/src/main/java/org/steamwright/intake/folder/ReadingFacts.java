package org.steamwright.intake.folder;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.Tag;
import org.steamwright.intake.ReadingChoices;

/** What a visit says about how a recording is read: the value of the key {@code reading}. */
public final class ReadingFacts {

    private static final String READING = "reading";

    private ReadingFacts() {}

    /**
     * The same for facts that stand in no file yet, so that a recording is shown as the visit will read it.
     *
     * @param reading keys and values as in a visit file: texts, and a mapping of units
     * @param site zone of the visit by its name; UTC is supposed as long as it is blank
     * @throws VisitFolderException with all that can't be understood
     */
    public static ReadingChoices of(Map<String, Object> reading, String site) throws VisitFolderException {
        Problems problems = new Problems(VisitFolder.FILE_NAME);
        YamlSource source = YamlSource.of(problems);
        Optional<ZoneId> zone = site.isBlank()
                ? Optional.of(ZoneOffset.UTC)
                : Moments.zone(site.strip(), new Entry(text(site), Way.of("zone"), source));
        Optional<ReadingChoices> choices = Optional.empty();
        if (zone.isPresent()) {
            choices = choices(
                    reading.isEmpty()
                            ? Optional.empty()
                            : Optional.of(new Entry(node(reading), Way.of(READING), source)),
                    zone.get());
        }
        problems.throwIfAny();
        return choices.orElseThrow(() -> new IllegalStateException("no choices and no problem"));
    }

    private static Node node(Object value) {
        if (!(value instanceof Map<?, ?> map)) {
            return text(String.valueOf(value));
        }
        List<NodeTuple> tuples = new ArrayList<>();
        map.forEach((key, held) -> tuples.add(new NodeTuple(text(String.valueOf(key)), node(held))));
        return new MappingNode(Tag.MAP, tuples, FlowStyle.BLOCK);
    }

    private static Node text(String value) {
        return new ScalarNode(Tag.STR, value, ScalarStyle.DOUBLE_QUOTED);
    }

    /** The choices that a mapping of shape reading makes; empty after a problem was added. */
    static Optional<ReadingChoices> choices(Optional<Entry> reading, ZoneId zone) {
        if (reading.isEmpty()) {
            return Optional.of(ReadingChoices.supposingZone(zone).build());
        }
        int before = reading.get().source().problems().count();
        Optional<Fields> opened = reading.get().fields(Shape.READING);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<ZoneId> said =
                fields.find("zone").flatMap(entry -> entry.text().flatMap(text -> Moments.clockZone(text, entry)));
        ZoneId clock = said.orElse(zone);
        ReadingChoices.Builder builder =
                said.isPresent() ? ReadingChoices.inZone(clock) : ReadingChoices.supposingZone(clock);
        for (String key :
                List.of("delimiter", "decimal-mark", "date-order", "time-unit", "clock", "from", "to", "profile")) {
            fields.find(key).ifPresent(entry -> answer(builder, key, entry));
        }
        fields.find("encoding").ifPresent(entry -> answer(builder, "charset", entry));
        fields.find("sheet").ifPresent(entry -> answer(builder, "sheet", entry));
        fields.find("start")
                .ifPresent(entry -> entry.text()
                        .flatMap(text -> Moments.moment(text, clock, entry))
                        .ifPresent(builder::start));
        fields.find("units")
                .flatMap(Entry::entries)
                .ifPresent(units -> units.forEach((column, entry) -> answer(builder, "unit:" + column, entry)));
        return reading.get().source().problems().count() > before ? Optional.empty() : Optional.of(builder.build());
    }

    private static void answer(ReadingChoices.Builder builder, String key, Entry entry) {
        entry.text().ifPresent(text -> {
            try {
                builder.answer(key, text);
            } catch (IllegalArgumentException e) {
                String message = String.valueOf(e.getMessage());
                int found = message.indexOf("found ");
                entry.problem(
                        Mistake.UNKNOWN_WORD,
                        Flaw.of((found < 0 ? message : message.substring(found)) + ".")
                                .inFile("Write it as in the reference page."));
            }
        });
    }
}
