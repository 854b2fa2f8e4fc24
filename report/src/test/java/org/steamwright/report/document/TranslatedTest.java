package org.steamwright.report.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.steamwright.report.document.ReportPdfTest.RIGHT_EDGE;
import static org.steamwright.report.document.ReportPdfTest.farthestRight;
import static org.steamwright.report.document.ReportPdfTest.squeezed;
import static org.steamwright.report.document.ReportPdfTest.text;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.steamwright.report.SampleVisits;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.picture.Pictures;
import org.steamwright.report.plot.Mark.Face;
import org.steamwright.visit.AssessedVisit;

/** Reports and certificates in German and French, read as text. */
final class TranslatedTest {

    /** Columns of the job sheet add up to a little more than the page is wide, in English too. */
    private static final double HALF_A_POINT = 0.5;

    private static final String LITERAL = "\"(?:[^\"\\\\\\n]|\\\\.)*\"";
    private static final Pattern TEXT = Pattern.compile(LITERAL + "(?:\\s*\\+\\s*" + LITERAL + ")*");
    private static final Pattern COMMENT = Pattern.compile("/\\*.*?\\*/|(?m)^\\s*//[^\\n]*", Pattern.DOTALL);

    /** A text of the program and not a tag, a class or a style: two words, or a place. */
    private static final Pattern WORDS = Pattern.compile(".*\\p{L}\\S* \\S+.*|.*%s.*", Pattern.DOTALL);

    private static List<AssessedVisit> visits = List.of();

    @BeforeAll
    static void assess() {
        visits = List.of(SampleVisits.full(), SampleVisits.job(), SampleVisits.borders(), SampleVisits.single());
    }

    @ParameterizedTest
    @EnumSource(
            value = Language.class,
            names = {"GERMAN", "FRENCH"})
    void nothing_that_the_report_says_itself_stays_english(Language language) throws IOException {
        Set<String> own = ownTexts();
        Set<String> unknown = new TreeSet<>();
        for (AssessedVisit visit : visits) {
            Speaker speaker = Speaker.of(language, Names.of(visit.visit()), unknown::add);
            ReportPdf.write(visit, Issued.NOT_SIGNED, Pictures.NONE, speaker, new ByteArrayOutputStream());
            CertificatePdf.write(visit, key(visit), Issued.NOT_SIGNED, speaker, new ByteArrayOutputStream());
        }
        assertThat(own).hasSizeGreaterThan(300);
        assertThat(unknown).as("what it says itself").doesNotContainAnyElementsOf(own);
        assertThat(unknown).as("templates are known").noneMatch(one -> one.contains("%s"));
    }

    @Test
    void every_text_in_the_sources_of_documents_and_pictures_is_in_the_catalogues() throws IOException {
        for (Language language : List.of(Language.GERMAN, Language.FRENCH)) {
            Set<String> english = catalogue(language);
            Set<String> missing = new TreeSet<>(ownTexts());
            missing.removeIf(text -> english.contains(text)
                    || english.stream().anyMatch(phrase -> phrase.endsWith(" " + text))
                    || english.stream().anyMatch(phrase -> phrase.startsWith(text + " ")));
            assertThat(missing).isEmpty();
        }
    }

    @Test
    void no_phrase_is_left_that_documents_and_pictures_do_not_say_any_more() throws IOException {
        String sources = String.join("\n", literals());
        Set<String> dead = new TreeSet<>(catalogue(Language.GERMAN));
        dead.removeIf(phrase -> sources.contains(phrase)
                || phrase.matches("%s or %s.*")
                || Stream.of("Steriliser %s ", "Simulated, not a real steriliser: steriliser %s ")
                        .anyMatch(begin ->
                                phrase.startsWith(begin) && sources.contains(" " + phrase.substring(begin.length()))));
        assertThat(dead).isSubsetOf("K", "°C", "kPa", "page", "of", "common practice", "standard");
    }

    @Test
    void a_german_report_has_german_headings_days_and_figures() throws IOException {
        String german = squeezed(text(print(visits.get(0), Language.GERMAN)));

        assertThat(german)
                .contains(
                        squeezed(
                                "Bericht über die Prüfung eines Dampfsterilisators. Die Aufzeichnung wird auf Englisch"),
                        squeezed("Was gefahren werden darf und bis wann"),
                        squeezed("Kanäle in der Haltezeit"),
                        squeezed("Messunsicherheitsbudgets"),
                        squeezed("25. November 2026"),
                        squeezed("0,13 kPa/min"),
                        squeezed("erweiterte Messunsicherheit"))
                .doesNotContain("0.13kPa/min", "Largestloadthatwastested", "holdingtime3");
    }

