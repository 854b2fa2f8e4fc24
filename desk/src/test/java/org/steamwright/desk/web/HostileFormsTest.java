package org.steamwright.desk.web;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import java.io.IOException;
import java.io.StringReader;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import javax.swing.text.MutableAttributeSet;
import javax.swing.text.html.HTML;
import javax.swing.text.html.HTMLEditorKit;
import javax.swing.text.html.parser.ParserDelegator;
import net.fortuna.ical4j.data.CalendarBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.steamwright.desk.OpenDesk;

/**
 * Hostile words of several kinds typed into every form that the pages show, as a browser would send it; then every page, table
 * and calendar is read by a parser, which finds nothing but words.
 */
class HostileFormsTest {

    private static final List<String> HOSTILE = List.of(
            "\"'><xss onfocus=alert(1)>",
            "x\" autofocus onfocus=\"alert(1)",
            "x' onmouseover='alert(1)",
            "javascript:alert(1)",
            "</textarea></script><xss>",
            "=1+1",
            "+1+1",
            "-1+1",
            "@SUM(A1)",
            "\t=1+1");

    /** Changes that take away what the others have written, or lead out of the desk. */
    private static final Set<String> LEFT_OUT =
            Set.of("given-up", "removals", "undo", "keys", "signatures", "remove", "language");

    private static final int MOST_FORMS = 260;

    @TempDir
    private Path folder;

    /** A form as the page has it. */
    private static final class Form {
        private final String action;
        private final Map<String, String> fixed = new LinkedHashMap<>();
        private final Set<String> free = new LinkedHashSet<>();

        Form(String action) {
            this.action = action;
        }

        String key() {
            return action + fixed.getOrDefault("path", "") + fixed.getOrDefault("list", "") + free;
        }
    }

    /** What a page is made of, as a parser of HTML sees it. */
    private static final class Page extends HTMLEditorKit.ParserCallback {
        private final List<Form> forms = new ArrayList<>();
        private final Set<String> links = new LinkedHashSet<>();
        private final List<String> wrong = new ArrayList<>();
        private Form open = new Form("");
        private String select = "";

        static Page of(String html) throws IOException {
            Page page = new Page();
            new ParserDelegator().parse(new StringReader(html), page, true);
            return page;
        }

        @Override
        public void handleSimpleTag(HTML.Tag tag, MutableAttributeSet attributes, int position) {
            handleStartTag(tag, attributes, position);
        }

        @Override
        public void handleStartTag(HTML.Tag tag, MutableAttributeSet attributes, int position) {
            Map<String, String> found = new LinkedHashMap<>();
            Collections.list(attributes.getAttributeNames())
                    .forEach(name -> found.put(
                            String.valueOf(name).toLowerCase(Locale.ROOT),
                            String.valueOf(attributes.getAttribute(name))));
            if (tag.toString().contains("xss")) {
                wrong.add("an element: " + tag);
            }
            found.forEach((name, value) -> {
                boolean isLink =
                        Set.of("href", "src", "action", "hx-get", "hx-post").contains(name);
                if (name.startsWith("on") || (isLink && value.strip().startsWith("javascript:"))) {
                    wrong.add("an attribute of " + tag + ": " + name + "=" + value);
                }
            });
            if (found.getOrDefault("href", "").startsWith("/")) {
                links.add(found.get("href").replaceAll("#.*", ""));
            }
            field(tag, found);
        }

        private void field(HTML.Tag tag, Map<String, String> found) {
            String name = found.getOrDefault("name", "");
            if (tag == HTML.Tag.FORM) {
                open = new Form(found.getOrDefault("action", ""));
                if (found.getOrDefault("method", "").equalsIgnoreCase("post")) {
                    forms.add(open);
                }
            } else if (tag == HTML.Tag.SELECT) {
                select = name;
            } else if (tag == HTML.Tag.OPTION && !select.isEmpty()) {
                open.fixed.putIfAbsent(select, found.getOrDefault("value", ""));
            } else if (tag == HTML.Tag.TEXTAREA) {
                open.free.add(name);
            } else if (tag == HTML.Tag.INPUT && !name.isEmpty()) {
                switch (found.getOrDefault("type", "text")) {
                    case "hidden", "radio" -> open.fixed.putIfAbsent(name, found.getOrDefault("value", ""));
                    case "checkbox", "file", "password", "submit" -> {}
                    default -> open.free.add(name);
                }
            }
        }
    }

