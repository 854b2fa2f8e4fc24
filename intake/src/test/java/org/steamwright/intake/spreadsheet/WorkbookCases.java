package org.steamwright.intake.spreadsheet;

import static org.steamwright.intake.spreadsheet.HandWorkbook.CELSIUS;
import static org.steamwright.intake.spreadsheet.HandWorkbook.DATE;
import static org.steamwright.intake.spreadsheet.HandWorkbook.DATE_AND_TIME;
import static org.steamwright.intake.spreadsheet.HandWorkbook.ELAPSED;
import static org.steamwright.intake.spreadsheet.HandWorkbook.MILLISECONDS;
import static org.steamwright.intake.spreadsheet.HandWorkbook.TIME;
import static org.steamwright.intake.spreadsheet.HandWorkbook.TWO_DECIMALS;
import static org.steamwright.intake.spreadsheet.HandWorkbook.error;
import static org.steamwright.intake.spreadsheet.HandWorkbook.formula;
import static org.steamwright.intake.spreadsheet.HandWorkbook.inline;
import static org.steamwright.intake.spreadsheet.HandWorkbook.none;
import static org.steamwright.intake.spreadsheet.HandWorkbook.number;
import static org.steamwright.intake.spreadsheet.HandWorkbook.raw;
import static org.steamwright.intake.spreadsheet.HandWorkbook.truth;

import java.math.BigDecimal;
import java.math.MathContext;
import java.nio.charset.StandardCharsets;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;

/** One workbook for each way in which spreadsheets keep a recording, and for each defect. All data is invented. */
final class WorkbookCases {

    /**
     * A workbook and what is expected of it.
     *
     * @param name number and words
     * @param bytes the workbook
     * @param twin the same recording as text, or empty if it is refused
     * @param choices KEY = VALUE
     * @param expected {@code RANK ID} of each remark in turn, {@code refused ID | words}, {@code question KEY = OPTIONS}
     *     and {@code explained words}
     * @param why what is shown by it
     */
    record Case(String name, byte[] bytes, String twin, List<String> choices, List<String> expected, String why) {}

    private static final String TWIN = "time,T1 (°C),T2 (°C)\n2026-03-02T09:00:00,121.3,121.4\n"
            + "2026-03-02T09:00:01,121.5,121.6\n2026-03-02T09:00:02,121.7,121.8\n";

    private final List<Case> cases = new ArrayList<>();

    private WorkbookCases() {}

    static List<Case> all() {
        WorkbookCases all = new WorkbookCases();
        all.addReadable();
        all.addTimes();
        all.addSheets();
        all.addShapes();
        all.addRefused();
        return all.cases;
    }

    private void add(String name, byte[] bytes, String twin, String why, String... expected) {
        add(name, bytes, twin, List.of(), why, expected);
    }

    private void add(String name, byte[] bytes, String twin, List<String> choices, String why, String... expected) {
        cases.add(new Case(name, bytes, twin, choices, List.of(expected), why));
    }

    private void refuse(String name, byte[] bytes, String why, String... expected) {
        add(name, bytes, "", why, expected);
    }

    /** A moment as a day number of 1900 with all its digits. */
    static String day(String moment) {
        LocalDateTime at = LocalDateTime.parse(moment);
        long nanos = ChronoUnit.NANOS.between(LocalDateTime.of(1899, 12, 30, 0, 0), at);
        return Double.toString(new BigDecimal(nanos)
                .divide(new BigDecimal(86_400_000_000_000L), MathContext.DECIMAL64)
                .doubleValue());
    }

    private static String day(String moment, int decimals) {
        return new BigDecimal(day(moment))
                .setScale(decimals, java.math.RoundingMode.HALF_EVEN)
                .toPlainString();
    }

    private static String time(int second) {
        return "2026-03-02T09:00:0" + second;
    }

    /** The recording that most cases have, in their first sheet. */
    private static HandWorkbook plain() {
        HandWorkbook book = new HandWorkbook();
        fill(book, book.sheet("Data"));
        return book;
    }

