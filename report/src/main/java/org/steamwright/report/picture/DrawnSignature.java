package org.steamwright.report.picture;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.report.plot.Drawing;
import org.steamwright.report.plot.Ink;
import org.steamwright.report.plot.Mark;
import org.steamwright.report.plot.Outline;

/** A signature that was drawn on the screen: polylines of whole numbers on a pad of 600 by 200. */
public final class DrawnSignature {

    private static final Pattern STROKE = Pattern.compile("<polyline [^>]*points=\"([0-9, ]*)\"");
    private static final int MOST_BYTES = 100_000;
    private static final double SCALE = 0.22;
    private static final int PAD_WIDTH = 600;
    private static final int PAD_HEIGHT = 200;

    private DrawnSignature() {}

    /** Name of the file with the clinic's signature under the load of a run. */
    public static String name(int run) {
        return "signatures/load-run-" + run + ".svg";
    }

    /**
     * The strokes as a drawing; whatever else the file holds is left out.
     *
     * @param svg bytes of the file
     * @param description who signed what
     * @return empty if there is no stroke in it
     */
    public static Optional<Drawing> read(byte[] svg, String description) {
        if (svg.length > MOST_BYTES) {
            return Optional.empty();
        }
        List<Mark> marks = new ArrayList<>();
        Matcher stroke = STROKE.matcher(new String(svg, StandardCharsets.UTF_8));
        while (stroke.find()) {
            outline(stroke.group(1)).ifPresent(outline -> marks.add(new Mark.Line(outline, 0.8, Ink.BLACK, List.of())));
        }
        return marks.isEmpty()
                ? Optional.empty()
                : Optional.of(new Drawing(PAD_WIDTH * SCALE, PAD_HEIGHT * SCALE, description, description, marks));
    }

    private static Optional<Outline> outline(String points) {
        String[] places = points.strip().split(" +");
        double[] x = new double[places.length];
        double[] y = new double[places.length];
        for (int i = 0; i < places.length; i++) {
            if (!places[i].matches("[0-9]{1,3},[0-9]{1,3}")) {
                return Optional.empty();
            }
            int comma = places[i].indexOf(',');
            x[i] = SCALE * Math.min(PAD_WIDTH, Integer.parseInt(places[i].substring(0, comma)));
            y[i] = SCALE * Math.min(PAD_HEIGHT, Integer.parseInt(places[i].substring(comma + 1)));
        }
        return Optional.of(new Outline(x, y));
    }
}
