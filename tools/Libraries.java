import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;

/**
 * Lists the libraries that are shipped: version, day of the newest file inside the jar, age in days. Those older than a year are
 * marked, and so are those whose jar states no day. Reads the jars that the build has copied and asks nobody.
 *
 * <p>From the root of a built clone: {@code java tools/Libraries.java}
 */
final class Libraries {

    private static final Pattern NAME = Pattern.compile("(.+?)-([0-9][0-9A-Za-z.]*(?:-[0-9A-Za-z.]+)?)\\.jar");
    private static final Set<String> OWN =
            Set.of("assessment", "visit", "intake", "criteria-sets", "simulator", "records", "report", "filing");

    /** Jars that are built the same from the same sources carry a fixed day of the past, which says nothing. */
    private static final LocalDate FIRST_BELIEVED = LocalDate.of(2002, 1, 1);

    private static final int OLD_DAYS = 365;

    private Libraries() {}

    public static void main(String[] arguments) throws IOException {
        LocalDate today = LocalDate.now(ZoneOffset.UTC);
        TreeMap<String, String> lines = new TreeMap<>();
        for (String door : new String[] {"command", "desk"}) {
            Path folder = Path.of(door, "target", "lib");
            if (!Files.isDirectory(folder)) {
                System.err.println(folder + " is not there; build first: ./steamwright --version; ./steamwright desk --help");
                System.exit(69);
            }
            try (Stream<Path> jars = Files.list(folder)) {
                for (Path jar : jars.sorted().toList()) {
                    Matcher name = NAME.matcher(jar.getFileName().toString());
                    if (name.matches() && !OWN.contains(name.group(1))) {
                        lines.put(jar.getFileName().toString(), line(name.group(1), name.group(2), newest(jar), today));
                    }
                }
            }
        }
        System.out.println(line("library", "version", "newest file", "days", ""));
        lines.values().forEach(System.out::println);
    }

    private static LocalDate newest(Path jar) throws IOException {
        try (ZipFile zip = new ZipFile(jar.toFile())) {
            return zip.stream()
                    .map(ZipEntry::getTimeLocal)
                    .map(java.time.LocalDateTime::toLocalDate)
                    .max(LocalDate::compareTo)
                    .orElse(LocalDate.EPOCH);
        }
    }

    private static String line(String name, String version, LocalDate newest, LocalDate today) {
        if (newest.isBefore(FIRST_BELIEVED)) {
            return line(name, version, "not stated", "?", "! look it up");
        }
        long days = ChronoUnit.DAYS.between(newest, today);
        return line(name, version, newest.toString(), Long.toString(days), days > OLD_DAYS ? "! older than a year" : "");
    }

    private static String line(String name, String version, String newest, String days, String mark) {
        return String.format(Locale.ROOT, "%-44s %-22s %-12s %6s  %s", name, version, newest, days, mark).stripTrailing();
    }
}
