package org.steamwright.visit;

import java.util.List;
import java.util.Optional;

/**
 * The load of a performance qualification: the largest and hardest that the clinic intends to run.
 *
 * @param description in one sentence
 * @param items what is in it
 * @param challengePack the pack that is hardest for steam, its contents and wrapping; blank if there was none
 * @param challengePlace where it lay and why that place is held to be the slowest; may be blank
 * @param packaging kinds of packaging used; may be blank
 * @param massKilogram total mass; empty if not weighed
 * @param agreedBy who of the clinic agreed that nothing larger or harder will be run; blank if nobody did
 * @param photos file names of photos; may be empty
 */
public record ReferenceLoad(
        String description,
        List<Item> items,
        String challengePack,
        String challengePlace,
        String packaging,
        Optional<Double> massKilogram,
        String agreedBy,
        List<String> photos) {

    /**
     * One kind of item.
     *
     * @param name what it is
     * @param count how many
     * @param family solid, hollow A, hollow B or porous, as stated
     * @param packaging of this item; may be blank
     */
    public record Item(String name, int count, String family, String packaging) {}

    public ReferenceLoad {
        items = List.copyOf(items);
        photos = List.copyOf(photos);
    }
}
