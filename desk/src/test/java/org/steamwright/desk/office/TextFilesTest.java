package org.steamwright.desk.office;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CsvReader;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.component.VEvent;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.desk.text.TableText;
import org.steamwright.visit.due.Candidate;
import org.steamwright.visit.due.Due;

class TextFilesTest {

    private static final Source SOURCE =
            new Source("own rule", "", "", Source.Provenance.USER, Source.Confidence.HIGH, "");
    private static final LocalDate DAY = LocalDate.of(2026, 8, 31);
    private static final String HARD = "Prüfung; Pumpe, Ventil \\ Dichtung\n"
            + "und sehr viele Worte, damit die Zeile länger wird als fünfundsiebzig Oktette 滅菌器";

    private static Due due(String title, Optional<LocalDate> day) {
        Candidate reason =
                new Candidate(Candidate.Cause.DATE, day, day, Optional.empty(), "twelve months after the last", SOURCE);
        return new Due(
                new Due.Subject(
                        Due.Subject.Kind.STERILIZER, "ST-01", "Example Works (invented) SN-0417", "Riverside, room"),
                title,
                LocalDate.of(2026, 8, 3),
                reason,
                List.of(reason));
    }

    /** Outside check: the file is read by ical4j, strictly, and says the same. */
    private static String calendar(List<Due> due, Instant now) {
        return CalendarText.head() + CalendarText.events(due, now) + CalendarText.end();
    }

    @Test
    void a_calendar_library_reads_what_is_due() throws Exception {
        String text = calendar(
                List.of(due(HARD, Optional.of(DAY)), due("no day", Optional.empty())),
                Instant.parse("2026-08-03T07:30:00Z"));
        for (String line : text.split("\r\n", -1)) {
            assertThat(line.getBytes(StandardCharsets.UTF_8).length).as(line).isLessThanOrEqualTo(75);
        }
        Calendar calendar = new CalendarBuilder().build(new StringReader(text));
        calendar.validate();
        List<VEvent> events = calendar.getComponents("VEVENT");
        assertThat(events).as("what has no day is in no calendar").hasSize(1);
        VEvent event = events.get(0);
        assertThat(event.getSummary().getValue()).isEqualTo(HARD + ": Example Works (invented) SN-0417");
        assertThat(event.getLocation().getValue()).isEqualTo("Riverside, room");
        assertThat(event.getDateTimeStart().getDate()).isEqualTo(DAY);
        assertThat(event.getDateTimeEnd().getDate()).isEqualTo(DAY.plusDays(1));
        assertThat(event.getDescription().getValue()).contains("twelve months after the last");
    }

    @Test
    void the_same_duty_has_the_same_identity_in_every_file() {
        String one = calendar(List.of(due("Service", Optional.of(DAY))), Instant.EPOCH);
        String later = calendar(List.of(due("Service", Optional.of(DAY.plusDays(9)))), Instant.EPOCH.plusSeconds(9));
        assertThat(one.lines().filter(line -> line.startsWith("UID:")).toList())
                .isEqualTo(later.lines().filter(line -> line.startsWith("UID:")).toList());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "=1+1",
                "+1+1",
                "-1+1",
                "@SUM(A1)",
                "\t=1+1",
                "\r=1+1",
                " =1+1",
                "\u00a0=1+1",
                "\ufeff=1+1",
                "fine\n=1+1",
                "fine\r=1+1",
                "\u0000=1+1",
                "\uff1d1+1",
                "=HYPERLINK(\"http://elsewhere.example\",\"look\")",
                "=cmd|' /C calc'!A0",
                "-2+3+cmd|' /C calc'!A0"
            })
    void no_text_begins_a_formula(String nasty) {
        String csv = TableText.of(List.of("a"), List.of(List.of(nasty)));
        String cell =
                CsvReader.builder().ofCsvRecord(csv).stream().toList().get(1).getField(0);
        for (String line : cell.split("[\\r\\n]")) {
            assertThat(line.strip()).doesNotMatch("(?s)^[\\s\\u00a0\\ufeff]*[=+\\-@\\uff1d].*");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"-3.5", "+2", "134", "plain", "a=b", "1-2", "O'Brien \"x\", y"})
    void numbers_and_plain_texts_stay_as_they_are(String plain) {
        String csv = TableText.of(List.of("a"), List.of(List.of(plain)));
        assertThat(CsvReader.builder().ofCsvRecord(csv).stream().toList().get(1).getField(0))
                .isEqualTo(plain);
    }

    @Test
    void a_drawing_has_a_scale_and_says_when_the_limit_will_be_reached() {
        String svg = new LinePlot(
                        "leak rate",
                        List.of(
                                new LinePlot.Dot(LocalDate.of(2024, 3, 4), -0.044, 0),
                                new LinePlot.Dot(LocalDate.of(2026, 3, 2), 0.083, 0)),
                        List.of(new LinePlot.Level(0.13, "≤ 0,13 kPa/min")),
                        Optional.empty(),
                        Optional.of(new LinePlot.Dot(LocalDate.of(2028, 8, 1), 0.13, 0)),
                        new LinePlot.Writing(figure -> figure.replace('.', ','), day -> "on " + day))
                .svg();
        assertThat(svg)
                .contains(">−0,05<", ">0,00<", ">0,05<", ">0,10<", ">≤ 0,13 kPa/min<")
                .contains(">on 2024-03-04<", ">on 2026-03-02<", ">on 2028-08-01<")
                .contains("stroke-dasharray");
    }

    @Test
    void a_drawing_escapes_its_words() {
        String svg = new LinePlot(
                        "<script>\"&",
                        List.of(new LinePlot.Dot(DAY, 1, 0.1)),
                        List.of(new LinePlot.Level(2, "</text><script>")),
                        Optional.of(new LinePlot.Strip(0.5, 1.5)),
                        Optional.empty(),
                        new LinePlot.Writing(figure -> figure, LocalDate::toString))
                .svg();
        assertThat(svg).doesNotContain("<script>").contains("&lt;script&gt;&quot;&amp;");
        assertThat(svg).doesNotContain("NaN").doesNotContain("Infinity").doesNotContain("style=");
    }
}
