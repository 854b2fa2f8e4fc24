package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.steamwright.assessment.calibration.CertificateFile;
import org.steamwright.assessment.trace.Recording;
import org.steamwright.intake.Question;
import org.steamwright.intake.ReadingChoices;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.certificate.DigitalCertificate;
import org.steamwright.intake.certificate.DigitalCertificates;
import org.steamwright.intake.certificate.TrustAnchors;
import org.steamwright.intake.certificate.UnreadableCertificateException;
import org.steamwright.intake.csv.CsvRecordings;

/** Shows how a recording was understood, before anything is judged. */
final class ReadCommand implements Command {

    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "Show how a recording or a certificate was understood.",
                "Columns, units, interval, gaps, clock, time zone, remarks and a small plot of letters.",
                "Judges nothing, writes nothing.");
        usage.argument("FILE", true, "A recording (CSV), or a digital calibration certificate (XML).");
        usage.value("--trust", "FOLDER", "Certificates of those whose signatures are trusted.");
        usage.flag("--no-input", "Never ask; what is missing is an error.");
        Reading.options(usage);
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright read run.csv", "steamwright read run.csv --zone Australia/Sydney",
                "steamwright read certificate.xml --trust laboratories");
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
        while (true) {
            try {
                Recording recording = CsvRecordings.read(path, choices(typed, answers));
                surroundings.say(RecordingText.of(recording));
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
        ReadingChoices.Builder builder = ReadingChoices.inZone(zone);
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
