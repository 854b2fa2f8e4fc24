package org.steamwright.desk.path;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.accounts.HandClock;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.DueInRecord;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.VisitStates;
import org.steamwright.intake.folder.StatedFacts;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.records.Author;
import org.steamwright.records.Place;
import org.steamwright.records.Records;
import org.steamwright.records.SubjectId;
import org.steamwright.simulator.DemoVisit;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.state.VisitState;

/** A performance qualification made at the desk and nowhere else, from an empty record to the final report. */
class WholeVisitTest {

    private static final String NUMBER = "R-2026-0001";
    private static final String NAME = "Kim Sample (invented)";
    private static final String SECRET = "seven dry cassettes rest";
    private static final String CLINIC = "Harbour Lane Dental (invented)";
    /** Runs of the invented visit that are taken: one empty chamber, three with the reference load. */
    private static final List<Integer> TAKEN = List.of(3, 6, 7, 8);

    private static final Pattern FORM =
            Pattern.compile("<form method=\"post\" action=\"(/register/[^\"]+)\"[^>]*>(.*?)</form>", Pattern.DOTALL);
    private static final Pattern NAMED = Pattern.compile("<(?:input|textarea|select)[^>]*\\bname=\"([^\"]+)\"[^>]*>");
    private static final Pattern SENT = Pattern.compile("<input type=\"hidden\" name=\"([^\"]+)\" value=\"([^\"]*)\"");

    @TempDir
    Path folder;

    private OpenDesk desk;
    private Map<String, Object> demo;

    private HttpResponse<String> post(String path, Map<String, String> typed) throws Exception {
        HttpResponse<String> answer = desk.post(path, typed);
        assertThat(answer.statusCode())
                .as(path + " " + typed + " " + answer.body())
                .isEqualTo(303);
        return answer;
    }

    private Draft draft() {
        return new Drafts(desk.records()).find(NUMBER).orElseThrow();
    }

    private String at(String below) {
        return "/visits/" + draft().id() + "/" + below;
    }

    private void register(String table, String... typed) throws Exception {
        String path = "/register/new/" + table;
        Matcher form = FORM.matcher(desk.get(path).body());
        assertThat(form.find()).isTrue();
        Map<String, String> sent = new LinkedHashMap<>();
        Matcher named = NAMED.matcher(form.group(2));
        while (named.find()) {
            if (!named.group().contains("type=\"checkbox\"")) {
                sent.put(named.group(1), "");
            }
        }
        Matcher hidden = SENT.matcher(form.group(2));
        while (hidden.find()) {
            sent.put(hidden.group(1), hidden.group(2));
        }
        sent.remove("token");
        for (int i = 0; i < typed.length; i += 2) {
            sent.put(typed[i], typed[i + 1]);
        }
        post(path, sent);
    }

    private void type(Stage stage, String path, String value) throws Exception {
        KeyedPath keyed = KeyedPath.parse(path);
        boolean isNote = path.startsWith(Saving.NOTES);
        String seen = isNote ? draft().note(path.substring(Saving.NOTES.length())) : keyed.text(draft());
        HttpResponse<String> answer =
                desk.post(at("facts"), Map.of("stage", stage.word(), "path", path, "value", value, "seen", seen));
        assertThat(answer.statusCode())
                .as(path + " = " + value + ": " + answer.body())
                .isEqualTo(303);
    }

    private void add(Stage stage, String list, String... with) throws Exception {
        Map<String, String> sent = new LinkedHashMap<>(Map.of("stage", stage.word(), "list", list));
        for (int i = 0; i < with.length; i += 2) {
            sent.put("with." + with[i], with[i + 1]);
        }
        post(at("entries"), sent);
    }

