package org.steamwright.report.document;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PDFontSupplier;
import com.openhtmltopdf.pdfboxout.PdfBoxRenderer;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.steamwright.report.plot.Drawing;
import org.steamwright.report.plot.Mark.Face;
import org.steamwright.report.plot.SvgWriter;
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

    private static final String CODE_TO_COME = "000000000000";

    private final AssessedVisit assessed;
    private final Visit visit;
    private final Sheet sheet = new Sheet();

    private ReportPdf(AssessedVisit assessed) {
        this.assessed = assessed;
        this.visit = assessed.visit();
    }

    /**
     * Writes the report. The stream is not closed.
     *
     * @throws IOException if the stream can't be written
     */
    public static void write(AssessedVisit assessed, OutputStream out) throws IOException {
        new ReportPdf(assessed).print(out);
    }

    private void print(OutputStream out) throws IOException {
        Typeface.Reading reading = Typeface.read();
        String unsigned = pages();
        byte[] digest = digest(unsigned, sheet.drawings());
        String code = HexFormat.of().formatHex(digest).substring(0, CODE_TO_COME.length());
        String xhtml = unsigned.replace("code " + CODE_TO_COME, "code " + code);
        XRLog.setLoggingEnabled(false);
        try (PDDocument document = new PDDocument()) {
            Typeface typeface = reading.embed(document);
            PdfRendererBuilder builder = new PdfRendererBuilder();
            builder.usePDDocument(document);
            builder.usePdfAConformance(PdfRendererBuilder.PdfAConformance.PDFA_3_A);
            builder.usePdfUaAccessibility(true);
            font(builder, typeface, Face.REGULAR, 400, FontStyle.NORMAL);
            font(builder, typeface, Face.BOLD, 700, FontStyle.NORMAL);
            font(builder, typeface, Face.ITALIC, 400, FontStyle.ITALIC);
            builder.useReplacementText(Typeface.REPLACEMENT);
            builder.useUnicodeLineBreaker(new BlankBreaker());
            builder.useObjectDrawerFactory(new DrawingPrinter(sheet.drawings(), typeface));
            builder.withHtmlContent(xhtml, null);
            builder.toStream(out);
            try (PdfBoxRenderer renderer = builder.buildPdfRenderer()) {
                renderer.createPDFWithoutClosing();
                new Identity(
                                title(),
                                subject(),
                                visit.date(),
                                ByteBuffer.wrap(digest).getLong())
                        .apply(document);
                document.save(out);
            }
        }
    }

    private static void font(PdfRendererBuilder builder, Typeface typeface, Face face, int weight, FontStyle style) {
        builder.useFont(new PDFontSupplier(typeface.font(face)), Typeface.FAMILY, weight, style, true);
    }

    private String title() {
        String number = visit.reportNumber().isBlank() ? "without number" : visit.reportNumber();
        return "Steriliser test report " + number;
    }

    private String subject() {
        List<String> serials =
                visit.sterilizers().stream().map(Sterilizer::serial).toList();
        return Wording.join(
                ". ",
                assessed.summary().stream().findFirst().orElse(""),
                "Steriliser serial " + String.join(", ", serials),
                visit.isSimulated() ? Wording.SIMULATED : "",
                "Not signed");
    }

    private String pages() throws IOException {
        Html html = sheet.html();
        html.open("html", "lang", "en-GB", "xmlns", "http://www.w3.org/1999/xhtml");
        html.open("head");
        html.element("title", "", title());
        html.empty("meta", "name", "subject", "content", subject());
        html.element("style", "", stylesheet());
        html.close();
        html.open("body");
        runningLines();
        new FirstPage(sheet, assessed).write();
        VerdictSection verdict = new VerdictSection(sheet, assessed);
        verdict.write();
        VisitSections sections = new VisitSections(sheet, assessed);
        sections.write();
        new JobSection(sheet, assessed).write();
        runs();
        new BudgetSection(sheet, assessed).write();
        new MethodSection(sheet, visit).write();
        sections.writeClosing();
        verdict.writeLetters();
        html.close().close();
        return html.toString();
    }

    /** What every page says: what it is, of what, which page, its code, and that nobody signed it. */
    private void runningLines() {
        Html html = sheet.html();
        html.open("div", "id", "head").open("table").open("tbody").open("tr");
        html.open("td", "style", "width:112mm");
        if (visit.isSimulated()) {
            html.element("span", "simulated", Wording.SIMULATED);
        }
        html.close();
        html.open("td", "class", "right").element("span", "act", "not signed").close();
        html.close().close().close().close();
        List<String> serials =
                visit.sterilizers().stream().map(Sterilizer::serial).toList();
        html.open("div", "id", "foot").open("table").open("tbody").open("tr");
        html.element("td", "l", title());
        html.element("td", "m", "steriliser serial " + String.join(", ", serials));
        html.element("td", "c", "code " + CODE_TO_COME);
        html.open("td", "class", "right").text("page ");
        html.element("span", "page-number", "").text(" of ").element("span", "page-count", "");
        html.close().close().close().close().close();
    }

    private void runs() {
        List<ReferenceLoad> described = new ArrayList<>();
        List<Integer> describedIn = new ArrayList<>();
        for (AssessedRun run : assessed.runs()) {
            Optional<ReferenceLoad> load = run.run().load();
            int known = load.map(described::indexOf).orElse(-1);
            Optional<Integer> sameAs = known < 0 ? Optional.empty() : Optional.of(describedIn.get(known));
            if (known < 0) {
                load.ifPresent(described::add);
                load.ifPresent(l -> describedIn.add(run.run().number()));
            }
            Sterilizer sterilizer = visit.getSterilizer(run.run().sterilizer());
            new RunSection(sheet, run, sterilizer, sameAs).write();
        }
    }

    private static String stylesheet() throws IOException {
        try (InputStream in = ReportPdf.class.getResourceAsStream("report.css")) {
            if (in == null) {
                throw new IOException("report.css is missing from the installation");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static byte[] digest(String pages, List<Drawing> drawings) {
        try {
            MessageDigest sha256 = MessageDigest.getInstance("SHA-256");
            sha256.update(pages.getBytes(StandardCharsets.UTF_8));
            for (Drawing drawing : drawings) {
                sha256.update(SvgWriter.write(drawing).getBytes(StandardCharsets.UTF_8));
            }
            return sha256.digest();
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
