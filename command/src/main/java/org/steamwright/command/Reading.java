package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.profile.ReadingProfiles;

/** The options that tell how a recording is to be read; shared by the commands that read one. */
final class Reading {
    /** Options with one value, and the key that each answers. */
    static final Map<String, String> KEYS = new LinkedHashMap<>();

    /** Options of the form COLUMN=WORD, and the key that each answers. */
    static final Map<String, String> COLUMN_KEYS = new LinkedHashMap<>();

    static {
        KEYS.put("--zone", "zone");
        KEYS.put("--date-order", "date-order");
        KEYS.put("--decimal-mark", "decimal-mark");
        KEYS.put("--delimiter", "delimiter");
        KEYS.put("--encoding", "charset");
        KEYS.put("--time-unit", "time-unit");
        KEYS.put("--clock", "clock");
        KEYS.put("--start", "start");
        KEYS.put("--sheet", "sheet");
        KEYS.put("--from", "from");
        KEYS.put("--to", "to");
        KEYS.put("--profile", "profile");
        COLUMN_KEYS.put("--unit", "unit");
        COLUMN_KEYS.put("--pressure", "reference");
    }

    /** A word about a column. */
    record ColumnWord(String column, String word) {}

    /** The option that names the folder of reading profiles. */
    static final String PROFILES = "--profiles";

    private Reading() {}

    /** The folder of reading profiles for a recording. */
    static Path profileFolder(Typed typed, Path file, Surroundings surroundings) {
        return typed.find(PROFILES)
                .map(surroundings::resolve)
                .orElseGet(() -> file.resolveSibling(ReadingProfiles.FOLDER));
    }

    /**
     * The folder that was named for reading profiles.
     *
     * @throws Refusal if it is not there
     */
    static Optional<Path> givenProfiles(Typed typed, Surroundings surroundings) throws Refusal {
        Optional<Path> folder = typed.find(PROFILES).map(surroundings::resolve);
        if (folder.isPresent() && !Files.isDirectory(folder.get())) {
            throw new Refusal(
                    ExitStatus.USAGE, PROFILES + " " + typed.find(PROFILES).get() + ": there is no such folder.");
        }
        return folder;
    }

    /** The reading profiles for a recording. */
    static ReadingProfiles profiles(Typed typed, Path file, Surroundings surroundings)
            throws Refusal, IOException, UnreadableFileException {
        Path folder = profileFolder(typed, file, surroundings);
        if (!Files.isDirectory(folder)) {
            if (typed.find(PROFILES).isPresent() && !typed.isSet("--keep-profile")) {
                throw new Refusal(
                        ExitStatus.USAGE, PROFILES + " " + typed.find(PROFILES).get() + ": there is no such folder.");
            }
            return ReadingProfiles.none();
        }
        return ReadingProfiles.in(List.of(folder));
    }

    static void options(Usage usage) {
        usage.values("--unit", "COLUMN=UNIT", "Unit of a column: 'T1=°C', or 'T1=skip'. May be repeated.");
        usage.values(
                "--pressure",
                "[COLUMN=]KIND",
                "Whether pressures are absolute or gauge: gauge, 'P1=absolute'. May be repeated.");
        usage.value("--zone", "ZONE", "Time zone of the clock in the file: Australia/Sydney.");
        usage.value("--date-order", "ORDER", "Order of day, month and year: DMY, MDY or YMD.");
        usage.value("--decimal-mark", "MARK", "Decimal mark: point or comma.");
        usage.value("--delimiter", "MARK", "What parts the columns: comma, semicolon, tab or pipe.");
        usage.value("--encoding", "NAME", "Encoding of the file: UTF-8, windows-1252.");
        usage.value("--sheet", "NAME", "Sheet of a workbook that holds the recording.");
        usage.value("--time-unit", "UNIT", "Unit of a time column of plain numbers: s, min, h, ms.");
        usage.value(
                "--clock",
                "WORD",
                "no-daylight-saving for a logger whose clock nobody puts forward in summer; otherwise"
                        + " daylight-saving.");
        usage.value("--start", "MOMENT", "Moment at which elapsed time was zero: 2026-03-02T09:00:00Z.");
        usage.value(
                "--from", "TIME", "First time to read of a long file: '2026-03-02 09:00', or 00:10:00 without dates.");
        usage.value("--to", "TIME", "Last time to read of a long file.");
        usage.value("--profile", "NAME", "The reading profile to use where several fit, or none.");
        usage.value(
                PROFILES,
                "FOLDER",
                "Where reading profiles lie; without it the folder readings beside the file. For a visit, where more of them lie.");
    }

    static ColumnWord columnWord(String option, String said) throws Refusal {
        int equals = said.lastIndexOf('=');
        if (equals <= 0 || equals == said.length() - 1) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    option + " '" + said + "': expected a column and a word with = between them, such as " + option
                            + " 'T1=" + (option.equals("--unit") ? "°C" : option.equals("--channel") ? "load" : "gauge")
                            + "'.");
        }
        return new ColumnWord(
                said.substring(0, equals).strip(), said.substring(equals + 1).strip());
    }

    /** What was said for all pressures at once. */
    static Optional<PressureReference> everyPressure(Typed typed) throws Refusal {
        for (String said : typed.all("--pressure")) {
            if (said.indexOf('=') < 0) {
                return Optional.of(
                        switch (said.strip().toLowerCase(Locale.ROOT)) {
                            case "absolute", "abs" -> PressureReference.ABSOLUTE;
                            case "gauge" -> PressureReference.GAUGE;
                            default ->
                                throw new Refusal(
                                        ExitStatus.USAGE,
                                        "--pressure " + said + ": expected absolute or gauge, or a column and one of"
                                                + " them, such as 'P1=gauge'.");
                        });
            }
        }
        return Optional.empty();
    }

    static String word(PressureReference reference) {
        return reference == PressureReference.ABSOLUTE ? "absolute" : "gauge";
    }
}
