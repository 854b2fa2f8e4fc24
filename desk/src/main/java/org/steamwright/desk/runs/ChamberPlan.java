package org.steamwright.desk.runs;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.steamwright.report.plot.CyclePlot;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.register.ChamberSize;

/**
 * Where the sensors sit in the chamber: from above, from the side and from the door, all at one scale and, where the visit
 * states the chamber's sides, in their true proportions. Places are found in the words: front, middle, back; left, centre,
 * right; top, half way, bottom; tray and its number from the bottom; and words that mean the same. A sensor whose words
 * name none of them is listed beside the plan.
 *
 * @param size of the chamber; empty if nobody stated it, and the plan is a sketch
 * @param trayLevels stated, none if not
 * @param views that are drawn
 * @param points that can be drawn, how many
 * @param elsewhere names of those that can't
 * @param channels that can be put at a place, in the order of the columns
 */
public record ChamberPlan(
        Optional<ChamberSize> size,
        int trayLevels,
        List<View> views,
        int points,
        List<String> elsewhere,
        List<Channel> channels) {

    /** What is drawn where nothing is stated: twice as deep as wide. */
    private static final ChamberSize SKETCH = new ChamberSize(ChamberSize.Form.BOX, 250, 250, 500);

    /** Room for the longest side, in units of the drawing, and around it. */
    private static final double LONGEST = 220;

    private static final double AROUND = 8;
    private static final double CORNER = 8;
    /** Distance that two letters keep, and half the height of one. */
    private static final double APART = 15;

    private static final double HALF_LETTER = 8;
    private static final double LETTER_WIDTH = 8;
    /** Of half the diameter: points at the edge stay well inside the wall of a cylinder. */
    private static final double INSIDE_ROUND = 0.56;

    private static final double INSIDE = 0.74;
    private static final int TRIES = 24;
    private static final int TENTHS = 10;

    private static final List<String> DEPTHS = List.of("front", "middle", "back");
    private static final List<String> SIDES = List.of("left", "centre", "right");
    private static final List<String> LEVELS = List.of("top", "half way", "bottom");

    /** Words that mean a step, each with those of other languages: from low to high. */
    private static final List<String> DEPTH_WORDS =
            List.of("front|door|vorn|avant", "middle|mitte|milieu", "back|rear|hinten|fond");

    private static final List<String> SIDE_WORDS =
            List.of("left|links|gauche", "centre|center|mittig", "right|rechts|droite");
    private static final List<String> LEVEL_WORDS =
            List.of("bottom|floor|unten|bas", "half way|halbe höhe|mi-hauteur", "top|oben|haut");

    private static final Pattern TRAY = Pattern.compile("\\b(?:tray|level|shelf|ebene|niveau|plateau) (\\d{1,2})\\b");

    public ChamberPlan {
        views = List.copyOf(views);
        elsewhere = List.copyOf(elsewhere);
        channels = List.copyOf(channels);
    }

    /**
     * A channel that can be put at a place.
     *
     * @param value file and column, as the form sends them
     * @param label letter and name
     * @param spots keys of the places where its words put it, one in each view that they decide
     */
    public record Channel(String value, String label, List<String> spots) {
        public Channel {
            spots = List.copyOf(spots);
        }
    }

    /**
     * A place of a view that can be tapped.
     *
     * @param key unlike any other of the plan
     * @param steps words for it, as they are kept
     */
    public record Spot(String key, List<String> steps) {
        public Spot {
            steps = List.copyOf(steps);
        }
    }

    /**
     * The chamber from one side.
     *
     * @param key of its caption: above, side or door
     * @param width of the drawing
     * @param height of the drawing
     * @param wall outline, as a path
     * @param door the closed door, as a path; blank where one looks through it
     * @param trays levels of the trays, as a path; blank if none are seen
     * @param marks sensors
     * @param spots places that can be tapped, row by row
     * @param share width of the chamber in tenths of the drawing's
     * @param across first side in millimetres, as it is printed; blank in a sketch
     * @param up second side
     */
    public record View(
            String key,
            String width,
            String height,
            String wall,
            String door,
            String trays,
            List<Mark> marks,
            List<Spot> spots,
            int share,
            String across,
            String up) {
        public View {
            marks = List.copyOf(marks);
            spots = List.copyOf(spots);
        }
    }

    /**
     * A sensor in a view.
     *
     * @param sign letter, or the column's name where there is none
     * @param x of its middle
     * @param y of its middle
     * @param isColdest whether it was the coldest of the holding time
     */
    public record Mark(String sign, String x, String y, boolean isColdest) {}

    /** A sensor with its place, each from −1 (door, left, bottom) to 1 (back, right, top). */
    private record Sensor(String sign, double depth, double side, double level, boolean isColdest) {}

    /** What can be said of a place by touch: one of each group. */
    public List<List<String>> steps() {
        List<List<String>> groups = new ArrayList<>(List.of(DEPTHS, SIDES, LEVELS));
        if (trayLevels > 0) {
            groups.add(IntStream.rangeClosed(1, trayLevels)
                    .mapToObj(number -> "tray " + number)
                    .toList());
        }
        return groups;
    }

    static ChamberPlan of(
            List<ReadFile> files, Optional<AssessedRun> run, Optional<ChamberSize> size, OptionalInt trayLevels) {
        Optional<String> coldest = run.filter(one -> one.evaluation().plateau().isPresent())
                .flatMap(one -> CyclePlot.coldest(one.evaluation()))
                .map(channel -> channel.channel().column().name());
        List<Sensor> sensors = new ArrayList<>();
        List<String> elsewhere = new ArrayList<>();
        List<Channel> channels = new ArrayList<>();
        for (ReadFile file : files) {
            for (ReadFile.ColumnRow column : file.columns()) {
                if (!column.isPressure() && !column.role().isEmpty()) {
                    String sign = column.position().isEmpty() ? column.name() : column.position();
                    channels.add(new Channel(
                            file.name() + "/" + column.name(),
                            (sign.equals(column.name()) ? sign : sign + ", " + column.name())
                                    + (files.size() > 1 ? " (" + file.name() + ")" : ""),
                            spots(column.place())));
                    sensor(
                                    sign,
                                    column.place(),
                                    trayLevels,
                                    coldest.filter(column.name()::equals).isPresent())
                            .ifPresentOrElse(sensors::add, () -> elsewhere.add(sign));
                }
            }
        }
        int trays = trayLevels.orElse(0);
        return new ChamberPlan(
                size,
                trays,
                views(size.orElse(SKETCH), size.isPresent(), trays, sensors),
                sensors.size(),
                elsewhere,
                channels);
    }

    private static Optional<Sensor> sensor(String sign, String place, OptionalInt trays, boolean isColdest) {
        String words = place.toLowerCase(Locale.ROOT);
        Optional<Double> depth = step(words, DEPTH_WORDS);
        Optional<Double> side = step(words, SIDE_WORDS);
        Optional<Double> level = tray(words, trays).or(() -> step(words, LEVEL_WORDS));
        return depth.isEmpty() && side.isEmpty() && level.isEmpty()
                ? Optional.empty()
                : Optional.of(new Sensor(sign, depth.orElse(0.0), side.orElse(0.0), level.orElse(0.0), isColdest));
    }

    /** Height of a tray that the words name by its number; empty if they name none, or one that is not there. */
    private static Optional<Double> tray(String words, OptionalInt trays) {
        Matcher matcher = TRAY.matcher(words);
        if (!matcher.find() || trays.isEmpty()) {
            return Optional.empty();
        }
        int number = Integer.parseInt(matcher.group(1));
        return number < 1 || number > trays.getAsInt()
                ? Optional.empty()
                : Optional.of(height(number, trays.getAsInt()));
    }

    /** Height of a tray from −1 to 1: trays share the height evenly, the lowest is the first. */
    private static double height(int number, int trays) {
        return trays == 1 ? 0 : -1 + 2.0 * (number - 1) / (trays - 1);
    }

    private static Optional<Double> step(String words, List<String> steps) {
        for (int i = 0; i < steps.size(); i++) {
            if (named(steps.get(i)).matcher(words).find()) {
                return Optional.of(i - 1.0);
            }
        }
        return Optional.empty();
    }

    private static Pattern named(String anyOf) {
        return Pattern.compile("\\b(" + anyOf + ")\\b", Pattern.UNICODE_CHARACTER_CLASS);
    }

    /** The places where words put a sensor; a tray is none of the three heights. */
    private static List<String> spots(String place) {
        String words = place.toLowerCase(Locale.ROOT);
        Optional<Integer> depth = step(words, DEPTH_WORDS).map(one -> (int) (one + 1));
        Optional<Integer> side = step(words, SIDE_WORDS).map(one -> (int) (one + 1));
        Optional<Integer> level = TRAY.matcher(words).find()
                ? Optional.empty()
                : step(words, LEVEL_WORDS).map(one -> (int) (1 - one));
        List<String> keys = new ArrayList<>();
        depth.ifPresent(column -> {
            side.ifPresent(row -> keys.add(key("above", row, column)));
            level.ifPresent(row -> keys.add(key("side", row, column)));
        });
        side.ifPresent(column -> level.ifPresent(row -> keys.add(key("door", row, column))));
        return keys;
    }

    private static String key(String view, int row, int column) {
        return view + "-" + row + "-" + column;
    }

    private static List<Spot> spots(String view, List<String> rows, List<String> columns) {
        List<Spot> spots = new ArrayList<>();
        for (int row = 0; row < rows.size(); row++) {
            for (int column = 0; column < columns.size(); column++) {
                spots.add(new Spot(key(view, row, column), List.of(columns.get(column), rows.get(row))));
            }
        }
        return spots;
    }

    /**
     * Words of a place with other steps: those of the same directions go, and so does what names a tray if a height is among
     * them. The rest stays as it was typed.
     *
     * @return empty if one of the steps is none of this plan, or two are of one direction
     */
    static Optional<String> moved(String place, List<String> steps) {
        List<List<String>> directions = List.of(DEPTHS, SIDES, LEVELS);
        List<List<String>> words = List.of(DEPTH_WORDS, SIDE_WORDS, LEVEL_WORDS);
        List<String> said = new ArrayList<>();
        List<String> rest = new ArrayList<>(
                Pattern.compile(",").splitAsStream(place).map(String::strip).toList());
        rest.removeIf(String::isEmpty);
        int moved = 0;
        for (int i = 0; i < directions.size(); i++) {
            List<String> one = directions.get(i);
            List<String> chosen = steps.stream().filter(one::contains).toList();
            if (chosen.size() > 1) {
                return Optional.empty();
            }
            if (!chosen.isEmpty()) {
                Pattern gone = named(String.join("|", words.get(i)));
                boolean isLevel = one.equals(LEVELS);
                rest.removeIf(part -> gone.matcher(part.toLowerCase(Locale.ROOT))
                                .find()
                        || (isLevel
                                && TRAY.matcher(part.toLowerCase(Locale.ROOT)).find()));
            }
            List<String> kept = chosen.isEmpty()
                    ? rest.stream()
                            .filter(part -> one.contains(part.toLowerCase(Locale.ROOT)))
                            .toList()
                    : chosen;
            rest.removeAll(kept);
            said.addAll(kept);
            moved += chosen.size();
        }
        if (moved == 0 || moved != steps.size()) {
            return Optional.empty();
        }
        said.addAll(rest);
        return Optional.of(String.join(", ", said));
    }

    // ---- drawing

    private static List<View> views(ChamberSize size, boolean isStated, int trays, List<Sensor> sensors) {
        boolean isRound = size.form() == ChamberSize.Form.CYLINDER;
        double scale = LONGEST
                / Math.max(size.depthMillimetres(), Math.max(size.widthMillimetres(), size.heightMillimetres()));
        double depth = size.depthMillimetres() * scale;
        double width = size.widthMillimetres() * scale;
        double height = size.heightMillimetres() * scale;
        double inside = isRound ? INSIDE_ROUND : INSIDE;
        Canvas above = new Canvas(depth, width, LONGEST);
        Canvas side = new Canvas(depth, height, LONGEST);
        Canvas door = new Canvas(width, height, LONGEST);
        for (Sensor sensor : sensors) {
            above.put(sensor, sensor.depth * INSIDE, sensor.side * inside);
            side.put(sensor, sensor.depth * INSIDE, -sensor.level * inside);
            door.put(sensor, sensor.side * inside, -sensor.level * inside);
        }
        StringBuilder along = new StringBuilder();
        StringBuilder across = new StringBuilder();
        for (int tray = 1; tray <= trays; tray++) {
            double below = -height(tray, trays) * inside;
            double y = below * height / 2 + HALF_LETTER + 1;
            along.append(side.line(-depth / 2 + 3, y, depth / 2 - 3, y));
            double half = isRound ? Math.sqrt(Math.max(0, width * width / 4 - y * y)) - 2 : width / 2 - 3;
            if (half > 0) {
                across.append(door.line(-half, y, half, y));
            }
        }
        return List.of(
                view(
                        "above",
                        above,
                        spots("above", SIDES, DEPTHS),
                        above.box(),
                        above.leftEdge(),
                        "",
                        isStated,
                        size.depthMillimetres(),
                        size.widthMillimetres()),
                view(
                        "side",
                        side,
                        spots("side", LEVELS, DEPTHS),
                        side.box(),
                        side.leftEdge(),
                        along.toString(),
                        isStated,
                        size.depthMillimetres(),
                        size.heightMillimetres()),
                view(
                        "door",
                        door,
                        spots("door", LEVELS, SIDES),
                        isRound ? door.circle() : door.box(),
                        "",
                        across.toString(),
                        isStated,
                        size.widthMillimetres(),
                        size.heightMillimetres()));
    }

    private static View view(
            String key,
            Canvas canvas,
            List<Spot> spots,
            String wall,
            String door,
            String trays,
            boolean isStated,
            double across,
            double up) {
        return new View(
                key,
                number(canvas.room + 2 * AROUND),
                number(canvas.height + 2 * AROUND),
                wall,
                door,
                trays,
                canvas.marks,
                spots,
                (int) Math.ceil(TENTHS * canvas.width / canvas.room),
                isStated ? number(across) : "",
                isStated ? number(up) : "");
    }

    /** One view while it is drawn: a rectangle around its own middle, in a drawing that may be wider. */
    private static final class Canvas {
        private final double width;
        private final double height;
        private final double room;
        private final List<Mark> marks = new ArrayList<>();
        private final List<double[]> taken = new ArrayList<>();

        Canvas(double width, double height, double room) {
            this.width = width;
            this.height = height;
            this.room = room;
        }

        private double x(double fromMiddle) {
            return AROUND + room / 2 + fromMiddle;
        }

        private double y(double fromMiddle) {
            return AROUND + height / 2 + fromMiddle;
        }

        /** Writes a sensor at its place, or at the nearest free one beside it: two never cover each other. */
        void put(Sensor sensor, double right, double down) {
            double letter = Math.max(APART, sensor.sign.length() * LETTER_WIDTH);
            double x = right * width / 2;
            double y = down * height / 2;
            double toMiddle = x > 0 ? -1 : 1;
            for (int attempt = 0; attempt < TRIES && isTaken(x, y, letter); attempt++) {
                double step = (attempt / 2 + 1) * letter;
                x = right * width / 2 + (attempt % 2 == 0 ? toMiddle : -toMiddle) * step;
                if (Math.abs(x) > width / 2 - HALF_LETTER) {
                    x = right * width / 2 + toMiddle * step;
                }
            }
            taken.add(new double[] {x, y, letter});
            marks.add(new Mark(sensor.sign, number(x(x)), number(y(y)), sensor.isColdest));
        }

        private boolean isTaken(double x, double y, double letter) {
            return taken.stream()
                    .anyMatch(other ->
                            Math.abs(other[0] - x) < (other[2] + letter) / 2 - 1 && Math.abs(other[1] - y) < APART - 1);
        }

        String box() {
            double left = x(-width / 2);
            double right = x(width / 2);
            double top = y(-height / 2);
            double bottom = y(height / 2);
            return "M" + number(left) + " " + number(top) + "H" + number(right - CORNER) + "Q" + number(right) + " "
                    + number(top) + " " + number(right) + " " + number(top + CORNER) + "V" + number(bottom - CORNER)
                    + "Q" + number(right) + " " + number(bottom) + " " + number(right - CORNER) + " " + number(bottom)
                    + "H" + number(left) + "Z";
        }

        String circle() {
            String radius = number(width / 2);
            return "M" + number(x(-width / 2)) + " " + number(y(0)) + "a" + radius + " " + radius + " 0 1 0 "
                    + number(width) + " 0a" + radius + " " + radius + " 0 1 0 -" + number(width) + " 0Z";
        }

        /** The closed door at the left. */
        String leftEdge() {
            return "M" + number(x(-width / 2)) + " " + number(y(-height / 2) - 3) + "V" + number(y(height / 2) + 3);
        }

        String line(double fromX, double fromY, double toX, double toY) {
            return "M" + number(x(fromX)) + " " + number(y(fromY)) + "L" + number(x(toX)) + " " + number(y(toY));
        }
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.1f", value);
        return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
    }
}