    @Test
    void a_task_and_its_caution_are_said_in_the_language_of_the_reader() throws IOException {
        assertThat(squeezed(text(print(visits.get(1), Language.GERMAN))))
                .contains(
                        squeezed("Schutzleiterwiderstand"),
                        squeezed("Nur durch Personen, die nach den örtlichen Vorschriften dafür befugt sind."))
                .doesNotContain(squeezed("Resistance of the protective earth"), squeezed("Only people licensed"));
    }

    @Test
    void a_french_report_has_french_headings_days_and_figures() throws IOException {
        String french = squeezed(text(print(visits.get(0), Language.FRENCH)).replace('\u00a0', ' '));

        assertThat(french)
                .contains(
                        squeezed("c’est le rapport anglais qui fait foi"),
                        squeezed("Ce qui peut être lancé, et jusqu’à quand"),
                        squeezed("Voies pendant le temps de maintien"),
                        squeezed("Bilans d’incertitude"),
                        squeezed("25 novembre 2026"),
                        squeezed("0,13 kPa/min"))
                .doesNotContain("0.13kPa/min", "Largestloadthatwastested");
    }

    @ParameterizedTest
    @EnumSource(
            value = Language.class,
            names = {"GERMAN", "FRENCH"})
    void it_takes_no_more_than_a_page_more_keeps_to_its_margin_and_says_its_language(Language language)
            throws IOException {
        for (AssessedVisit visit : visits) {
            byte[] printed = print(visit, language);
            assertThat(pages(printed)).isLessThanOrEqualTo(pages(print(visit, Language.ENGLISH)) + 1);
            assertThat(farthestRight(printed)).isLessThan(RIGHT_EDGE + HALF_A_POINT);
            try (PDDocument document = Loader.loadPDF(printed)) {
                assertThat(document.getDocumentCatalog().getLanguage()).startsWith(language.code());
                assertThat(document.getDocumentInformation().getTitle())
                        .doesNotContain("report", "without")
                        .endsWith(visit.visit().reportNumber());
            }
            ByteArrayOutputStream certificate = new ByteArrayOutputStream();
            CertificatePdf.write(visit, key(visit), Issued.NOT_SIGNED, language, certificate);
            assertThat(pages(certificate.toByteArray())).isEqualTo(1);
        }
    }

    @Test
    void each_page_has_its_number_and_how_the_report_stands() throws IOException {
        byte[] printed = print(visits.get(0), Language.GERMAN);
        try (PDDocument document = Loader.loadPDF(printed)) {
            PDFTextStripper stripper = new PDFTextStripper();
            stripper.setSortByPosition(true);
            stripper.setStartPage(2);
            stripper.setEndPage(2);
            assertThat(squeezed(stripper.getText(document)))
                    .contains(
                            "SIMULIERT",
                            "nichtunterschrieben",
                            "PrüfberichtSterilisatorR-2026-0117",
                            "Seite2von" + document.getNumberOfPages());
        }
    }

    @Test
    void a_signed_interim_issue_tells_its_last_day_in_the_language_of_the_reader() throws IOException {
        Issued.Signature signature = new Issued.Signature(
                "Kim Sample (invented)",
                "technician",
                "performed and recorded",
                java.time.OffsetDateTime.parse("2026-03-02T17:31:08+10:30"),
                "key-1",
                "ab".repeat(32),
                417,
                "cd".repeat(32));
        Issued interim = new Issued(1, Optional.of(signature), Optional.of(LocalDate.of(2026, 3, 16)), "", "");
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        CertificatePdf.write(visits.get(0), key(visits.get(0)), interim, Language.GERMAN, out);

        assertThat(squeezed(text(out.toByteArray())))
                .contains(squeezed("Endet von selbst nach dem 16. März 2026."), squeezed("2. März 2026, 17:31:08"));
    }

    @Test
    void english_sentences_of_people_are_marked_as_english() {
        Sheet sheet = new Sheet(Speaker.of(Language.GERMAN, Set.of()));
        sheet.paragraph("The tray is of the old kind.").paragraph("Befunde");

        assertThat(sheet.html().toString())
                .contains("<span lang=\"en\">The tray is of the old kind.</span>", "<p>Befunde</p>");
    }

