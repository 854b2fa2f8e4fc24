package org.steamwright.desk.clinic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.RealVisit;
import org.steamwright.filing.CoverageInRecord;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.signing.Keys;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.result.ResultJson;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Whole;
import org.steamwright.visit.due.Today;
import org.steamwright.visit.qualification.Qualification.Standing;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.state.VisitState;
import org.steamwright.visit.validity.Coverage;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.Shown;
import org.steamwright.visit.validity.TodaysLoad;
import org.steamwright.visit.validity.ValidatedState;

/**
 * Hunts for a pass that was not shown. A good visit gets facts that take a qualification away, and things happen after its
 * signature; then everything that speaks of the steriliser is asked: the answer of the visit, result.json, the certificate, the
 * due list, the load question and the clinic's page. None may say more than the facts allow, and none may differ from another.
 *
 * <p>What the facts allow is stated beside each of them by hand, not computed. {@code -Dcampaign.wrong-pass=2000} makes it a
 * campaign.
 */
class NoWrongPassTest {

    private static final String NAME = "Kim Sample (invented)";
    private static final Author KIM = new Author(NAME, "technician");
    private static final String NUMBER = "DEMO-2026-001";
    private static final String SERIAL = "EX-1001";
    private static final String CYCLE = "134 wrapped";
    private static final LocalDate DAY = LocalDate.of(2026, 3, 2);
    private static final LocalDate LAST_DAY = LocalDate.of(2027, 3, 2);
    private static final ZoneId SITE = ZoneId.of("Australia/Adelaide");
    private static final int TRIES = Integer.getInteger("campaign.wrong-pass", 2);
    private static final long FIRST = Long.getLong("campaign.first", 0);
    private static final List<LocalDate> DAYS = List.of(
            DAY.minusDays(1),
            DAY,
            DAY.plusDays(6),
            DAY.plusDays(7),
            LocalDate.of(2026, 3, 20),
            LocalDate.of(2026, 3, 21),
            LocalDate.of(2026, 6, 30),
            LocalDate.of(2026, 7, 1),
            LAST_DAY,
            LAST_DAY.plusDays(1));
    private static final List<OptionalInt> COUNTS =
            List.of(OptionalInt.empty(), OptionalInt.of(1500), OptionalInt.of(1989), OptionalInt.of(1990));
    private static final AtomicInteger NEXT = new AtomicInteger();

    private static Path base;
    /** A record with the visit, and one in which it was signed with the facts of {@link #SIGNED}. */
    private static Path taken;

    private static Path signed;
    private static final List<Fact> SIGNED = List.of(Fact.ENDS_WITH_A_COUNT);

