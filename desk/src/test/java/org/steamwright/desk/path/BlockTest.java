package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class BlockTest {

    private static Field field(String path, String value) {
        return new Field(
                path,
                path,
                Field.Look.TEXT,
                List.of(),
                "",
                value,
                value,
                Optional.empty(),
                Optional.empty(),
                "",
                false,
                List.of());
    }

    private static Block.Maker run(String... values) {
        Block.Maker maker = new Block.Maker(Block.Part.ENTRY, "Run 1").at("runs/1");
        for (int i = 0; i < values.length; i++) {
            maker.field(field("runs/1/" + i, values[i]));
        }
        return maker.button("Take away", "removals", Map.of());
    }

    @Test
    void an_entry_is_settled_once_two_thirds_of_it_are_filled_in() {
        assertThat(run("leak test", "A", "1983").make().isSettled()).isTrue();
        assertThat(run("leak test", "A", "").make().isSettled()).isTrue();
        assertThat(run("leak test", "", "").make().isSettled()).isFalse();
        assertThat(run("", "A", "1983").make().isSettled())
                .as("its first field names it")
                .isFalse();
        assertThat(run().make().isSettled()).isFalse();
    }

    @Test
    void an_entry_that_waits_for_somebody_is_one_line_until_anything_of_it_is_filled_in() {
        assertThat(run("", "", "").untouched("Not checked").make().isFolded()).isTrue();
        assertThat(run("", "", "").untouched("Not checked").make().line()).isEqualTo("Not checked");
        assertThat(run("", "", "").make().isFolded()).isFalse();
        assertThat(run("", "A", "").untouched("Not checked").make().isFolded()).isFalse();
        assertThat(run("0.1", "A", "1983").untouched("Not checked").make().line())
                .isEqualTo("0.1 \u00b7 A \u00b7 1983");
        assertThat(run("", "", "")
                        .untouched("Not checked")
                        .folded(field("runs/1/3", "")
                                .typed("x", new Field.Complaint("x is no number", "write a number")))
                        .make()
                        .isFolded())
                .isFalse();
    }

    @Test
    void what_is_in_use_refused_just_saved_or_offered_stays_open() {
        Field told = field("runs/1/0", "A");
        assertThat(run("leak test", "A", "1983").heldOpen().make().isSettled()).isFalse();
        assertThat(run("leak test", "A", "1983")
                        .field(told.noticed("saved at 10:00"))
                        .make()
                        .isSettled())
                .isFalse();
        assertThat(run("leak test", "A", "1983")
                        .folded(told.typed("x", new Field.Complaint("x is no number", "write a number")))
                        .make()
                        .isSettled())
                .isFalse();
        Field offered = new Field(
                "runs/1/9",
                "",
                Field.Look.TEXT,
                List.of(),
                "",
                "A",
                "A",
                Optional.of("B"),
                Optional.empty(),
                "",
                false,
                List.of());
        assertThat(run("leak test", "A", "1983").field(offered).make().isSettled())
                .isFalse();
    }

    @Test
    void only_an_entry_that_can_be_taken_away_and_waits_for_nothing_else_is_folded() {
        Block.Maker section = new Block.Maker(Block.Part.SECTION, "The visit").field(field("date", "2026-11-20"));
        assertThat(section.make().isSettled()).isFalse();
        assertThat(run("leak test", "A", "1983")
                        .upload("Keep", "photos", Map.of(), Block.Upload.PHOTO)
                        .make()
                        .isSettled())
                .isFalse();
    }

    @Test
    void its_line_tells_choices_in_words_and_cuts_what_is_long() {
        Field choice = new Field(
                "runs/1/kind",
                "",
                Field.Look.CHOICE,
                List.of(new Field.Option("air-leakage", "leak test")),
                "",
                "air-leakage",
                "air-leakage",
                Optional.empty(),
                Optional.empty(),
                "",
                false,
                List.of());
        Block block = new Block.Maker(Block.Part.ENTRY, "Run 1")
                .field(choice)
                .field(field("a", ""))
                .field(field("b", "two\nlines"))
                .field(field("c", "x".repeat(80)))
                .make();
        assertThat(block.line()).isEqualTo("leak test · two lines · " + "x".repeat(60) + " …");
    }
}