    private static HandWorkbook fill(HandWorkbook book, HandWorkbook.Sheet sheet) {
        sheet.row(book.text("time"), book.text("T1 (°C)"), book.text("T2 (°C)"));
        for (int i = 0; i < 3; i++) {
            sheet.row(number(DATE_AND_TIME, day(time(i))), number("121." + (3 + 2 * i)), number("121." + (4 + 2 * i)));
        }
        return book;
    }

    private static byte[] text(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    // ---- cells

    private void addReadable() {
        add("300-plain", plain().bytes(), TWIN, "Header as shared texts, moments as day numbers.");

        HandWorkbook book = new HandWorkbook();
        book.sheet("Data")
                .row(inline("time"), inline("T1 (°C)"), inline("T2 (°C)"))
                .row(inline(time(0)), number("121.3"), number("121.4"))
                .row(inline(time(1)), number("121.5"), number("121.6"))
                .row(inline(time(2)), number("121.7"), number("121.8"));
        add("301-texts-in-cells", book.bytes(), TWIN, "Texts inside the cells, stamps as text.");

        book = new HandWorkbook();
        HandWorkbook.Sheet sheet = book.sheet("Data");
        sheet.row(
                book.shared("<r><rPr><b/></rPr><t>ti</t></r><r><t>me</t></r>"),
                book.shared("<t>T1 (°C)</t><rPh sb=\"0\" eb=\"2\"><t>reading aid</t></rPh>"),
                book.shared("<t xml:space=\"preserve\">T2_x000A_(°C) </t>"));
        for (int i = 0; i < 3; i++) {
            sheet.row(number(DATE_AND_TIME, day(time(i))), number("121." + (3 + 2 * i)), number("121." + (4 + 2 * i)));
        }
        add("302-rich-text", book.bytes(), TWIN, "Letters of several looks, a reading aid, an escaped line break.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(number(DATE_AND_TIME, day(time(0))), number("121.30000000000001"))
                .row(number(DATE_AND_TIME, day(time(1))), number("1.2149999999999999E2"))
                .row(number(DATE_AND_TIME, day(time(2))), number(TWO_DECIMALS, "121.7"));
        add(
                "303-seventeen-digits",
                book.bytes(),
                "time,T1 (°C)\n2026-03-02T09:00:00,121.3\n2026-03-02T09:00:01,121.5\n2026-03-02T09:00:02,121.7\n",
                "Numbers with the noise of their seventeenth digit are those that the sheet shows.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(number(DATE_AND_TIME, day(time(0))), number("121.125"))
                .row(number(DATE_AND_TIME, day(time(1))), number("121.250"))
                .row(number(DATE_AND_TIME, day(time(2))), number("121.375"));
        add(
                "304-three-decimals",
                book.bytes(),
                "time;T1 (°C)\n2026-03-02T09:00:00;121,1250\n2026-03-02T09:00:01;121,2500\n2026-03-02T09:00:02;121,3750\n",
                "Three decimals are no question here: a workbook keeps numbers, not signs.",
                "explained decimal point, fixed by the format of the file");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(number(DATE_AND_TIME, day(time(0))), number("121.3"))
                .row(number(DATE_AND_TIME, day(time(1))), formula("B2+0.2", "121.5"))
                .row(number(DATE_AND_TIME, day(time(2))), formula("B3+0.2", "121.7"));
        add(
                "305-formulas",
                book.bytes(),
                "time,T1 (°C)\n2026-03-02T09:00:00,121.3\n2026-03-02T09:00:01,121.5\n2026-03-02T09:00:02,121.7\n",
                "Values stored beside formulas are taken and said to be so.",
                "NOTE INTAKE-080",
                "explained 2 cells of formulas: the values stored when the file was saved; nothing was computed");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(number(DATE_AND_TIME, day(time(0))), number("121.3"))
                .row(number(DATE_AND_TIME, day(time(1))), formula("B2+0.2", ""))
                .row(number(DATE_AND_TIME, day(time(2))), number("121.7"));
        add(
                "306-formula-without-value",
                book.bytes(),
                "time,T1 (°C)\n2026-03-02T09:00:00,121.3\n2026-03-02T09:00:01,\n2026-03-02T09:00:02,121.7\n",
                "A formula that was never computed leaves a hole.",
                "DOUBT INTAKE-081",
                "DOUBT INTAKE-032");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"), book.text("T2 (°C)"))
                .row(number(DATE_AND_TIME, day(time(0))), number("121.3"), number("121.4"))
                .row(number(DATE_AND_TIME, day(time(1))), error("#N/A"), number("121.6"))
                .row(number(DATE_AND_TIME, day(time(2))), number("121.7"), truth(true));
        add(
                "307-error-cells",
                book.bytes(),
                "time,T1 (°C),T2 (°C)\n2026-03-02T09:00:00,121.3,121.4\n2026-03-02T09:00:01,#N/A,121.6\n2026-03-02T09:00:02,121.7,TRUE\n",
                "#N/A and TRUE are words among numbers.",
                "DOUBT INTAKE-031",
                "DOUBT INTAKE-031");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(number(DATE_AND_TIME, day(time(0))), book.text("121,3"))
                .row(number(DATE_AND_TIME, day(time(1))), book.text("121,5"))
                .row(number(DATE_AND_TIME, day(time(2))), book.text("121,7"));
        add(
                "308-numbers-as-text",
                book.bytes(),
                "time;T1 (°C)\n2026-03-02T09:00:00;121,3\n2026-03-02T09:00:01;121,5\n2026-03-02T09:00:02;121,7\n",
                "Numbers kept as text with a decimal comma.",
                "NOTE INTAKE-084");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("t (s)"), book.text("T1 (°C)"))
                .row(number("0"), book.text("121,3"))
                .row(number("0.5"), book.text("121,5"))
                .row(number("1"), book.text("121,7"));
        add(
                "309-numbers-and-text",
                book.bytes(),
                "t (s);T1 (°C)\n0;121,3\n0,5;121,5\n1;121,7\n",
                "Elapsed time as numbers, readings as text with a comma.",
                "NOTE INTAKE-084");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1"))
                .row(number(DATE_AND_TIME, day(time(0))), number(CELSIUS, "121.3"))
                .row(number(DATE_AND_TIME, day(time(1))), number(CELSIUS, "121.5"))
                .row(number(DATE_AND_TIME, day(time(2))), number(CELSIUS, "121.7"));
        add(
                "310-unit-in-the-format",
                book.bytes(),
                "time,T1\n2026-03-02T09:00:00,121.3 °C\n2026-03-02T09:00:01,121.5 °C\n2026-03-02T09:00:02,121.7 °C\n",
                "The unit is written by the number format, not by anyone in the cells.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1"), book.text("p"))
                .row(none(), book.text("°C"), book.text("kPa abs"))
                .row(number(DATE_AND_TIME, day(time(0))), number("121.3"), number("205.1"))
                .row(number(DATE_AND_TIME, day(time(1))), number("121.5"), number("206.4"));
        add(
                "311-units-in-own-row",
                book.bytes(),
                "time,T1,p\n,°C,kPa abs\n2026-03-02T09:00:00,121.3,205.1\n2026-03-02T09:00:01,121.5,206.4\n",
                "Units in a row of their own.");
    }

    // ---- times

    private void addTimes() {
        HandWorkbook book = new HandWorkbook();
        book.is1904 = true;
        HandWorkbook.Sheet sheet = book.sheet("Data");
        sheet.row(book.text("time"), book.text("T1 (°C)"), book.text("T2 (°C)"));
        for (int i = 0; i < 3; i++) {
            String since1904 = new BigDecimal(day(time(i), 11))
                    .subtract(new BigDecimal(1462))
                    .toPlainString();
            sheet.row(number(DATE_AND_TIME, since1904), number("121." + (3 + 2 * i)), number("121." + (4 + 2 * i)));
        }
        add("320-counted-from-1904", book.bytes(), TWIN, "Days counted from 1904.", "explained counted from 1904");

        add(
                "321-tenths",
                moments(MILLISECONDS, 17, ":00.0", ":00.1", ":00.2"),
                twin("T09:00:00.0", "T09:00:00.1", "T09:00:00.2"),
                "Tenths of a second out of day numbers, rounded to tenths.",
                "explained rounded to 0.1");
        add(
                "322-fifteen-digits",
                moments(DATE_AND_TIME, 10, ":00", ":01", ":02"),
                twin("T09:00:00", "T09:00:01", "T09:00:02"),
                "Day numbers with fifteen digits, as many programs write them.");
        add(
                "323-five-decimals",
                moments(DATE_AND_TIME, 5, ":00", ":05", ":10"),
                twin("T09:00:00", "T09:00:05", "T09:00:10"),
                "Five decimals of a day are 0.86 s: rounded to the second, and said.",
                "DOUBT INTAKE-085");
        add(
                "324-milliseconds",
                moments(MILLISECONDS, 17, ":00.001", ":00.251", ":00.501"),
                twin("T09:00:00.001", "T09:00:00.251", "T09:00:00.501"),
                "Milliseconds.");
        add(
                "325-time-hidden-by-the-format",
                moments(DATE, 17, ":00", ":01", ":02"),
                twin("T09:00:00", "T09:00:01", "T09:00:02"),
                "The format shows the date alone; the time is in the cell all the same.");
        add(
                "326-date-hidden-by-the-format",
                moments(TIME, 17, ":00", ":01", ":02"),
                twin("T09:00:00", "T09:00:01", "T09:00:02"),
                "The format shows the time alone; the date is in the cell all the same.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("Date"), book.text("Time"), book.text("T1 (°C)"))
                .row(number(DATE, "46083"), number(TIME, "0.375"), number("121.3"))
                .row(number(DATE, "46083"), number(TIME, "0.37501157407407409"), number("121.5"))
                .row(number(DATE, "46083"), number(TIME, "0.37502314814814814"), number("121.7"));
        add(
                "327-date-and-time-apart",
                book.bytes(),
                "Date,Time,T1 (°C)\n2026-03-02,09:00:00,121.3\n2026-03-02,09:00:01,121.5\n2026-03-02,09:00:02,121.7\n",
                "Date in one column, time in another.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("Elapsed"), book.text("T1 (°C)"))
                .row(number(ELAPSED, "0.99998842592592596"), number("121.3"))
                .row(number(ELAPSED, "1"), number("121.5"))
                .row(number(ELAPSED, "1.0000115740740741"), number("121.7"));
        add(
                "328-elapsed-over-a-day",
                book.bytes(),
                "Elapsed,T1 (°C)\n23:59:59,121.3\n24:00:00,121.5\n24:00:01,121.7\n",
                "Elapsed hours that exceed a day.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(number(DATE_AND_TIME, day("2026-03-02T23:59:59")), number("121.3"))
                .row(number(DATE_AND_TIME, "46084"), number("121.5"))
                .row(number(DATE_AND_TIME, day("2026-03-03T00:00:01")), number("121.7"));
        add(
                "329-midnight",
                book.bytes(),
                "time,T1 (°C)\n2026-03-02T23:59:59,121.3\n2026-03-03T00:00:00,121.5\n2026-03-03T00:00:01,121.7\n",
                "Midnight is a whole number and a moment all the same.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("t (min)"), book.text("T1 (°C)"))
                .row(number("0"), number("121.3"))
                .row(number("0.25"), number("121.5"))
                .row(number("0.5"), number("121.7"));
        add(
                "330-elapsed-minutes",
                book.bytes(),
                "t (min),T1 (°C)\n0,121.3\n0.25,121.5\n0.5,121.7\n",
                "Elapsed minutes as numbers.");

        book = new HandWorkbook();
        book.sheet("Data")
                .row(book.text("time"), book.text("T1 (°C)"))
                .row(raw("<c t=\"d\"><v>2026-03-02T09:00:00</v></c>"), number("121.3"))
                .row(raw("<c t=\"d\"><v>2026-03-02T09:00:01</v></c>"), number("121.5"))
                .row(raw("<c t=\"d\"><v>2026-03-02T09:00:02</v></c>"), number("121.7"));
        add(
                "331-dates-as-such",
                book.bytes(),
                "time,T1 (°C)\n2026-03-02T09:00:00,121.3\n2026-03-02T09:00:01,121.5\n2026-03-02T09:00:02,121.7\n",
                "Cells of the kind date, as the strict form of the format has them.");

        book = new HandWorkbook();
        sheet = book.sheet("Data");
        sheet.row(book.text("time"), book.text("T1 (°C)"));
        double step = Double.parseDouble(day("2026-03-02T09:00:00"));
        StringBuilder twin = new StringBuilder("time,T1 (°C)\n");
        for (int i = 0; i < 60; i++) {
            sheet.row(number(DATE_AND_TIME, Double.toString(step)), number("121." + (10 + i)));
            twin.append("2026-03-02T09:%02d:%02d,121.%d\n".formatted(i / 30, i % 30 * 2, 10 + i));
            step += 2.0 / 86_400;
        }
        add("332-summed-up", book.bytes(), twin.toString(), "Each time is the one before plus two seconds, as a sum.");
    }

    private static byte[] moments(int style, int decimals, String... seconds) {
        HandWorkbook book = new HandWorkbook();
        HandWorkbook.Sheet sheet = book.sheet("Data").row(book.text("time"), book.text("T1 (°C)"));
        for (int i = 0; i < seconds.length; i++) {
            String moment = "2026-03-02T09:00" + seconds[i];
            sheet.row(number(style, decimals > 15 ? day(moment) : day(moment, decimals)), number("121." + (3 + 2 * i)));
        }
        return book.bytes();
    }

    private static String twin(String... times) {
        StringBuilder twin = new StringBuilder("time,T1 (°C)\n");
        for (int i = 0; i < times.length; i++) {
            twin.append("2026-03-02")
                    .append(times[i])
                    .append(",121.")
                    .append(3 + 2 * i)
                    .append('\n');
        }
        return twin.toString();
    }

    // ---- sheets

    private void addSheets() {
        HandWorkbook book = new HandWorkbook();
        book.sheet("About").row(book.text("Instrument"), book.text("invented")).row(book.text("Interval"), number("1"));
        fill(book, book.sheet("Data"));
        book.sheet("Chart data").state = "hidden";
        add(
                "340-one-of-three-sheets",
                book.bytes(),
                TWIN,
                "The sheet with the recording is found; the others are named.",
                "NOTE INTAKE-083",
                "explained read is sheet \"Data\", the only one with a recording");

        book = plain();
        fill(book, book.sheet("Second"));
        refuse(
                "341-two-recordings",
                book.bytes(),
                "Two sheets hold a recording: nobody guesses.",
                "refused INTAKE-021 | 2 sheets of the workbook hold a recording",
                "question sheet = Data, Second");
        add(
                "342-sheet-chosen",
                book.bytes(),
                TWIN,
                List.of("sheet = second"),
                "The question is answered.",
                "NOTE INTAKE-083",
                "explained read is sheet \"Second\", as chosen");
        add(
                "343-chosen-sheet-absent",
                book.bytes(),
                "",
                List.of("sheet = Third"),
                "A choice that does not fit says what there is.",
                "refused INTAKE-076 | \"Third\" | \"Data\", \"Second\"");

        book = new HandWorkbook();
        book.sheet("About").row(book.text("Instrument"), book.text("invented"));
        HandWorkbook.Sheet sheet = book.sheet("Data");
        sheet.state = "veryHidden";
        fill(book, sheet);
        add(
                "344-hidden-sheet",
                book.bytes(),
                TWIN,
                "The only recording is in a hidden sheet: read, and asked about.",
                "DOUBT INTAKE-083");

        book = plain();
        sheet = book.sheet("Hidden copy");
        sheet.state = "hidden";
        fill(book, sheet);
        add(
                "345-hidden-copy",
                book.bytes(),
                TWIN,
                "A hidden sheet is no rival of a shown one, but it is named.",
                "NOTE INTAKE-083");

        book = new HandWorkbook();
        sheet = book.sheet("Data");
        sheet.row(book.text("time"), book.text("T1 (°C)"), book.text("T2 (°C)"));
        for (int i = 0; i < 3; i++) {
            sheet.rowAt(
                    2 + i,
                    i == 1 ? " hidden=\"1\"" : "",
                    0,
                    number(DATE_AND_TIME, day(time(i))),
                    number("121." + (3 + 2 * i)),
                    number("121." + (4 + 2 * i)));
        }
        sheet.before = "<cols><col min=\"3\" max=\"9\" hidden=\"1\"/></cols>";
        add(
                "346-hidden-rows-and-columns",
                book.bytes(),
                TWIN,
                "What is hidden is read like the rest, and asked about.",
                "DOUBT INTAKE-082");

        book = new HandWorkbook();
        book.sheet("Empty").row();
        book.sheet("Also empty").row();
        refuse("347-blank", book.bytes(), "Nothing in any sheet.", "refused INTAKE-077 | none of its 2 sheets");

        book = new HandWorkbook();
        book.sheet("About").row(book.text("Instrument"), book.text("invented"));
        book.sheet("Notes").row(book.text("see the other file"));
        refuse("348-no-recording", book.bytes(), "Sheets, but no recording.", "refused INTAKE-011 | ");
    }

    // ---- shapes of honest workbooks

    private void addShapes() {
        HandWorkbook book = new HandWorkbook();
        HandWorkbook.Sheet sheet = book.sheet("Data");
        sheet.row(book.text("time"), book.text("Load"), none());
        sheet.row(none(), book.text("T1 (°C)"), book.text("T2 (°C)"));
        for (int i = 0; i < 3; i++) {
            sheet.row(number(DATE_AND_TIME, day(time(i))), number("121." + (3 + 2 * i)), number("121." + (4 + 2 * i)));
        }
        sheet.behind = "<mergeCells><mergeCell ref=\"A1:A2\"/><mergeCell ref=\"B1:C1\"/></mergeCells>";
        add(
                "350-merged-header",
                book.bytes(),
                "time,Load,Load\ntime,T1 (°C),T2 (°C)\n2026-03-02T09:00:00,121.3,121.4\n2026-03-02T09:00:01,121.5,121.6\n2026-03-02T09:00:02,121.7,121.8\n",
                "A name over two rows, a group over two columns.",
                "NOTE INTAKE-086");

        book = new HandWorkbook();
        sheet = book.sheet("Data");
        sheet.row(book.text("Run 7, invented"), none(), none());
        fill(book, sheet);
        sheet.behind = "<mergeCells><mergeCell ref=\"A1:C1\"/></mergeCells>";
        add(
                "351-merged-title",
                book.bytes(),
                "\"Run 7, invented\"\n" + TWIN,
                "A title over the whole width is a line before the header.");

        book = new HandWorkbook();
        sheet = book.sheet("Data");
        sheet.rowAt(5, "", 2, book.text("time"), book.text("T1 (°C)"), book.text("T2 (°C)"));
        for (int i = 0; i < 3; i++) {
            sheet.rowAt(
                    6 + i,
                    "",
                    2,
                    number(DATE_AND_TIME, day(time(i))),
                    number("121." + (3 + 2 * i)),
                    number("121." + (4 + 2 * i)));
        }
        add("352-begins-at-c5", book.bytes(), TWIN, "Empty rows above, empty columns to the left.");

        book = new HandWorkbook();
        sheet = book.sheet("Data");
        sheet.isPlaced = false;
        fill(book, sheet);
        add("353-places-left-out", book.bytes(), TWIN, "Cells without their places: each follows the one before.");

        book = new HandWorkbook();
        book.main = HandWorkbook.STRICT_MAIN;
        book.relations = HandWorkbook.STRICT_RELATIONS;
        fill(book, book.sheet("Data"));
        add("354-strict", book.bytes(), TWIN, "The strict form of the format has other name spaces.");

        book = new HandWorkbook();
        sheet = book.sheet("Data");
        sheet.row(inline("# Steamwright simulated recording - invented data, not a real cycle"));
        fill(book, sheet);
        add(
                "355-simulated",
                book.bytes(),
                "# Steamwright simulated recording - invented data, not a real cycle\n" + TWIN,
                "The mark of simulated data is seen here as well.",
                "NOTE INTAKE-049");

        HandZip zip = plain().zip();
        zip.isZip64 = true;
        for (HandZip.Part part : zip.parts) {
            part.extra = new HandZip.Bytes()
                    .two(1)
                    .two(16)
                    .eight(part.unpacked)
                    .eight(part.packed)
                    .toBytes();
            part.packed = 0xFFFFFFFFL;
            part.unpacked = 0xFFFFFFFFL;
        }
        add("356-large-form-of-zip", zip.bytes(), TWIN, "Sizes in the form for large archives (ZIP64).");

        zip = plain().zip();
        for (HandZip.Part part : zip.parts) {
            part.flags = 8;
            part.ownPacked = 0;
            part.ownUnpacked = 0;
            part.behind = new HandZip.Bytes()
                    .four(0x08074b50)
                    .four(part.crc)
                    .four(part.packed)
                    .four(part.unpacked)
                    .toBytes();
        }
        add("357-sizes-behind-the-parts", zip.bytes(), TWIN, "Sizes behind the parts, as streaming writers do it.");

        zip = plain().zip();
        for (HandZip.Part part : zip.parts) {
            part.named(text(new String(part.name, StandardCharsets.UTF_8).replace('/', '\\')));
        }
        add("358-backslashes", zip.bytes(), TWIN, "Old writers put backslashes between the steps of names.");

        HandWorkbook linked = plain();
        linked.part(
                "xl/externalLinks/_rels/externalLink1.xml.rels",
                "<Relationships><Relationship Id=\"rId1\" Type=\"externalLinkPath\" TargetMode=\"External\""
                        + " Target=\"file:///nowhere/other.xlsx\"/></Relationships>");
        add("359-link-elsewhere", linked.bytes(), TWIN, "A link to another workbook is never followed.");

        HandWorkbook named = plain();
        named.part("xl/embeddings/picture.xlsx", "PK");
        add("360-embedded", named.bytes(), TWIN, "An embedded document is not opened.");
    }

    // ---- refused

    private void addRefused() {
        byte[] honest = plain().bytes();
        refuse(
                "370-old-binary-form",
                compound("Workbook"),
                ".xls",
                "refused INTAKE-074 | old binary form (.xls) | .xlsx or CSV");
        refuse(
                "371-locked",
                compound("EncryptedPackage"),
                "A workbook with a password is another kind of file.",
                "refused INTAKE-073 | without a password");
        refuse(
                "372-opendocument",
                new HandZip()
                        .stored("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
                        .stored("content.xml", "<a/>")
                        .bytes(),
                ".ods",
                "refused INTAKE-074 | OpenDocument spreadsheet (.ods) | .xlsx or CSV");
        refuse(
                "373-binary-workbook",
                plain().part("_rels/.rels", rels("xl/workbook.bin"))
                        .part("xl/workbook.bin", "x")
                        .bytes(),
                ".xlsb",
                "refused INTAKE-074 | (.xlsb)");
        refuse(
                "374-text-document",
                plain().part("_rels/.rels", rels("word/document.xml"))
                        .part("word/document.xml", "<a/>")
                        .bytes(),
                ".docx",
                "refused INTAKE-074 | text document");
        refuse(
                "375-archive-of-files",
                new HandZip().stored("run.csv", TWIN).stored("notes.txt", "x").bytes(),
                "A zip of CSV files.",
                "refused INTAKE-074 | archive of 2 files | run.csv");
        refuse(
                "376-cut",
                java.util.Arrays.copyOf(honest, honest.length * 2 / 3),
                "Not copied to the end.",
                "refused INTAKE-070 | its end is missing");
        HandZip zip = plain().zip();
        zip.parts.get(zip.parts.size() - 1).crc ^= 1;
        refuse("377-other-bytes", zip.bytes(), "A checksum differs.", "refused INTAKE-070 | its checksum differs");
        refuse(
                "378-broken-xml",
                plain().part("xl/workbook.xml", "<workbook><sheets>").bytes(),
                "XML that breaks off.",
                "refused INTAKE-070 | part \"xl/workbook.xml\", line 1 | no well-formed XML");
        HandWorkbook book = plain();
        book.prologue = "<!DOCTYPE a [<!ENTITY e SYSTEM \"file:///etc/hostname\">]>";
        refuse(
                "379-document-type",
                book.bytes(),
                "A document type is the door to other files.",
                "refused INTAKE-075 | sheet1.xml | Nothing was opened");
        refuse(
                "380-sheet-missing",
                plain().part("xl/worksheets/sheet1.xml", "").bytes(),
                "A part is missing.",
                "refused INTAKE-070 | \"worksheets/sheet1.xml\" is missing");
        book = new HandWorkbook();
        HandWorkbook.Sheet sheet = book.sheet("Data");
        sheet.target = "file:///etc/hostname";
        fill(book, sheet);
        refuse("381-sheet-elsewhere", book.bytes(), "A sheet in another place.", "refused INTAKE-072 | not followed");
        book = plain();
        book.part("xl/sharedStrings.xml", "<sst/>");
        refuse(
                "382-text-missing",
                book.bytes(),
                "A cell names a text that is not there.",
                "refused INTAKE-070 | sheet \"Data\", row 1, column 1 | text \"0\" of the 0");
        book = new HandWorkbook();
        book.sheet("Data").rowAt(5, "", 0, number("1")).rowAt(4, "", 0, number("1"));
        refuse("383-rows-turned-round", book.bytes(), "Rows out of order.", "refused INTAKE-070 | behind row 5");
        book = new HandWorkbook();
        book.sheet("Data").row(raw("<c><v>1</v></c>")).raw("<row r=\"2\"><c r=\"A3\"><v>1</v></c></row>");
        refuse("384-cell-elsewhere", book.bytes(), "A cell not in its row.", "refused INTAKE-070 | not in this row");
        refuse(
                "385-part-locked",
                plain().zip().but(part -> part.flags = 1).bytes(),
                "A locked part.",
                "refused INTAKE-073 | locked with a password");
        refuse(
                "386-two-of-a-name",
                plain().zip().stored("XL/Workbook.xml", "<a/>").bytes(),
                "Two parts of one name: programs differ in which they take.",
                "refused INTAKE-072 | two parts have the name");
        refuse(
                "387-name-leads-out",
                plain().zip().stored("../../run.csv", "x").bytes(),
                "A name that leads out.",
                "refused INTAKE-072 | leads out of the archive");
        refuse(
                "388-unpacks-to-too-much",
                plain().zip().but(WorkbookCases::promiseMuch).bytes(),
                "More than is unpacked, whatever it may be.",
                "refused INTAKE-071 | more than 200 MB");
        refuse(
                "389-archive-within",
                new HandZip().stored("run.zip", honest).bytes(),
                "An archive of archives.",
                "refused INTAKE-072 | is an archive itself");
        refuse(
                "390-far-column",
                withRaw("<row r=\"1\"><c r=\"ZZZ1\"><v>1</v></c></row>"),
                "A cell in a column that no recording has.",
                "refused INTAKE-071 | column 18278");
        refuse(
                "391-no-place-for-it",
                plain().part("_rels/.rels", "<Relationships/>").bytes(),
                "Nothing tells which part is the workbook.",
                "refused INTAKE-070 | which part is the workbook");
        refuse(
                "392-damaged-day",
                withRaw(
                        "<row><c t=\"inlineStr\"><is><t>time</t></is></c><c t=\"inlineStr\"><is><t>T1 (°C)</t></is></c></row>"
                                + "<row><c s=\"1\"><v>46083.375</v></c><c><v>121.3</v></c></row>"
                                + "<row><c s=\"1\"><v>12.5</v></c><c><v>121.5</v></c></row>"
                                + "<row><c s=\"1\"><v>46083.376</v></c><c><v>121.7</v></c></row>"),
                "A day of the year 1900 among those of 2026.",
                "refused INTAKE-019 | row 3");
    }

    private static void promiseMuch(HandZip.Part part) {
        part.method = 8;
        part.unpacked = 250_000_000;
    }

    private static byte[] withRaw(String rows) {
        HandWorkbook book = new HandWorkbook();
        book.sheet("Data").raw(rows);
        return book.bytes();
    }

    private static String rels(String target) {
        return "<Relationships><Relationship Id=\"a\" Type=\"x/officeDocument\" Target=\"" + target
                + "\"/></Relationships>";
    }

    /** The head of the old container of documents, with the name of one stream in its directory. */
    private static byte[] compound(String stream) {
        byte[] bytes = new byte[1536];
        byte[] magic = {(byte) 0xD0, (byte) 0xCF, 0x11, (byte) 0xE0, (byte) 0xA1, (byte) 0xB1, 0x1A, (byte) 0xE1};
        System.arraycopy(magic, 0, bytes, 0, magic.length);
        byte[] name = stream.getBytes(StandardCharsets.UTF_16LE);
        System.arraycopy(name, 0, bytes, 1024, name.length);
        return bytes;
    }
}
