package org.steamwright.desk.office;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.SplittableRandom;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.KeptResults;
import org.steamwright.filing.Results;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.ResultBook.Waiting;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Submission;
import org.steamwright.records.Use;
import org.steamwright.records.VisitResult;

/**
 * A register of the size of a nation, invented by formula: sterilisers, two for each of most clinics, each with what was done
 * and two visits. The visits are known by their facts and results only; they have no files, and are marked invented.
 */
final class NationalRecord {

    /** Models; each is a family. */
    static final List<String> MODELS = List.of("Small B18", "Small B23", "Tall B40", "Fast S9", "Fast S12");

    private static final Author OFFICE = new Author("Kim Sample (invented)", "office");
    private static final List<String> FIRST = List.of(
            "Harbour",
            "Hillside",
            "Riverbank",
            "Market",
            "Station",
            "Garden",
            "Lakeview",
            "Northern",
            "Old Mill",
            "Sunrise");
    private static final List<String> SECOND =
            List.of("Dental", "Family Practice", "Podiatry", "Skin Clinic", "Day Surgery", "Health Centre");
    private static final int TOGETHER = 500;
    private static final int OF_FIVE = 2;
    private static final int FIRST_NUMBER = 1_000_000;
    private static final int VISITS = 2;

    private final Records records;
    private final LocalDate today;
    private final SplittableRandom random = new SplittableRandom(64);
    private final List<Submission> waiting = new ArrayList<>();
    private final Map<SubjectId, VisitResult> results = new LinkedHashMap<>();
    private final Map<String, String> families = new HashMap<>();

    NationalRecord(Records records, LocalDate today) {
        this.records = records;
        this.today = today;
    }

    static String serial(int machine) {
        return "SN-" + (FIRST_NUMBER + machine);
    }

    static String number(int machine) {
        return "M" + (FIRST_NUMBER + machine);
    }

    static String report(int machine, int visit) {
        return "N-" + visit + "-" + (FIRST_NUMBER + machine);
    }

    void fill(int machines) {
        SubjectId clinic = records.newSubject();
        String name = "";
        int clinics = 0;
        for (int i = 0; i < machines; i++) {
            // two of five sterilisers begin a clinic
            if (i % 5 < OF_FIVE) {
                clinic = records.newSubject();
                clinics++;
                name = FIRST.get(random.nextInt(FIRST.size())) + " " + SECOND.get(random.nextInt(SECOND.size())) + " "
                        + clinics + " (invented)";
                add(Kind.CLINIC, clinic, clinic(clinics, name));
            }
            SubjectId machine = records.newSubject();
            add(Kind.STERILIZER, machine, machine(i, clinics));
            for (int visit = 0; visit < VISITS; visit++) {
                visit(i, visit, machine, clinic, name);
            }
            if (waiting.size() >= TOGETHER) {
                flush();
            }
        }
        flush();
    }

    static String draft(int number) {
        return "D-" + (FIRST_NUMBER + number);
    }