    /** Facts of a visit, by whether the cycle of steriliser A may still be called qualified. */
    enum Fact {
        NOTHING(true, edit -> {}),
        NO_LEAK_TEST(false, edit -> edit.without(1, 2, 9)),
        LEAK_TEST_AS_FOUND_ONLY(false, edit -> edit.without(2, 9).set("runs/1/stage", "as-found")),
        NO_LEAK_TEST_AFTER_THE_SENSORS(false, edit -> edit.without(9)),
        LEAK_TESTS_SET_ASIDE(false, edit -> edit.aside(1).aside(2).aside(9)),
        NO_EMPTY_RUN(false, edit -> edit.without(3, 4, 5)),
        EMPTY_RUNS_AS_FOUND(
                false,
                edit -> edit.set("runs/3/stage", "as-found")
                        .set("runs/4/stage", "as-found")
                        .set("runs/5/stage", "as-found")),
        EMPTY_RUNS_SET_ASIDE(false, edit -> edit.aside(3).aside(4).aside(5)),
        ONE_EMPTY_RUN_LESS(true, edit -> edit.without(4)),
        ONE_LOADED_RUN_LESS(false, edit -> edit.without(7)),
        A_LOADED_RUN_SET_ASIDE(false, edit -> edit.aside(8)),
        NO_LOADED_RUN(false, edit -> edit.without(6, 7, 8)),
        ANOTHER_LOAD_IN_ONE_RUN(false, edit -> edit.set("runs/7/load/description", "one cassette")),
        INDICATOR_AWAITED(
                false,
                edit -> edit.set("runs/7/indicators/1/result", "awaited")
                        .unset("runs/7/indicators/1/read-on")
                        .unset("runs/7/indicators/1/read-by")
                        .set("job-sheet/interim-until", "2026-09-01")),
        INDICATOR_GREW(false, edit -> edit.set("runs/7/indicators/2/result", "growth")),
        CONTROL_DEAD(false, edit -> edit.set("runs/7/indicators/4/result", "no-growth")),
        INDICATORS_OUT_OF_DATE(
                false,
                edit -> edit.set("runs/6/indicators/1/expires", "2026-01-31")
                        .set("runs/6/indicators/2/expires", "2026-01-31")
                        .set("runs/6/indicators/3/expires", "2026-01-31")
                        .set("runs/6/indicators/4/expires", "2026-01-31")),
        OTHER_PLATE(false, edit -> edit.set("sterilizers/1/name-plate/serial", "EX-9999")),
        INSTRUMENT_OUT_OF_DATE(false, edit -> edit.set("instruments/4/certificate/due-on", "2026-02-01")),
        SAFETY_FAILED(false, edit -> edit.check("safety", "safety valve", "failed")),
        SAFETY_FAILED_AND_MORE_SAID(false, edit -> edit.check("safety", "safety valve", "failed, does not open")),
        SAFETY_NOT_DONE(false, edit -> edit.check("safety", "safety valve", "not done")),
        SAFETY_NOT_SAID(false, edit -> edit.check("safety", "safety valve", " ")),
        SAFETY_IN_WORDS_THAT_NOBODY_KNOWS(false, edit -> edit.check("safety", "safety valve", "wie gehabt")),
        SAFETY_GOOD_BUT(false, edit -> edit.check("safety", "safety valve", "good, but it drips")),
        SAFETY_MISTYPED(false, edit -> edit.check("safety", "safety valve", "godo")),
        SAFETY_DONE(false, edit -> edit.check("safety", "safety valve", "done")),
        SAFETY_NOT_IN_ORDER_IN_GERMAN(false, edit -> edit.check("safety", "Sicherheitsventil", "nicht in Ordnung")),
        SAFETY_A_FAULT_IN_GERMAN(false, edit -> edit.check("safety", "Sicherheitsventil", "Mangel")),
        SAFETY_DEFECTIVE_IN_FRENCH(false, edit -> edit.check("safety", "soupape", "défectueux")),
        SAFETY_A_FAULT_IN_FRENCH(false, edit -> edit.check("safety", "soupape", "défaut à la soupape")),
        SAFETY_NOT_CHECKED_IN_FRENCH(false, edit -> edit.check("safety", "soupape", "non contrôlé")),
        SAFETY_IN_ORDER_IN_GERMAN(true, edit -> edit.check("safety", "Sicherheitsventil", "in Ordnung")),
        SAFETY_GOOD_IN_FRENCH(true, edit -> edit.check("safety", "soupape", "Conforme")),
        SAFETY_DOES_NOT_APPLY(false, edit -> edit.check("safety", "feed pump", "not-applicable")),
        SAFETY_DOES_NOT_APPLY_WITH_A_REASON(
                true, edit -> edit.check("safety", "feed pump", "not-applicable", "filled by hand")),
        INSTALLATION_FAILED(false, edit -> edit.check("installation", "level", "bad")),
        INSTALLATION_IN_WORDS_THAT_NOBODY_KNOWS(false, edit -> edit.check("installation", "level", "schief")),
        INDICATION_IN_WORDS_THAT_NOBODY_KNOWS(false, edit -> edit.check("verification", "display", "2 K zu viel")),
        PENETRATION_IN_WORDS_THAT_NOBODY_KNOWS(
                false, edit -> edit.check("steam-penetration", "hollow device", "ungleichmäßig")),
        PENETRATION_LISTED_AS_FAILED(false, edit -> edit.check("steam-penetration", "hollow device", "fail")),
        INDICATION_LISTED_AS_FAILED(false, edit -> edit.check("verification", "display", "failed")),
        PENETRATION_FAILED(false, edit -> edit.penetration(CYCLE, "fail", "")),
        PENETRATION_FAILED_IN_A_TEST_PROGRAM(false, edit -> edit.penetration("Penetration test", "fail", "")),
        PENETRATION_VOID(false, edit -> edit.penetration(CYCLE, "pass", "2026-01-31")),
        PENETRATION_PASSED(true, edit -> edit.penetration(CYCLE, "pass", "2027-01-31")),
        CONDITION_LAPSED(false, edit -> edit.condition("", "2026-03-01")),
        CONDITION_OPEN(true, edit -> edit.condition("", "2026-03-20")),
        LOAD_ABOVE_MAXIMUM(
                false,
                edit -> edit.add(
                        "job-sheet/loads",
                        Map.of("sterilizer", "A", "maximum", "1 kg", "maximum-source", "instructions (invented)"))),
        SCOPE_WITHOUT_LEAK_TEST(
                false,
                edit -> edit.without(1, 2, 9)
                        .set("job-sheet/scope/leak", "no")
                        .set("job-sheet/scope/because", "the clinic tests daily (invented)")),
        SCOPE_WITHOUT_EMPTY_RUNS(
                false,
                edit -> edit.without(3, 4, 5)
                        .set("job-sheet/scope/operational", "no")
                        .set("job-sheet/scope/because", "loaded runs only were ordered (invented)")),
        VALID_UNTIL_EARLIER(true, edit -> edit.set("job-sheet/valid-until", "2026-06-30")),
        VALID_UNTIL_BEFORE_THE_VISIT(false, edit -> edit.set("job-sheet/valid-until", "2026-03-01")),
        VALID_UNTIL_TOO_FAR(false, edit -> edit.set("job-sheet/valid-until", "2027-03-03")),
        ENDS_WITH_A_COUNT(true, edit -> edit.set("job-sheet/cycles-until-due", "500")),
        MOVED_SINCE(
                true,
                edit -> edit.add("job-sheet/events", Map.of("sterilizer", "A", "kind", "moved", "on", "2026-03-09")));

