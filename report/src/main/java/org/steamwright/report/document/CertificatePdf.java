package org.steamwright.report.document;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.util.List;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.language.Speaker;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.Whole;
import org.steamwright.visit.qualification.Qualification;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.validity.QualifiedCycle;
import org.steamwright.visit.validity.ValidatedState;

/**
 * Writes the certificate of one steriliser: the answer of a visit on one page, in plain words, for the wall of the room and
 * for an auditor who reads one page.
 *
 * <p>It is drawn from the same results as the report and names it. Where one page is too short, the type becomes smaller,
 * then the things of each load are counted instead of listed; if that does not do either, it takes a second page: nothing is
 * cut off.
 */
public final class CertificatePdf {

    private final AssessedVisit assessed;
    private final Visit visit;
    private final ValidatedState state;
    private final Sterilizer sterilizer;
    private final Issued issued;
    private final Sheet sheet;
    private final boolean isItemised;

    private CertificatePdf(
            AssessedVisit assessed, ValidatedState state, Issued issued, boolean isItemised, Speaker speaker) {
        this.sheet = new Sheet(speaker);
        this.assessed = assessed;
        this.visit = assessed.visit();
        this.state = state;
        this.sterilizer = visit.getSterilizer(state.sterilizer());
        this.issued = issued;
        this.isItemised = isItemised;
    }

    /** How much there is room for, from the most readable on. */
    private enum Room {
        USUAL("one-page", true),
        SMALL("tight", true),
        COUNTED("tight", false);

        private final String bodyClass;
        private final boolean isItemised;

        Room(String bodyClass, boolean isItemised) {
            this.bodyClass = bodyClass;
            this.isItemised = isItemised;
        }
    }

    /**
     * Writes the certificate in English. The stream is not closed.
     *
     * @param assessed the visit
     * @param sterilizer key of the steriliser in the visit
     * @param issued how the report of the visit stands
     * @throws IOException if the stream can't be written
     * @throws IllegalArgumentException if the visit has no steriliser of that key
     */
    public static void write(AssessedVisit assessed, String sterilizer, Issued issued, OutputStream out)
            throws IOException {
        write(assessed, sterilizer, issued, Language.ENGLISH, out);
    }

    /**
     * Writes the certificate. The stream is not closed.
     *
     * @param assessed the visit
     * @param sterilizer key of the steriliser in the visit
     * @param issued how the report of the visit stands
     * @param language of the reader
     * @throws IOException if the stream can't be written
     * @throws IllegalArgumentException if the visit has no steriliser of that key
     */
    public static void write(
            AssessedVisit assessed, String sterilizer, Issued issued, Language language, OutputStream out)
            throws IOException {
        write(assessed, sterilizer, issued, Speaker.of(language, Names.of(assessed.visit())), out);
    }

    static void write(AssessedVisit assessed, String sterilizer, Issued issued, Speaker speaker, OutputStream out)
            throws IOException {
        ValidatedState state = ValidatedState.of(assessed).stream()
                .filter(one -> one.sterilizer().equals(sterilizer))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no steriliser " + sterilizer + " in this visit"));
        PdfPrinter printer = new PdfPrinter(
                assessed,
                "Certificate to report %s",
                List.of(assessed.visit().getSterilizer(sterilizer)),
                issued,
                speaker);
        ByteArrayOutputStream pdf = new ByteArrayOutputStream(1 << 16);
        for (Room room : Room.values()) {
            CertificatePdf certificate = new CertificatePdf(assessed, state, issued, room.isItemised, speaker);
            pdf.reset();
            if (printer.print(certificate.sheet, room.bodyClass, certificate::content, pdf) == 1) {
                break;
            }
        }
        pdf.writeTo(out);
    }

    /** Name for the file of a certificate in English: no sign of a serial number that a file name can't have. */
    public static String fileName(Sterilizer sterilizer) {
        return fileName(sterilizer, Language.ENGLISH);
    }

    /** Name for the file of a certificate in a language: the code of any but English stands before the ending. */
    public static String fileName(Sterilizer sterilizer, Language language) {
        return "certificate-" + sterilizer.serial().replaceAll("[^A-Za-z0-9._-]+", "-") + language.ending(".pdf");
    }

