package org.steamwright.visit;

import java.util.List;
import java.util.Optional;

/**
 * What a reference load of one steriliser is compared with: the maker's maximum, what the clinic owns, last year's load.
 *
 * @param sterilizer key
 * @param maximumKilogram largest mass by the maker's instructions; empty if not stated
 * @param maximumSource where that maximum stands; may be blank
 * @param owned families of items that the clinic owns and sterilises in it: solid, hollow A, hollow B, porous
 * @param last load of the last validation; empty if not known
 * @param lastReport number of the report it stands in; may be blank
 * @param tooLittleAccepted why the clinic did not want a larger load although it was advised; blank if it was not
 */
public record LoadFrame(
        String sterilizer,
        Optional<Double> maximumKilogram,
        String maximumSource,
        List<String> owned,
        Optional<ReferenceLoad> last,
        String lastReport,
        String tooLittleAccepted) {

    public LoadFrame {
        owned = List.copyOf(owned);
        maximumKilogram.filter(mass -> !(mass > 0)).ifPresent(mass -> {
            throw new IllegalArgumentException("a maximum load of %s kg".formatted(mass));
        });
    }
}
