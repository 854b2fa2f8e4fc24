package org.steamwright.desk;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.Filing;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.InventedRecord;
import org.steamwright.records.Kind;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.signing.Keys;
import org.steamwright.simulator.InventedYear;
import org.steamwright.simulator.YearVisit;

/**
 * Makes the record of an invented office: three clinics and about a year of visits that ends today. Its journal tells the year
 * as if it had been written day by day, with signatures of invented people, whose secret everybody may know.
 */
final class InventedOffice {

    /** Secret of everybody who signs there; it protects nothing. */
    static final String SECRET = "invented for all to read";

    private static final String SIGNER = "Kim Sample (invented)";
    private static final Author OFFICE = new Author(SIGNER, "technician");
    private static final LocalTime EVENING = LocalTime.of(18, 0);
    private static final String UNFINISHED = "-being-made";

    private InventedOffice() {}

    /**
     * Makes the record if there is none. It is made in a folder beside its own, which takes its name when all is done, so that
     * an interruption leaves no half of a year.
     *
     * @param folder of the record; what lies in it already is left as it is
     * @param clock of the machine, with its zone
     * @return whether it was made
     * @throws IOException if the disk fails
     */
    static boolean make(Path folder, Clock clock) throws IOException {
        if (Files.exists(folder)) {
            return false;
        }
        Path unfinished =
                folder.resolveSibling(Optional.ofNullable(folder.getFileName()).orElse(folder) + UNFINISHED);
        if (InventedRecord.isAt(unfinished)) {
            delete(unfinished);
        }
        InventedRecord.prepare(unfinished);
        fill(Place.folder(unfinished), clock);
        Files.move(unfinished, folder, StandardCopyOption.ATOMIC_MOVE);
        return true;
    }

    private static void delete(Path folder) throws IOException {
        try (Stream<Path> walked = Files.walk(folder)) {
            for (Path one : walked.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(one);
            }
        }
    }

    private static void fill(Place place, Clock clock) throws IOException {
        InventedYear year = InventedYear.endingOn(LocalDate.ofInstant(clock.instant(), YearVisit.zone()));
        List<YearVisit> visits = year.visits();
        Map<YearVisit, Map<String, byte[]>> files =
                visits.parallelStream().collect(Collectors.toConcurrentMap(visit -> visit, YearVisit::files));
        Calendar calendar = new Calendar(at(visits.get(0).day().minusDays(1)), YearVisit.zone());
        try (Records records = Records.open(place, calendar, DueInRecord.RULE)) {
            register(records, year, place.folder());
            new Keys(records).make(new Filing(records).technician(SIGNER), SECRET.toCharArray(), OFFICE);
            for (Step step : steps(visits, files)) {
                calendar.now = earlier(at(step.day()), clock.instant());
                step.what().make(records);
            }
        } catch (DraftRefusal | FilingException | VisitFolderException | RegisterException broken) {
            throw new IllegalStateException("the invented year does not fit this version of the program", broken);
        }
    }

    private static Instant at(LocalDate day) {
        return day.atTime(EVENING).atZone(YearVisit.zone()).toInstant();
    }

    private static Instant earlier(Instant one, Instant other) {
        return one.isBefore(other) ? one : other;
    }

    private static void register(Records records, InventedYear year, Path folder)
            throws IOException, FilingException, VisitFolderException, RegisterException {
        Path office = Files.createDirectory(folder.resolve("office"));
        Files.writeString(office.resolve("register.yaml"), year.register());
        Files.writeString(office.resolve("instruments.yaml"), year.instruments());
        new RegisterFiling(records).take(office, OFFICE, "");
    }

    /** What is written into the record on a day. */
    private record Step(LocalDate day, Writing what) {}

    @FunctionalInterface
    private interface Writing {

        void make(Records records) throws IOException, DraftRefusal, FilingException, VisitFolderException;
    }

    /** Taking in and signing, in the order of the days. */
    private static List<Step> steps(List<YearVisit> visits, Map<YearVisit, Map<String, byte[]>> files) {
        List<Step> steps = new ArrayList<>();
        for (YearVisit visit : visits) {
            steps.add(new Step(
                    visit.day(),
                    records -> new Drafts(records).take(OFFICE, visit.number(), files.getOrDefault(visit, Map.of()))));
            if (visit.isSigned()) {
                steps.add(new Step(visit.finished(), records -> sign(records, visit)));
            }
            if (visit.done() == YearVisit.Done.FAILED) {
                steps.add(new Step(visit.finished(), records -> complain(records, visit)));
            }
        }
        steps.sort(Comparator.comparing(Step::day));
        return steps;
    }

    private static void sign(Records records, YearVisit visit)
            throws IOException, FilingException, VisitFolderException {
        Filing filing = new Filing(records);
        filing.sign(filing.open(visit.number()).visit(), SIGNER, "", SECRET.toCharArray(), OFFICE);
    }

    private static void complain(Records records, YearVisit visit) throws FilingException {
        Subject failed = new Filing(records).visit(visit.number()).visit();
        SubjectId id = records.newSubject();
        Map<String, Object> facts = new LinkedHashMap<>();
        facts.put("number", "NC-" + visit.day().getYear() + "-001");
        facts.put("opened", visit.day().toString());
        facts.put("what", "The loaded run of " + visit.serial() + " left air in the challenge pack (invented)");
        facts.put("owner", SIGNER);
        facts.put("until", visit.day().plusDays(90).toString());
        facts.put("visit", failed.id().toString());
        new RegisterFiling(records)
                .machine(visit.serial())
                .ifPresent(machine -> facts.put("sterilizer", machine.id().toString()));
        List<Change> changes = new ArrayList<>();
        facts.forEach((fact, value) -> changes.add(Change.set(Kind.NONCONFORMITY, id, fact, value)));
        records.append(OFFICE, changes);
    }

    /** A clock that is set by hand, from day to day. */
    private static final class Calendar extends Clock {

        private Instant now;
        private final ZoneId zone;

        Calendar(Instant now, ZoneId zone) {
            this.now = now;
            this.zone = zone;
        }

        @Override
        public ZoneId getZone() {
            return zone;
        }

        @Override
        public Clock withZone(ZoneId other) {
            return new Calendar(now, other);
        }

        @Override
        public Instant instant() {
            return now;
        }
    }
}
