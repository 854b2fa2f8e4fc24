package org.steamwright.intake.folder;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.cycle.CycleType;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.quantity.Temperature;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.assessment.trace.ChannelRole;
import org.steamwright.assessment.trace.Column;
import org.steamwright.assessment.trace.Position;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.TestKind;
import org.steamwright.assessment.verdict.TestRun;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.profile.ReadingProfiles;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.register.Sterilizer;

/**
 * One recording as a visit of one run, without a folder. What the file can't tell is asked, and nothing else.
 *
 * <p>Answers are written as in a visit folder: {@code sterilizing-temperature} with {@code 134 °C}, {@code role:T1} with {@code
 * reference-point}.
 */
public final class SingleRecording {

    /** Keys of declarations that belong to no column, besides those of {@link ReadingChoices.Builder#answer}. */
    public static final List<String> KEYS = List.of(
            "kind",
            "cycle",
            "cycle-type",
            "sterilizing-temperature",
            "holding-time",
            "air-removal-pulses",
            "barometer",
            "altitude",
            "zone",
            "criteria-set");

    private static final List<String> READING_KEYS = List.of(
            "delimiter",
            "decimal-mark",
            "date-order",
            "time-unit",
            "clock",
            "charset",
            "start",
            "sheet",
            "from",
            "to",
            "profile");

    /** The word that leaves a column out. */
    private static final String LEAVE_OUT = "leave-out";

    /**
     * What somebody said about the recording, as text.
     *
     * @param answers by key
     * @param criteriaSet a set that was read elsewhere; it goes before the answer to {@code criteria-set}
     */
    public record Declarations(Map<String, String> answers, Optional<CriteriaSet> criteriaSet) {

        /** Nothing was said. */
        public static final Declarations NONE = new Declarations(Map.of(), Optional.empty());

        public Declarations {
            answers = Map.copyOf(answers);
        }

        /** One thing more was said. */
        public Declarations with(String key, String value) {
            Map<String, String> more = new LinkedHashMap<>(answers);
            more.put(key, value);
            return new Declarations(more, criteriaSet);
        }

        /** Judged by that set. */
        public Declarations with(CriteriaSet set) {
            return new Declarations(answers, Optional.of(set));
        }
    }

    private record Answer(String key, String text, Problems problems) implements Spot {
        @Override
        public void problem(MessageId mistake, Flaw flaw) {
            problems.add(mistake, 0, Way.of(key), flaw);
        }
    }

    private final String fileName;
    private final Declarations declarations;
    private final CriteriaSets sets;
    private final Problems problems;
    private final List<Question> questions = new ArrayList<>();

    private final ReadingProfiles profiles;

    private SingleRecording(Path file, Declarations declarations, CriteriaSets sets, ReadingProfiles profiles) {
        this.profiles = profiles;
        Path name = file.getFileName();
        this.fileName = name == null ? file.toString() : name.toString();
        this.declarations = declarations;
        this.sets = sets;
        this.problems = new Problems(fileName);
    }

    /**
     * The recording as a visit of one run.
     *
     * @param file the recording
     * @param declarations what was said about it
     * @param sets where presets come from
     * @throws QuestionsException with all that is open, if anything is
     * @throws VisitFolderException if something that was said can't be
     * @throws UnreadableFileException if the file can't be read and no answer would help
     * @throws IOException if the disk fails
     */
    public static Visit toVisit(Path file, Declarations declarations, CriteriaSets sets)
            throws IOException, UnreadableFileException, QuestionsException, VisitFolderException {
        return toVisit(file, declarations, sets, ReadingProfiles.none());
    }

    /**
     * The recording as a visit of one run.
     *
     * @param file the recording
     * @param declarations what was said about it
     * @param sets where presets come from
     * @param profiles answers that were given for other files of its kind
     * @throws QuestionsException with all that is open, if anything is
     * @throws VisitFolderException if something that was said can't be
     * @throws UnreadableFileException if the file can't be read and no answer would help
     * @throws IOException if the disk fails
     */
    public static Visit toVisit(Path file, Declarations declarations, CriteriaSets sets, ReadingProfiles profiles)
            throws IOException, UnreadableFileException, QuestionsException, VisitFolderException {
        return new SingleRecording(file, declarations, sets, profiles).visit(file);
    }

