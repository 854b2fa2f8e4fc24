package org.steamwright.report.plot;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.steamwright.assessment.criteria.Comparison;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.DecisionRule;
import org.steamwright.assessment.criteria.Evidence;
import org.steamwright.assessment.criteria.Figure;
import org.steamwright.assessment.criteria.Finding;
import org.steamwright.assessment.criteria.Judgement;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.assessment.trace.TimeAxis;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.report.SampleVisits;
import org.steamwright.report.language.Speaker;

final class DrawingTest {

    private static final Source SOURCE =
            new Source("example", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "");

    private final RunEvaluation dipped = SampleVisits.full().runs().get(4).evaluation();

    @Test
    void same_run_gives_the_same_picture() {
        RunEvaluation again = SampleVisits.full().runs().get(4).evaluation();
        assertThat(SvgWriter.write(CyclePlot.whole(dipped))).isEqualTo(SvgWriter.write(CyclePlot.whole(again)));
    }

    @Test
    void a_curve_is_one_path() {
        Drawing whole = CyclePlot.whole(dipped);
        long curves = whole.marks().stream()
                .filter(mark -> mark instanceof Mark.Line line && line.outline().size() > 100)
                .count();
        assertThat(curves).isEqualTo(dipped.corrected().channels().size());
    }

    @Test
    void title_is_the_message() {
        assertThat(CyclePlot.whole(dipped).title()).startsWith("Pack reached 134 °C last, ");
        assertThat(CyclePlot.plateau(dipped).orElseThrow().title()).startsWith("Pack fell below the band at 12:4");
    }

    @Test
    void nothing_is_drawn_outside_the_sheet() {
        for (Drawing drawing :
                List.of(CyclePlot.whole(dipped), CyclePlot.plateau(dipped).orElseThrow())) {
            for (Mark mark : drawing.marks()) {
                if (mark instanceof Mark.Line line) {
                    inside(drawing, line.outline());
                } else if (mark instanceof Mark.Area area) {
                    inside(drawing, area.outline());
                }
            }
        }
    }

    private static void inside(Drawing drawing, Outline outline) {
        for (int i = 0; i < outline.size(); i++) {
            if (!outline.isLifted(i)) {
                assertThat(outline.x(i)).isBetween(-0.01, drawing.width() + 0.01);
                assertThat(outline.y(i)).isBetween(-0.01, drawing.height() + 0.01);
            }
        }
    }

    @Test
    void a_curve_is_cut_at_the_edges_of_its_panel() {
        Panel panel = new Panel(10, 20, 100, 50, 0, 9, 0, 1);
        Outline outline = panel.curve(TimeAxis.regular(10, 1), new double[] {-5, 5, 0.5, 0.5, 9, 9, -3, 0.2, 0.4, 0.6});
        for (int i = 0; i < outline.size(); i++) {
            if (!outline.isLifted(i)) {
                assertThat(outline.y(i)).isBetween(20 - 1e-9, 70 + 1e-9);
            }
        }
    }

    @Test
    void labels_keep_their_distance() {
        EndLabels labels = new EndLabels(0, 100, 8);
        for (int i = 0; i < 9; i++) {
            labels.add("L" + i, 0, 50 + i * 0.1, Mark.Face.REGULAR);
        }
        List<EndLabels.Placed> placed = labels.place();
        for (int i = 1; i < placed.size(); i++) {
            assertThat(placed.get(i).y() - placed.get(i - 1).y()).isGreaterThanOrEqualTo(8 - 1e-9);
        }
        assertThat(placed.get(8).y()).isLessThanOrEqualTo(100);
    }

    @Test
    void a_figure_outside_its_limit_leans_to_the_left_of_the_post() {
        assertThat(dot(133.8)).isLessThan(post(133.8));
        assertThat(dot(134.0)).isEqualTo(post(134.0));
        assertThat(dot(134.3)).isGreaterThan(post(134.3));
    }

    private static double dot(double celsius) {
        return ruler(celsius).marks().stream()
                .filter(mark -> mark instanceof Mark.Dot)
                .mapToDouble(mark -> ((Mark.Dot) mark).x())
                .findFirst()
                .orElseThrow();
    }

    private static double post(double celsius) {
        return ruler(celsius).marks().stream()
                .filter(mark -> mark instanceof Mark.Line line && line.width() > 1.3 && line.ink() == Ink.BLACK)
                .mapToDouble(mark -> ((Mark.Line) mark).outline().x(0))
                .findFirst()
                .orElseThrow();
    }

    private static Drawing ruler(double celsius) {
        Limit limit = new Limit(Comparison.AT_LEAST, 134, Unit.CELSIUS, SOURCE);
        Figure figure = Figure.withDoubt(celsius, 0.1, Unit.CELSIUS, "certificate");
        Judgement judgement = Judgement.of(figure, limit, DecisionRule.SIMPLE);
        return MarginRuler.of(new Finding(
                        CriterionId.LOWEST_TEMPERATURE,
                        Use.DECIDES,
                        judgement.decided(),
                        Optional.of(judgement),
                        Optional.of(figure),
                        Optional.of(limit),
                        DecisionRule.SIMPLE,
                        SOURCE,
                        Evidence.NONE,
                        "An example."))
                .orElseThrow();
    }

    @Test
    void svg_escapes_what_means_something_in_markup() {
        Canvas canvas = new Canvas(10, 10, Speaker.ENGLISH);
        canvas.words(1, 2, "<script>&\"\u0000x", 7, Mark.Anchor.START, Mark.Face.REGULAR, Ink.BLACK);
        String svg = SvgWriter.write(canvas.toDrawing("a<b", "c&d"));
        assertThat(svg)
                .contains("&lt;script&gt;&amp;&quot; x", "<title>a&lt;b</title>", "<desc>c&amp;d</desc>")
                .doesNotContain("<script>");
    }

    @Test
    void moments_are_printed_as_minutes_and_seconds() {
        assertThat(Moments.minutes(725)).isEqualTo("12:05");
        assertThat(Moments.minutes(0.5)).isEqualTo("0:00.5");
        assertThat(Moments.minutes(-30)).isEqualTo("−0:30");
        assertThat(Moments.length(179.9)).as("never longer than it was").isEqualTo("2 min 59 s");
    }
}
