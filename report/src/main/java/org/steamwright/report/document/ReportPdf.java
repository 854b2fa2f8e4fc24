package org.steamwright.report.document;

import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.picture.Pictures;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.Visit;
import org.steamwright.visit.register.Sterilizer;

/**
 * Writes the report of an assessed visit as PDF/A-3a with PDF/UA-1 tagging and embedded fonts.
 *
 * <p>The same visit gives the same bytes: dates come from the visit, the document's identity from its content.
 */
public final class ReportPdf {

    private final AssessedVisit assessed;
    private final Visit visit;
    private final Issued issued;
    private final PictureSection photos;
    private final Sheet sheet;

    private ReportPdf(AssessedVisit assessed, Issued issued, Pictures pictures, Speaker speaker) {
        this.sheet = new Sheet(speaker);
        this.assessed = assessed;
        this.visit = assessed.visit();
        this.issued = issued;
        this.photos = new PictureSection(sheet, pictures);
    }

    /**
     * Writes the report of results that nobody has signed, without pictures. The stream is not closed.
     *
     * @throws IOException if the stream can't be written
     */
    public static void write(AssessedVisit assessed, OutputStream out) throws IOException {
        write(assessed, Issued.NOT_SIGNED, Pictures.NONE, out);
    }

    /**
     * Writes the report in English. The stream is not closed.
     *
     * @param assessed what is reported
     * @param issued how it stands
     * @param pictures of the visit, for its photos and the clinic's signature under the load
     * @throws IOException if a picture can't be read or the stream can't be written
     */
    public static void write(AssessedVisit assessed, Issued issued, Pictures pictures, OutputStream out)
            throws IOException {
        write(assessed, issued, pictures, Language.ENGLISH, out);
    }

    /**
     * Writes the report. The stream is not closed.
     *
     * @param assessed what is reported
     * @param issued how it stands
     * @param pictures of the visit, for its photos and the clinic's signature under the load
     * @param language of the reader
     * @throws IOException if a picture can't be read or the stream can't be written
     */
    public static void write(
            AssessedVisit assessed, Issued issued, Pictures pictures, Language language, OutputStream out)
            throws IOException {
        write(assessed, issued, pictures, Speaker.of(language, Names.of(assessed.visit())), out);
    }

    static void write(AssessedVisit assessed, Issued issued, Pictures pictures, Speaker speaker, OutputStream out)
            throws IOException {
        ReportPdf report = new ReportPdf(assessed, issued, pictures, speaker);
        PdfPrinter printer = new PdfPrinter(
                assessed, "Steriliser test report %s", assessed.visit().sterilizers(), issued, speaker);
        printer.print(report.sheet, "", report::content, out);
    }

    private void content() {
        new FirstPage(sheet, assessed, issued).write();
        new DifferenceSection(sheet, issued).write();
        VerdictSection verdict = new VerdictSection(sheet, assessed);
        verdict.write();
        VisitSections sections = new VisitSections(sheet, assessed, photos);
        sections.write();
        new JobSection(sheet, assessed).write();
        runs();
        new BudgetSection(sheet, assessed).write();
        new MethodSection(sheet, visit).write();
        sections.writeClosing();
        verdict.writeLetters();
    }

    private void runs() {
        List<ReferenceLoad> described = new ArrayList<>();
        List<Integer> describedIn = new ArrayList<>();
        for (AssessedRun run : assessed.runs()) {
            Optional<ReferenceLoad> load = run.run().load();
            int known = load.map(one -> place(one, described)).orElse(-1);
            Optional<Integer> sameAs = known < 0 ? Optional.empty() : Optional.of(describedIn.get(known));
            if (known < 0) {
                load.ifPresent(described::add);
                load.ifPresent(l -> describedIn.add(run.run().number()));
            }
            Sterilizer sterilizer = visit.getSterilizer(run.run().sterilizer());
            new RunSection(sheet, run, sterilizer, visit.job().interimUntil(), sameAs).write();
            photos.ofChamber(run.run().number());
            if (sameAs.isEmpty()) {
                load.ifPresent(one -> photos.write(run.run().number(), one));
            }
        }
    }

    /** Place of the same load among those that are described; the clinic speaks of a load once, and not at each run. */
    private static int place(ReferenceLoad load, List<ReferenceLoad> described) {
        int equal = described.indexOf(load);
        boolean hasOwn = !load.agreedBy().isBlank() || !load.photos().isEmpty();
        for (int i = 0; equal < 0 && !hasOwn && i < described.size(); i++) {
            if (described.get(i).isSameLoad(load)) {
                return i;
            }
        }
        return equal;
    }
}