    /** Presses a button that the page shows, as it stands there. */
    private void press(Stage stage, String words) throws Exception {
        String page = desk.get(at(stage.word())).body();
        Matcher form = Pattern.compile(
                        "<form class=\"deed[^\"]*\" method=\"post\" action=\"([^\"]+)\"[^>]*>((?:(?!</form>).)*)</form>",
                        Pattern.DOTALL)
                .matcher(page);
        while (form.find()) {
            if (form.group(2).contains(">" + words)) {
                Map<String, String> sent = new LinkedHashMap<>();
                Matcher hidden = SENT.matcher(form.group(2));
                while (hidden.find()) {
                    sent.put(hidden.group(1), hidden.group(2));
                }
                sent.remove("token");
                post(form.group(1), sent);
                return;
            }
        }
        throw new AssertionError("no button '" + words + "' at " + stage + ": " + page);
    }

    private void registerAll(Path visit) throws Exception {
        register(
                "clinics",
                "f/name",
                CLINIC,
                "f/sites/1/address",
                "1 Harbour Lane, Sampleton",
                "f/sites/1/zone",
                "Australia/Adelaide",
                "f/sites/1/rooms/1/name",
                "Wash-up");
        register(
                "sterilizers",
                "f/serial",
                "EX-1001",
                "f/maker",
                "Example Works (invented)",
                "f/room",
                "harbour-lane-dental-invented-site-wash-up");
        for (ReferenceInstrument one :
                VisitFolder.read(visit, new Presets()).instruments().values()) {
            boolean isWarmth = one.quantity() == Quantity.TEMPERATURE;
            String unit = isWarmth ? " °C" : " kPa";
            CalibrationCertificate certificate = one.certificate().orElseThrow();
            CalibrationPoint first = certificate.points().get(0);
            List<String> typed = new ArrayList<>(List.of(
                    "f/id",
                    one.id(),
                    "f/measures",
                    isWarmth ? "temperature" : "pressure",
                    "f/certificate/number",
                    certificate.number(),
                    "f/certificate/laboratory",
                    certificate.laboratory(),
                    "f/certificate/calibrated-on",
                    certificate.calibratedOn().toString(),
                    "f/certificate/due-on",
                    certificate.dueOn().toString(),
                    "f/certificate/U",
                    first.expandedUncertainty() + (isWarmth ? " K" : " kPa"),
                    "f/certificate/k",
                    String.valueOf(first.coverageFactor()),
                    "f/certificate/points",
                    certificate.points().stream()
                            .map(point -> point.reference() + unit + "; " + point.indicated() + unit)
                            .collect(Collectors.joining("\n"))));
            register("instruments", typed.toArray(new String[0]));
        }
    }

    private static String text(Map<?, ?> map, String key) {
        return String.valueOf(map.get(key));
    }

    private Map<?, ?> run(int number) {
        return (Map<?, ?>) demo.get("runs/" + TAKEN.get(number - 1));
    }

    /** A run with what its recording is and what its columns stand for. */
    private void record(int number, Path visit) throws Exception {
        Map<?, ?> run = run(number);
        add(Stage.RUNS, "runs", "kind", text(run, "kind"), "sterilizer", "A", "cycle", "134 wrapped");
        type(Stage.RUNS, "runs/" + number + "/machine-cycle", String.valueOf(1000 + number));
        type(Stage.RUNS, "runs/" + number + "/start-condition", "cooled and dry");
        post(at("running"), Map.of("stage", "runs", "run", String.valueOf(number)));
        for (int before = 1; before < number; before++) {
            assertThat(desk.get(at("runs/" + before)).statusCode())
                    .as("run %s while run %s is under way", before, number)
                    .isEqualTo(200);
        }
        post(at("running"), Map.of("stage", "runs", "run", String.valueOf(number), "ended", "yes"));
        String file = text(run, "recording");
        String text = Files.readString(visit.resolve(file));
        // as if it were real, which only a test may do
        String content = text.substring(text.indexOf('\n') + 1);
        String name = file.substring(file.lastIndexOf('/') + 1);
        String body = "--cut\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n" + desk.token()
                + "\r\n--cut\r\nContent-Disposition: form-data; name=\"recording\"; filename=\"" + name
                + "\"\r\nContent-Type: application/octet-stream\r\n\r\n" + content + "\r\n--cut--\r\n";
        HttpResponse<String> kept = desk.send(HttpRequest.newBuilder(desk.address(at("runs/" + number + "/recordings")))
                .header("Content-Type", "multipart/form-data; boundary=cut")
                .POST(HttpRequest.BodyPublishers.ofString(body, StandardCharsets.UTF_8)));
        assertThat(kept.statusCode()).as(kept.body()).isEqualTo(303);
        Map<?, ?> channels = (Map<?, ?>) run.get("channels");
        for (Map.Entry<?, ?> channel : channels.entrySet()) {
            Map<?, ?> said = (Map<?, ?>) channel.getValue();
            Map<String, String> sent = new LinkedHashMap<>(
                    Map.of("file", name, "column", String.valueOf(channel.getKey()), "role-0", text(said, "role")));
            for (String key : List.of("position", "place", "instrument")) {
                if (said.containsKey(key)) {
                    sent.put(key + "-0", text(said, key));
                }
            }
            post(at("runs/" + number + "/recordings/channels"), sent);
        }
    }