    private Visit visit(Path file)
            throws IOException, UnreadableFileException, QuestionsException, VisitFolderException {
        Optional<ZoneId> zone = said("zone").flatMap(answer -> Moments.zone(answer.text(), answer));
        ReadingChoices choices = choices(zone);
        problems.throwIfAny();
        Recording recording;
        try {
            choices = profiles.complete(file, choices);
            recording = Recordings.read(file, choices);
        } catch (UnreadableFileException e) {
            if (e.questions().isEmpty()) {
                throw e;
            }
            throw new QuestionsException(fileName, e.questions());
        }

        String highest = evidence(recording);
        if (choices.isByProfile("zone")) {
            zone = Optional.of(choices.zone());
        }
        if (zone.isEmpty() && recording.start().isPresent()) {
            ask(
                    "zone",
                    "In which time zone was it recorded?",
                    "The file has clock times; the days of certificates are counted at the site.",
                    List.of());
        }
        Optional<CriteriaSet> set = criteriaSet();
        Optional<TestKind> kind = said("kind").flatMap(answer -> Words.find(answer.text(), Words.KIND, answer));
        if (said("kind").isEmpty()) {
            ask("kind", "What was tested?", highest, List.copyOf(Words.KIND.keySet()));
        }
        // what a leak test does not need is asked in the next round, once the kind is known
        Optional<CycleDefinition> cycle = kind.flatMap(what -> cycle(what, set, highest));
        Assignment assignment = new Assignment(
                List.of(new Assignment.Named(fileName, recording, new Answer("", "", problems))),
                new Answer("role", "", problems));
        List<Assignment.Wish> wishes = wishes(recording, assignment, kind);
        Conditions conditions = conditions(recording, wishes);
        checkKeys(assignment);

        boolean isOpen = !questions.isEmpty();
        Optional<Trace> trace = isOpen || kind.isEmpty() || !problems.isEmpty()
                ? Optional.empty()
                : assignment.trace(wishes, isRoleSaid(), kind.get(), zone.orElse(ZoneOffset.UTC));
        problems.throwIfAny();
        if (isOpen) {
            throw new QuestionsException(fileName, questions);
        }
        return visit(
                zone.orElse(ZoneOffset.UTC),
                set.orElseThrow(),
                kind.orElseThrow(),
                cycle.orElseThrow(),
                trace.orElseThrow(),
                conditions);
    }

    private static Visit visit(
            ZoneId zone, CriteriaSet set, TestKind kind, CycleDefinition cycle, Trace trace, Conditions conditions) {
        List<Remark> remarks = new ArrayList<>();
        VisitFolder.remarkBarometer(conditions, "barometer", List.of(), remarks);
        Sterilizer sterilizer = new Sterilizer(
                "A",
                "",
                "",
                "not stated",
                "",
                Optional.empty(),
                "",
                "",
                "",
                OptionalInt.empty(),
                OptionalInt.empty(),
                List.of(cycle));
        TestRun test = new TestRun(
                "run-1", kind, cycle, trace, Map.of(), Runs.ambient(Optional.empty(), conditions), Optional.empty());
        VisitRun run = new VisitRun(
                1, "A", OptionalInt.empty(), "", "", "", Optional.empty(), List.of(), List.of(), "", "", test);
        return new Visit(
                "",
                "",
                trace.start().map(moment -> moment.atZone(zone).toLocalDate()),
                zone,
                "",
                Optional.empty(),
                List.of(sterilizer),
                List.of(),
                conditions,
                Map.of(),
                List.of(),
                List.of(run),
                set,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                remarks);
    }

    private Optional<Answer> said(String key) {
        return Optional.ofNullable(declarations.answers().get(key))
                .map(text -> new Answer(key, text.strip(), problems));
    }

    private void ask(String key, String text, String evidence, List<String> options) {
        questions.add(new Question(key, text, evidence, options));
    }

    /** Settings of the reader; absolute or gauge is kept back, so that a contradiction with the file is seen. */
    private ReadingChoices choices(Optional<ZoneId> said) {
        ZoneId zone = said.orElse(ZoneOffset.UTC);
        ReadingChoices.Builder builder =
                said.isPresent() ? ReadingChoices.inZone(zone) : ReadingChoices.supposingZone(zone);
        declarations.answers().forEach((key, text) -> {
            if (READING_KEYS.contains(key) || key.startsWith("unit:")) {
                Answer answer = new Answer(key, text, problems);
                if (key.equals("start")) {
                    Moments.moment(text.strip(), zone, answer).ifPresent(builder::start);
                    return;
                }
                try {
                    builder.answer(key, text);
                } catch (IllegalArgumentException e) {
                    answer.problem(Mistake.UNKNOWN_WORD, Flaw.of(String.valueOf(e.getMessage())));
                }
            }
        });
        return builder.build();
    }