    /**
     * Visits that are being written, each to the machine of that place in the record, with two runs without recordings.
     *
     * @return ids in order
     */
    static List<SubjectId> drafts(Records records, int count, int machines, LocalDate today) throws DraftRefusal {
        Drafts drafts = new Drafts(records);
        List<SubjectId> ids = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            int place = (int) ((long) i * machines / count);
            Subject machine =
                    records.exactly(Kind.STERILIZER, "number", number(place)).get(0);
            Subject clinic = records.usersOf(Use.ROOM, Kind.CLINIC, Set.of(machine.text("stated/room")))
                    .get(0);
            Map<String, Object> run = Map.of("kind", "reference-load", "sterilizer", "A", "cycle", "134 wrapped");
            Draft draft = drafts.open(
                    OFFICE,
                    draft(i),
                    Map.of(
                            "purpose",
                            "yearly",
                            "date",
                            today.toString(),
                            "zone",
                            "Australia/Adelaide",
                            "clinic",
                            Map.of("name", clinic.text("name"), "address", clinic.text("address")),
                            "people",
                            List.of(Map.of("name", OFFICE.name(), "role", "technician")),
                            "sterilizers",
                            List.of(Map.of(
                                    "key",
                                    "A",
                                    "maker",
                                    machine.text("maker"),
                                    "model",
                                    machine.text("model"),
                                    "serial",
                                    machine.text("serial"),
                                    "cycles",
                                    List.of(Map.of(
                                            "name", "134 wrapped", "type", "B", "sterilizing-temperature", "134 °C")))),
                            "runs",
                            List.of(run, run)));
            ids.add(draft.id());
        }
        return ids;
    }

    private void add(Kind kind, SubjectId id, Map<String, Object> facts) {
        waiting.add(new Submission(records.newSubmission(), OFFICE, Records.changes(kind, id, facts)));
    }

    private static Map<String, Object> clinic(int number, String name) {
        return Map.of(
                "name",
                name,
                "number",
                "C" + number,
                "address",
                number % 900 + " Example Street, Town " + number % 400,
                "stated/id",
                "C" + number,
                "stated/name",
                name,
                "stated/sites",
                List.of(Map.of(
                        "id",
                        "S" + number,
                        "zone",
                        "Australia/Adelaide",
                        "rules",
                        "au",
                        "rooms",
                        List.of(Map.of("id", "R" + number, "name", "Sterilising room")))));
    }

    private Map<String, Object> machine(int i, int clinic) {
        String model = MODELS.get(i % MODELS.size());
        LocalDate last = today.minusDays(random.nextInt(30, 400));
        return Map.of(
                "number",
                number(i),
                "serial",
                serial(i),
                "maker",
                "Example Works (invented)",
                "model",
                model,
                "stated/id",
                number(i),
                "stated/maker",
                "Example Works (invented)",
                "stated/model",
                model,
                "stated/serial",
                serial(i),
                "stated/room",
                "R" + clinic,
                "stated/done",
                List.of(done("validation", last, i), done("service", last, i), done("electrical-test", last, i)));
    }

    private static Map<String, String> done(String duty, LocalDate day, int machine) {
        return Map.of("duty", duty, "on", day.toString(), "evidence", report(machine, VISITS - 1));
    }

    private void visit(int i, int number, SubjectId machine, SubjectId clinic, String name) {
        SubjectId id = records.newSubject();
        LocalDate day = today.minusDays(random.nextInt(10, 360) + 365L * (VISITS - 1 - number));
        add(
                Kind.VISIT,
                id,
                Map.of(
                        "number", report(i, number),
                        "date", day.toString(),
                        "clinic", clinic.toString(),
                        "clinic-name", name,
                        "sterilizer", List.of(machine.toString()),
                        "serial", List.of(serial(i)),
                        "purpose", "yearly",
                        "simulated", true));
        result(id, machine, i, day);
    }

    /** What a visit to a machine came to, drawn. */
    private void result(SubjectId id, SubjectId machine, int i, LocalDate day) {
        families.put(machine.toString(), MODELS.get(i % MODELS.size()));
        boolean isPass = random.nextInt(20) > 0;
        results.put(
                id,
                new VisitResult(
                        id,
                        Results.ALGORITHM_VERSION + " invented",
                        VisitResult.OPEN,
                        day.toString(),
                        isPass ? "pass" : "fail",
                        VisitResult.Reason.NONE,
                        true,
                        random.nextInt(12) == 0,
                        false,
                        OptionalLong.of(random.nextInt(20_000)),
                        random.nextInt(6),
                        List.of(
                                figure(
                                        machine,
                                        i,
                                        "leak-rate",
                                        "",
                                        "AT_MOST",
                                        day,
                                        random.nextDouble(0.02, 0.14),
                                        0.13),
                                figure(
                                        machine,
                                        i,
                                        "minimum-holding-time",
                                        "134 wrapped",
                                        "AT_LEAST",
                                        day,
                                        random.nextDouble(178, 240),
                                        180))));
    }

    private static VisitResult.Figure figure(
            SubjectId id,
            int machine,
            String figure,
            String cycle,
            String comparison,
            LocalDate day,
            double value,
            double limit) {
        return new VisitResult.Figure(
                figure,
                id.toString(),
                serial(machine),
                cycle,
                comparison,
                day.toString(),
                1,
                value,
                limit,
                cycle.isEmpty() ? "KILOPASCAL_PER_MINUTE" : "SECONDS");
    }

    /** Draws the results of all visits again, after a later version of the tables has thrown them away. */
    void resultsAnew() {
        List<Subject> visits;
        long from = 0;
        do {
            visits = records.subjects(Kind.VISIT, from, TOGETHER);
            from += visits.size();
            for (Subject visit : visits) {
                if (visit.text("number").startsWith("N-")) {
                    result(
                            visit.id(),
                            SubjectId.parse(visit.fact("sterilizer")
                                    .orElseThrow()
                                    .node()
                                    .get(0)
                                    .asText()),
                            Integer.parseInt(visit.text("number").replaceFirst("N-[0-9]+-", "")) - FIRST_NUMBER,
                            LocalDate.parse(visit.text("date")));
                }
            }
            keep();
        } while (!visits.isEmpty());
    }

    private void flush() {
        records.appendAll(waiting);
        waiting.clear();
        keep();
    }

    private void keep() {
        long entries = records.head().tree().size();
        Map<Waiting, VisitResult> kept = new LinkedHashMap<>();
        results.forEach((id, result) -> kept.put(new Waiting(id, entries), result));
        records.results().keep(kept, families, KeptResults::standing);
        results.clear();
        families.clear();
    }
}
