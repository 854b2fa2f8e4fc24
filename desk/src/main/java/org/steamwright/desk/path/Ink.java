package org.steamwright.desk.path;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A signature that was drawn on the screen: strokes of whole numbers, kept as a small drawing. Nothing that was sent is copied
 * into it but numbers.
 */
final class Ink {

    /** Width and height of the pad. */
    static final int WIDTH = 600;

    static final int HEIGHT = 200;

    private static final int MOST_POINTS = 6_000;
    private static final int FEWEST_POINTS = 8;

    private Ink() {}

    /**
     * The drawing.
     *
     * @param strokes {@code x,y x,y;x,y x,y}: points parted by blanks, strokes by semicolons
     * @return empty if nothing or too little was drawn, or it is no drawing
     */
    static Optional<byte[]> drawing(String strokes) {
        List<String> lines = Arrays.stream(strokes.split(";"))
                .map(String::strip)
                .filter(line -> !line.isEmpty())
                .toList();
        long points = 0;
        StringBuilder svg = new StringBuilder("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " + WIDTH + " "
                + HEIGHT + "\" width=\"" + WIDTH + "\" height=\"" + HEIGHT + "\">\n");
        for (String line : lines) {
            String[] places = line.split(" +");
            points += places.length;
            for (String place : places) {
                if (!isOnPad(place)) {
                    return Optional.empty();
                }
            }
            svg.append("<polyline fill=\"none\" stroke=\"#1d1b18\" stroke-width=\"2\" points=\"")
                    .append(String.join(" ", places))
                    .append("\"/>\n");
        }
        if (points < FEWEST_POINTS || points > MOST_POINTS) {
            return Optional.empty();
        }
        return Optional.of(svg.append("</svg>\n").toString().getBytes(StandardCharsets.UTF_8));
    }

    private static boolean isOnPad(String place) {
        if (!place.matches("[0-9]{1,3},[0-9]{1,3}")) {
            return false;
        }
        String[] numbers = place.split(",");
        return Integer.parseInt(numbers[0]) <= WIDTH && Integer.parseInt(numbers[1]) <= HEIGHT;
    }
}
