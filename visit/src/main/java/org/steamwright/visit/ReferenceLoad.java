package org.steamwright.visit;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

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
 * @param slowest on what it rests that this place is the slowest
 * @param photoFiles the photos that were found, with their hashes
 * @param trays how many trays it took; empty if not stated
 * @param trayLevels on which levels these lay, counted from below; empty if not stated
 */
public record ReferenceLoad(
        String description,
        List<Item> items,
        String challengePack,
        String challengePlace,
        String packaging,
        Optional<Double> massKilogram,
        String agreedBy,
        List<String> photos,
        Slowest slowest,
        List<PhotoFile> photoFiles,
        OptionalInt trays,
        List<Integer> trayLevels) {

    /**
     * One kind of item.
     *
     * @param name what it is
     * @param count how many
     * @param family solid, hollow A, hollow B or porous, as stated
     * @param packaging of this item; may be blank
     * @param massKilogram of one of them; empty if not weighed
     * @param tray it lay on; may be blank
     */
    public record Item(
            String name, int count, String family, String packaging, Optional<Double> massKilogram, String tray) {

        /** An item that was not weighed and of which no tray is named. */
        public Item(String name, int count, String family, String packaging) {
            this(name, count, family, packaging, Optional.empty(), "");
        }
    }

    /** On what it rests that a place is held to be the slowest. Nobody may assert it without saying so. */
    public enum Slowest {
        MAPPED("several places were measured earlier"),
        MEASURED("several places were measured at this visit"),
        INSTRUCTIONS("the maker's instructions name it"),
        JUDGED("judged, not measured"),
        NOT_STATED("");

        private final String words;

        Slowest(String words) {
            this.words = words;
        }

        /** As printed; blank if nobody said. */
        public String words() {
            return words;
        }
    }

    /**
     * A photo as it lies in the visit folder.
     *
     * @param name of the file
     * @param bytes its size
     * @param sha256 of its bytes, 64 hex digits
     */
    public record PhotoFile(String name, long bytes, String sha256) {}

    public ReferenceLoad {
        items = List.copyOf(items);
        photos = List.copyOf(photos);
        photoFiles = List.copyOf(photoFiles);
        trayLevels = List.copyOf(trayLevels);
    }

    /** A load of which nobody said on which levels its trays lay. */
    public ReferenceLoad(
            String description,
            List<Item> items,
            String challengePack,
            String challengePlace,
            String packaging,
            Optional<Double> massKilogram,
            String agreedBy,
            List<String> photos,
            Slowest slowest,
            List<PhotoFile> photoFiles,
            OptionalInt trays) {
        this(
                description,
                items,
                challengePack,
                challengePlace,
                packaging,
                massKilogram,
                agreedBy,
                photos,
                slowest,
                photoFiles,
                trays,
                List.of());
    }

    /** Whether another one holds the same, whoever has agreed to it and whatever was photographed. */
    public boolean isSameLoad(ReferenceLoad other) {
        return description.equals(other.description)
                && items.equals(other.items)
                && challengePack.equals(other.challengePack)
                && challengePlace.equals(other.challengePlace)
                && packaging.equals(other.packaging)
                && massKilogram.equals(other.massKilogram)
                && trays.equals(other.trays)
                && trayLevels.equals(other.trayLevels);
    }

    /** A load of which nobody said why the place is the slowest and how many trays it took, and whose photos were not read. */
    public ReferenceLoad(
            String description,
            List<Item> items,
            String challengePack,
            String challengePlace,
            String packaging,
            Optional<Double> massKilogram,
            String agreedBy,
            List<String> photos) {
        this(
                description,
                items,
                challengePack,
                challengePlace,
                packaging,
                massKilogram,
                agreedBy,
                photos,
                Slowest.NOT_STATED,
                List.of(),
                OptionalInt.empty());
    }

    /** The same load with the photos that were found. */
    public ReferenceLoad withPhotoFiles(List<PhotoFile> found) {
        return new ReferenceLoad(
                description,
                items,
                challengePack,
                challengePlace,
                packaging,
                massKilogram,
                agreedBy,
                photos,
                slowest,
                found,
                trays,
                trayLevels);
    }

    /** The same load on that many trays. */
    public ReferenceLoad withTrays(OptionalInt counted) {
        return new ReferenceLoad(
                description,
                items,
                challengePack,
                challengePlace,
                packaging,
                massKilogram,
                agreedBy,
                photos,
                slowest,
                photoFiles,
                counted,
                trayLevels);
    }

    /** Total mass in kilogram: as weighed, else the sum of the items where each of them has one; empty otherwise. */
    public Optional<Double> totalKilogram() {
        return massKilogram.or(this::itemKilogram);
    }

    /** Sum of the items in kilogram; empty if there is none or one of them was not weighed. */
    public Optional<Double> itemKilogram() {
        if (items.isEmpty()
                || items.stream().anyMatch(item -> item.massKilogram().isEmpty())) {
            return Optional.empty();
        }
        double sum = 0;
        for (Item item : items) {
            sum += item.count() * item.massKilogram().orElse(0.0);
        }
        return Optional.of(sum);
    }

    /** How many things are in it. */
    public int things() {
        return items.stream().mapToInt(Item::count).sum();
    }

    /** Whether an item of that family is in it, case and hyphens apart. */
    public boolean has(String family) {
        return items.stream()
                .anyMatch(item -> item.count() > 0 && Words.key(item.family()).equals(Words.key(family)));
    }
}
