package org.steamwright.visit;

import java.util.List;
import java.util.Locale;

/**
 * What makes two reference loads the same: description, items, challenge pack and packaging. Mass, photos and the place
 * of the pack are records of one run and may differ.
 */
record LoadKey(String description, List<String> items, String challengePack, String packaging) {

    private static final LoadKey NONE = new LoadKey("", List.of(), "", "");

    LoadKey {
        items = List.copyOf(items);
    }

    static LoadKey of(VisitRun run) {
        return run.load().map(LoadKey::of).orElse(NONE);
    }

    private static LoadKey of(ReferenceLoad load) {
        List<String> items = load.items().stream()
                .map(item -> String.format(
                        Locale.ROOT,
                        "%s × %s, %s, %s",
                        item.count(),
                        Words.key(item.name()),
                        Words.key(item.family()),
                        Words.key(item.packaging())))
                .sorted()
                .toList();
        return new LoadKey(
                Words.key(load.description()), items, Words.key(load.challengePack()), Words.key(load.packaging()));
    }
}
