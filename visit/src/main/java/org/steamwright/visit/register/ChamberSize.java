package org.steamwright.visit.register;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The usable inside of a chamber. Two sides make a lying cylinder, diameter and depth; three make a box, width, height and
 * depth. Depth counts from the closed door to the back.
 *
 * @param form of the cross-section, as it is seen from the door
 * @param widthMillimetres from left to right; of a cylinder its diameter
 * @param heightMillimetres from the bottom to the top; of a cylinder its diameter
 * @param depthMillimetres from the door to the back
 */
public record ChamberSize(Form form, double widthMillimetres, double heightMillimetres, double depthMillimetres) {

    /** Shortest and longest side that is believed: below it is a box of instruments, above it is no small sterilizer any more. */
    private static final double SHORTEST_MILLIMETRES = 50;

    private static final double LONGEST_MILLIMETRES = 2000;
    private static final double MILLIMETRES_PER_CENTIMETRE = 10;
    private static final double CUBIC_MILLIMETRES_PER_LITRE = 1e6;

    /** How it is typed, for messages. */
    public static final String EXAMPLE =
            "diameter and depth such as 250 x 450 mm, or width, height and depth such as 280 x 200 x 400 mm";

    private static final Pattern SIDES = Pattern.compile(
            "(?:diameter|[ø⌀Ø])?\\s*(\\d{1,4}(?:\\.\\d{1,2})?(?:\\s*(?:mm|cm)?\\s*[x×]\\s*\\d{1,4}(?:\\.\\d{1,2})?){1,2})\\s*(mm|cm)",
            Pattern.CASE_INSENSITIVE);

    private static final Pattern BETWEEN = Pattern.compile("\\s*(?:mm|cm)?\\s*[x×]\\s*", Pattern.CASE_INSENSITIVE);

    /** Cross-section as seen from the door. */
    public enum Form {
        CYLINDER,
        BOX
    }

    public ChamberSize {
        for (double side : List.of(widthMillimetres, heightMillimetres, depthMillimetres)) {
            if (!(side >= SHORTEST_MILLIMETRES && side <= LONGEST_MILLIMETRES)) {
                throw new IllegalArgumentException(
                        "a side of a chamber has 50 to 2000 mm, found " + number(side) + " mm");
            }
        }
        if (form == Form.CYLINDER && widthMillimetres != heightMillimetres) {
            throw new IllegalArgumentException("a cylinder has one diameter");
        }
    }

    /**
     * The size in words such as '250 x 450 mm', 'ø 25 × 45 cm' or '280 x 200 x 400 mm'. One unit for all sides, at the
     * end; empty if it is not written so, or a side is below 50 mm or above 2 m.
     */
    public static Optional<ChamberSize> find(String text) {
        Matcher matcher = SIDES.matcher(text.strip());
        if (!matcher.matches()) {
            return Optional.empty();
        }
        String unit = matcher.group(2).toLowerCase(Locale.ROOT);
        String stated = matcher.group(1).toLowerCase(Locale.ROOT);
        if (stated.contains(unit.equals("mm") ? "cm" : "mm")) {
            return Optional.empty();
        }
        List<Double> sides = new ArrayList<>();
        for (String side : BETWEEN.split(stated)) {
            sides.add(Double.parseDouble(side) * (unit.equals("cm") ? MILLIMETRES_PER_CENTIMETRE : 1));
        }
        if (sides.stream().anyMatch(side -> side < SHORTEST_MILLIMETRES || side > LONGEST_MILLIMETRES)) {
            return Optional.empty();
        }
        return Optional.of(
                sides.size() == 2
                        ? new ChamberSize(Form.CYLINDER, sides.get(0), sides.get(0), sides.get(1))
                        : new ChamberSize(Form.BOX, sides.get(0), sides.get(1), sides.get(2)));
    }

    /** Volume of that cylinder or box in litres; a chamber holds a little more or less by its dished ends and fittings. */
    public double litres() {
        double section = form == Form.CYLINDER
                ? Math.PI / 4 * widthMillimetres * heightMillimetres
                : widthMillimetres * heightMillimetres;
        return section * depthMillimetres / CUBIC_MILLIMETRES_PER_LITRE;
    }

    /** As it is written: '250 x 450 mm'. */
    public String text() {
        return (form == Form.CYLINDER ? "" : number(widthMillimetres) + " x ") + number(heightMillimetres) + " x "
                + number(depthMillimetres) + " mm";
    }

    private static String number(double millimetres) {
        return millimetres == Math.rint(millimetres)
                ? String.format(Locale.ROOT, "%.0f", millimetres)
                : String.format(Locale.ROOT, "%.1f", millimetres);
    }
}
