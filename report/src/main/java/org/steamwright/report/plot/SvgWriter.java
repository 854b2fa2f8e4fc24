package org.steamwright.report.plot;

/** Writes a drawing as SVG 1.1: sized in points, with title and description, the same bytes for the same marks. */
public final class SvgWriter {

    private static final String FAMILY = "'DejaVu Serif Condensed','DejaVu Serif',Georgia,serif";

    private SvgWriter() {}

    /** The drawing as one svg element, without XML declaration, so that it can stand in a page. */
    public static String write(Drawing drawing) {
        StringBuilder svg = new StringBuilder(16_384);
        svg.append("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"");
        number(svg, drawing.width());
        svg.append("pt\" height=\"");
        number(svg, drawing.height());
        svg.append("pt\" viewBox=\"0 0 ");
        number(svg, drawing.width());
        svg.append(' ');
        number(svg, drawing.height());
        svg.append("\" font-family=\"").append(FAMILY).append("\">\n<title>");
        escape(svg, drawing.title());
        svg.append("</title>\n<desc>");
        escape(svg, drawing.description());
        svg.append("</desc>\n");
        for (Mark mark : drawing.marks()) {
            if (mark instanceof Mark.Line line) {
                line(svg, line);
            } else if (mark instanceof Mark.Area area) {
                svg.append("<path fill=\"").append(area.ink().css()).append("\" d=\"");
                path(svg, area.outline());
                svg.append("Z\"/>\n");
            } else if (mark instanceof Mark.Dot dot) {
                dot(svg, dot);
            } else if (mark instanceof Mark.Words words) {
                words(svg, words);
            }
        }
        return svg.append("</svg>\n").toString();
    }

    private static void line(StringBuilder svg, Mark.Line line) {
        svg.append("<path fill=\"none\" stroke-linejoin=\"round\" stroke=\"")
                .append(line.ink().css())
                .append("\" stroke-width=\"");
        number(svg, line.width());
        if (!line.dashes().isEmpty()) {
            svg.append("\" stroke-dasharray=\"");
            String between = "";
            for (double dash : line.dashes()) {
                svg.append(between);
                number(svg, dash);
                between = " ";
            }
        }
        svg.append("\" d=\"");
        path(svg, line.outline());
        svg.append("\"/>\n");
    }

    private static void dot(StringBuilder svg, Mark.Dot dot) {
        svg.append("<circle fill=\"").append(dot.ink().css()).append("\" cx=\"");
        number(svg, dot.x());
        svg.append("\" cy=\"");
        number(svg, dot.y());
        svg.append("\" r=\"");
        number(svg, dot.radius());
        svg.append("\"/>\n");
    }

    private static void words(StringBuilder svg, Mark.Words words) {
        svg.append("<text x=\"");
        number(svg, words.x());
        svg.append("\" y=\"");
        number(svg, words.y());
        svg.append("\" font-size=\"");
        number(svg, words.size());
        svg.append("\" fill=\"").append(words.ink().css());
        if (words.anchor() != Mark.Anchor.START) {
            svg.append("\" text-anchor=\"").append(words.anchor().word());
        }
        switch (words.face()) {
            case BOLD -> svg.append("\" font-weight=\"bold");
            case ITALIC -> svg.append("\" font-style=\"italic");
            case REGULAR -> {}
        }
        svg.append("\">");
        escape(svg, words.text());
        svg.append("</text>\n");
    }

    private static void path(StringBuilder svg, Outline outline) {
        boolean down = false;
        for (int i = 0; i < outline.size(); i++) {
            if (outline.isLifted(i)) {
                down = false;
                continue;
            }
            svg.append(down ? 'L' : 'M');
            number(svg, outline.x(i));
            svg.append(' ');
            number(svg, outline.y(i));
            down = true;
        }
    }

    /** Two decimals at most: a hundredth of a point is a third of a hundredth of a millimetre. */
    private static void number(StringBuilder svg, double value) {
        long hundredths = Math.round(value * 100);
        if (hundredths < 0) {
            svg.append('-');
            hundredths = -hundredths;
        }
        svg.append(hundredths / 100);
        long rest = hundredths % 100;
        if (rest != 0) {
            svg.append('.').append(rest / 10);
            if (rest % 10 != 0) {
                svg.append(rest % 10);
            }
        }
    }

    private static void escape(StringBuilder svg, String text) {
        text.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> svg.append("&amp;");
                case '<' -> svg.append("&lt;");
                case '>' -> svg.append("&gt;");
                case '"' -> svg.append("&quot;");
                default -> svg.appendCodePoint(isXml(c) ? c : ' ');
            }
        });
    }

    /** Whether XML 1.0 allows the character at all. */
    private static boolean isXml(int c) {
        return c == '\t' || c == '\n' || (c >= 0x20 && c <= 0xd7ff) || (c >= 0xe000 && c <= 0xfffd) || c >= 0x10000;
    }
}
