package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.interactive.action.PDActionURI;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAnnotationLink;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.desk.OpenDesk;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FactPath;
import org.steamwright.records.Author;
import org.steamwright.visit.AssessedRun;

/** Hostile words in every free text of a visit: no page, picture, table or calendar lets them out as more than words. */
class StoredScriptTest {

    private static final Author KIM = new Author("Kim Sample (invented)", "technician");

    /** Ends an attribute in either quotation mark, then opens an element; a table would take it for a formula. */
    private static final String HOSTILE = "=1+1\"'><xss onload=alert(1)></script>{{7*7}}${7*7}";

    /** Keys of free texts, wherever they stand in a visit. */
    private static final Set<String> FREE = Set.of(
            "purpose",
            "company",
            "address",
            "room",
            "contact",
            "organisation",
            "authorisation",
            "confirms",
            "maker",
            "model",
            "firmware",
            "location",
            "pressure-papers",
            "note",
            "start-condition",
            "machine-verdict",
            "description",
            "challenge-pack",
            "challenge-place",
            "agreed-by",
            "packaging",
            "title",
            "remark",
            "product",
            "lot",
            "place",
            "cause",
            "because",
            "action",
            "what");

    private static final Pattern LINK = Pattern.compile("(?:href|src|hx-get)=\"(/[^\"#]*)");

    @TempDir
    private Path folder;

    @Test
    void hostile_words_stay_words() throws Exception {
        try (OpenDesk desk = OpenDesk.demo(folder)) {
            Draft draft = new Drafts(desk.records()).find("DEMO-2026-002").orElseThrow();
            stateBorder(draft);
            int made = makeHostile(draft.now());
            assertThat(made).as("free texts of the visit").isGreaterThan(60);
            assertThat(desk.get("/visits/" + draft.id() + "/answer").statusCode())
                    .isEqualTo(200);

            List<String> leaking = new ArrayList<>();
            List<String> telling = new ArrayList<>();
            Set<String> seen = crawl(desk, leaking, telling);
            assertThat(leaking).as("pages that let it out").isEmpty();
            assertThat(telling).as("pages that show it as words").hasSizeGreaterThan(10);
            assertThat(seen).hasSizeGreaterThan(60);
            documentsHoldWords(desk, "/visits/" + draft.id() + "/report.pdf");
        }
    }

    /** In a document they stand as words: nothing in it runs, and nothing leads out of it. */
    private static void documentsHoldWords(OpenDesk desk, String path) throws Exception {
        HttpResponse<byte[]> answer = HttpClient.newHttpClient()
                .send(HttpRequest.newBuilder(desk.address(path)).build(), HttpResponse.BodyHandlers.ofByteArray());
        assertThat(answer.statusCode()).isEqualTo(200);
        try (PDDocument document = Loader.loadPDF(answer.body())) {
            assertThat(new PDFTextStripper().getText(document).replaceAll("\\s+", ""))
                    .contains("<xssonload=alert(1)>");
            assertThat(document.getDocumentCatalog().getOpenAction()).isNull();
            assertThat(document.getDocumentCatalog().getNames() == null
                            || document.getDocumentCatalog().getNames().getJavaScript() == null)
                    .as("no script in the document")
                    .isTrue();
            for (PDPage page : document.getPages()) {
                assertThat(page.getAnnotations())
                        .noneMatch(one -> one instanceof PDAnnotationLink link
                                && link.getAction() instanceof PDActionURI uri
                                && !String.valueOf(uri.getURI()).startsWith("http"));
            }
        }
    }

    /** A stated border whose author and reason are hostile. */
    private static void stateBorder(Draft draft) throws Exception {
        for (AssessedRun run : draft.assessed().orElseThrow().runs()) {
            Optional<Phase> drying = run.evaluation().phases().flatMap(phases -> phases.find(Phase.Kind.DRYING));
            if (drying.isPresent()) {
                Object border = Map.of(
                        "phase", "drying",
                        "end", "to",
                        "at", drying.get().toSeconds() - 10 + " s",
                        "by", "Kim" + HOSTILE,
                        "because", "seen");
                draft.set(
                        FactPath.of("runs", run.run().number(), "stated-borders"),
                        Optional.of(List.of(border)),
                        KIM,
                        "");
                return;
            }
        }
        throw new AssertionError("no run of the visit dries");
    }

    private static int makeHostile(Draft draft) throws Exception {
        DraftChange change = draft.change();
        int made = 0;
        for (Map.Entry<String, Object> fact : draft.facts().entrySet()) {
            made += makeHostile(FactPath.parse(fact.getKey()), fact.getValue(), change);
        }
        change.keep(KIM, "");
        return made;
    }

    private static int makeHostile(FactPath path, Object value, DraftChange change) throws Exception {
        int made = 0;
        if (value instanceof Map<?, ?> entries) {
            for (Map.Entry<?, ?> entry : entries.entrySet()) {
                made += makeHostile(path.then(String.valueOf(entry.getKey())), entry.getValue(), change);
            }
        } else if (value instanceof List<?> list) {
            for (int i = 0; i < list.size(); i++) {
                made += makeHostile(path.then(i + 1), list.get(i), change);
            }
        } else if (value instanceof String text
                && FREE.contains(path.steps().get(path.steps().size() - 1))) {
            change.set(path, text + HOSTILE);
            made++;
        }
        return made;
    }

    private static Set<String> crawl(OpenDesk desk, List<String> leaking, List<String> telling) throws Exception {
        Set<String> seen = new LinkedHashSet<>();
        Deque<String> waiting = new ArrayDeque<>(List.of("/today"));
        while (!waiting.isEmpty()) {
            String path = waiting.remove();
            if (path.startsWith("/static/") || path.endsWith(".pdf") || !seen.add(path)) {
                continue;
            }
            HttpResponse<String> answer = desk.get(path.replace("&amp;", "&"));
            String body = answer.body();
            String type = answer.headers().firstValue("Content-Type").orElse("");
            if (body.contains("<xss") && !type.startsWith("application/json") && !type.startsWith("text/c")) {
                leaking.add(path);
            }
            if (type.startsWith("text/csv") && body.lines().anyMatch(line -> line.matches("(.*,)?\"?=1\\+1.*"))) {
                leaking.add(path + ", a formula");
            }
            if (body.contains("&lt;xss")) {
                telling.add(path);
            }
            if (type.startsWith("text/html")) {
                LINK.matcher(body).results().forEach(link -> waiting.add(link.group(1)));
            }
        }
        return seen;
    }
}
