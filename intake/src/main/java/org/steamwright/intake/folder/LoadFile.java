package org.steamwright.intake.folder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.visit.validity.TodaysLoad.Thing;

/** Reads a load that is to be run today: from a small YAML file, or from words typed one by one. */
public final class LoadFile {

    /** The version that this program reads. */
    public static final int FORMAT_VERSION = 1;

    /** JSON Schema of the file, a resource beside this class. */
    public static final String SCHEMA = "load.schema.json";

    private static final String VERSION_KEY = "steamwright-load";
    private static final int MAX_BYTES = 200_000;
    private static final Pattern COUNTED = Pattern.compile("(\\d{1,6})\\s*(?:[x×]\\s+|\\s)(.+)");

    private LoadFile() {}

    /** The mappings of the file, with the keys each accepts in the order of the page. */
    enum Keys implements KeyedShape {
        LOAD(
                "load",
                VERSION_KEY,
                "sterilizer",
                "cycle",
                "on",
                "cycle-number",
                "items",
                "mass",
                "trays",
                "drying-time",
                "tests-passed"),
        ITEM("item", "name", "count", "family", "packaging");

        private final String word;
        private final List<String> keys;

        Keys(String word, String... keys) {
            this.word = word;
            this.keys = List.of(keys);
        }

        @Override
        public String word() {
            return word;
        }

        @Override
        public List<String> keys() {
            return keys;
        }
    }

    /**
     * The load in a file.
     *
     * @throws VisitFolderException if it is not there or can't be read, with every problem
     * @throws IOException if the disk fails
     */
    public static StatedLoad read(Path file) throws IOException, VisitFolderException {
        String name = String.valueOf(file.getFileName());
        if (!Files.isRegularFile(file)) {
            throw refused(Mistake.NO_FILE, name, "found no such file, expected a load.", "Check the path.");
        }
        byte[] bytes;
        try (InputStream in = Files.newInputStream(file)) {
            bytes = in.readNBytes(MAX_BYTES + 1);
        }
        OtherYaml.Answer<StatedLoad> answer = OtherYaml.read(
                bytes,
                new OtherYaml.Kind(
                        name,
                        "the load",
                        VERSION_KEY + ": " + FORMAT_VERSION,
                        "docs/reference/load-file.md",
                        MAX_BYTES),
                LoadFile::load);
        if (answer.value().isEmpty()) {
            throw new VisitFolderException(answer.problems());
        }
        return answer.value().get();
    }

    private static Optional<StatedLoad> load(Entry root) {
        Optional<Fields> opened = root.fields(Keys.LOAD);
        if (opened.isEmpty()) {
            return Optional.empty();
        }
        Fields fields = opened.get();
        Optional<String> version = fields.find(VERSION_KEY).flatMap(Entry::text);
        if (version.filter(String.valueOf(FORMAT_VERSION)::equals).isEmpty()) {
            root.problem(
                    Mistake.FORMAT_VERSION,
                    Flaw.of("found "
                                    + version.map(found -> "version \"" + found + "\"")
                                            .orElse("no \"" + VERSION_KEY + "\"")
                                    + ", expected version " + FORMAT_VERSION + " of the format.")
                            .inFile("Begin the file with: " + VERSION_KEY + ": " + FORMAT_VERSION));
            return Optional.empty();
        }
        String sterilizer = fields.text("sterilizer");
        String cycle = fields.text("cycle");
        Optional<LocalDate> on = fields.date("on");
        OptionalInt cycleNumber = fields.count("cycle-number");
        List<Thing> things = new ArrayList<>();
        for (Entry one : fields.list("items")) {
            one.fields(Keys.ITEM).flatMap(LoadFile::item).ifPresent(things::add);
        }
        Optional<Double> mass = fields.quantity("mass", Measure.LOAD_MASS);
        Optional<Double> drying = fields.quantity("drying-time", Measure.DURATION);
        Optional<Boolean> passed = fields.find("tests-passed").flatMap(Entry::yesOrNo);
        OptionalInt trays = fields.count("trays");
        return Optional.of(new StatedLoad(sterilizer, cycle, on, cycleNumber, things, mass, drying, passed, trays));
    }

