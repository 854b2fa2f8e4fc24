package org.steamwright.desk.accounts;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;

/**
 * What a browser says of itself, in two words that its user knows again. It is what was said, not what is so: nothing is decided
 * by it.
 *
 * @param browser name; blank if none is known
 * @param system name; blank if none is known
 */
record Device(String browser, String system) {

    /** Looked for in this order: most browsers also name those that they want to be taken for. */
    private static final Map<String, String> BROWSERS = ordered(
            "edg",
            "Edge",
            "opr/",
            "Opera",
            "firefox/",
            "Firefox",
            "fxios",
            "Firefox",
            "crios",
            "Chrome",
            "chrome/",
            "Chrome",
            "safari/",
            "Safari");

    private static final Map<String, String> SYSTEMS = ordered(
            "ipad",
            "iPad",
            "iphone",
            "iPhone",
            "android",
            "Android",
            "windows",
            "Windows",
            "mac os",
            "Mac",
            "cros",
            "ChromeOS",
            "linux",
            "Linux");

    private static Map<String, String> ordered(String... marks) {
        Map<String, String> ordered = new LinkedHashMap<>();
        for (int i = 0; i < marks.length; i += 2) {
            ordered.put(marks[i], marks[i + 1]);
        }
        return ordered;
    }

    /** What a User-Agent header names. */
    static Device of(String userAgent) {
        String said = userAgent.toLowerCase(Locale.ROOT);
        return new Device(first(said, BROWSERS), first(said, SYSTEMS));
    }

    private static String first(String said, Map<String, String> marks) {
        return marks.entrySet().stream()
                .filter(mark -> said.contains(mark.getKey()))
                .findFirst()
                .map(Map.Entry::getValue)
                .orElse("");
    }
}