        private final boolean isQualified;
        private final Consumer<Edit> edit;

        Fact(boolean isQualified, Consumer<Edit> edit) {
            this.isQualified = isQualified;
            this.edit = edit;
        }
    }

    /** What happens after the signature, by whether the cycle may still be run. */
    enum Later {
        NOTHING(true),
        WITHDRAWN(false),
        CORRECTED_TO_LESS(false),
        CORRECTION_BEGUN(true),
        MOVED_BY_THE_REGISTER(false),
        OUT_OF_SERVICE(false),
        PART_CHANGED(false),
        FIRMWARE_CHANGED(false),
        CONDITION_LAPSED_IN_THE_REGISTER(false),
        COUNTED_PAST_THE_END(false),
        LATER_VISIT_WITH_NO_LOADED_RUN(true),
        LATER_VISIT_FOUND_A_LEAK_AT_THE_PORT(false),
        LATER_VISIT_LEFT_THE_PORT_UNTESTED(false),
        LATER_VISIT_FAILED_SAFETY(false),
        LATER_VISIT_FAILED_SAFETY_IN_GERMAN(false),
        LATER_VISIT_SAYS_OF_SAFETY_WHAT_NOBODY_KNOWS(false),
        LATER_VISIT_DID_NOT_CHECK_SAFETY(true),
        LATER_VISIT_FAILED_A_TEST_PROGRAM(false),
        LATER_VISIT_WITH_A_HOLE(false),
        LATER_VISIT_WITHDRAWN(false),
        LATER_VISIT_KNOWS_ANOTHER_NAME(false),
        LATER_VISIT_OPEN(true);

        private final boolean mayRun;

        Later(boolean mayRun) {
            this.mayRun = mayRun;
        }

        /** Whether it has happened by a day: what the register dates takes effect on the day after the visit. */
        boolean hasHappened(LocalDate day) {
            return switch (this) {
                case MOVED_BY_THE_REGISTER,
                        PART_CHANGED,
                        FIRMWARE_CHANGED,
                        CONDITION_LAPSED_IN_THE_REGISTER,
                        COUNTED_PAST_THE_END -> day.isAfter(DAY);
                default -> true;
            };
        }
    }

    /** Changes a visit by its draft, as a technician does. */
    private static final class Edit {
        private final DraftChange change;
        private final int runs;
        private final Set<Integer> gone = new TreeSet<>(Comparator.reverseOrder());

        Edit(Draft draft) {
            this.change = draft.change();
            this.runs = draft.count(FactPath.of("runs"));
        }

        Edit set(String path, String value) {
            change.set(FactPath.parse(path), Optional.of(value));
            return this;
        }

        Edit unset(String path) {
            change.set(FactPath.parse(path), Optional.empty());
            return this;
        }

        Edit add(String list, Map<String, Object> entry) {
            change.add(FactPath.parse(list), entry);
            return this;
        }

        Edit without(int... runs) {
            for (int run : runs) {
                gone.add(run);
            }
            return this;
        }

        Edit aside(int run) {
            return set("runs/" + run + "/set-aside/because", "a probe had slipped (invented)")
                    .set("runs/" + run + "/set-aside/by", NAME);
        }