    /** Instruments of the register's copy: looked at again before leaving, the first one badly at first. */
    private void checks() throws Exception {
        List<String> unchecked = draft().instruments().unchecked();
        assertThat(unchecked).isNotEmpty();
        for (String id : unchecked) {
            boolean isWarmth = draft().instruments().find(id).orElseThrow().quantity() == Quantity.TEMPERATURE;
            CalibrationPoint point = draft().instruments()
                    .find(id)
                    .flatMap(ReferenceInstrument::certificate)
                    .orElseThrow()
                    .points()
                    .get(0);
            String unit = isWarmth ? " °C" : " kPa";
            assertThat(missing())
                    .containsPattern(
                            "Instruments? [^:]*" + Pattern.quote(id) + "(, [^:]*)?: no check after the runs\\.");
            type(Stage.INSTRUMENTS, CheckFacts.check(id, Moment.AFTER, "tolerance"), isWarmth ? "±0.2 K" : "±0.5 kPa");
            type(Stage.INSTRUMENTS, CheckFacts.check(id, Moment.AFTER, "reference"), point.reference() + unit);
            if (id.equals(unchecked.get(0))) {
                type(Stage.INSTRUMENTS, CheckFacts.check(id, Moment.AFTER, "indicated"), point.indicated() + 3 + unit);
                assertThat(draft().assessed().orElseThrow().runs())
                        .as("what it measured is invalid")
                        .anySatisfy(run -> assertThat(run.cause()).contains("Instrument " + id, "failed its check on"));
            }
            type(Stage.INSTRUMENTS, CheckFacts.check(id, Moment.AFTER, "indicated"), point.indicated() + unit);
        }
        assertThat(missing()).doesNotContain("no check after the runs");
        assertThat(draft().assessed().orElseThrow().runs())
                .allSatisfy(
                        run -> assertThat(run.evaluation().verdict().isPass()).isTrue());
        assertThat(desk.get(at("result.json")).body()).contains("\"checks\"", "\"deviationKelvin\"");
    }

    private void load(int run) throws Exception {
        String load = "runs/" + run + "/load";
        type(Stage.LOAD, load + "/description", "five cassettes, the largest load in use");
        type(Stage.LOAD, load + "/challenge-pack", "hollow item in a double pouch");
        type(Stage.LOAD, load + "/challenge-place", "bottom, back, farthest from the inlet");
        type(Stage.LOAD, load + "/slowest-because", "measured");
        add(Stage.LOAD, load + "/items", "count", "5", "name", "cassette", "family", "solid");
        type(Stage.LOAD, load + "/agreed-by", "practice manager");
    }

    private String missing() throws Exception {
        return desk.get(at("context")).body();
    }

