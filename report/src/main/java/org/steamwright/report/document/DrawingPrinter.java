package org.steamwright.report.document;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.extend.FSObjectDrawerFactory;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.pdfboxout.PdfBoxOutputDevice;
import com.openhtmltopdf.render.RenderingContext;
import java.awt.Rectangle;
import java.awt.Shape;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.pdmodel.interactive.annotation.PDAppearanceStream;
import org.apache.pdfbox.util.Matrix;
import org.steamwright.report.plot.Drawing;
import org.steamwright.report.plot.Ink;
import org.steamwright.report.plot.Mark;
import org.steamwright.report.plot.Outline;
import org.w3c.dom.Element;

/** Puts drawings onto the pages, as vectors and real text. */
final class DrawingPrinter implements FSObjectDrawerFactory, FSObjectDrawer {

    /** Media type of an object element that stands for a drawing. */
    static final String TYPE = "application/x-steamwright-drawing";

    /** Distance of the handles of a curve that looks like a quarter of a circle. */
    private static final float QUARTER = 0.5523f;

    private final List<Drawing> drawings;
    private final Typeface typeface;

    /**
     * @param drawings the data attribute of an object element is a place in this list
     * @param typeface of the document
     */
    DrawingPrinter(List<Drawing> drawings, Typeface typeface) {
        this.drawings = List.copyOf(drawings);
        this.typeface = typeface;
    }

    @Override
    public FSObjectDrawer createDrawer(Element element) {
        return this;
    }

    @Override
    public boolean isReplacedObject(Element element) {
        return element.getNodeName().equals("object")
                && element.getAttribute("type").equals(TYPE);
    }

    @Override
    public Map<Shape, String> drawObject(
            Element element,
            double x,
            double y,
            double width,
            double height,
            OutputDevice device,
            RenderingContext context,
            int dotsPerPixel) {
        Drawing drawing = drawings.get(Integer.parseInt(element.getAttribute("data")));
        PdfBoxOutputDevice pdf = (PdfBoxOutputDevice) device;
        try {
            PDFormXObject form = print(pdf.getWriter(), drawing);
            pdf.drawPdfAsImage(
                    form, new Rectangle((int) x, (int) y, (int) width, (int) height), (float) width, (float) height);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return Map.of();
    }

    private PDFormXObject print(PDDocument document, Drawing drawing) throws IOException {
        PDAppearanceStream form = new PDAppearanceStream(document);
        form.setBBox(new PDRectangle((float) drawing.width(), (float) drawing.height()));
        form.setResources(new PDResources());
        OutputStream packed = form.getContentStream().createOutputStream(COSName.FLATE_DECODE);
        try (PDPageContentStream stream = new PDPageContentStream(document, form, packed)) {
            stream.transform(new Matrix(1, 0, 0, 1, 0, (float) drawing.height()));
            for (Mark mark : drawing.marks()) {
                if (mark instanceof Mark.Line line) {
                    line(stream, line);
                } else if (mark instanceof Mark.Area area) {
                    fill(stream, area.ink());
                    trace(stream, area.outline());
                    stream.fill();
                } else if (mark instanceof Mark.Dot dot) {
                    dot(stream, dot);
                } else if (mark instanceof Mark.Words words) {
                    words(stream, words);
                }
            }
        }
        return form;
    }

    private static void line(PDPageContentStream stream, Mark.Line line) throws IOException {
        stream.setStrokingColor(red(line.ink()), green(line.ink()), blue(line.ink()));
        stream.setLineWidth((float) line.width());
        stream.setLineJoinStyle(1);
        float[] dashes = new float[line.dashes().size()];
        for (int i = 0; i < dashes.length; i++) {
            dashes[i] = line.dashes().get(i).floatValue();
        }
        stream.setLineDashPattern(dashes, 0);
        if (trace(stream, line.outline())) {
            stream.stroke();
        }
    }

    private static void dot(PDPageContentStream stream, Mark.Dot dot) throws IOException {
        fill(stream, dot.ink());
        float x = (float) dot.x();
        float y = (float) -dot.y();
        float r = (float) dot.radius();
        float h = r * QUARTER;
        stream.moveTo(x + r, y);
        stream.curveTo(x + r, y + h, x + h, y + r, x, y + r);
        stream.curveTo(x - h, y + r, x - r, y + h, x - r, y);
        stream.curveTo(x - r, y - h, x - h, y - r, x, y - r);
        stream.curveTo(x + h, y - r, x + r, y - h, x + r, y);
        stream.fill();
    }

    private void words(PDPageContentStream stream, Mark.Words words) throws IOException {
        PDType0Font font = typeface.font(words.face());
        String text = Typeface.printable(font, words.text());
        double width = font.getStringWidth(text) / 1000 * words.size();
        double start = switch (words.anchor()) {
            case START -> words.x();
            case MIDDLE -> words.x() - width / 2;
            case END -> words.x() - width;
        };
        fill(stream, words.ink());
        stream.beginText();
        stream.setFont(font, (float) words.size());
        stream.newLineAtOffset(hundredth(start), hundredth(-words.y()));
        stream.showText(text);
        stream.endText();
    }

    /** Draws the path; tells whether there was anything to draw. */
    private static boolean trace(PDPageContentStream stream, Outline outline) throws IOException {
        boolean down = false;
        boolean drawn = false;
        for (int i = 0; i < outline.size(); i++) {
            if (outline.isLifted(i)) {
                down = false;
                continue;
            }
            float x = hundredth(outline.x(i));
            float y = hundredth(-outline.y(i));
            if (down) {
                stream.lineTo(x, y);
                drawn = true;
            } else {
                stream.moveTo(x, y);
            }
            down = true;
        }
        return drawn;
    }

    private static void fill(PDPageContentStream stream, Ink ink) throws IOException {
        stream.setNonStrokingColor(red(ink), green(ink), blue(ink));
    }

    private static float hundredth(double value) {
        return Math.round(value * 100) / 100f;
    }

    private static float red(Ink ink) {
        return ((ink.rgb() >> 16) & 0xff) / 255f;
    }

    private static float green(Ink ink) {
        return ((ink.rgb() >> 8) & 0xff) / 255f;
    }

    private static float blue(Ink ink) {
        return (ink.rgb() & 0xff) / 255f;
    }
}