    @Test
    void the_type_face_has_every_letter_of_the_catalogues() throws IOException {
        StringBuilder letters = new StringBuilder();
        for (Language language : Language.values()) {
            try (Stream<String> lines = lines("findings", language)) {
                lines.forEach(letters::append);
            }
            try (Stream<String> lines = lines("report", language)) {
                lines.forEach(letters::append);
            }
            try (Stream<String> lines = lines("lists", language)) {
                lines.forEach(letters::append);
            }
        }
        try (PDDocument document = new PDDocument()) {
            Typeface typeface = Typeface.read().embed(document);
            for (Face face : Face.values()) {
                String shown = Typeface.printable(typeface.font(face), letters.toString());
                assertThat(letters.chars().filter(letter -> shown.indexOf(letter) < 0))
                        .as("letters without a glyph in " + face)
                        .isEmpty();
            }
        }
    }

    private static Stream<String> lines(String room, Language language) throws IOException {
        if (language == Language.ENGLISH) {
            return Stream.empty();
        }
        Path file = Path.of(
                "src",
                "main",
                "resources",
                "org",
                "steamwright",
                "report",
                "language",
                room + "_" + language.code() + ".txt");
        return Files.readAllLines(file).stream();
    }

    private static Set<String> catalogue(Language language) throws IOException {
        Set<String> english = new LinkedHashSet<>();
        try (Stream<String> lines = lines("report", language)) {
            lines.filter(line -> line.startsWith("> ")).forEach(line -> english.add(line.substring(2)));
        }
        return english;
    }

    private static Set<String> ownTexts() throws IOException {
        Set<String> own = new LinkedHashSet<>();
        for (String literal : literals()) {
            String text = literal.strip();
            boolean isStyle = text.matches(
                    ".*(?:mm|pt)(?:;.*)?|[a-z]+(?: [a-z]+)?|wide small aside|.*%\\.\\d.*|.*\\[.*|.*xml.*|HH.*|d M.*");
            if (WORDS.matcher(text).matches() && !(isStyle && !text.contains("%s")) && text.matches(".*\\p{L}.*")) {
                own.add(text);
            }
        }
        own.removeIf(text -> text.replace("%s", "").codePoints().noneMatch(Character::isLetter));
        return own;
    }

    /** Every text in the sources of what speaks, pieces joined; without what speaks to programmers. */
    private static List<String> literals() throws IOException {
        List<String> all = new ArrayList<>();
        for (String room : List.of("document", "plot", "picture")) {
            Path folder = Path.of("src", "main", "java", "org", "steamwright", "report", room);
            try (Stream<Path> files = Files.walk(folder)) {
                for (Path file : files.filter(
                                one -> isSpeaking(one.getFileName().toString()))
                        .toList()) {
                    String source = COMMENT.matcher(Files.readString(file)).replaceAll("");
                    Matcher text = TEXT.matcher(source);
                    while (text.find()) {
                        String before = source.substring(Math.max(0, text.start() - 160), text.start());
                        if (!before.matches("(?s).*(?:Exception|Pattern\\.compile|ofPattern)\\([^;]*")) {
                            all.add(text.group()
                                    .replaceAll("\"\\s*\\+\\s*\"", "")
                                    .replaceAll("^\"|\"$", "")
                                    .replace("\\u2003", "\u2003"));
                        }
                    }
                }
            }
        }
        return all;
    }

    private static boolean isSpeaking(String name) {
        return name.endsWith(".java")
                && !Set.of(
                                "package-info.java",
                                "Identity.java",
                                "Typeface.java",
                                "DrawingPrinter.java",
                                "SrgbProfile.java",
                                "PlotJson.java",
                                "SvgWriter.java",
                                "DrawnSignature.java",
                                "Photos.java",
                                "PrintedPhoto.java")
                        .contains(name);
    }

    private static String key(AssessedVisit visit) {
        return visit.visit().sterilizers().get(0).key();
    }

    private static byte[] print(AssessedVisit visit, Language language) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        ReportPdf.write(visit, Issued.NOT_SIGNED, Pictures.NONE, language, out);
        return out.toByteArray();
    }

    private static int pages(byte[] pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            return document.getNumberOfPages();
        }
    }
}
