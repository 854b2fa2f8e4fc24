package org.steamwright.filing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FactTreeTest {

    private static Optional<Object> text(String text) {
        return Optional.of(text);
    }

    @Test
    void maps_on_the_way_are_made_and_go_with_their_last_value() throws Exception {
        FactTree tree = FactTree.EMPTY.with(FactPath.parse("conditions/barometer"), text("100.2 kPa"));
        assertThat(tree.root()).isEqualTo(Map.of("conditions", Map.of("barometer", "100.2 kPa")));
        assertThat(tree.with(FactPath.parse("conditions/barometer"), text("  ")).root())
                .isEmpty();
    }

    @Test
    void an_entry_without_values_keeps_its_number() throws Exception {
        FactTree tree = FactTree.EMPTY
                .added(FactPath.of("runs"), Map.of("kind", "empty-chamber"))
                .added(FactPath.of("runs"), Map.of("kind", "reference-load"))
                .with(FactPath.parse("runs/1/kind"), Optional.empty());
        assertThat(tree.root()).isEqualTo(Map.of("runs", List.of(Map.of(), Map.of("kind", "reference-load"))));
        assertThat(tree.without(FactPath.of("runs", 1)).root())
                .isEqualTo(Map.of("runs", List.of(Map.of("kind", "reference-load"))));
    }

    @Test
    void a_path_through_a_text_or_beyond_a_list_leads_nowhere() throws Exception {
        FactTree tree = FactTree.EMPTY
                .with(FactPath.of("purpose"), text("yearly requalification"))
                .added(FactPath.of("runs"), Map.of("kind", "air-leakage"));
        assertThatThrownBy(() -> tree.with(FactPath.parse("purpose/more"), text("x")))
                .isInstanceOf(FactTree.NoPlaceException.class);
        assertThatThrownBy(() -> tree.with(FactPath.parse("runs/2/kind"), text("x")))
                .hasMessageContaining("the list has 1 entries");
        assertThatThrownBy(() -> tree.with(FactPath.parse("runs/first/kind"), text("x")))
                .isInstanceOf(FactTree.NoPlaceException.class);
        assertThatThrownBy(() -> tree.without(FactPath.of("zone"))).hasMessageContaining("zone is not there");
    }

    @Test
    void names_with_strokes_are_one_step() throws Exception {
        FactPath path = FactPath.of("runs", 1, "channels", "T1/left ~ top", "role");
        assertThat(FactPath.parse(path.toString())).isEqualTo(path);
        FactTree tree = FactTree.EMPTY
                .added(FactPath.of("runs"), Map.of("kind", "empty-chamber"))
                .with(path, text("load"));
        assertThat(tree.find(path)).contains("load");
    }

    @Test
    void facts_of_a_record_and_back_are_the_same_tree_also_beyond_ten_entries() throws Exception {
        FactTree tree = FactTree.EMPTY.with(FactPath.of("zone"), text("Australia/Adelaide"));
        for (int i = 1; i <= 12; i++) {
            tree = tree.added(FactPath.of("runs"), Map.of("note", "run " + i));
        }
        assertThat(tree.facts()).hasSize(13).containsEntry("runs/12", Map.of("note", "run 12"));
        assertThat(FactTree.ofFacts(tree.facts())).isEqualTo(tree);
    }

    @Test
    void differences_go_down_to_the_values_that_changed() throws Exception {
        FactTree before = FactTree.of(Map.of("runs", List.of(Map.of("kind", "air-leakage", "note", "a"))));
        FactTree after = before.with(FactPath.parse("runs/1/note"), text("b"))
                .added(FactPath.of("runs"), Map.of("kind", "empty-chamber"));
        assertThat(FactTree.differences(before, after))
                .extracting(ChangedFact::place)
                .containsExactly("run 1, note", "run 2");
        assertThat(FactTree.differences(before, after).get(0))
                .isEqualTo(new ChangedFact(FactPath.parse("runs/1/note"), text("a"), text("b")));
    }

    @Test
    void places_are_said_as_people_say_them() {
        assertThat(PlaceWords.of(FactPath.parse("runs/2/channels/T3/role"))).isEqualTo("run 2, channel T3, role");
        assertThat(PlaceWords.of(FactPath.parse("sterilizers/1/cycles/2/sterilizing-temperature")))
                .isEqualTo("steriliser 1, cycle 2, sterilising temperature");
        assertThat(PlaceWords.of(FactPath.parse("people/1/name"))).isEqualTo("person 1, name");
        assertThat(PlaceWords.of(FactPath.parse("conditions/barometer-source")))
                .isEqualTo("conditions, barometer source");
    }
}
