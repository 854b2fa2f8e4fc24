package org.steamwright.journeys;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * All pages that can be reached by links, beginning at one.
 *
 * @param pages paths by their shape, such as {@code /visits/{id}/runs/{n}}; of each shape the first and the last that was met
 * @param broken links that lead to no page, each with the page that holds it
 */
record Crawl(Map<String, List<String>> pages, List<String> broken) {

    private static final Pattern LINK = Pattern.compile("<a\\s[^>]*?href=\"([^\"#]+)(?:#[^\"]*)?\"[^>]*>");
    private static final Pattern ID = Pattern.compile("[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}");
    private static final Pattern NUMBER = Pattern.compile("(?<=/)[0-9]+(?=/|$)");
    private static final Pattern VALUE = Pattern.compile("=[^&]*");

    private static final Pattern FILE = Pattern.compile("\\.[a-z]+(\\?|$)");

    /** Pages of one shape that are opened to look for links; of files, such as reports, one is. */
    private static final int MOST_OF_A_SHAPE = 4;

    /** Follows the links of a desk. */
    static Crawl of(String origin, String start) {
        HttpClient client = HttpClient.newHttpClient();
        Map<String, List<String>> pages = new TreeMap<>();
        Map<String, Integer> opened = new HashMap<>();
        List<String> broken = new ArrayList<>();
        Set<String> met = new HashSet<>(Set.of(start));
        Deque<String> ahead = new ArrayDeque<>(List.of(start));
        while (!ahead.isEmpty()) {
            String path = ahead.remove();
            int most = FILE.matcher(path).find() ? 1 : MOST_OF_A_SHAPE;
            if (opened.merge(shape(path), 1, Integer::sum) > most) {
                continue;
            }
            HttpResponse<String> answer = get(client, origin + path);
            String type = answer.headers().firstValue("Content-Type").orElse("");
            if (answer.statusCode() >= 400) {
                broken.add(path + " answers " + answer.statusCode());
            }
            if (answer.statusCode() != 200 || !type.startsWith("text/html")) {
                continue;
            }
            pages.computeIfAbsent(shape(path), key -> new ArrayList<>()).add(path);
            for (Matcher link = LINK.matcher(answer.body()); link.find(); ) {
                if (!link.group().contains(" download")) {
                    String next = resolved(path, link.group(1).replace("&amp;", "&"));
                    if (next.startsWith("/") && !next.startsWith("/static/") && met.add(next)) {
                        ahead.add(next);
                    }
                }
            }
        }
        pages.replaceAll((shape, alike) ->
                alike.size() < 2 ? List.copyOf(alike) : List.of(alike.get(0), alike.get(alike.size() - 1)));
        return new Crawl(pages, broken);
    }

    private static String resolved(String path, String link) {
        URI target = URI.create("http://here" + path).resolve(link.replace(" ", "%20"));
        return "here".equals(target.getHost())
                ? target.getRawPath() + (target.getRawQuery() == null ? "" : "?" + target.getRawQuery())
                : "";
    }

    /** What a path has in common with its like. */
    static String shape(String path) {
        String general = ID.matcher(path).replaceAll("{id}");
        general = NUMBER.matcher(general).replaceAll("{n}");
        return VALUE.matcher(general).replaceAll("=");
    }

    private static HttpResponse<String> get(HttpClient client, String address) {
        try {
            return client.send(
                    HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
        } catch (IOException failed) {
            throw new UncheckedIOException(address + ": " + failed.getMessage(), failed);
        } catch (InterruptedException stopped) {
            Thread.currentThread().interrupt();
            throw new AssertionError("stopped at " + address, stopped);
        }
    }

    /** One page of each shape, in the order of the shapes. */
    List<String> oneOfEach() {
        return pages.values().stream().map(alike -> alike.get(0)).toList();
    }

    /** The other page of each shape that has more than one. */
    List<String> others() {
        return pages.values().stream()
                .filter(alike -> alike.size() > 1)
                .map(alike -> alike.get(1))
                .toList();
    }
}