        Edit check(String section, String title, String result) {
            return check(section, title, result, "");
        }

        Edit check(String section, String title, String result, String remark) {
            return add(
                    "checklists",
                    Map.of(
                            "section",
                            section,
                            "sterilizer",
                            "A",
                            "items",
                            List.of(
                                    remark.isEmpty()
                                            ? Map.of("title", title, "result", result)
                                            : Map.of("title", title, "result", result, "remark", remark))));
        }

        Edit penetration(String cycle, String result, String expires) {
            Map<String, Object> test = new LinkedHashMap<>(Map.of(
                    "sterilizer", "A", "cycle", cycle, "kind", "hollow", "device", "a long lumen", "result", result));
            if (!expires.isEmpty()) {
                test.put("expires", expires);
            }
            return add("job-sheet/penetration", test);
        }

        Edit condition(String cycle, String until) {
            return add(
                    "job-sheet/conditions",
                    Map.of(
                            "sterilizer",
                            "A",
                            "cycle",
                            cycle,
                            "text",
                            "fit a new filter",
                            "owner",
                            "practice manager",
                            "until",
                            until));
        }

        void keep() throws Exception {
            // other facts may have taken some of them away already
            gone.stream().filter(run -> run <= runs).forEach(run -> change.remove(FactPath.of("runs", run)));
            change.keep(KIM, "as a test wants it");
        }
    }

    @BeforeAll
    static void write_the_year_as_if_it_were_real() throws Exception {
        base = Files.createTempDirectory("wrong-pass");
        RealVisit.writeYear(base.resolve("year"));
        withoutTheOther(base.resolve("year/2-final"), base.resolve("one"));
        Path later = base.resolve("later");
        copy(base.resolve("one"), later);
        Path visit = later.resolve("visit.yaml");
        Files.writeString(
                visit,
                Files.readString(visit)
                        .replace(NUMBER, "DEMO-2026-101")
                        .replaceFirst("(?m)^date: .*$", "date: 2026-03-05"));
        World one = new World();
        one.filing.take(base.resolve("one"), KIM, "");
        one.key();
        one.register("");
        taken = one.left();
        World two = new World(Optional.of(taken));
        two.change(SIGNED);
        two.sign(NUMBER);
        signed = two.left();
    }

    @AfterAll
    static void take_away() throws IOException {
        delete(base);
    }

