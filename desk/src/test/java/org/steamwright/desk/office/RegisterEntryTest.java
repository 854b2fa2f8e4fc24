package org.steamwright.desk.office;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.text.Words;
import org.steamwright.filing.RegisterField;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.report.language.Language;
import org.steamwright.simulator.DemoVisit;

/** The register is entered and changed at the desk, as its own pages send it; clinics, makers and people are invented. */
class RegisterEntryTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "office");
    private static final Path OFFICE = Path.of(System.getProperty("steamwright.root"), "docs", "examples", "office");
    private static final Pattern FORM =
            Pattern.compile("<form method=\"post\" action=\"(/register/[^\"]+)\"[^>]*>(.*?)</form>", Pattern.DOTALL);
    private static final Pattern FIELD = Pattern.compile(
            "<input(?<input>[^>]*)>|<textarea(?<area>[^>]*)>(?<text>[^<]*)</textarea>|<select(?<select>[^>]*)>(?<options>.*?)</select>",
            Pattern.DOTALL);

    @TempDir
    private Path folder;

    private static String attribute(String tag, String name) {
        Matcher found = Pattern.compile("\\b" + name + "=\"([^\"]*)\"").matcher(tag);
        return found.find() ? plain(found.group(1)) : "";
    }

    private static String plain(String html) {
        return html.replace("&lt;", "<")
                .replace("&gt;", ">")
                .replace("&#34;", "\"")
                .replace("&quot;", "\"")
                .replace("&#39;", "'")
                .replace("&amp;", "&");
    }

    /** What a browser would send if nothing is touched. */
    private static Map<String, String> untouched(String page) {
        Matcher form = FORM.matcher(page);
        assertThat(form.find()).as(page).isTrue();
        Map<String, String> sent = new LinkedHashMap<>();
        Matcher field = FIELD.matcher(form.group(2));
        while (field.find()) {
            if (field.group("input") != null) {
                String tag = field.group("input");
                boolean isOff = attribute(tag, "type").equals("checkbox") && !tag.contains(" checked");
                if (!isOff && !attribute(tag, "name").equals("token")) {
                    sent.put(attribute(tag, "name"), attribute(tag, "value"));
                }
            } else if (field.group("area") != null) {
                sent.put(attribute(field.group("area"), "name"), plain(field.group("text")));
            } else {
                Matcher chosen =
                        Pattern.compile("<option value=\"([^\"]*)\" selected").matcher(field.group("options"));
                sent.put(attribute(field.group("select"), "name"), chosen.find() ? plain(chosen.group(1)) : "");
            }
        }
        return sent;
    }

    private static HttpResponse<String> post(OpenDesk desk, String path, Map<String, String> sent, String language)
            throws Exception {
        return desk.send(desk.form(path, sent).header("X-Token", desk.token()).header("Accept-Language", language));
    }

    private static Map<String, String> with(Map<String, String> sent, String... more) {
        Map<String, String> all = new LinkedHashMap<>(sent);
        for (int i = 0; i < more.length; i += 2) {
            all.put(more[i], more[i + 1]);
        }
        return all;
    }

    private static String entered(HttpResponse<String> answer) {
        assertThat(answer.statusCode()).as(answer.body()).isEqualTo(303);
        return answer.headers().firstValue("Location").orElseThrow();
    }

    @Test
    void a_clinic_and_its_machine_are_entered_changed_and_moved_and_the_history_tells_it() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            assertThat(desk.get("/register/clinics").body())
                    .contains("Nothing stands here yet", "/register/new/clinics");
            Map<String, String> blank =
                    untouched(desk.get("/register/new/clinics").body());
            HttpResponse<String> nothing = post(desk, "/register/new/clinics", blank, "en");
            assertThat(nothing.statusCode()).isEqualTo(422);
            assertThat(desk.records().count(Kind.CLINIC)).isZero();
            Map<String, String> clinic = with(
                    blank,
                    "f/name",
                    "Hill <Dental> (invented)",
                    "f/contact",
                    "practice manager",
                    "f/sites/1/address",
                    "1 Hill Road",
                    "f/sites/1/rooms/1/name",
                    "Wash-up");
            HttpResponse<String> noZone = post(desk, "/register/new/clinics", clinic, "en");
            assertThat(noZone.statusCode()).isEqualTo(422);
            assertThat(noZone.body()).contains("f-sites-1-zone-problem").contains("value=\"1 Hill Road\"");
            String at = entered(
                    post(desk, "/register/new/clinics", with(clinic, "f/sites/1/zone", "Australia/Adelaide"), "en"));
            String shown = desk.get(at).body();
            assertThat(shown).contains("Hill &lt;Dental&gt; (invented)").contains("hill-dental-invented");
            assertThat(untouched(shown)).as("an id is not sent").doesNotContainKey("f/id");

            String room = "hill-dental-invented-site-wash-up";
            String machine = entered(post(
                    desk,
                    "/register/new/sterilizers",
                    with(
                            untouched(desk.get("/register/new/sterilizers").body()),
                            "f/serial",
                            "A/17 B",
                            "f/maker",
                            "Example Works (invented)",
                            "f/chamber",
                            "17,5 L",
                            "f/room",
                            room,
                            "f/counter/readings/1/on",
                            "2026-07-01",
                            "f/counter/readings/1/shows",
                            "120"),
                    "de"));
            Subject subject =
                    desk.records().exactly(Kind.STERILIZER, "serial", "A/17 B").get(0);
            assertThat(subject.text("stated/chamber")).isEqualTo("17.5 L");
            assertThat(new RegisterFiling(desk.records()).register().sterilizers())
                    .hasSize(1);
            assertThat(desk.get("/register/sterilizers").body())
                    .contains("/register/sterilizers/" + subject.id())
                    .contains("Wash-up");
            assertThat(desk.get("/register/sterilizers/" + subject.id()).statusCode())
                    .isEqualTo(200);
            assertThat(desk.get("/register/sterilizer?id=A%2F17%20B").headers().firstValue("Location"))
                    .hasValue("/register/sterilizers/" + subject.id());
            assertThat(desk.get("/due?days=400").body()).contains("/register/sterilizer?id=A%2F17%20B");

            Map<String, String> more = untouched(desk.get(machine).body());
            Map<String, String> resets = with(
                    more,
                    "f/counter/readings/2/on",
                    "2026-08-01",
                    "f/counter/readings/2/shows",
                    "20",
                    "f/counter/resets/1/on",
                    "2026-07-20",
                    "f/counter/resets/1/before",
                    "150",
                    "f/counter/resets/1/after",
                    "0",
                    "f/counter/resets/1/evidence",
                    "board exchanged");
            HttpResponse<String> falls = post(
                    desk,
                    machine,
                    with(more, "f/counter/readings/2/on", "2026-08-01", "f/counter/readings/2/shows", "20"),
                    "en");
            assertThat(falls.statusCode())
                    .as("a counter does not run backwards")
                    .isEqualTo(422);
            assertThat(falls.body()).contains("f-counter-problem");
            entered(post(desk, machine, resets, "en"));

            Map<String, String> later = untouched(desk.get(machine).body());
            Map<String, String> out = with(later, "f/status", "out-of-service", "f/maker", "Other Works (invented)");
            HttpResponse<String> noReason = post(desk, machine, out, "fr");
            assertThat(noReason.statusCode()).isEqualTo(422);
            assertThat(noReason.body()).contains("Dites pourquoi").contains("Other Works (invented)");
            entered(post(desk, machine, with(out, "why", "read the plate again"), "en"));
            assertThat(desk.get(machine).body())
                    .contains("read the plate again")
                    .contains("Example Works (invented)")
                    .contains("out of service")
                    .contains("Alex Sample (invented)");

            entered(post(
                    desk,
                    machine,
                    with(
                            untouched(desk.get(machine).body()),
                            "f/movements/1/on",
                            "2026-08-02",
                            "f/movements/1/from",
                            room,
                            "f/movements/1/reason",
                            "into the workshop"),
                    "en"));
            assertThat(desk.get("/register/sterilizers").body())
                    .as("what was moved out stands there no longer")
                    .doesNotContain("Wash-up");
        }
    }

    @Test
    void two_windows_do_not_overwrite_each_other() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Subject machine =
                    desk.records().exactly(Kind.STERILIZER, "serial", "EX-1001").get(0);
            String path = "/register/entries/" + machine.id();
            Map<String, String> both = untouched(desk.get(path).body());
            entered(post(desk, path, with(both, "f/year", "2019", "why", "plate"), "en"));
            HttpResponse<String> second = post(desk, path, with(both, "f/year", "2018", "why", "guess"), "en");
            assertThat(second.statusCode()).isEqualTo(409);
            assertThat(second.body()).contains("was changed meanwhile").contains("value=\"2019\"");
            assertThat(desk.records().subject(machine.id()).text("stated/year")).isEqualTo("2019");
        }
    }

    @Test
    void a_form_that_nobody_touched_changes_nothing_in_any_language() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            new RegisterFiling(desk.records()).take(OFFICE, KIM, "");
            long before = desk.records().head().tree().size();
            int forms = 0;
            for (Kind kind :
                    List.of(Kind.CLINIC, Kind.STERILIZER, Kind.INSTRUMENT, Kind.TECHNICIAN, Kind.LOT, Kind.PART)) {
                List<Subject> all = new ArrayList<>();
                desk.records().eachSubject(kind, all::add);
                for (Subject one : all) {
                    String path = "/register/entries/" + one.id();
                    String page = desk.send(
                                    HttpRequest.newBuilder(desk.address(path)).header("Accept-Language", "de"))
                            .body();
                    Matcher several = Pattern.compile("name=\"(f/[^\"]+)\" value=\"([^\"]+)\" checked")
                            .matcher(page);
                    StringBuilder body = new StringBuilder();
                    untouched(page).forEach((name, value) -> {
                        if (!page.contains("name=\"" + name + "\" value=\"" + value + "\" checked")) {
                            add(body, name, value);
                        }
                    });
                    while (several.find()) {
                        add(body, several.group(1), several.group(2));
                    }
                    HttpResponse<String> answer = desk.send(HttpRequest.newBuilder(desk.address(path))
                            .header("Content-Type", "application/x-www-form-urlencoded")
                            .header("X-Token", desk.token())
                            .header("Accept-Language", "de")
                            .POST(HttpRequest.BodyPublishers.ofString(body.toString())));
                    assertThat(answer.statusCode())
                            .as(one + "\n" + answer.body())
                            .isEqualTo(303);
                    forms++;
                }
            }
            assertThat(forms).isGreaterThan(10);
            assertThat(desk.records().head().tree().size()).isEqualTo(before);
        }
    }

    private static void add(StringBuilder body, String name, String value) {
        body.append(body.isEmpty() ? "" : "&")
                .append(java.net.URLEncoder.encode(name, java.nio.charset.StandardCharsets.UTF_8))
                .append('=')
                .append(java.net.URLEncoder.encode(value, java.nio.charset.StandardCharsets.UTF_8));
    }

    @Test
    void people_lots_parts_and_instruments_are_entered_too() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            Map<String, List<String>> entries = new LinkedHashMap<>();
            entries.put(
                    "technicians",
                    List.of(
                            "f/name",
                            "Robin Sample (invented)",
                            "f/competences/1/from",
                            "2026-01-01",
                            "f/competences/1/duties",
                            "validation",
                            "f/competences/1/families",
                            "small-b\nbig-b"));
            entries.put(
                    "lots",
                    List.of(
                            "f/kind",
                            "biological",
                            "f/number",
                            "L/77",
                            "f/expires",
                            "2027-06",
                            "f/incubation",
                            "24,0 h"));
            entries.put("parts", List.of("f/name", "door seal", "f/number", "P/9", "f/stock", "3"));
            entries.put("testers", List.of("f/id", "ET/1", "f/description", "tester"));
            entries.put(
                    "instruments",
                    List.of(
                            "f/id",
                            "TL 9/B",
                            "f/measures",
                            "temperature",
                            "f/certificate/number",
                            "K-1",
                            "f/certificate/laboratory",
                            "Example Lab (invented)",
                            "f/certificate/calibrated-on",
                            "2026-01-10",
                            "f/certificate/due-on",
                            "2027-01-10",
                            "f/certificate/U",
                            "0,05 K",
                            "f/certificate/k",
                            "2",
                            "f/certificate/points",
                            "121,00; 121,05\n134,00 °C; 134,08 °C"));
            for (Map.Entry<String, List<String>> entry : entries.entrySet()) {
                String path = "/register/new/" + entry.getKey();
                String at = entered(post(
                        desk,
                        path,
                        with(untouched(desk.get(path).body()), entry.getValue().toArray(new String[0])),
                        "de"));
                assertThat(desk.get(at).statusCode()).isEqualTo(200);
            }
            var register = new RegisterFiling(desk.records()).register();
            assertThat(register.technicians().get(0).competences().get(0).families())
                    .containsExactly("small-b", "big-b");
            assertThat(register.lots().get(0).incubation()).hasHours(24);
            assertThat(register.parts()).hasSize(1);
            assertThat(register.testers()).hasSize(1);
            assertThat(register.instruments().get(0).id()).isEqualTo("TL 9/B");
            Subject instrument =
                    desk.records().exactly(Kind.INSTRUMENT, "number", "TL 9/B").get(0);
            assertThat(desk.get("/register/instruments").body()).contains("/register/instruments/" + instrument.id());
            assertThat(desk.get("/register/instruments/" + instrument.id()).body())
                    .contains("TL 9/B");
            assertThat(desk.post(
                                    "/register/instruments/" + instrument.id() + "/quarantine",
                                    Map.of("day", "2026-08-02", "reason", "dropped"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(desk.get("/register/parts").body()).contains("/affected?use=part&amp;what=P%2F9");
            HttpResponse<String> thousands = post(
                    desk,
                    "/register/new/sterilizers",
                    with(
                            untouched(desk.get("/register/new/sterilizers").body()),
                            "f/serial",
                            "S1",
                            "f/chamber",
                            "1.234 L"),
                    "de");
            assertThat(thousands.statusCode()).isEqualTo(422);
            assertThat(thousands.body()).contains("f-chamber-problem").contains("Tausender");
        }
    }

    private static final String[] LOGGER = {
        "f/id", "TL-1",
        "f/description", "logger (invented)",
        "f/measures", "temperature",
        "f/certificate/number", "K-1",
        "f/certificate/laboratory", "Example Lab (invented)",
        "f/certificate/calibrated-on", "2026-01-10",
        "f/certificate/due-on", "2027-01-10",
        "f/certificate/U", "0,05 K",
        "f/certificate/k", "2",
    };

    @Test
    void the_points_of_a_certificate_are_copied_line_by_line_and_a_line_that_is_none_is_named() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            String path = "/register/new/instruments";
            Map<String, String> logger = with(untouched(desk.get(path).body()), LOGGER);
            HttpResponse<String> refused =
                    post(desk, path, with(logger, "f/certificate/points", "121,00; 121,05\n134,00"), "en");
            assertThat(refused.statusCode()).isEqualTo(422);
            assertThat(refused.body())
                    .contains("f-certificate-points-problem\" role=\"alert\">Line 2:")
                    .contains("121.00 °C; 121.05 °C");
            assertThat(post(desk, path, with(logger, "f/certificate/points", "1,234; 1.235"), "en")
                            .body())
                    .as("a thousand or a decimal is asked back")
                    .contains("f-certificate-points-problem");
            String at = entered(
                    post(desk, path, with(logger, "f/certificate/points", "121,00; 121,05\n134,00\t134,08"), "de"));
            assertThat(new RegisterFiling(desk.records())
                            .register()
                            .instruments()
                            .get(0)
                            .certificate()
                            .orElseThrow()
                            .points())
                    .extracting(point -> point.reference() + " " + point.indicated())
                    .containsExactly("121.0 121.05", "134.0 134.08");
            long size = desk.records().head().tree().size();
            post(desk, at, untouched(desk.get(at).body()), "en");
            assertThat(desk.records().head().tree().size())
                    .as("nothing was touched, nothing is kept")
                    .isEqualTo(size);
            assertThat(desk.send(HttpRequest.newBuilder(desk.address(at)).header("Accept-Language", "de"))
                            .body())
                    .contains("134,00 °C; 134,08 °C</textarea>");
        }
    }

    @Test
    void a_further_instrument_is_filled_in_after_another_and_the_form_leads_back_to_the_visit() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            String path = "/register/new/instruments";
            String visit = "/visits/01a2-b3/instruments";
            Map<String, String> first = with(
                    with(untouched(desk.get(path + "?back=" + visit).body()), LOGGER),
                    "f/certificate/points",
                    "134,00; 134,08");
            assertThat(entered(post(desk, path, first, "en"))).isEqualTo(visit);
            assertThat(untouched(desk.get(path + "?back=//elsewhere.example/instruments")
                            .body()))
                    .as("only back to a visit")
                    .containsEntry("back", "");
            Subject one =
                    desk.records().exactly(Kind.INSTRUMENT, "number", "TL-1").get(0);
            assertThat(desk.get("/register/entries/" + one.id()).body()).contains(path + "?like=" + one.id());
            String like = desk.get(path + "?like=" + one.id()).body();
            assertThat(like).contains("Filled in after TL-1");
            assertThat(untouched(like))
                    .containsEntry("f/description", "logger (invented)")
                    .containsEntry("f/certificate/laboratory", "Example Lab (invented)")
                    .containsEntry("f/certificate/due-on", "2027-01-10")
                    .containsEntry("f/certificate/number", "")
                    .containsEntry("f/certificate/points", "")
                    .containsEntry("f/id", "");
            entered(post(
                    desk,
                    path,
                    with(
                            untouched(like),
                            "f/id",
                            "TL-2",
                            "f/certificate/number",
                            "K-2",
                            "f/certificate/points",
                            "134,00; 133,95"),
                    "en"));
            assertThat(new RegisterFiling(desk.records()).register().instruments())
                    .extracting(
                            instrument -> instrument.certificate().orElseThrow().number())
                    .containsExactly("K-1", "K-2");
        }
    }

    private static HttpResponse<String> postFile(
            OpenDesk desk, String path, Map<String, String> sent, String name, String content) throws Exception {
        StringBuilder body = new StringBuilder();
        with(sent, "token", desk.token()).forEach((field, value) -> {
            if (!field.equals("certificate-file")) {
                body.append(
                        "--cut\r\nContent-Disposition: form-data; name=\"%s\"\r\n\r\n%s\r\n".formatted(field, value));
            }
        });
        body.append("--cut\r\nContent-Disposition: form-data; name=\"certificate-file\"; filename=\"" + name
                + "\"\r\nContent-Type: text/xml\r\n\r\n" + content + "\r\n--cut--\r\n");
        return desk.send(HttpRequest.newBuilder(desk.address(path))
                .header("Content-Type", "multipart/form-data; boundary=cut")
                .POST(HttpRequest.BodyPublishers.ofString(body.toString())));
    }

    @Test
    void a_digital_certificate_is_put_in_as_its_file() throws Exception {
        Path certificate = DemoVisit.writeYear(folder.resolve("year")).get(0).resolve("certificates/TL-01.xml");
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            String path = "/register/new/instruments";
            Map<String, String> logger =
                    with(untouched(desk.get(path).body()), "f/id", "TL-01", "f/measures", "temperature");
            HttpResponse<String> other = postFile(desk, path, logger, "cert.xml", "<other/>");
            assertThat(other.statusCode()).isEqualTo(422);
            assertThat(other.body())
                    .contains("id=\"digital-problem\"")
                    .doesNotContain("Held: ")
                    .contains("name=\"f/certificate/number\"");
            assertThat(desk.records().count(Kind.INSTRUMENT)).isZero();

            String at = entered(postFile(desk, path, logger, "My cert.XML", Files.readString(certificate)));
            var instrument =
                    new RegisterFiling(desk.records()).register().instruments().get(0);
            assertThat(instrument.certificate().orElseThrow().points()).hasSizeGreaterThan(3);
            String page = desk.get(at).body();
            assertThat(page)
                    .containsPattern("Held: certificates/My-cert-[0-9a-f]{8}\\.xml")
                    .doesNotContain("name=\"f/certificate/number\"");
            long size = desk.records().head().tree().size();
            assertThat(post(desk, at, untouched(page), "en").statusCode()).isEqualTo(303);
            assertThat(desk.records().head().tree().size())
                    .as("nothing was touched, nothing is kept")
                    .isEqualTo(size);
            HttpResponse<String> earlier =
                    post(desk, at, with(untouched(page), "digital-due-on", "2026-05-01", "why", "own interval"), "en");
            assertThat(earlier.statusCode()).as(earlier.body()).isEqualTo(303);
            assertThat(new RegisterFiling(desk.records())
                            .register()
                            .instruments()
                            .get(0)
                            .certificate()
                            .orElseThrow()
                            .dueOn())
                    .isEqualTo("2026-05-01");
        }
    }

    @Test
    void every_field_and_every_choice_has_its_words_in_three_languages() {
        Set<String> missing = new TreeSet<>();
        for (Language language : Language.values()) {
            for (RegisterField.Listed list : RegisterField.Listed.values()) {
                collect(RegisterField.of(list), language, missing);
                if (!Words.file("office", language).containsKey("office.new-" + list.word())) {
                    missing.add(language + " new-" + list.word());
                }
            }
        }
        assertThat(missing).isEmpty();
    }

    private static void collect(List<RegisterField> fields, Language language, Set<String> missing) {
        Map<String, String> words = Words.file("office", language);
        for (RegisterField field : fields) {
            if (!words.containsKey("office.field." + field.key())) {
                missing.add(language + " " + field.key());
            }
            field.choices().stream()
                    .filter(choice -> !words.containsKey("office.word." + choice))
                    .forEach(choice -> missing.add(language + " " + choice));
            collect(field.fields(), language, missing);
        }
    }

    @Test
    void a_table_is_looked_at_entered_once_and_taken_back() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            new RegisterFiling(desk.records()).take(OFFICE, KIM, "");
            long before = desk.records().head().tree().size();
            String table = Files.readString(OFFICE.resolve("machines.csv"));
            HttpResponse<String> looked = sendTable(desk, table);
            assertThat(looked.statusCode()).as(looked.body()).isEqualTo(200);
            assertThat(looked.body()).contains("SN-9001", "added", "refused", "Colour");
            assertThat(desk.records().head().tree().size()).isEqualTo(before);
            Matcher known =
                    Pattern.compile("name=\"known\" value=\"([0-9a-f]{64})\"").matcher(looked.body());
            assertThat(known.find()).isTrue();
            assertThat(desk.post("/register/table/enter", Map.of("known", known.group(1), "why", "new list"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(desk.records().exactly(Kind.STERILIZER, "serial", "SN-9001"))
                    .hasSize(1);
            assertThat(sendTable(desk, table).body()).contains("entered already, as B-1");
            assertThat(desk.post("/register/table/undo", Map.of("number", "B-1"))
                            .statusCode())
                    .as("without a reason")
                    .isEqualTo(422);
            assertThat(desk.post("/register/table/undo", Map.of("number", "B-1", "why", "wrong list"))
                            .statusCode())
                    .isEqualTo(303);
            assertThat(desk.records().exactly(Kind.STERILIZER, "serial", "SN-9001"))
                    .isEmpty();
            assertThat(desk.get("/register/table").body()).contains("wrong list");
            HttpResponse<String> noTable = sendTable(desk, "nothing,of,use\n1,2,3\n");
            assertThat(noTable.statusCode()).isEqualTo(422);
            assertThat(desk.post("/register/table/enter", Map.of("known", "gone"))
                            .body())
                    .contains("Choose it once more");
        }
    }

    private static HttpResponse<String> sendTable(OpenDesk desk, String table) throws Exception {
        String boundary = "steamwright-test";
        String body = "--" + boundary
                + "\r\nContent-Disposition: form-data; name=\"table\"; filename=\"machines.csv\"\r\nContent-Type: text/csv\r\n\r\n"
                + table + "\r\n--" + boundary + "--\r\n";
        return desk.send(HttpRequest.newBuilder(desk.address("/register/table"))
                .header("Content-Type", "multipart/form-data; boundary=" + boundary)
                .header("X-Token", desk.token())
                .POST(HttpRequest.BodyPublishers.ofString(body)));
    }

    @Test
    void nonconformities_opened_at_once_get_numbers_of_their_own_and_tabs_do_not_overwrite() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            String token = desk.token();
            ExecutorService threads = Executors.newFixedThreadPool(4);
            List<Future<HttpResponse<String>>> all = new ArrayList<>();
            for (int i = 0; i < 8; i++) {
                all.add(threads.submit(() -> desk.send(
                        desk.form("/nonconformities", Map.of("what", "seal torn", "owner", "Kim Sample (invented)"))
                                .header("X-Token", token))));
            }
            for (Future<HttpResponse<String>> one : all) {
                assertThat(one.get().statusCode()).isEqualTo(303);
            }
            threads.shutdown();
            Set<String> numbers = new TreeSet<>();
            desk.records().eachSubject(Kind.NONCONFORMITY, one -> numbers.add(one.text("number")));
            assertThat(numbers).hasSize(8);

            Subject first = desk.records().subjects(Kind.NONCONFORMITY, 1).get(0);
            String path = "/nonconformities/" + first.id();
            Matcher seen = Pattern.compile("name=\"seen\" value=\"(\\d+)\"")
                    .matcher(desk.get(path).body());
            assertThat(seen.find()).isTrue();
            Map<String, String> typed = Map.of(
                    "what",
                    "seal torn",
                    "owner",
                    "Lee Sample (invented)",
                    "until",
                    "2026-08-01",
                    "seen",
                    seen.group(1));
            assertThat(desk.post(path, typed).statusCode()).isEqualTo(303);
            HttpResponse<String> late = desk.post(path, with(typed, "owner", "Alex Sample (invented)"));
            assertThat(late.statusCode()).isEqualTo(409);
            assertThat(late.body()).contains("was changed meanwhile").contains("value=\"Lee Sample (invented)\"");
            assertThat(late.body())
                    .as("the history in words, days with their month")
                    .contains("Opened")
                    .contains("3 Aug 2026")
                    .doesNotContain(">opened<")
                    .doesNotContain(">act-at-once<");
        }
    }

    @Test
    void a_serial_number_of_two_machines_is_asked_back_and_a_chosen_machine_is_the_one_of_the_visit() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            List<String> machines = new ArrayList<>();
            for (String maker : List.of("Example Works (invented)", "Sample Forge (invented)")) {
                String path = "/register/new/sterilizers";
                machines.add(entered(post(
                                desk,
                                path,
                                with(untouched(desk.get(path).body()), "f/serial", "4711", "f/maker", maker),
                                "en"))
                        .replaceFirst(".*/", ""));
            }
            Map<String, String> visit =
                    Map.of("number", "R-1", "purpose", "yearly", "date", "2026-08-03", "criteria-set", "eu-en13060");
            HttpResponse<String> asked = desk.post("/visits", with(visit, "serial", "4711"));
            assertThat(asked.statusCode()).isEqualTo(422);
            assertThat(asked.body()).contains("belongs to several sterilisers", "4711-2");
            assertThat(desk.post("/visits", with(visit, "machine", machines.get(1)))
                            .statusCode())
                    .isEqualTo(303);
            Subject begun = desk.records().subjects(Kind.VISIT, 1).get(0);
            assertThat(begun.fact("sterilizer").orElseThrow().text()).contains(machines.get(1));
            assertThat(begun.text("stated/sterilizers/1")).doesNotContain(machines.get(1));
        }
    }
}