    private static boolean isLeftOut(Form form) {
        String last = form.action.substring(form.action.lastIndexOf('/') + 1);
        return !form.action.startsWith("/")
                || form.free.isEmpty() && !last.equals("entries")
                || LEFT_OUT.contains(last);
    }

    @Test
    void no_form_lets_words_become_more_than_words() throws Exception {
        try (OpenDesk desk = OpenDesk.empty(folder)) {
            desk.post(
                    "/visits",
                    Map.of(
                            "number",
                            "H-1",
                            "clinic",
                            "Example Dental (invented)",
                            "serial",
                            "EX-9",
                            "date",
                            "2026-08-03",
                            "purpose",
                            "yearly"));
            int sent = typeEverywhere(desk);
            assertThat(sent).as("forms that were sent").isGreaterThan(40);

            List<String> wrong = new ArrayList<>();
            int[] told = new int[1];
            for (String path : everyPage(desk)) {
                HttpResponse<String> answer = desk.get(path);
                String type = answer.headers().firstValue("Content-Type").orElse("");
                if (type.startsWith("text/html")) {
                    Page.of(answer.body()).wrong.forEach(one -> wrong.add(path + ": " + one));
                    told[0] +=
                            answer.body().contains("&lt;xss") || answer.body().contains("&#34;&#39;") ? 1 : 0;
                } else if (type.startsWith("text/csv")) {
                    formulas(answer.body()).forEach(cell -> wrong.add(path + ": the cell " + cell));
                } else if (type.startsWith("text/calendar")) {
                    new CalendarBuilder().build(new StringReader(answer.body())).validate();
                }
            }
            assertThat(wrong).isEmpty();
            assertThat(told[0]).as("pages that show it as words").isGreaterThan(3);
        }
    }

    @Test
    void the_readers_see_what_they_are_for() throws Exception {
        assertThat(Page.of("<html><body><p><xss a=b>x</p><a href='javascript:alert(1)'>y</a><p onclick='z'>").wrong)
                .hasSize(3);
        assertThat(formulas("\"a\",\"=1+1\"\r\n\"'=1\",\"\t=1\"\r\n")).hasSize(2);
    }

    private static List<String> formulas(String table) throws IOException {
        List<String> formulas = new ArrayList<>();
        try (var rows = CsvReader.builder().ofCsvRecord(table)) {
            rows.forEach(row -> row.getFields().stream()
                    .filter(cell -> !cell.isEmpty() && "=+-@\t\r".indexOf(cell.charAt(0)) >= 0)
                    .forEach(formulas::add));
        }
        return formulas;
    }

    /** Sends every form of every page once, hostile words in each of its fields, and follows what comes of it. */
    private static int typeEverywhere(OpenDesk desk) throws Exception {
        Set<String> done = new HashSet<>();
        int sent = 0;
        int before = -1;
        while (before != sent && sent < MOST_FORMS) {
            before = sent;
            for (String path : everyPage(desk)) {
                HttpResponse<String> page = desk.get(path);
                if (!page.headers().firstValue("Content-Type").orElse("").startsWith("text/html")) {
                    continue;
                }
                for (Form form : Page.of(page.body()).forms) {
                    if (isLeftOut(form) || !done.add(form.key()) || sent >= MOST_FORMS) {
                        continue;
                    }
                    Map<String, String> typed = new LinkedHashMap<>(form.fixed);
                    int turn = sent;
                    for (String field : form.free) {
                        typed.put(field, HOSTILE.get(turn++ % HOSTILE.size()));
                    }
                    HttpResponse<String> answer = desk.post(form.action, typed);
                    assertThat(answer.statusCode()).as(form.action + typed).isNotEqualTo(500);
                    assertThat(Page.of(answer.body()).wrong)
                            .as("the answer to " + form.action + typed)
                            .isEmpty();
                    sent++;
                }
            }
        }
        return sent;
    }

    private static Set<String> everyPage(OpenDesk desk) throws Exception {
        Set<String> seen = new LinkedHashSet<>();
        Deque<String> waiting = new ArrayDeque<>(List.of("/today"));
        while (!waiting.isEmpty()) {
            String path = waiting.remove();
            if (path.startsWith("/static/") || path.contains(".pdf") || path.contains("/training") || !seen.add(path)) {
                continue;
            }
            HttpResponse<String> answer = desk.get(path);
            if (answer.headers().firstValue("Content-Type").orElse("").startsWith("text/html")) {
                Page.of(answer.body()).links.stream()
                        .map(link ->
                                link.replace(" ", "%20").replace("\"", "%22").replace("|", "%7C"))
                        .forEach(waiting::add);
            }
        }
        return seen;
    }
}