    private Optional<CriteriaSet> criteriaSet() {
        if (declarations.criteriaSet().isPresent()) {
            return declarations.criteriaSet();
        }
        Optional<Answer> answer = said("criteria-set");
        if (answer.isEmpty()) {
            ask(
                    "criteria-set",
                    "By which limits shall it be judged?",
                    "Limits come from the standard in force at the site or from the maker's instructions.",
                    sets.names());
            return Optional.empty();
        }
        if (!sets.names().contains(answer.get().text())) {
            answer.get()
                    .problem(
                            Mistake.CRITERIA_SET,
                            Flaw.notAmong(
                                            "found the criteria set \"%s\", expected one of %s.",
                                            answer.get().text(), sets.names())
                                    .with(Nearest.to(answer.get().text(), sets.names())
                                            .map(near -> " Did you mean \"" + near + "\"?")
                                            .orElse(" Write one of these names.")));
            return Optional.empty();
        }
        return Optional.of(sets.get(answer.get().text()));
    }

    private Optional<CycleDefinition> cycle(TestKind kind, Optional<CriteriaSet> set, String highest) {
        Optional<String> name = said("cycle").map(Answer::text);
        if (kind == TestKind.LEAK) {
            // a leak test is judged by no cycle; type and temperature decide nothing
            return Optional.of(CycleDefinition.of(name.orElse("air leakage test"), CycleType.B, 134));
        }
        Optional<CycleType> type =
                said("cycle-type").flatMap(answer -> Words.find(answer.text(), Words.CYCLE_TYPE, answer));
        if (said("cycle-type").isEmpty()) {
            ask(
                    "cycle-type",
                    "Of which type is the cycle?",
                    "No recording tells it; the sterilizer's instructions do.",
                    List.copyOf(Words.CYCLE_TYPE.keySet()));
        }
        Optional<Double> celsius = said("sterilizing-temperature")
                .flatMap(answer -> Quantities.parse(answer.text(), Measure.TEMPERATURE, answer));
        if (said("sterilizing-temperature").isEmpty()) {
            List<String> usual = new ArrayList<>();
            set.ifPresent(limits -> limits.cycles().forEach(one -> usual.add(plain(one.sterilizingCelsius()) + " °C")));
            ask("sterilizing-temperature", "For which sterilization temperature is the cycle made?", highest, usual);
        }
        Optional<Duration> holding = said("holding-time")
                .flatMap(answer -> Quantities.parse(answer.text(), Measure.DURATION, answer))
                .map(Facts::duration);
        Optional<Answer> pulsesSaid = said("air-removal-pulses");
        OptionalInt pulses = pulsesSaid.isPresent()
                ? Quantities.count(pulsesSaid.get().text(), pulsesSaid.get())
                : OptionalInt.empty();
        if (type.isEmpty() || celsius.isEmpty()) {
            return Optional.empty();
        }
        return Facts.checked(
                new Answer("sterilizing-temperature", "", problems),
                () -> new CycleDefinition(
                        name.orElse(plain(celsius.get()) + " °C"),
                        type.get(),
                        Temperature.ofCelsius(celsius.get()),
                        holding,
                        pulses,
                        Optional.empty(),
                        Optional.empty()));
    }

    private static String plain(double value) {
        return value == Math.rint(value) ? String.valueOf((long) value) : String.valueOf(value);
    }

    private boolean isRoleSaid() {
        return declarations.answers().keySet().stream().anyMatch(key -> key.startsWith("role:"));
    }

    private List<Assignment.Wish> wishes(Recording recording, Assignment assignment, Optional<TestKind> kind) {
        List<Assignment.Wish> wishes = new ArrayList<>();
        for (Quantity quantity : Quantity.values()) {
            List<Column> columns = recording.columns().stream()
                    .filter(column -> column.quantity() == quantity)
                    .toList();
            boolean isAnySaid = columns.stream()
                    .anyMatch(column -> forColumn("role", column).isPresent());
            for (Column column : columns) {
                Optional<Answer> answer = forColumn("role", column);
                if (answer.isPresent()) {
                    if (!answer.get().text().equals(LEAVE_OUT)) {
                        Words.find(answer.get().text(), Words.ROLE, answer.get())
                                .ifPresent(role -> wishes.add(wish(column, role, answer.get())));
                    }
                } else if (columns.size() == 1) {
                    wishes.add(wish(
                            column,
                            quantity == Quantity.PRESSURE ? ChannelRole.PRESSURE : ChannelRole.REFERENCE_POINT,
                            new Answer("role:" + column.name(), "", problems)));
                } else if (!isAnySaid && !(quantity == Quantity.TEMPERATURE && isLeak(kind))) {
                    List<String> options = new ArrayList<>();
                    Words.ROLE.forEach((word, role) -> {
                        if ((role == ChannelRole.PRESSURE) == (quantity == Quantity.PRESSURE)) {
                            options.add(word);
                        }
                    });
                    options.add(LEAVE_OUT);
                    ask(
                            "role:" + column.name(),
                            "What does the column \"" + column.name() + "\" stand for?",
                            "The file has " + columns.size() + " columns of this kind: " + assignment.listing() + ".",
                            options);
                }
            }
        }
        return wishes;
    }