    private void content() {
        Html html = sheet.html();
        FirstPage.whatItIs(sheet, "Certificate on the test of a steam steriliser");
        html.element("h1", "", headline());
        if (issued.ended().isBlank()) {
            html.open("p", "class", "lead").text("This steriliser: ");
            sheet.verdict(Whole.of(assessed, state.sterilizer()));
            html.close();
        }
        String warning = issued.signature().isEmpty()
                ? "Not signed: nobody stands for this page yet, so nobody may rely on it."
                : issued.ended();
        if (!warning.isBlank()) {
            html.open("p", "class", "lead").element("span", "act", warning).close();
        }
        facts();
        sheet.heading("What may be run");
        if (!issued.ended().isBlank()) {
            sheet.paragraph("By this report no cycle is qualified.");
        } else if (state.cycles().isEmpty()) {
            sheet.paragraph("No cycle was tested with a reference load.");
        } else {
            new StateBlock(sheet, isItemised).write(state);
        }
        open();
        sheet.heading("In daily use");
        sheet.bullets(List.of(
                "Run only what stands above, with no load larger or harder for steam. The daily and weekly tests, and the"
                        + " record of every cycle, stay as the maker's instructions and the local code ask.",
                "When a cycle or a test fails: no load leaves, the steriliser stays out of use, and the service company is"
                        + " told. Steam and pressure burn: the door is opened by the maker's instructions only.",
                "This is the technician's evidence. What is released, and what becomes of loads already used, the clinic"
                        + " decides."));
        new SignatureBlock(sheet, visit, issued).write();
        sheet.aside(
                visit.reportNumber().isBlank()
                        ? "Every figure behind this page stands in the report."
                        : Sentence.of("Every figure behind this page stands in the report %s.", visit.reportNumber()));
    }

    /** What the page by the machine says too: what covers no load may not be run. */
    private String headline() {
        String machine = visit.isSimulated() ? "Simulated, not a real steriliser: steriliser %s" : "Steriliser %s";
        if (!issued.ended().isBlank()) {
            return Sentence.of(machine + " may not be run by this page, which is no longer in force.", state.serial());
        }
        if (state.isAnyQualified()) {
            return state.isEndless()
                    ? Sentence.of(
                            machine
                                    + " passed with the cycles and loads below, but nothing says until when. Until the visit"
                                    + " names an end, no load is covered.",
                            state.serial())
                    : mayBeRun(machine);
        }
        if (state.cycles().stream().anyMatch(cycle -> cycle.status() == QualifiedCycle.Status.AWAITED)) {
            return Sentence.of(
                    machine + " is not qualified yet: biological indicators are still to be read.", state.serial());
        }
        boolean isLoaded = assessed.qualifications().stream()
                .anyMatch(one -> one.kind() == Qualification.Kind.PERFORMANCE
                        && one.sterilizer().equals(state.sterilizer())
                        && one.standing() != Qualification.Standing.NOT_ASSESSED);
        return isLoaded
                ? Sentence.of(
                        machine + " is not qualified. No cycle may be run for use on patients by this report.",
                        state.serial())
                : Sentence.of(
                        machine + " was tested with no reference load. Nothing is qualified by this.", state.serial());
    }

    private String mayBeRun(String machine) {
        boolean isPass = Whole.of(assessed, state.sterilizer()) == Qualification.Standing.PASS;
        String end = StateBlock.end(state);
        return isPass
                ? Sentence.of(
                        machine + " may be run with the cycles and loads below, up to and including %s.",
                        state.serial(),
                        end)
                : Sentence.of(
                        machine
                                + " may be run with those cycles and loads below that are qualified, up to and including %s;"
                                + " not everything that was asked for passed.",
                        state.serial(),
                        end);
    }

    private void facts() {
        Sheet.Facts facts = sheet.facts();
        facts.add("Steriliser", FirstPage.describe(sterilizer));
        FirstPage.visitFacts(visit, facts);
        facts.need("Report", visit.reportNumber());
        facts.end();
    }

    private void open() {
        if (assessed.openPoints().isEmpty()) {
            return;
        }
        sheet.heading("What is open after the visit");
        sheet.warnings(assessed.openPoints());
    }
}
