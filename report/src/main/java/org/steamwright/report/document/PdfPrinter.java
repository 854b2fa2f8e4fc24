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
import java.util.HexFormat;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.steamwright.report.language.Language;
import org.steamwright.report.language.Sentence;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.plot.Drawing;
import org.steamwright.report.plot.Mark.Face;
import org.steamwright.report.plot.SvgWriter;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.Visit;
import org.steamwright.visit.register.Sterilizer;

/**
 * A document of a visit between its first and its last line: head and foot of every page, fonts, conformance, identity.
 *
 * <p>The same content gives the same bytes: dates come from the visit, the document's identity from its content.
 */
final class PdfPrinter {

    private static final String CODE_TO_COME = "000000000000";

    private final Visit visit;
    private final String title;
    private final String subject;
    private final List<Sterilizer> sterilizers;
    private final Issued issued;
    private final Speaker speaker;

    /**
     * @param kind of document, with a place for the number of the report
     */
    PdfPrinter(AssessedVisit assessed, String kind, List<Sterilizer> sterilizers, Issued issued, Speaker speaker) {
        this.visit = assessed.visit();
        this.sterilizers = sterilizers;
        this.issued = issued;
        this.speaker = speaker;
        String number = visit.reportNumber().isBlank() ? "without number" : visit.reportNumber();
        this.title = Sentence.of(kind, number);
        this.subject = Wording.join(
                ". ",
                assessed.summary().stream().findFirst().orElse(""),
                Sentence.of("Steriliser serial %s", serials()),
                visit.isSimulated() ? Wording.SIMULATED : "",
                issued.subject());
    }

    /**
     * Prints a document.
     *
     * @param sheet on which the content writes
     * @param bodyClass for the style sheet; may be blank
     * @param content between head and foot
     * @param out to which the PDF goes
     * @return how many pages it has
     */
    int print(Sheet sheet, String bodyClass, Runnable content, OutputStream out) throws IOException {
        Typeface.Reading reading = Typeface.read();
        String unsigned = pages(sheet, bodyClass, content);
        byte[] digest = digest(unsigned, sheet.drawings());
        String code = HexFormat.of().formatHex(digest).substring(0, CODE_TO_COME.length());
        String xhtml = unsigned.replace(code(CODE_TO_COME), code(code));
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
                                speaker.say(title),
                                speaker.say(subject),
                                visit.date(),
                                tag(),
                                ByteBuffer.wrap(digest).getLong())
                        .apply(document);
                document.save(out);
            }
            return document.getNumberOfPages();
        }
    }

    private static void font(PdfRendererBuilder builder, Typeface typeface, Face face, int weight, FontStyle style) {
        builder.useFont(new PDFontSupplier(typeface.font(face)), Typeface.FAMILY, weight, style, true);
    }

    private String serials() {
        return Sentence.list(", ", sterilizers.stream().map(Sterilizer::serial).toList());
    }

    private String code(String digits) {
        return speaker.say(Sentence.of("code %s", digits));
    }

    private String tag() {
        return speaker.language().locale().toLanguageTag();
    }

    private String pages(Sheet sheet, String bodyClass, Runnable content) throws IOException {
        Html html = sheet.html();
        html.open("html", "lang", tag(), "xmlns", "http://www.w3.org/1999/xhtml");
        html.open("head");
        html.open("title").verbatim(speaker.say(title)).close();
        html.empty("meta", "name", "subject", "content", speaker.say(subject));
        html.open("style").verbatim(stylesheet("report.css"));
        if (speaker.language() != Language.ENGLISH) {
            html.verbatim(stylesheet("translated.css"));
        }
        html.close();
        html.close();
        if (bodyClass.isBlank()) {
            html.open("body");
        } else {
            html.open("body", "class", bodyClass);
        }
        runningLines(html);
        content.run();
        html.close().close();
        return html.toString();
    }

    /** What every page says: what it is, of what, which page, its code, and how it stands. */
    private void runningLines(Html html) {
        html.open("div", "id", "head").open("table").open("tbody").open("tr");
        html.open("td", "style", "width:112mm");
        if (visit.isSimulated()) {
            html.element("span", "simulated", Wording.SIMULATED);
        }
        html.close();
        html.open("td", "class", "right");
        html.element("span", issued.isWarning() ? "act" : "", issued.mark()).close();
        html.close().close().close().close();
        html.open("div", "id", "foot").open("table").open("tbody").open("tr");
        html.element("td", "l", title);
        html.element("td", "m", Sentence.of("steriliser serial %s", serials()));
        html.element("td", "c", Sentence.of("code %s", CODE_TO_COME));
        html.open("td", "class", "right").text("page ");
        html.element("span", "page-number", "").text(" of ").element("span", "page-count", "");
        html.close().close().close().close().close();
    }

    private static String stylesheet(String name) throws IOException {
        try (InputStream in = PdfPrinter.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException(name + " is missing from the installation");
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