    private static boolean isLeak(Optional<TestKind> kind) {
        return kind.isPresent() && kind.get() == TestKind.LEAK;
    }

    private Assignment.Wish wish(Column column, ChannelRole role, Answer spot) {
        Optional<PressureReference> reference = Optional.empty();
        if (column.quantity() == Quantity.PRESSURE) {
            Optional<Answer> answer = forColumn("reference", column);
            reference = answer.flatMap(one -> Words.find(one.text(), Words.REFERENCE, one));
            if (answer.isEmpty() && column.reference().isEmpty()) {
                ask(
                        "reference:" + column.name(),
                        "Is the pressure \"" + column.name() + "\" absolute or gauge?",
                        Assignment.openDoor(column),
                        List.copyOf(Words.REFERENCE.keySet()));
            }
        }
        return new Assignment.Wish(
                column.name(), role, Position.UNSTATED, Optional.empty(), reference, Optional.empty(), spot);
    }

    private Optional<Answer> forColumn(String kind, Column column) {
        for (Map.Entry<String, String> one : declarations.answers().entrySet()) {
            String key = one.getKey();
            if (key.startsWith(kind + ":")
                    && ReadingChoices.key(key.substring(kind.length() + 1)).equals(ReadingChoices.key(column.name()))) {
                return Optional.of(new Answer(key, one.getValue().strip(), problems));
            }
        }
        return Optional.empty();
    }

    private Conditions conditions(Recording recording, List<Assignment.Wish> wishes) {
        Optional<Double> barometer = said("barometer").flatMap(answer -> Facts.barometer(answer.text(), answer));
        Optional<Double> altitude = said("altitude").flatMap(answer -> Facts.altitude(answer.text(), answer));
        boolean isGauge = false;
        for (Assignment.Wish wish : wishes) {
            Optional<PressureReference> inFile =
                    recording.findColumn(wish.column()).flatMap(Column::reference);
            isGauge |= wish.reference().or(() -> inFile).equals(Optional.of(PressureReference.GAUGE));
        }
        if (isGauge && said("barometer").isEmpty() && said("altitude").isEmpty()) {
            ask(
                    "barometer",
                    "What did a barometer show at the site, for example 101.2 kPa? Without one, give the altitude"
                            + " instead.",
                    "The pressure is counted from the ambient pressure, which the file does not tell.",
                    List.of());
        }
        return new Conditions(
                barometer, "", altitude, Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
    }

    /** Nothing that was said may go unheard. */
    private void checkKeys(Assignment assignment) {
        List<String> keys = new ArrayList<>(KEYS);
        keys.addAll(READING_KEYS);
        declarations.answers().keySet().stream().sorted().forEach(key -> {
            Answer answer = new Answer(key, "", problems);
            int colon = key.indexOf(':');
            if (colon < 0 && !keys.contains(key)) {
                answer.problem(
                        Mistake.UNKNOWN_KEY,
                        Flaw.notAmong(
                                        "found the unknown key \"%s\", expected one of %s, role:COLUMN, reference:COLUMN or unit:COLUMN.",
                                        key, keys)
                                .with(Nearest.to(key, keys)
                                        .map(near -> " Did you mean \"" + near + "\"?")
                                        .orElse(" Remove it.")));
            }
            if (key.startsWith("role:") || key.startsWith("reference:")) {
                boolean isColumn = assignment.hasColumn(key.substring(colon + 1));
                if (!isColumn) {
                    answer.problem(
                            Mistake.UNKNOWN_COLUMN,
                            Flaw.of(
                                    "found the column name \"" + key.substring(colon + 1)
                                            + "\", expected one of the columns " + assignment.listing() + ".",
                                    "Write the name as it stands in the file."));
                }
            }
        });
    }

    /** What the figures of the recording say about the kind of cycle. */
    private static String evidence(Recording recording) {
        StringBuilder text = new StringBuilder();
        for (Column column : recording.columns()) {
            double low = Double.POSITIVE_INFINITY;
            double high = Double.NEGATIVE_INFINITY;
            for (int i = 0; i < column.size(); i++) {
                if (!Double.isNaN(column.at(i))) {
                    low = Math.min(low, column.at(i));
                    high = Math.max(high, column.at(i));
                }
            }
            if (low <= high) {
                text.append(text.isEmpty() ? "" : ", ")
                        .append(column.name())
                        .append(" from ")
                        .append(Figures.nearest(low, 1))
                        .append(" to ")
                        .append(Figures.nearest(high, 1))
                        .append(" ")
                        .append(column.quantity().unit());
            }
        }
        return text.isEmpty() ? "The file shows no value." : "The file shows " + text + ".";
    }
}
