package org.steamwright.command;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.Recordings;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.certificate.DigitalCertificate;
import org.steamwright.intake.certificate.DigitalCertificates;
import org.steamwright.intake.certificate.TrustAnchors;
import org.steamwright.intake.certificate.UnreadableCertificateException;
import org.steamwright.intake.profile.ReadingProfile;
import org.steamwright.intake.profile.ReadingProfiles;

/** Shows how a recording was understood, before anything is judged. */
final class ReadCommand implements Command {

    private static final String KEEP = "--keep-profile";

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Show how a recording or a certificate was understood.",
                "Columns, units, interval, gaps, clock, time zone, remarks and a small plot of letters.",
                "Judges nothing; writes nothing unless a reading profile is to be kept.");
        usage.argument("FILE", true, "A recording (CSV or XLSX), or a digital calibration certificate (XML).");
        usage.value("--trust", "FOLDER", "Certificates of those whose signatures are trusted.");
        usage.flag("--no-input", "Never ask; what is missing is an error.");
        Reading.options(usage);
        usage.value(
                KEEP,
                "NAME",
                "Keep what was answered as a reading profile, so that the next file of this logger finds it.");
        usage.value("--raw", "ROW", "Show one row of the file as it stands there, cell by cell.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of(
                "steamwright read run.csv",
                "steamwright read run.csv --zone Australia/Sydney",
                "steamwright read run.csv --date-order DMY --keep-profile kitchen-logger",
                "steamwright read demo/certificates/TL-01.xml");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        String name = typed.findArgument(0).orElseThrow();
        Path path = surroundings.resolve(name);
        if (Files.isDirectory(path)) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    name + " is a folder; this command reads one recording.",
                    "'steamwright assess " + name + "' assesses a visit folder.");
        }
        if (DigitalCertificates.isXml(path)) {
            DigitalCertificate certificate = certificate(path, typed, surroundings);
            surroundings.say(CertificateText.of(certificate));
            boolean isForged = certificate.signature().answer() == CertificateFile.Signature.BAD;
            return isForged ? ExitStatus.UNREADABLE : ExitStatus.PASS;
        }
        boolean isAsking = surroundings.terminal().isAsking() && !typed.isSet("--no-input");
        Map<String, String> answers = answers(typed);
        Optional<String> keep = typed.find(KEEP);
        if (keep.isPresent() && !ReadingProfile.isName(keep.get())) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    KEEP + " " + keep.get() + ": expected small letters, digits and hyphens, such as kitchen-logger.");
        }
        while (true) {
            try {
                ReadingProfiles profiles = Reading.profiles(typed, path, surroundings);
                ReadingChoices choices = profiles.complete(path, choices(typed, answers));
                if (typed.find("--raw").isPresent()) {
                    return raw(path, choices, typed.find("--raw").get(), surroundings);
                }
                Recording recording = Recordings.read(path, choices);
                surroundings.say(RecordingText.of(recording));
                if (keep.isPresent()) {
                    keep(typed, path, answers, surroundings);
                }
                return ExitStatus.PASS;
            } catch (UnreadableFileException unreadable) {
                if (unreadable.questions().isEmpty()) {
                    throw AssessCommand.unreadable(unreadable);
                }
                int before = answers.size();
                if (isAsking) {
                    Asking.ask(unreadable.questions(), answers, surroundings);
                }
                if (answers.size() == before) {
                    throw open(name, unreadable.questions());
                }
            }
        }
    }

    /** Keeps the answers; a profile that is there already is left as it is. */
    private static void keep(Typed typed, Path path, Map<String, String> answers, Surroundings surroundings)
            throws Refusal, IOException, UnreadableFileException {
        Map<String, String> all = new LinkedHashMap<>(answers);
        typed.find("--zone").ifPresent(zone -> all.put("zone", zone));
        String name = typed.find(KEEP).orElseThrow();
        Path folder = Reading.profileFolder(typed, path, surroundings);
        try {
            Path kept = ReadingProfiles.keep(folder, name, path, all);
            surroundings.say(List.of("", "Kept as reading profile " + name + ": " + surroundings.shown(kept)));
        } catch (FileAlreadyExistsException there) {
            throw new Refusal(
                    ExitStatus.USAGE,
                    KEEP + " " + name
                            + ": there is a reading profile of that name with other content; it was left as it is.",
                    "Choose another name, or take the old file away first.");
        } catch (IllegalArgumentException nothing) {
            throw new Refusal(ExitStatus.USAGE, KEEP + " " + name + ": " + nothing.getMessage() + ".");
        }
    }

    private static ExitStatus raw(Path path, ReadingChoices choices, String said, Surroundings surroundings)
            throws Refusal, IOException, UnreadableFileException {
        if (!said.matches("[1-9][0-9]{0,8}")) {
            throw new Refusal(ExitStatus.USAGE, "--raw " + said + ": expected the number of a row, such as 812.");
        }
        int row = Integer.parseInt(said);
        List<String> cells = Recordings.cells(path, choices, row);
        List<String> lines = new ArrayList<>();
        lines.add(path.getFileName() + ", row " + row
                + (cells.isEmpty() ? ": there is no such row, or it is blank" : ""));
        for (int i = 0; i < cells.size(); i++) {
            lines.add("  " + VerdictText.leftPadded(Integer.toString(i + 1), 3) + "  \"" + cells.get(i) + "\"");
        }
        surroundings.say(lines);
        return ExitStatus.PASS;
    }

    private static DigitalCertificate certificate(Path path, Typed typed, Surroundings surroundings)
            throws Refusal, IOException {
        TrustAnchors trust = TrustAnchors.NONE;
        if (typed.find("--trust").isPresent()) {
            String folder = typed.find("--trust").get();
            if (!Files.isDirectory(surroundings.resolve(folder))) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        "--trust " + folder + ": there is no such folder.",
                        "Name a folder with the certificates of those whose signatures you trust.");
            }
            trust = TrustAnchors.of(surroundings.resolve(folder));
        }
        try {
            return DigitalCertificates.read(path, trust);
        } catch (UnreadableCertificateException unreadable) {
            throw new Refusal(ExitStatus.UNREADABLE, String.valueOf(unreadable.getMessage()));
        }
    }

    private static Refusal open(String name, List<Question> questions) {
        List<String> lines = new ArrayList<>();
        lines.add(name + " leaves something open that only a person can tell:");
        for (Question question : questions) {
            lines.add("  " + question.text() + " " + question.evidence());
            lines.add("    " + Declared.option(question));
        }
        return new Refusal(ExitStatus.USAGE, lines);
    }

    private static Map<String, String> answers(Typed typed) throws Refusal {
        Map<String, String> answers = new LinkedHashMap<>();
        for (Map.Entry<String, String> key : Reading.KEYS.entrySet()) {
            if (!key.getKey().equals("--zone")) {
                typed.find(key.getKey()).ifPresent(value -> answers.put(key.getValue(), value));
            }
        }
        for (Map.Entry<String, String> key : Reading.COLUMN_KEYS.entrySet()) {
            for (String said : typed.all(key.getKey())) {
                if (key.getKey().equals("--pressure") && said.indexOf('=') < 0) {
                    throw new Refusal(
                            ExitStatus.USAGE,
                            "--pressure " + said + ": name the column here, such as --pressure 'P1=" + said + "'.");
                }
                Reading.ColumnWord word = Reading.columnWord(key.getKey(), said);
                answers.put(key.getValue() + ":" + word.column(), word.word());
            }
        }
        return answers;
    }

    private static ReadingChoices choices(Typed typed, Map<String, String> answers) throws Refusal {
        ZoneId zone = ZoneOffset.UTC;
        boolean isSaid = typed.find("--zone").isPresent();
        if (typed.find("--zone").isPresent()) {
            String said = typed.find("--zone").get();
            try {
                zone = ZoneId.of(said);
            } catch (DateTimeException unknown) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        "--zone " + said + ": there is no time zone of that name.",
                        "Write region and city, such as Australia/Sydney or Europe/Zurich, or an offset such as"
                                + " +09:30.");
            }
        }
        ReadingChoices.Builder builder = isSaid ? ReadingChoices.inZone(zone) : ReadingChoices.supposingZone(zone);
        for (Map.Entry<String, String> answer : answers.entrySet()) {
            try {
                builder.answer(answer.getKey(), answer.getValue());
            } catch (IllegalArgumentException wrong) {
                throw new Refusal(ExitStatus.USAGE, String.valueOf(wrong.getMessage()));
            }
        }
        return builder.build();
    }
}
