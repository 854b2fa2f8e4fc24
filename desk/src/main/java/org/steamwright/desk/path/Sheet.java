package org.steamwright.desk.path;

import java.util.List;
import java.util.Optional;
import org.steamwright.desk.web.Frame;

/**
 * One stage of a visit as it is shown.
 *
 * @param stage which
 * @param title heading of the page
 * @param blocks in order
 * @param path stages of the visit in order
 */
public record Sheet(Stage stage, String title, List<Block> blocks, List<Stage> path) {

    public Sheet {
        path = List.copyOf(path);
        blocks = List.copyOf(blocks);
    }

    /** The field of a path. */
    Optional<Field> find(String path) {
        return blocks.stream()
                .flatMap(block -> block.all().stream())
                .filter(field -> field.path().equals(path))
                .findFirst();
    }

    Sheet with(Field changed) {
        return new Sheet(
                stage, title, blocks.stream().map(block -> block.with(changed)).toList(), path);
    }

    /** Whether there is nothing to read under the heading of a block: no field, no photo, no entry behind it. */
    public boolean isBare(int place) {
        Block block = blocks.get(place);
        boolean isLast = place + 1 == blocks.size() || blocks.get(place + 1).part() == Block.Part.SECTION;
        return block.part() == Block.Part.SECTION
                && isLast
                && block.all().isEmpty()
                && block.pictures().isEmpty()
                && block.links().isEmpty();
    }

    /** The stage that usually comes next; empty at the last one. */
    public Optional<Stage> following() {
        int next = path.indexOf(stage) + 1;
        return next < path.size() ? Optional.of(path.get(next)) : Optional.empty();
    }

    /** How far it has come, in words. */
    public String standing(Frame frame) {
        if (complaints() > 0) {
            return frame.say("path.standing.complaints", filled(), complaints());
        }
        return filled() == 0 ? frame.say("path.standing.nothing") : frame.say("path.standing.filled", filled());
    }

    /** How many questions of one line each are not answered. */
    long open() {
        return blocks.stream()
                .filter(block ->
                        block.part() == Block.Part.ROW && !block.fields().isEmpty())
                .filter(block -> block.fields().get(0).value().isBlank())
                .count();
    }

    /** How many fields are filled in. */
    long filled() {
        return blocks.stream()
                .flatMap(block -> block.all().stream())
                .filter(field -> !field.value().isBlank())
                .count();
    }

    /** How many fields hold what can't be used. */
    long complaints() {
        return blocks.stream()
                .flatMap(block -> block.all().stream())
                .filter(field -> field.complaint().isPresent())
                .count();
    }
}