    private static Optional<Thing> item(Fields fields) {
        Optional<String> name = fields.needText("name", "cassette with instruments");
        OptionalInt count = fields.need("count", "5").map(Entry::count).orElse(OptionalInt.empty());
        Optional<Entry> familyEntry = fields.find("family");
        Optional<String> family = familyEntry.isPresent() ? familyEntry.get().word(Words.FAMILY) : Optional.of("");
        String packaging = fields.text("packaging");
        return name.isEmpty() || count.isEmpty() || family.isEmpty()
                ? Optional.empty()
                : Facts.checked(fields.entry(), () -> new Thing(name.get(), count.getAsInt(), family.get(), packaging));
    }

    /**
     * One kind of thing as typed: '6 mirrors, solid, pouch', that is number and name, family, packaging.
     *
     * @param written as typed
     * @param place where it was typed, for messages
     * @throws VisitFolderException if it can't be understood
     */
    public static Thing thing(String written, String place) throws VisitFolderException {
        int packagingAt = written.lastIndexOf(',');
        int familyAt = packagingAt < 0 ? -1 : written.lastIndexOf(',', packagingAt - 1);
        Matcher counted = COUNTED.matcher(
                familyAt < 0 ? "" : written.substring(0, familyAt).strip());
        if (!counted.matches() || Integer.parseInt(counted.group(1)) < 1) {
            throw refused(
                    Mistake.WRONG_SHAPE,
                    place,
                    "found \"" + written + "\", expected how many, a name, the family and the packaging, parted by"
                            + " commas.",
                    "Write for example: '6 mirrors, solid, pouch'");
        }
        Typed typed = new Typed(place);
        Optional<String> family = Words.find(key(written.substring(familyAt + 1, packagingAt)), Words.FAMILY, typed);
        typed.throwIfAny();
        return new Thing(
                counted.group(2).strip(),
                Integer.parseInt(counted.group(1)),
                family.orElse(""),
                written.substring(packagingAt + 1).strip());
    }

    private static String key(String family) {
        return family.strip().replaceAll("[\\s-]+", "-").toLowerCase(Locale.ROOT);
    }

    /** A mass as typed, in kilograms. */
    public static double kilogram(String written, String place) throws VisitFolderException {
        return quantity(written, Measure.LOAD_MASS, place);
    }

    /** A time as typed, in seconds. */
    public static double seconds(String written, String place) throws VisitFolderException {
        return quantity(written, Measure.DURATION, place);
    }

    /** A yes or no as typed. */
    public static boolean yesOrNo(String written, String place) throws VisitFolderException {
        return word(written, Words.YES_OR_NO, place);
    }

    private static <E> E word(String written, Map<String, E> words, String place) throws VisitFolderException {
        Typed typed = new Typed(place);
        Optional<E> meaning = Words.find(written.strip(), words, typed);
        typed.throwIfAny();
        return meaning.orElseThrow();
    }

    private static double quantity(String written, Measure measure, String place) throws VisitFolderException {
        Typed typed = new Typed(place);
        Optional<Double> value = Quantities.parse(written, measure, typed);
        typed.throwIfAny();
        return value.orElseThrow();
    }

    private static VisitFolderException refused(Mistake mistake, String place, String sentence, String remedy) {
        return new VisitFolderException(List.of(Problem.ofFile(mistake, place, 0, sentence, remedy)));
    }

    /** Something that was typed, as a place for messages. */
    private static final class Typed implements Spot {
        private final String place;
        private final List<Problem> problems = new ArrayList<>();

        Typed(String place) {
            this.place = place;
        }

        @Override
        public void problem(MessageId mistake, Flaw flaw) {
            problems.add(new Problem(mistake.id(), place, 0, Way.WHOLE, flaw));
        }

        void throwIfAny() throws VisitFolderException {
            if (!problems.isEmpty()) {
                throw new VisitFolderException(problems);
            }
        }
    }
}