    private void sign() throws Exception {
        String close = desk.get(at("close")).body();
        Matcher seen = Pattern.compile("name=\"seen\" value=\"([0-9a-f]{64})\"").matcher(close);
        assertThat(seen.find()).as(close).isTrue();
        post(
                at("signatures"),
                Map.of("name", NAME, "meaning", "performed and recorded", "secret", SECRET, "seen", seen.group(1)));
    }

    @Test
    void a_performance_qualification_passes_wholly_at_the_desk_first_as_interim_and_then_as_final() throws Exception {
        Path visit = folder.resolve("demo");
        DemoVisit.write(visit);
        demo = StatedFacts.of(visit.resolve("visit.yaml"));
        HandClock clock = new HandClock();
        Records records = Records.open(Place.folder(folder.resolve("record")), clock, DueInRecord.RULE);
        try (OpenDesk opened = OpenDesk.with(records, folder)) {
            desk = opened;
            registerAll(visit);
            post(
                    "/visits",
                    Map.of(
                            "number", NUMBER,
                            "purpose", "yearly",
                            "date", "2026-03-02",
                            "criteria-set", "au-as5369",
                            "machine", "EX-1001",
                            "technician", NAME));
            type(Stage.IDENTITY, "sterilizers/1/name-plate/serial", "EX-1001");
            type(Stage.AS_FOUND, "conditions/barometer", "100.9 kPa");
            if (draft().count(FactPath.parse("sterilizers/1/cycles")) == 0) {
                add(Stage.IDENTITY, "sterilizers/1/cycles", "type", "B");
            }
            Map<?, ?> cycle = (Map<?, ?>) ((List<?>) ((Map<?, ?>) demo.get("sterilizers/1")).get("cycles")).get(0);
            for (Object key : cycle.keySet()) {
                type(Stage.IDENTITY, "sterilizers/1/cycles/1/" + key, text(cycle, String.valueOf(key)));
            }
            for (int number = 1; number <= TAKEN.size(); number++) {
                record(number, visit);
            }
            assertThat(draft().assessed().orElseThrow().runs().stream()
                            .map(run -> run.evaluation().verdict().isPass() ? "" : run.cause()))
                    .as("what the recordings say, before anything is known of the load")
                    .allMatch(String::isEmpty);
            load(2);
            press(Stage.LOAD, "Take over the load of run 2");
            press(Stage.LOAD, "Take over the load of run 2");
            assertThat(desk.get(at("load")).body()).contains("The clinic has agreed to the same load at run 2");

            assertThat(missing())
                    .doesNotContain("nobody of the clinic has agreed", "Add a line like", "visit.yaml")
                    .contains("href=\"" + at("load") + "\">Run 2: no pack was weighed before and after");
            press(Stage.LOAD, "Add a weighed pack");
            press(Stage.LOAD, "The same packs as in run 2");
            press(Stage.LOAD, "The same packs as in run 3");
            assertThat(missing()).contains("run 2, weighing 1: “Mass before, dry” is not filled in.");
            for (int run = 2; run <= 4; run++) {
                type(Stage.LOAD, "runs/" + run + "/weighings/1/before", "1240.0 g");
                type(Stage.LOAD, "runs/" + run + "/weighings/1/after", "1241.1 g");
            }
            assertThat(missing()).doesNotContain("no pack was weighed", "Mass before");
            assertThat(desk.get(at("load")).body()).contains("Pack 1 went from 1240.0 g to 1241.1 g");

            add(Stage.INDICATORS, "runs/2/indicators", "control", "no", "result", "awaited");
            type(Stage.INDICATORS, "runs/2/indicators/1/lot", "L-226");
            type(Stage.INDICATORS, "runs/2/indicators/1/expires", "2026-12-31");
            type(Stage.INDICATORS, "runs/2/indicators/1/incubated-until", "2026-03-04 16:00");
            press(Stage.INDICATORS, "Add an unexposed control");
            assertThat(draft().text(FactPath.parse("runs/2/indicators/2/lot"))).isEqualTo("L-226");
            press(Stage.INDICATORS, "The same indicators as in run 2");
            press(Stage.INDICATORS, "The same indicators as in run 3");
            assertThat(draft().text(FactPath.parse("runs/4/indicators/2/id"))).isEqualTo("BI-6");
            assertThat(draft().text(FactPath.parse("runs/4/indicators/2/control")))
                    .isEqualTo("yes");

            assertThat(missing())
                    .contains("href=\"" + at("indicators") + "#" + Field.id(IndicatorsSheet.INTERIM))
                    .contains("no last day of the interim report is stated");
            checks();
            press(Stage.CLOSE, "Until 5 Mar 2026, the day after the last read-out");
            assertThat(draft().text(FactPath.parse(IndicatorsSheet.INTERIM))).isEqualTo("2026-03-05");
            assertThat(missing()).doesNotContain("no last day of the interim report");

            post(at("keys"), Map.of("name", NAME, "secret", SECRET, "again", SECRET));
            sign();
            assertThat(new VisitStates(records).of(draft().now().subject()).state())
                    .isEqualTo(VisitState.INTERIM);

            clock.forward(Duration.ofHours(47));
            String today = desk.get("/today").body();
            assertThat(today).contains("Enter the read-out");
            HttpResponse<String> correction = post(at("corrections"), Map.of("for", "read-out"));
            String next = correction.headers().firstValue("Location").orElse("");
            assertThat(next).contains("/indicators");
            String id = next.replaceAll(".*/visits/([^/]+)/.*", "$1");
            for (int run = 2; run <= 4; run++) {
                for (int i = 1; i <= 2; i++) {
                    for (Map.Entry<String, String> read : Map.of(
                                    "result",
                                    i == 1 ? "no-growth" : "growth",
                                    "read-on",
                                    "2026-03-04 16:30",
                                    "read-by",
                                    NAME)
                            .entrySet()) {
                        String path = "runs/" + run + "/indicators/" + i + "/" + read.getKey();
                        Draft now = new Drafts(records).of(SubjectId.parse(id));
                        post(
                                "/visits/" + id + "/facts",
                                Map.of(
                                        "stage",
                                        "indicators",
                                        "path",
                                        path,
                                        "value",
                                        read.getValue(),
                                        "seen",
                                        now.text(FactPath.parse(path))));
                    }
                }
            }
            Draft read = new Drafts(records).of(SubjectId.parse(id));
            assertThat(read.assessed().orElseThrow().qualifications())
                    .filteredOn(one -> one.kind() == Qualification.Kind.PERFORMANCE)
                    .extracting(Qualification::standing)
                    .containsExactly(Qualification.Standing.PASS);
            Draft begun = read.add(
                    FactPath.parse("sterilizers/1/cycles"), Map.of("type", "B"), new Author(NAME, "technician"), "");
            assertThat(desk.get("/visits/" + id + "/close").body())
                    .as("what is left out may be what did not pass")
                    .contains("What stands here holds for the rest only, and nobody signs it.")
                    .contains("class=\"verdict incomplete\"")
                    .doesNotContain("EX-1001: 134 wrapped");
            begun.undo(new Author(NAME, "technician"), Optional.empty());
            String close = desk.get("/visits/" + id + "/close").body();
            assertThat(close)
                    .as("no air leakage test was made at this visit, so the cycle is not qualified by it")
                    .contains("the loaded runs pass, but not everything else that it takes was shown")
                    .doesNotContain("EX-1001: 134 wrapped");
            Matcher seen =
                    Pattern.compile("name=\"seen\" value=\"([0-9a-f]{64})\"").matcher(close);
            assertThat(seen.find()).isTrue();
            post(
                    "/visits/" + id + "/signatures",
                    Map.of("name", NAME, "meaning", "performed and recorded", "secret", SECRET, "seen", seen.group(1)));
            assertThat(new VisitStates(records).of(read.now().subject()).state())
                    .isEqualTo(VisitState.ISSUED);
        }
    }
}
