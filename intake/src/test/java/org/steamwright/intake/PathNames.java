package org.steamwright.intake;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;

/** Names of files that try to lead somewhere else, put together from the steps, marks and signs that do so. */
public final class PathNames {

    private static final List<String> UP = List.of(
            "../",
            "..\\",
            "..//",
            "./../",
            "....//",
            "..;/",
            "%2e%2e/",
            "..%2f",
            "..%5c",
            ".. /",
            "..\u2215",
            "\uFF0E\uFF0E/",
            "..\u0000/",
            "a/../../",
            "a/b/../../../",
            ".\u200B./");
    private static final List<String> ROOTS = List.of(
            "/",
            "\\",
            "//",
            "///",
            "C:\\",
            "C:/",
            "c:",
            "Z:\\",
            "\\\\server\\share\\",
            "//server/share/",
            "\\\\?\\C:\\",
            "\\\\.\\",
            "\\\\.\\pipe\\",
            "file:",
            "file:/",
            "file://",
            "file:///",
            "http://127.0.0.1/",
            "jar:file:/",
            "~/",
            "~root/",
            "$HOME/",
            "%USERPROFILE%\\",
            "/proc/self/",
            "/dev/",
            "\\Device\\");
    private static final List<String> ENDS = List.of(
            "outside.csv",
            "outside/outside.csv",
            "etc/passwd",
            "outside.csv\u0000",
            "outside.csv\u0000.csv",
            "outside.csv::$DATA",
            "outside.csv:stream",
            "outside.csv.",
            "outside.csv ",
            "outside.csv%00",
            "OUTSIDE.CSV",
            "\u202Evsc.edistuo",
            "\u2066outside\u2069.csv",
            "out\u00ADside.csv");
    private static final List<String> ALONE = List.of(
            "CON",
            "PRN",
            "AUX",
            "NUL",
            "COM1",
            "LPT9",
            "con.csv",
            "NUL.csv",
            "CLOCK$",
            "CONIN$",
            ".",
            "..",
            "...",
            " ",
            "\t",
            "\n",
            "\r\n",
            "\u0000",
            "\u0007",
            "\u007F",
            "\u0085",
            "\u2028",
            "\uFEFF",
            "\uFFFD",
            "\uFFFF",
            "-",
            "--help",
            "*",
            "?",
            "|",
            "<",
            ">",
            "\"",
            "'",
            "`id`",
            "$(id)",
            ";",
            "&",
            "#",
            "!",
            "{}",
            "[]",
            "null",
            "~",
            "true",
            "=1+1",
            "\uD83D\uDE00",
            "\uD83D\uDE00.csv",
            "\uD800",
            "\uDC00.csv",
            "e\u0301.csv",
            "\u00E9.csv",
            "desktop.ini",
            ".git/config",
            "visit.yaml",
            "run-1.csv/",
            "run-1.csv/.",
            "run-1.csv/x",
            "./run-1.csv",
            "link-to-outside.csv",
            "link-to-folder/outside.csv");

    private PathNames() {}

    /**
     * So many different names.
     *
     * @param outside an absolute path of a file that must not be read
     */
    public static List<String> of(int count, String outside, long seed) {
        Set<String> names = new LinkedHashSet<>(ALONE);
        names.add(outside);
        names.add("file://" + outside);
        names.add("/".repeat(20) + outside);
        for (int length : new int[] {255, 256, 300, 1_000, 4_096, 5_000}) {
            names.add("x".repeat(length));
            names.add("\uD83D\uDE00".repeat(length / 4) + ".csv");
            names.add("../".repeat(length / 3) + outside.substring(1));
        }
        for (String up : UP) {
            for (int times = 1; times <= 8; times++) {
                for (String end : ENDS) {
                    names.add(up.repeat(times) + end);
                }
            }
        }
        for (String root : ROOTS) {
            for (String end : ENDS) {
                names.add(root + end);
            }
        }
        List<String> fixed = new ArrayList<>(names);
        Random random = new Random(seed);
        while (names.size() < count) {
            String name = fixed.get(random.nextInt(fixed.size()));
            int at = random.nextInt(name.length() + 1);
            names.add(name.substring(0, at) + UP.get(random.nextInt(UP.size())) + name.substring(at));
        }
        List<String> all = new ArrayList<>(names);
        java.util.Collections.shuffle(all, random);
        return List.copyOf(all.subList(0, count));
    }
}
