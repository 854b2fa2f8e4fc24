package org.steamwright.command;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.assessment.propagation.Propagation;
import org.steamwright.criteriasets.Presets;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.folder.VisitFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.report.document.CertificatePdf;
import org.steamwright.report.document.Issued;
import org.steamwright.report.document.ReportPdf;
import org.steamwright.report.language.Language;
import org.steamwright.report.picture.Pictures;
import org.steamwright.report.result.ResultJson;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Visits;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Sterilizer;

/** The way from a visit to what is printed and written; shared by the commands that assess. */
final class Assessing {
    /** Name of the result beside the visit file. */
    static final String RESULT = "result.json";

    private static final String PHOTOS = "photos";
    private static final long LARGEST_PICTURE = 50_000_000;

    /**
     * What the caller wants to see.
     *
     * @param isJson the result to standard output and nothing else
     * @param isPlain one fact a line
     * @param isQuiet nothing but errors
     * @param isReporting the report is made
     * @param isCertifying a certificate of one page is made for each steriliser
     * @param isWriting files are written
     * @param folder for the files
     * @param isReplacing an earlier result of the same recordings gives way
     * @param propagation by which figures get their intervals
     * @param pictures of the visit, for the report
     * @param languages of the report and the certificates
     */
    record Wishes(
            boolean isJson,
            boolean isPlain,
            boolean isQuiet,
            boolean isReporting,
            boolean isCertifying,
            boolean isWriting,
            Path folder,
            boolean isReplacing,
            Propagation propagation,
            Pictures pictures,
            List<Language> languages) {
        Wishes {
            languages = List.copyOf(languages);
        }
    }

    private Assessing() {}

    /** Reads a visit folder, assesses it and shows what came out. */
    static ExitStatus folder(
            Path path,
            Optional<String> criteria,
            Optional<Path> earlier,
            Optional<Path> profiles,
            Wishes wishes,
            Surroundings surroundings)
            throws Refusal, IOException {
        CriteriaSets sets = new Presets();
        Visit visit;
        try {
            surroundings.progress("reading " + surroundings.shown(path) + " …");
            visit = VisitFolder.read(
                    path, sets, earlier.stream().toList(), profiles.stream().toList());
        } catch (VisitFolderException unusable) {
            throw unreadable(unusable);
        }
        if (criteria.isPresent()) {
            visit = visit.judgedBy(CriteriaChoice.of(criteria.get(), sets, surroundings));
        }
        return visit(visit, false, wishes, surroundings);
    }

    /** Pictures that lie in a visit folder; a name that leads out of it finds nothing. */
    static Pictures picturesIn(Path folder) throws IOException {
        Path root = folder.toAbsolutePath().normalize();
        List<String> names = new ArrayList<>();
        if (Files.isDirectory(root.resolve(PHOTOS))) {
            try (DirectoryStream<Path> photos = Files.newDirectoryStream(root.resolve(PHOTOS))) {
                photos.forEach(photo -> names.add(PHOTOS + "/" + photo.getFileName()));
            }
        }
        return Pictures.of(names, name -> {
            Path file = root.resolve(name).normalize();
            boolean isThere = file.startsWith(root) && Files.isRegularFile(file) && Files.size(file) <= LARGEST_PICTURE;
            return isThere ? Optional.of(Files.readAllBytes(file)) : Optional.empty();
        });
    }

    /** All problems of a folder at once. */
    static Refusal unreadable(VisitFolderException unusable) {
        List<String> lines = new ArrayList<>();
        int count = unusable.problems().size();
        lines.add(
                count == 1
                        ? "the visit can't be read; nothing was assessed."
                        : "the visit can't be read, " + count + " problems; nothing was assessed.");
        for (Problem problem : unusable.problems()) {
            lines.add("  " + problem);
        }
        return new Refusal(ExitStatus.UNREADABLE, lines);
    }

    /** Assesses a visit and shows what came out. */
    static ExitStatus visit(Visit visit, boolean isSingle, Wishes wishes, Surroundings surroundings)
            throws IOException {
        surroundings.progress("assessing " + visit.runs().size() + (visit.runs().size() == 1 ? " run …" : " runs …"));
        AssessedVisit assessed = Visits.assess(visit).propagatedBy(wishes.propagation());
        surroundings.progress("");
        ByteArrayOutputStream json = new ByteArrayOutputStream(1 << 16);
        if (wishes.isJson() || wishes.isWriting()) {
            ResultJson.write(assessed, json);
        }
        if (wishes.isJson()) {
            json.writeTo(surroundings.out());
        } else if (wishes.isPlain()) {
            surroundings.say(VerdictText.plain(assessed));
        } else if (!wishes.isQuiet()) {
            surroundings.say(new VerdictText(surroundings.terminal().isStyled()).of(assessed, isSingle));
        }
        if (wishes.isWriting()) {
            write(assessed, json.toByteArray(), wishes, surroundings);
        }
        return isSingle ? statusOf(assessed.runs()) : statusOf(assessed);
    }

