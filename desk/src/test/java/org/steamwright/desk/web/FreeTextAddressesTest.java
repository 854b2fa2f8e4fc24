package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;
import org.steamwright.desk.RealVisit;
import org.steamwright.filing.Draft;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.Filing;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.records.Author;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;

/** Numbers and names may hold any sign; every link that the pages show leads to its page. */
class FreeTextAddressesTest {

    private static final Author KIM = new Author(RealVisit.TECHNICIAN, "technician");
    private static final String SERIAL = "A/17 B";
    private static final String NUMBER = "R/1 50%?#2..";
    private static final String SECRET = "correct horse battery";
    private static final Pattern LINK = Pattern.compile("(?:href|src)=\"(/[^\"]*)\"");
    /** Pages whose addresses hold nothing that was typed. */
    private static final Pattern OTHER = Pattern.compile(
            "^/static|/runs|\\.svg|\\.ics|\\.csv|/new/|^/(plan|measures|account|nonconformities)|report\\.pdf|result\\.json"
                    + "|/(as-found|maintenance|installation|indicators|indication|safety|compare)$");

    private static final int DEEP = 2;

    @TempDir
    Path folder;

    private Subject signedVisit(OpenDesk desk) throws Exception {
        Path real = folder.resolve("real");
        RealVisit.write(real);
        Path facts = real.resolve("visit.yaml");
        Files.writeString(
                facts,
                Files.readString(facts)
                        .replace("serial: EX-1001", "serial: " + SERIAL)
                        .replace("report-number: DEMO-2026-001", "report-number: \"" + NUMBER + "\""));
        Filing filing = new Filing(desk.records());
        filing.take(real, KIM, "");
        Subject visit = filing.visit(NUMBER).visit();
        String address = "/visits/" + visit.id();
        String name = RealVisit.TECHNICIAN;
        desk.post(address + "/keys", Map.of("name", name, "secret", SECRET, "again", SECRET));
        Map<String, String> signature = Map.of(
                "name",
                name,
                "meaning",
                "performed and recorded",
                "secret",
                SECRET,
                "seen",
                Filing.content(visit).hex());
        assertThat(desk.post(address + "/signatures", signature).statusCode()).isEqualTo(303);
        return visit;
    }

    private void register(OpenDesk desk) throws Exception {
        Files.writeString(folder.resolve("register.yaml"), """
                steamwright-register: 1
                instruments: instruments.yaml
                clinics:
                  - id: "C/1 %2"
                    name: "Example/Clinic 2 (invented)"
                    sites:
                      - {id: S/1, zone: UTC, rules: au, rooms: [{id: "R/1 #", name: Room 1/2}]}
                sterilizers:
                  - {id: "M/1 #%", maker: Example Works (invented), model: B/1, serial: "X/9 ..?", room: "R/1 #"}
                lots:
                  - {id: "L/1", kind: biological, product: strip (invented), number: "LOT/1 %#", expires: 2027-12}
                """);
        Files.writeString(folder.resolve("instruments.yaml"), """
                steamwright-instruments: 1
                instruments:
                  - id: "TL/9 %#?"
                    measures: temperature
                    certificate: {number: K/1, laboratory: Example (invented), calibrated-on: 2026-03-01, due-on: 2027-03-01, U: 0.06 K, k: 2, points: [[121.00 °C, 121.02 °C], [134.00 °C, 134.03 °C]]}
                """);
        new RegisterFiling(desk.records()).take(folder.resolve("register.yaml"), KIM, "");
    }

    private static Draft draftWithPhoto(OpenDesk desk) throws Exception {
        String photo = "photos/load 1 #2%.jpg";
        return new Drafts(desk.records())
                .open(
                        KIM,
                        "D/2 #%",
                        Map.of(
                                "date",
                                "2026-08-03",
                                "zone",
                                "UTC",
                                "clinic",
                                Map.of("name", "Other/Clinic (invented)"),
                                "sterilizers",
                                List.of(Map.of("key", "A", "serial", "Y/1 %41")),
                                "runs",
                                List.of(Map.of(
                                        "kind",
                                        "reference-load",
                                        "cycle",
                                        "134",
                                        "sterilizer",
                                        "A",
                                        "load",
                                        Map.of("photos", List.of(photo))))))
                .change()
                .putFile(photo, new ByteArrayInputStream(new byte[] {1, 2, 3}))
                .keep(KIM, "");
    }

    /** Every link of these pages and of those that they lead to. */
    private static Map<String, String> links(OpenDesk desk, List<String> from) throws Exception {
        Map<String, String> broken = new LinkedHashMap<>();
        Map<String, Integer> seen = new LinkedHashMap<>();
        Deque<String> waiting = new ArrayDeque<>(from);
        from.forEach(path -> seen.put(path, 0));
        while (!waiting.isEmpty()) {
            String path = waiting.poll();
            HttpResponse<String> answer = desk.get(path);
            // 422: the address was understood, and the visit that is being written can't be assessed yet
            if (answer.statusCode() >= 400 && answer.statusCode() != 422) {
                broken.put(path, answer.statusCode() + " " + answer.body().replaceAll("(?s).*<main[^>]*>", ""));
            }
            int depth = seen.getOrDefault(path, 0);
            List<String> next = new ArrayList<>();
            answer.headers().firstValue("Location").ifPresent(next::add);
            Matcher link = LINK.matcher(answer.body());
            while (depth < DEEP && link.find()) {
                next.add(link.group(1).replace("&amp;", "&").replaceAll("#.*", ""));
            }
            for (String one : next) {
                if (!OTHER.matcher(one).find() && seen.putIfAbsent(one, depth + 1) == null) {
                    waiting.add(one);
                }
            }
        }
        assertThat(seen.keySet())
                .as("the links that this is about were there")
                .anyMatch(path -> path.contains("/cards/"))
                .anyMatch(path -> path.matches("/clinic/[^/]+/reports/[^/]+/[^/]+"))
                .anyMatch(path -> path.contains("/certificates?"))
                .anyMatch(path -> path.contains("/files?name=photos%2Fload%201%20%232%25.jpg"))
                .anyMatch(path -> path.startsWith("/trends/one?"))
                .anyMatch(path -> path.startsWith("/affected?use=instrument"));
        return broken;
    }

    @Test
    void every_link_leads_to_its_page_whatever_signs_a_number_holds() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            register(desk);
            Subject visit = signedVisit(desk);
            Draft draft = draftWithPhoto(desk);
            List<String> from = new ArrayList<>(List.of(
                    "/today",
                    "/visits",
                    "/visits/" + visit.id() + "/close",
                    "/visits/" + draft.id() + "/load",
                    "/due?days=366",
                    "/register/clinics",
                    "/register/sterilizers",
                    "/register/instruments",
                    "/register/lots",
                    "/find?q=A%2F17",
                    "/find?q=R%2F1",
                    "/trends?figure=holding-time",
                    "/review"));
            desk.records().eachSubject(Kind.CLINIC, clinic -> from.add("/clinic/" + clinic.id()));
            assertThat(links(desk, from)).isEmpty();

            HttpResponse<String> report = desk.get("/clinic/" + visit.text("clinic") + "/reports/" + visit.id());
            assertThat(report.headers().firstValue("Content-Disposition"))
                    .as("no sign that a file name can't have")
                    .contains("attachment; filename*=UTF-8''R-1-50-2...pdf");
            assertThat(desk.get("/trends/one?serial=A%2F17%20B").body()).contains("Trends of", SERIAL);
        }
    }
}
