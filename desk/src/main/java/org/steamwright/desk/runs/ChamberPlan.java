package org.steamwright.desk.runs;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.ToDoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.desk.shelf.ChamberPlaces;
import org.steamwright.desk.web.Frame;
import org.steamwright.report.plot.CyclePlot;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.register.ChamberSize;

/**
 * Where the sensors sit in the chamber, and where the challenge pack and the indicators lie: from above, from the side and from the door, all at one scale and, where the visit
 * states the chamber's sides, in their true proportions. Places are found in the words: front, middle, back; left, centre,
 * right; top, half way, bottom; tray and its number from the bottom; and words that mean the same. The drawing holds short
 * signs only; a legend tells what each of them is and where it lies, and what has no place on the plan.
 *
 * @param size of the chamber; empty if nobody stated it, and the plan is a sketch
 * @param trayLevels stated, none if not
 * @param views that are drawn
 * @param points that can be drawn, how many
 * @param legend every sign with its name and place, drawn or not
 * @param channels that can be put at a place, in the order of the columns
 */
public record ChamberPlan(
        Optional<ChamberSize> size,
        int trayLevels,
        List<View> views,
        int points,
        List<Sign> legend,
        List<Channel> channels) {

    /** What is drawn where nothing is stated: twice as deep as wide. */
    private static final ChamberSize SKETCH = new ChamberSize(ChamberSize.Form.BOX, 250, 250, 500);

    /** Room for the longest side, in units of the drawing, and around it. */
    private static final double LONGEST = 220;

    private static final double AROUND = 8;
    private static final double CORNER = 8;
    /** Half the height of a letter. */
    private static final double HALF_LETTER = 8;
    /** What signs keep from one another and from the wall, at full size. */
    private static final double GAP = 1;

    private static final double FROM_WALL = 3;
    /** Places that are tried lie so far apart, at full size; signs that find none there are drawn smaller. */
    private static final double PACE = 2;

    private static final double SMALLER = 0.9;
    /** Longest sign that a letter makes; longer ones are numbered. */
    private static final int LONGEST_LETTER = 3;
    /** Of half the diameter: points at the edge stay well inside the wall of a cylinder. */
    private static final double INSIDE_ROUND = 0.56;

    private static final double INSIDE = 0.74;
    private static final int TENTHS = 10;

    private static final List<String> DEPTHS = ChamberPlaces.steps(0).get(0);
    private static final List<String> SIDES = ChamberPlaces.steps(0).get(1);
    private static final List<String> LEVELS = ChamberPlaces.steps(0).get(2);

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
        legend = List.copyOf(legend);
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
     * A sensor, pack or indicator in a view.
     *
     * @param kind what it is
     * @param sign letter or number
     * @param x of its middle
     * @param y of its middle
     * @param scale of the sign: 1 unless the place is crowded
     * @param isColdest whether it was the coldest of the holding time
     */
    public record Mark(Kind kind, String sign, String x, String y, String scale, boolean isColdest) {}

    /** What lies at a place, with half the width and half the height of its sign. */
    public enum Kind {
        SENSOR(7.5, 7.5),
        PACK(9.6, 8.6),
        INDICATOR(10.5, 10);

        private static final double RING = 9.6;

        private final double halfWidth;
        private final double halfHeight;

        Kind(double halfWidth, double halfHeight) {
            this.halfWidth = halfWidth;
            this.halfHeight = halfHeight;
        }

        /** Class of its drawing. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }

        private double halfWidth(boolean isRinged) {
            return isRinged ? Math.max(RING, halfWidth) : halfWidth;
        }

        private double halfHeight(boolean isRinged) {
            return isRinged ? Math.max(RING, halfHeight) : halfHeight;
        }
    }

    /**
     * What a sign of the plan stands for.
     *
     * @param kind what it is
     * @param sign letter or number; unlike any other of its kind
     * @param name of the column or the indicator; blank if it has none
     * @param place in words; blank if nobody stated it
     * @param beside sign of the sensor that it lies beside; blank if it lies on its own
     * @param isDrawn whether the words name a place of the plan
     * @param isColdest whether it was the coldest of the holding time
     */
    public record Sign(
            Kind kind, String sign, String name, String place, String beside, boolean isDrawn, boolean isColdest) {

        /** What the legend says of it. */
        public String words(Frame frame) {
            List<String> words = new ArrayList<>();
            if (!name.isBlank()) {
                words.add(name);
            }
            if (!beside.isEmpty()) {
                words.add(frame.say("runs.sign-beside", beside));
            }
            if (!place.isBlank()) {
                words.add(ChamberPlaces.saidAll(place, frame::say, number -> frame.say("runs.step.tray", number)));
            }
            if (isColdest) {
                words.add(frame.say("runs.sign-coldest"));
            }
            if (!isDrawn) {
                words.add(frame.say(place.isBlank() ? "runs.sign-unplaced" : "runs.sign-elsewhere"));
            }
            return frame.say("runs.sign." + kind.word(), sign) + ": " + String.join("; ", words);
        }
    }

    /**
     * What lies in the chamber beside the sensors.
     *
     * @param kind what it is
     * @param name of it; blank if it has none
     * @param place in words, or the letter of the sensor beside it
     */
    record Laid(Kind kind, String name, String place) {}

    /** A sign with its place, each from −1 (door, left, bottom) to 1 (back, right, top). */
    private record Placed(Kind kind, String sign, double depth, double side, double level, boolean isColdest) {}

    /** What can be said of a place by touch: one of each group. */
    public List<List<String>> steps() {
        return ChamberPlaces.steps(trayLevels);
    }

    static ChamberPlan of(
            List<ReadFile> files,
            Optional<AssessedRun> run,
            Optional<ChamberSize> size,
            OptionalInt trayLevels,
            List<Laid> laid) {
        Optional<String> coldest = run.filter(one -> one.evaluation().plateau().isPresent())
                .flatMap(one -> CyclePlot.coldest(one.evaluation()))
                .map(channel -> channel.channel().column().name());
        List<Placed> placed = new ArrayList<>();
        List<Sign> legend = new ArrayList<>();
        List<Channel> channels = new ArrayList<>();
        Map<String, Sign> byLetter = new HashMap<>();
        List<ReadFile.ColumnRow> columns = new ArrayList<>();
        files.forEach(file -> columns.addAll(file.columns()));
        Numbers numbers = new Numbers(columns);
        for (ReadFile file : files) {
            for (ReadFile.ColumnRow column : file.columns()) {
                if (!column.isPressure() && !column.role().isEmpty()) {
                    String of = files.size() > 1 ? " (" + file.name() + ")" : "";
                    String sign = numbers.sign(column);
                    channels.add(new Channel(
                            file.name() + "/" + column.name(),
                            (sign.equals(column.name()) ? sign : sign + ", " + column.name()) + of,
                            spots(column.place())));
                    boolean isColdest = coldest.filter(column.name()::equals).isPresent();
                    Optional<Placed> place = placed(Kind.SENSOR, sign, column.place(), trayLevels, isColdest);
                    place.ifPresent(placed::add);
                    Sign told = new Sign(
                            Kind.SENSOR, sign, column.name() + of, column.place(), "", place.isPresent(), isColdest);
                    legend.add(told);
                    if (!column.position().isBlank()) {
                        byLetter.putIfAbsent(key(column.position()), told);
                    }
                }
            }
        }
        int points = placed.size();
        int packs = 0;
        int indicators = 0;
        for (Laid one : laid) {
            int number = one.kind == Kind.PACK ? ++packs : ++indicators;
            String sign = one.kind == Kind.PACK ? number == 1 ? "P" : "P" + number : String.valueOf(number);
            Optional<Sign> beside = Optional.ofNullable(byLetter.get(key(one.place)));
            String words = beside.map(Sign::place).orElse(one.place);
            Optional<Placed> place = placed(one.kind, sign, words, trayLevels, false);
            place.ifPresent(placed::add);
            legend.add(new Sign(
                    one.kind, sign, one.name, words, beside.map(Sign::sign).orElse(""), place.isPresent(), false));
        }
        int trays = trayLevels.orElse(0);
        return new ChamberPlan(
                size, trays, views(size.orElse(SKETCH), size.isPresent(), trays, placed), points, legend, channels);
    }

    private static String key(String letter) {
        return letter.strip().toLowerCase(Locale.ROOT);
    }

    /** Signs of the sensors: the letter where it is short and nobody else's, else the next free number. */
    private static final class Numbers {
        private final Set<String> letters = new HashSet<>();
        private final Set<String> given = new HashSet<>();
        private int last;

        Numbers(List<ReadFile.ColumnRow> columns) {
            columns.forEach(column -> letters.add(key(column.position())));
        }

        String sign(ReadFile.ColumnRow column) {
            String letter = column.position().strip();
            if (!letter.isEmpty()
                    && letter.codePointCount(0, letter.length()) <= LONGEST_LETTER
                    && given.add(key(letter))) {
                return letter;
            }
            do {
                last++;
            } while (letters.contains(String.valueOf(last)));
            return String.valueOf(last);
        }
    }

    private static Optional<Placed> placed(Kind kind, String sign, String place, OptionalInt trays, boolean isColdest) {
        String words = place.toLowerCase(Locale.ROOT);
        Optional<Double> depth = step(words, DEPTH_WORDS);
        Optional<Double> side = step(words, SIDE_WORDS);
        Optional<Double> level = tray(words, trays).or(() -> step(words, LEVEL_WORDS));
        return depth.isEmpty() && side.isEmpty() && level.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new Placed(kind, sign, depth.orElse(0.0), side.orElse(0.0), level.orElse(0.0), isColdest));
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

    private static List<View> views(ChamberSize size, boolean isStated, int trays, List<Placed> placed) {
        boolean isRound = size.form() == ChamberSize.Form.CYLINDER;
        double scale = LONGEST
                / Math.max(size.depthMillimetres(), Math.max(size.widthMillimetres(), size.heightMillimetres()));
        double depth = size.depthMillimetres() * scale;
        double width = size.widthMillimetres() * scale;
        double height = size.heightMillimetres() * scale;
        double inside = isRound ? INSIDE_ROUND : INSIDE;
        Canvas above = new Canvas(depth, width, LONGEST, false);
        Canvas side = new Canvas(depth, height, LONGEST, false);
        Canvas door = new Canvas(width, height, LONGEST, isRound);
        above.put(placed, one -> one.depth * INSIDE, one -> one.side * inside);
        side.put(placed, one -> one.depth * INSIDE, one -> -one.level * inside);
        door.put(placed, one -> one.side * inside, one -> -one.level * inside);
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
                        above.wall(),
                        above.leftEdge(),
                        "",
                        isStated,
                        size.depthMillimetres(),
                        size.widthMillimetres()),
                view(
                        "side",
                        side,
                        spots("side", LEVELS, DEPTHS),
                        side.wall(),
                        side.leftEdge(),
                        along.toString(),
                        isStated,
                        size.depthMillimetres(),
                        size.heightMillimetres()),
                view(
                        "door",
                        door,
                        spots("door", LEVELS, SIDES),
                        door.wall(),
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

    /** One view while it is drawn: a rectangle or a circle around its own middle, in a drawing that may be wider. */
    private static final class Canvas {
        private final double width;
        private final double height;
        private final double room;
        private final boolean isRound;
        private final double corner;
        private List<Mark> marks = List.of();

        Canvas(double width, double height, double room, boolean isRound) {
            this.width = width;
            this.height = height;
            this.room = room;
            this.isRound = isRound;
            this.corner = Math.min(CORNER, Math.min(width, height) / 4);
        }

        private double x(double fromMiddle) {
            return AROUND + room / 2 + fromMiddle;
        }

        private double y(double fromMiddle) {
            return AROUND + height / 2 + fromMiddle;
        }

        /** Draws each sign at its place or at the nearest free one; all of them smaller where there is no room. */
        void put(List<Placed> placed, ToDoubleFunction<Placed> right, ToDoubleFunction<Placed> down) {
            Optional<List<Mark>> drawn = Optional.empty();
            for (double scale = 1; drawn.isEmpty(); scale *= SMALLER) {
                drawn = drawn(placed, right, down, scale);
            }
            marks = drawn.get();
        }

        private Optional<List<Mark>> drawn(
                List<Placed> placed, ToDoubleFunction<Placed> right, ToDoubleFunction<Placed> down, double scale) {
            List<Mark> drawn = new ArrayList<>();
            List<Box> taken = new ArrayList<>();
            for (Placed one : placed) {
                Box wanted = new Box(
                        right.applyAsDouble(one) * width / 2,
                        down.applyAsDouble(one) * height / 2,
                        one.kind.halfWidth(one.isColdest) * scale,
                        one.kind.halfHeight(one.isColdest) * scale);
                Optional<Box> free = nearest(wanted, taken, scale);
                if (free.isEmpty()) {
                    return Optional.empty();
                }
                taken.add(free.get());
                drawn.add(new Mark(
                        one.kind,
                        one.sign,
                        number(x(free.get().x)),
                        number(y(free.get().y)),
                        String.format(Locale.ROOT, "%.3f", scale),
                        one.isColdest));
            }
            return Optional.of(drawn);
        }

        /** The free place that is nearest to the one that is wanted, rather beside it towards the middle than above it. */
        private Optional<Box> nearest(Box wanted, List<Box> taken, double scale) {
            double pace = PACE * scale;
            int columns = (int) Math.ceil(width / pace);
            int rows = (int) Math.ceil(height / pace);
            double toMiddle = wanted.x > 0 ? -1 : 1;
            double least = Double.MAX_VALUE;
            Optional<Box> found = Optional.empty();
            for (int column = -columns; column <= columns; column++) {
                for (int row = -rows; row <= rows; row++) {
                    Box here = wanted.movedBy(toMiddle * column * pace, row * pace);
                    double away = Math.hypot(column + (column < 0 ? -0.1 : 0), row * 1.1);
                    if (away < least
                            && holds(here, scale)
                            && taken.stream().noneMatch(other -> other.isWithin(here, GAP * scale))) {
                        least = away;
                        found = Optional.of(here);
                    }
                }
            }
            return found;
        }

        private boolean holds(Box box, double scale) {
            double right = Math.abs(box.x) + box.halfWidth + FROM_WALL * scale;
            double down = Math.abs(box.y) + box.halfHeight + FROM_WALL * scale;
            return isRound ? Math.hypot(right, down) <= width / 2 : right <= width / 2 && down <= height / 2;
        }

        String wall() {
            return isRound ? circle() : box();
        }

        private String box() {
            double left = x(-width / 2);
            double right = x(width / 2);
            double top = y(-height / 2);
            double bottom = y(height / 2);
            return "M" + number(left) + " " + number(top) + "H" + number(right - corner) + "Q" + number(right) + " "
                    + number(top) + " " + number(right) + " " + number(top + corner) + "V" + number(bottom - corner)
                    + "Q" + number(right) + " " + number(bottom) + " " + number(right - corner) + " " + number(bottom)
                    + "H" + number(left) + "Z";
        }

        private String circle() {
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

    /** Where a sign lies, from the middle of its view. */
    private record Box(double x, double y, double halfWidth, double halfHeight) {

        Box movedBy(double right, double down) {
            return new Box(x + right, y + down, halfWidth, halfHeight);
        }

        boolean isWithin(Box other, double gap) {
            return Math.abs(x - other.x) < halfWidth + other.halfWidth + gap
                    && Math.abs(y - other.y) < halfHeight + other.halfHeight + gap;
        }
    }

    private static String number(double value) {
        String text = String.format(Locale.ROOT, "%.1f", value);
        return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
    }
}