    /** The visit with steriliser A alone, which is the quicker one. */
    private static void withoutTheOther(Path visit, Path alone) throws Exception {
        try (World world = new World()) {
            SubjectId taken = world.filing.take(visit, KIM, "").visit().id();
            DraftChange change = new Drafts(world.records).of(taken).change();
            for (int run = 14; run > 9; run--) {
                change.remove(FactPath.of("runs", run));
            }
            for (int list = 12; list > 0; list -= 2) {
                change.remove(FactPath.of("checklists", list));
            }
            change.remove(FactPath.of("sterilizers", 2)).remove(FactPath.of("job-sheet", "evidence"));
            change.keep(KIM, "one steriliser alone");
            world.filing.giveBack(world.filing.visit(NUMBER).visit(), alone);
        }
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            all.sorted(Comparator.reverseOrder()).forEach(one -> one.toFile().delete());
        }
    }

    private static void copy(Path from, Path to) throws IOException {
        try (Stream<Path> all = Files.walk(from)) {
            for (Path one : all.toList()) {
                Path target = to.resolve(from.relativize(one).toString());
                if (Files.isDirectory(one)) {
                    Files.createDirectories(target);
                } else {
                    Files.copy(one, target);
                }
            }
        }
    }

    /** A clock that a test sets; its zone is far from that of the site. */
    private static final class SetClock extends Clock {
        private Instant now = Instant.parse("2026-03-09T09:00:00Z");

        @Override
        public ZoneId getZone() {
            return ZoneOffset.ofHours(-9);
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return Clock.fixed(now, zone);
        }

        @Override
        public Instant instant() {
            return now;
        }
    }

    /** A record with the visit, changed; closed by whoever made it. */
    private static final class World implements AutoCloseable {
        private final Path folder = base.resolve("world-" + NEXT.incrementAndGet());
        private final SetClock clock = new SetClock();
        private final Records records;
        private final Filing filing;
        private final Drafts drafts;
        private Optional<OpenDesk> desk = Optional.empty();

        World() throws Exception {
            this(Optional.empty());
        }

        /** A copy of a record that was made before. */
        World(Optional<Path> of) throws Exception {
            Files.createDirectories(folder);
            if (of.isPresent()) {
                copy(of.get(), folder.resolve("record"));
            }
            records = Records.open(Place.folder(folder.resolve("record")), clock, DueInRecord.RULE);
            filing = new Filing(records);
            drafts = new Drafts(records);
        }

        void change(List<Fact> facts) throws Exception {
            change(
                    filing.visit(NUMBER).visit().id(),
                    facts.stream().map(fact -> fact.edit).toList());
        }

        void change(SubjectId visit, List<Consumer<Edit>> edits) throws Exception {
            Edit edit = new Edit(drafts.of(visit));
            edits.forEach(one -> one.accept(edit));
            if (edits.stream().anyMatch(one -> one != Fact.NOTHING.edit)) {
                edit.keep();
            }
        }

        void key() throws FilingException {
            new Keys(records).make(filing.technician(NAME), secret(), KIM);
        }

        void sign(String number) throws Exception {
            filing.sign(filing.open(number).visit(), NAME, "performed and recorded", secret(), KIM);
        }

        void register(String facts) throws Exception {
            Path office = Files.createDirectories(folder.resolve("office-" + NEXT.incrementAndGet()));
            Files.writeString(
                    office.resolve("register.yaml"),
                    "steamwright-register: 1\nsterilizers:\n  - {id: ST-1, serial: " + SERIAL + facts + "}\n");
            new RegisterFiling(records).take(office, KIM, "");
        }

        /** What follows from the visit; empty if it can't be read, and so not signed. */
        Optional<AssessedVisit> assessed() throws IOException, FilingException {
            try {
                return Optional.of(drafts.assess(filing.visit(NUMBER).visit()));
            } catch (VisitFolderException refused) {
                return Optional.empty();
            }
        }

        void goOn(Later later) throws Exception {
            switch (later) {
                case NOTHING -> {}
                case WITHDRAWN -> withdraw(NUMBER);
                case CORRECTED_TO_LESS -> {
                    SubjectId correction = filing.amend(NUMBER, "runs of another machine", KIM)
                            .visit()
                            .id();
                    change(correction, List.of(Fact.NO_LOADED_RUN.edit));
                    sign(NUMBER);
                }
                case CORRECTION_BEGUN -> filing.amend(NUMBER, "lot read wrongly", KIM);
                case MOVED_BY_THE_REGISTER -> register(", movements: [{on: 2026-03-03, reason: lent}]");
                case OUT_OF_SERVICE -> register(", status: out-of-service");
                case PART_CHANGED -> register(", changes: [{on: 2026-03-03, reason: sensor, what: sensor exchanged}]");
                case FIRMWARE_CHANGED ->
                    register(", firmware: [{version: '1.0', since: 2020-01-01}, {version: '2.0', since: 2026-03-03}]");
                case CONDITION_LAPSED_IN_THE_REGISTER ->
                    register(", conditions: [{what: second pack, owner: practice manager, until: 2026-03-02}]");
                case COUNTED_PAST_THE_END -> register(", counter: {readings: [{on: 2026-03-03, shows: 2100}]}");
                case LATER_VISIT_WITH_NO_LOADED_RUN -> later(edit -> edit.without(6, 7, 8), true);
                case LATER_VISIT_FOUND_A_LEAK_AT_THE_PORT ->
                    later(edit -> edit.without(6, 7, 8).set("runs/9/leak-periods/end", "1010 s"), true);
                case LATER_VISIT_LEFT_THE_PORT_UNTESTED -> later(edit -> edit.without(6, 7, 8, 9), true);
                case LATER_VISIT_FAILED_SAFETY ->
                    later(edit -> edit.without(6, 7, 8).check("safety", "safety valve", "failed"), true);
                case LATER_VISIT_FAILED_SAFETY_IN_GERMAN ->
                    later(edit -> edit.without(6, 7, 8).check("safety", "Ventil", "nicht in Ordnung"), true);
                case LATER_VISIT_SAYS_OF_SAFETY_WHAT_NOBODY_KNOWS ->
                    later(edit -> edit.without(6, 7, 8).check("safety", "Ventil", "hinüber"), true);
                case LATER_VISIT_DID_NOT_CHECK_SAFETY ->
                    later(edit -> edit.without(6, 7, 8).check("safety", "safety valve", "not-done"), true);
                case LATER_VISIT_FAILED_A_TEST_PROGRAM ->
                    later(edit -> edit.without(6, 7, 8).penetration("Penetration test", "fail", ""), true);
                case LATER_VISIT_WITH_A_HOLE -> later(edit -> edit.without(3, 4, 5), true);
                case LATER_VISIT_WITHDRAWN -> {
                    later(edit -> edit.set("runs/6/indicators/1/result", "growth"), true);
                    withdraw("DEMO-2026-101");
                }
                case LATER_VISIT_KNOWS_ANOTHER_NAME ->
                    later(
                            edit -> {
                                edit.set("sterilizers/1/cycles/1/name", "134 new");
                                for (int run = 3; run <= 8; run++) {
                                    edit.set("runs/" + run + "/cycle", "134 new");
                                }
                            },
                            true);
                case LATER_VISIT_OPEN -> later(edit -> edit.without(6, 7, 8), false);
            }
        }

        private void later(Consumer<Edit> edit, boolean isSigned) throws Exception {
            SubjectId visit =
                    filing.take(base.resolve("later"), KIM, "").visit().id();
            change(visit, List.of(edit));
            if (isSigned) {
                sign("DEMO-2026-101");
            }
        }

        private void withdraw(String number) throws Exception {
            filing.withdraw(filing.visit(number), NAME, "an indicator grew", secret(), KIM);
        }

        CoverageInRecord covering() {
            return new CoverageInRecord(records, drafts::assess, visit -> true);
        }

        /** Ends with the record where it is. */
        Path left() throws IOException {
            close(false);
            return folder.resolve("record");
        }

        Subject machine() {
            return records.exactly(Kind.STERILIZER, "serial", SERIAL).get(0);
        }

        /** The page of the clinic, of a desk that stays open while things happen. */
        String clinicPage() throws Exception {
            if (desk.isEmpty()) {
                desk = Optional.of(OpenDesk.with(records, folder));
            }
            Subject clinic = records.subjects(Kind.CLINIC, 1).get(0);
            return desk.get().get("/clinic/" + clinic.id()).body();
        }

        @Override
        public void close() throws IOException {
            close(true);
        }

        private void close(boolean isDeleted) throws IOException {
            if (desk.isPresent()) {
                desk.get().close();
            } else {
                records.close();
            }
            if (isDeleted) {
                delete(folder);
            }
        }
    }

    private static char[] secret() {
        return "open sesame 1".toCharArray();
    }

    private static boolean isQualified(AssessedVisit assessed) throws IOException {
        ValidatedState state = ValidatedState.of(assessed).get(0);
        boolean byState = state.findCycle(CYCLE)
                .filter(one -> one.status() == QualifiedCycle.Status.QUALIFIED)
                .isPresent();
        assertThat(assessed.qualifiedCycles().contains(SERIAL + ": " + CYCLE))
                .as("the answer of the visit and its state")
                .isEqualTo(byState);
        ByteArrayOutputStream json = new ByteArrayOutputStream();
        ResultJson.write(assessed, json);
        JsonNode result = new ObjectMapper().readTree(json.toByteArray());
        assertThat(result.findValue("qualifiedCycles").toString().contains(SERIAL + ": " + CYCLE))
                .as("result.json")
                .isEqualTo(byState);
        assertThat(result.toString().contains("\"validUntil\""))
                .as("an end only where something begins")
                .isEqualTo(assessed.validUntil().isPresent());
        assertThat(assessed.summary().get(0).startsWith("Nothing may be run"))
                .as("the first sentence: %s", assessed.summary().get(0))
                .isEqualTo(!byState);
        ByteArrayOutputStream pdf = new ByteArrayOutputStream();
        CertificatePdf.write(assessed, "A", Issued.NOT_SIGNED, pdf);
        String certificate = text(pdf.toByteArray());
        assertThat(certificate.contains("mayberunwith")).as("the certificate").isEqualTo(byState);
        Standing whole = Whole.of(assessed, "A");
        boolean isDone = Shown.of(assessed, "A").contains(Duty.VALIDATION);
        assertThat(isDone).as("done for the due list, whole %s", whole).isEqualTo(byState && whole == Standing.PASS);
        if (byState) {
            assertThat(whole)
                    .as("one cycle is all that A has, so the whole is no better and no worse")
                    .isEqualTo(Standing.PASS);
            assertThat(state.until()).isPresent();
            assertThat(state.until().get()).isBetween(DAY, LAST_DAY);
        }
        return byState;
    }

    private static String text(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return new PDFTextStripper().getText(document).replaceAll("\\s+", "");
        }
    }

    /** Each fact alone, so that none is missed by chance. */
    @ParameterizedTest
    @EnumSource
    void each_fact_alone(Fact fact) throws Exception {
        visit(List.of(fact));
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({
        "VALID_UNTIL_BEFORE_THE_VISIT, VISIT-130, 'found 2026-03-01, expected the day of the visit, 2026-03-02'",
        "VALID_UNTIL_TOO_FAR, VISIT-131, 'found 2027-03-03, expected 2027-03-02 or an earlier day'",
    })
    void an_end_that_can_not_be_is_refused_with_words(Fact fact, String id, String words) throws Exception {
        try (World world = new World(Optional.of(taken))) {
            world.change(List.of(fact));
            Subject visit = world.filing.visit(NUMBER).visit();
            assertThatThrownBy(() -> world.filing.assess(visit))
                    .isInstanceOf(VisitFolderException.class)
                    .hasMessageContaining(id)
                    .hasMessageContaining(words);
            assertThatThrownBy(() -> world.sign(NUMBER)).isInstanceOf(VisitFolderException.class);
        }
    }

    /** Facts together: one that takes a qualification away is made good by no other, but for the very test that is repeated. */
    @Test
    void facts_together() throws Exception {
        for (long seed = FIRST; seed < FIRST + TRIES; seed++) {
            visit(facts(new Random(seed)));
        }
    }

    /** Of steam penetration tests in one cycle the last one counts, so that one that passes after another makes it good. */
    private static boolean mayBeQualified(List<Fact> facts) {
        int repeated = facts.indexOf(Fact.PENETRATION_PASSED);
        return facts.stream()
                .allMatch(fact -> fact.isQualified
                        || (Set.of(Fact.PENETRATION_FAILED, Fact.PENETRATION_VOID)
                                        .contains(fact)
                                && facts.indexOf(fact) < repeated));
    }

    private static void visit(List<Fact> facts) throws Exception {
        try (World world = new World(Optional.of(taken))) {
            world.change(facts);
            boolean mayBe = mayBeQualified(facts);
            Optional<AssessedVisit> assessed = world.assessed();
            boolean isQualified = assessed.isPresent() && isQualified(assessed.get());
            assertThat(isQualified)
                    .as("%s: %s", facts, assessed.map(AssessedVisit::summary))
                    .isEqualTo(mayBe);
        }
    }

    @Test
    void of_two_sterilisers_one_may_be_run_and_the_other_may_not() throws Exception {
        try (World world = new World()) {
            world.filing.take(base.resolve("year/2-final"), KIM, "");
            world.key();
            world.sign(NUMBER);
            LocalDate day = DAY.plusDays(1);
            assertThat(world.covering().cycles(world.machine(), day, OptionalInt.empty()))
                    .singleElement()
                    .matches(one -> one.against().isEmpty());
            Subject other =
                    world.records.exactly(Kind.STERILIZER, "serial", "EX-2002").get(0);
            assertThat(world.covering().cycles(other, day, OptionalInt.empty()))
                    .singleElement()
                    .matches(one ->
                            !one.against().isEmpty() && one.cycle().loads().isEmpty());
        }
    }

    /** What happens after the signature takes effect everywhere at once. */
    @ParameterizedTest
    @EnumSource
    void each_thing_that_happens_later(Later later) throws Exception {
        afterTheSignature(later, SIGNED, DAY.plusDays(7), OptionalInt.of(1600));
    }

    /** Facts and later events together, on days around the borders. */
    @Test
    void facts_and_later_events_together() throws Exception {
        for (long seed = FIRST; seed < FIRST + TRIES; seed++) {
            Random random = new Random(seed);
            Later later = Later.values()[random.nextInt(Later.values().length)];
            afterTheSignature(
                    later,
                    facts(random),
                    DAYS.get(random.nextInt(DAYS.size())),
                    COUNTS.get(random.nextInt(COUNTS.size())));
        }
    }

    private static void afterTheSignature(Later later, List<Fact> facts, LocalDate day, OptionalInt count)
            throws Exception {
        if (facts.contains(Fact.OTHER_PLATE)
                || facts.contains(Fact.VALID_UNTIL_BEFORE_THE_VISIT)
                || facts.contains(Fact.VALID_UNTIL_TOO_FAR)) {
            // nobody can sign these at all, which facts_together has looked at
            return;
        }
        boolean isReady = facts.equals(SIGNED);
        try (World world = new World(Optional.of(isReady ? signed : taken))) {
            if (!isReady) {
                world.change(facts);
                world.sign(NUMBER);
            }
            world.clinicPage();
            world.goOn(later);
            boolean isCountedPast = later == Later.COUNTED_PAST_THE_END && later.hasHappened(day);
            boolean isEndedByCount = facts.contains(Fact.ENDS_WITH_A_COUNT)
                    && (count.isEmpty() || count.getAsInt() > 1489 + 500 || isCountedPast);
            LocalDate last = facts.contains(Fact.VALID_UNTIL_EARLIER) ? LocalDate.of(2026, 6, 30) : LAST_DAY;
            boolean mayRun = mayBeQualified(facts)
                    && (later.mayRun || !later.hasHappened(day) || (isCountedPast && !isEndedByCount))
                    && !day.isBefore(DAY)
                    && !day.isAfter(last)
                    && !isEndedByCount
                    && !(facts.contains(Fact.MOVED_SINCE) && !day.isBefore(DAY.plusDays(7)))
                    && !(facts.contains(Fact.CONDITION_OPEN) && day.isAfter(LocalDate.of(2026, 3, 20)));
            String what = "%s, %s, on %s at %s".formatted(facts, later, day, count);
            CoverageInRecord covering = world.covering();
            Coverage coverage = covering.of(world.machine(), load(day, count)).coverage();
            assertThat(coverage.isCovered())
                    .as("load question: %s: %s", what, coverage.reasons())
                    .isEqualTo(mayRun);
            boolean isRunnable = covering.cycles(world.machine(), day, count).stream()
                    .anyMatch(one ->
                            one.cycle().name().equals(CYCLE) && one.against().isEmpty());
            assertThat(isRunnable).as("cycles: %s", what).isEqualTo(mayRun);
            dueList(world, what);
            clinicPage(world, day, what);
        }
    }

    private static TodaysLoad load(LocalDate day, OptionalInt count) {
        return new TodaysLoad(
                SERIAL,
                CYCLE,
                day,
                count,
                List.of(new TodaysLoad.Thing("mirrors", 2, "solid", "pouch")),
                Optional.of(0.4),
                Optional.empty(),
                Optional.of(true));
    }

    /** A validation is done by the due list where, and only where, a visit that stands shows one. */
    private static void dueList(World world, String what) throws Exception {
        String when = new DueInRecord(world.records)
                        .list(
                                DataFiles.dueRules(),
                                true,
                                Today.on(DAY.plusDays(7)),
                                SITE,
                                Optional.of(LocalDate.of(2028, 12, 31)))
                        .stream()
                        .filter(due -> due.title().equals("Validation")
                                && due.subject().id().equals("ST-1"))
                        .findFirst()
                        .map(due -> due.when())
                        .orElse("not in the list");
        boolean isShown = false;
        for (StatedVisit stated :
                new VisitStates(world.records).ofSterilizer(world.machine().id())) {
            if (stated.state() == VisitState.ISSUED) {
                AssessedVisit assessed = world.drafts.assess(stated.visit());
                isShown |= Shown.of(assessed, "A").contains(Duty.VALIDATION);
            }
        }
        if (!when.equals("not in the list")) {
            assertThat(when.contains("never recorded"))
                    .as("due list: %s: %s", what, when)
                    .isEqualTo(!isShown);
        }
    }

    /** The page is asked in the night at the site, when the office has another day. */
    private static void clinicPage(World world, LocalDate day, String what) throws Exception {
        for (int hour : new int[] {0, 23}) {
            world.clock.now = day.atTime(hour, 30).atZone(SITE).toInstant();
            CoverageInRecord covering = world.covering();
            assertThat(covering.today(world.machine()))
                    .as("the day is that of the site, for the command line too")
                    .isEqualTo(day);
            boolean mayRun = covering.cycles(world.machine(), day, OptionalInt.empty()).stream()
                    .anyMatch(one -> one.against().isEmpty());
            String page = world.clinicPage();
            assertThat(page.contains("may be run with the load that was tested"))
                    .as("the clinic's page at %s h, %s", hour, what)
                    .isEqualTo(mayRun);
        }
    }

    /** One or two facts of any sort; half of the time only such that take nothing away. */
    private static List<Fact> facts(Random random) {
        List<Fact> harmless =
                Stream.of(Fact.values()).filter(fact -> fact.isQualified).toList();
        Set<Fact> facts = new LinkedHashSet<>();
        facts.add(
                random.nextBoolean()
                        ? Fact.values()[random.nextInt(Fact.values().length)]
                        : harmless.get(random.nextInt(harmless.size())));
        facts.add(harmless.get(random.nextInt(harmless.size())));
        return List.copyOf(facts);
    }
}
