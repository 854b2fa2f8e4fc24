package org.steamwright.desk.web;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.steamwright.desk.text.Figures;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.text.Words;

/**
 * What every page needs to be put together.
 *
 * @param words in the reader's language
 * @param figures in the reader's language
 * @param person who reads
 * @param path address of the page
 * @param token to be sent back with each change, against forged requests
 * @param places paths of pages that the person may open from anywhere
 * @param isInvented whether the record holds invented visits, which each page says
 * @param isTraining whether this is the desk of training visits, which each page says
 * @param alarm what is to be looked at by the clock
 */
public record Frame(
        Words words,
        Figures figures,
        Person person,
        String path,
        String token,
        Set<String> places,
        boolean isInvented,
        boolean isTraining,
        Alarm alarm) {

    /** Pages that no link of the head line leads to, by the one over which they are reached. */
    private static final Map<String, List<String>> REACHED_FROM = Map.of(
            "/today", List.of("/expiring"),
            "/due", List.of("/plan"),
            "/register", List.of("/nonconformities", "/trends", "/measures", "/affected"));

    public Frame {
        places = Set.copyOf(places);
    }

    /** Words of a key, as {@link Words#of}. */
    public String say(String key, Object... parts) {
        return words.of(key, parts);
    }

    /** What the program says in English, as the reader gets it. */
    public Told hear(String english) {
        return Told.to(words.language(), english);
    }

    /** A place and what is said of it in sentences, of which a reader may know one and not the next. */
    public Told hear(String place, String... sentences) {
        return Told.of(words.language(), place, List.of(sentences));
    }

    /** The same where only text can stand, as in an attribute. */
    public String heard(String english) {
        return hear(english).text();
    }

    /** The attribute of a link in the head line: whether it leads to where the reader is, or to where that page is reached from. */
    public boolean isAt(String start) {
        return isBelow(start)
                || REACHED_FROM.getOrDefault(start, List.of()).stream().anyMatch(this::isBelow);
    }

    private boolean isBelow(String start) {
        return path.equals(start) || path.startsWith(start + "/");
    }

    /** Whether there is such a place and the reader may open it. */
    public boolean opens(String place) {
        return places.contains(place);
    }

    /** Whether one of the roles is the reader's. */
    public boolean may(Role... roles) {
        return person.isOneOf(Set.of(roles));
    }
}
