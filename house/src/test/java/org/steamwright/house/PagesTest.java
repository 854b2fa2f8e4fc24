package org.steamwright.house;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What a page names is there: links, paths, packages, classes, members, commands and options. */
class PagesTest {

    private static final Pattern FENCE = Pattern.compile("(?ms)^```[^\\n]*\\n.*?^```\\s*$");
    private static final Pattern LINK = Pattern.compile("!?\\[[^\\]]*]\\(([^)\\s]+)(?:\\s+\"[^\"]*\")?\\)");
    private static final Pattern CODE = Pattern.compile("`([^`\\n]+)`");
    private static final Pattern NAME = Pattern.compile("org\\.steamwright(?:\\.\\w+)+");
    private static final Pattern PATH = Pattern.compile("(?:\\./)?[\\w.-]+(?:/[\\w.-]+)+/?");
    private static final Pattern HEADING = Pattern.compile("(?m)^#{1,6}\\s+(.+?)\\s*$");

    @Test
    void every_relative_link_leads_somewhere() {
        List<String> broken = new ArrayList<>();
        for (Path page : Checkout.pages()) {
            for (String target : found(LINK, withoutFences(Checkout.text(page)))) {
                if (!target.matches("[a-z]+:.*") && !leadsSomewhere(page, target)) {
                    broken.add(Checkout.relative(page) + " → " + target);
                }
            }
        }
        assertThat(broken).isEmpty();
    }

    private static boolean leadsSomewhere(Path page, String target) {
        String[] parts = target.split("#", 2);
        Path file = parts[0].isEmpty() ? page : page.resolveSibling(parts[0]).normalize();
        if (!file.startsWith(Checkout.ROOT) || !Files.exists(file)) {
            return false;
        }
        return parts.length == 1
                || !file.toString().endsWith(".md")
                || anchors(Checkout.text(file)).contains(parts[1]);
    }

    /** Anchors as the usual renderers make them from headings. */
    private static Set<String> anchors(String text) {
        return HEADING.matcher(withoutFences(text))
                .results()
                .map(heading -> heading.group(1)
                        .toLowerCase(Locale.ROOT)
                        .replaceAll("[^\\p{L}\\p{N}\\s_-]", "")
                        .replaceAll("\\s", "-"))
                .collect(Collectors.toSet());
    }

    @Test
    void every_package_class_and_member_named_in_a_page_is_in_the_code() {
        List<String> unknown = new ArrayList<>();
        for (Path page : Checkout.pages()) {
            for (String code : found(CODE, withoutFences(Checkout.text(page)))) {
                NAME.matcher(code)
                        .results()
                        .map(MatchResult::group)
                        .filter(name -> !isInTheCode(name))
                        .forEach(name -> unknown.add(Checkout.relative(page) + ": " + name));
            }
        }
        assertThat(unknown).isEmpty();
    }

    /** Longest leading part that is a package or a source file; what follows has to occur in that file as a word. */
    private static boolean isInTheCode(String name) {
        List<String> parts = List.of(name.split("\\."));
        for (int length = parts.size(); length > 1; length--) {
            String path = "/" + String.join("/", parts.subList(0, length));
            List<Path> files = Checkout.filesEndingWith(".java").stream()
                    .filter(file -> Checkout.relative(file).contains("/java" + path + ".java"))
                    .toList();
            if (!files.isEmpty()) {
                String text = Checkout.text(files.get(0));
                return parts.subList(length, parts.size()).stream()
                        .allMatch(word -> Pattern.compile("\\b" + word + "\\b")
                                .matcher(text)
                                .find());
            }
            boolean isPackage = Checkout.filesEndingWith(".java").stream()
                    .anyMatch(file -> Checkout.relative(file).contains("/java" + path + "/"));
            if (isPackage) {
                return length == parts.size();
            }
        }
        return false;
    }