    private static void write(AssessedVisit assessed, byte[] json, Wishes wishes, Surroundings surroundings)
            throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        files.put(RESULT, json);
        if (wishes.isReporting()) {
            surroundings.progress("making the report …");
            files.putAll(reports(assessed, Issued.NOT_SIGNED, wishes.pictures(), wishes.languages()));
            surroundings.progress("");
        }
        if (wishes.isCertifying()) {
            files.putAll(certificates(assessed, Issued.NOT_SIGNED, wishes.languages()));
        }
        List<OutputFiles.Placed> placed = OutputFiles.place(wishes.folder(), files, wishes.isReplacing());
        for (OutputFiles.Placed file : placed) {
            String path = surroundings.shown(file.path());
            if (wishes.isPlain()) {
                surroundings.say("file\t" + Fates.word(file.fate()) + "\t" + path);
            } else if (!wishes.isQuiet() && !wishes.isJson()) {
                surroundings.say(Fates.sentence(file.fate(), path));
            }
        }
    }

    /** Puts files into a folder, and tells what became of each. */
    static void place(Map<String, byte[]> files, Path folder, boolean isReplacing, Surroundings surroundings)
            throws IOException {
        for (OutputFiles.Placed file : OutputFiles.place(folder, files, isReplacing)) {
            surroundings.say(Fates.sentence(file.fate(), surroundings.shown(file.path())));
        }
    }

    /** Name of the report beside the visit file. */
    static String report(Language language) {
        return "report" + language.ending(".pdf");
    }

    /** The report of a visit in each language, by file names. */
    static Map<String, byte[]> reports(
            AssessedVisit assessed, Issued issued, Pictures pictures, List<Language> languages) throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        for (Language language : languages) {
            ByteArrayOutputStream pdf = new ByteArrayOutputStream(1 << 18);
            ReportPdf.write(assessed, issued, pictures, language, pdf);
            files.put(report(language), pdf.toByteArray());
        }
        return files;
    }

    /** The certificates of a visit by their file names, one for each steriliser and language. */
    static Map<String, byte[]> certificates(AssessedVisit assessed, Issued issued, List<Language> languages)
            throws IOException {
        Map<String, byte[]> files = new LinkedHashMap<>();
        for (Sterilizer sterilizer : assessed.visit().sterilizers()) {
            for (Language language : languages) {
                ByteArrayOutputStream pdf = new ByteArrayOutputStream(1 << 16);
                CertificatePdf.write(assessed, sterilizer.key(), issued, language, pdf);
                files.put(CertificatePdf.fileName(sterilizer, language), pdf.toByteArray());
            }
        }
        return files;
    }

    /** The words for what became of a file. */
    private static final class Fates {
        static String word(OutputFiles.Fate fate) {
            return switch (fate) {
                case WRITTEN -> "written";
                case REPLACED -> "replaced";
                case UNCHANGED -> "unchanged";
            };
        }

        static String sentence(OutputFiles.Fate fate, String path) {
            return switch (fate) {
                case WRITTEN -> "Written: " + path;
                case REPLACED -> "Replaced: " + path;
                case UNCHANGED -> "Already there, unchanged: " + path;
            };
        }
    }

    /** The status of a whole visit: a run that failed and was not made good by its qualification is a fail. */
    static ExitStatus statusOf(AssessedVisit assessed) {
        if (assessed.standing() == Qualification.Standing.PASS) {
            return ExitStatus.PASS;
        }
        if (assessed.standing() == Qualification.Standing.FAIL) {
            return ExitStatus.FAIL;
        }
        return statusOf(assessed.runs()) == ExitStatus.FAIL ? ExitStatus.FAIL : ExitStatus.OPEN;
    }

    private static ExitStatus statusOf(List<AssessedRun> runs) {
        if (!runs.isEmpty() && runs.stream().allMatch(AssessedRun::isPass)) {
            return ExitStatus.PASS;
        }
        boolean isFailed = runs.stream().anyMatch(run -> run.word().equals("fail"));
        return isFailed ? ExitStatus.FAIL : ExitStatus.OPEN;
    }

    /** Whether a path names a visit and not a single recording. */
    static boolean isVisit(Path path) {
        String name = path.getFileName() == null ? "" : path.getFileName().toString();
        return Files.isDirectory(path) || name.endsWith(".yaml") || name.endsWith(".yml");
    }
}