    @Test
    void every_path_of_the_project_named_in_a_page_exists() {
        Set<String> folders = Checkout.files().stream()
                .map(Checkout::relative)
                .filter(path -> path.contains("/"))
                .map(path -> path.substring(0, path.indexOf('/')))
                .collect(Collectors.toSet());
        List<String> missing = new ArrayList<>();
        for (Path page : Checkout.pages()) {
            for (String code : found(CODE, withoutFences(Checkout.text(page)))) {
                String path = code.startsWith("./") ? code.substring(2) : code;
                if (PATH.matcher(code).matches()
                        && folders.contains(path.split("/")[0])
                        && !path.contains("/target/")
                        && !Files.exists(Checkout.ROOT.resolve(path))) {
                    missing.add(Checkout.relative(page) + ": " + code);
                }
            }
        }
        assertThat(missing).isEmpty();
    }

    private static final Pattern CALL = Pattern.compile("(?:^|[\\s`$(])(?:\\./)?steamwright +([a-z][a-z-]*)");
    private static final Pattern OPTION = Pattern.compile("(?<=\\s)(--[a-z][a-z0-9-]*)");

    @Test
    void every_command_and_option_shown_in_a_page_is_known_to_the_program() {
        String program = Checkout.mainSources().stream()
                .filter(file -> Checkout.relative(file).startsWith("command/")
                        || Checkout.relative(file).equals("desk/src/main/java/org/steamwright/desk/Desk.java"))
                .map(Checkout::text)
                .collect(Collectors.joining("\n"));
        List<String> unknown = new ArrayList<>();
        for (Path page : Checkout.pages()) {
            for (String line : shownLines(Checkout.text(page))) {
                CALL.matcher(line).results().forEach(call -> {
                    if (!program.contains("\"" + call.group(1) + "\"")) {
                        unknown.add(Checkout.relative(page) + ": command " + call.group(1));
                    }
                    found(OPTION, line.substring(call.start())).stream()
                            .filter(option -> !program.contains("\"" + option + "\""))
                            .forEach(option -> unknown.add(Checkout.relative(page) + ": option " + option));
                });
            }
        }
        assertThat(unknown).isEmpty();
    }

    /** Lines of fenced blocks, and the insides of code marks. */
    private static List<String> shownLines(String text) {
        List<String> lines = new ArrayList<>();
        FENCE.matcher(text).results().forEach(fence -> fence.group().lines().forEach(lines::add));
        found(CODE, withoutFences(text)).forEach(lines::add);
        return lines;
    }

    @Test
    void every_script_that_a_page_calls_is_there_and_may_be_run() {
        List<String> missing = new ArrayList<>();
        Pattern script = Pattern.compile("(?<![\\w/.])\\./([a-z][\\w-]*)(?![\\w/.])");
        for (Path page : Checkout.pages()) {
            for (String line : shownLines(Checkout.text(page))) {
                found(script, line).stream()
                        .filter(name -> !Files.isExecutable(Checkout.ROOT.resolve(name)))
                        .forEach(name -> missing.add(Checkout.relative(page) + ": ./" + name));
            }
        }
        assertThat(missing).isEmpty();
    }

    @Test
    void every_page_is_reached_from_the_map() {
        List<Path> reached = new ArrayList<>(List.of(Checkout.ROOT.resolve("README.md")));
        for (int i = 0; i < reached.size(); i++) {
            Path page = reached.get(i);
            found(LINK, withoutFences(Checkout.text(page))).stream()
                    .map(target -> page.resolveSibling(target.split("#", 2)[0]).normalize())
                    .filter(file -> file.toString().endsWith(".md") && Files.exists(file))
                    .filter(file -> !reached.contains(file))
                    .forEach(reached::add);
        }
        assertThat(Checkout.pages().stream()
                        .filter(page -> !reached.contains(page))
                        .map(Checkout::relative))
                .as("pages that no link leads to from README.md")
                .isEmpty();
    }

    private static String withoutFences(String text) {
        return FENCE.matcher(text).replaceAll("");
    }

    /** The first group of every match, or the match where there is no group. */
    private static List<String> found(Pattern pattern, String text) {
        return pattern.matcher(text)
                .results()
                .map(result -> result.groupCount() > 0 ? result.group(1) : result.group())
                .toList();
    }
}
