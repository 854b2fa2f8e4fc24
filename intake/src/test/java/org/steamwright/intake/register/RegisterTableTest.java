package org.steamwright.intake.register;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.groups.Tuple.tuple;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.intake.DateOrder;
import org.steamwright.visit.register.Duty;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.RegisterChange;
import org.steamwright.visit.register.RegisterComparison;
import org.steamwright.visit.register.RegisterComparison.Answer;
import org.steamwright.visit.register.SterilizerRecord;

class RegisterTableTest {

    static RegisterTable table(String csv) throws RegisterException {
        return table(csv, TableMapping.SNIFFED);
    }

    static RegisterTable table(String csv, TableMapping mapping) throws RegisterException {
        return RegisterTable.read(csv.getBytes(StandardCharsets.UTF_8), "machines.csv", mapping);
    }

    static String refused(String csv, TableMapping mapping) {
        RegisterException refused = catchThrowableOfType(RegisterException.class, () -> table(csv, mapping));
        assertThat(refused).isNotNull();
        return refused.problems().get(0).toString();
    }

    static RegisterComparison.Row only(String csv) throws RegisterException {
        List<RegisterComparison.Row> rows = table(csv).compare(Office.example()).rows();
        assertThat(rows).hasSize(1);
        return rows.get(0);
    }

    @Test
    void previews_what_a_table_would_do_and_does_nothing() throws RegisterException {
        Register office = Office.example();
        RegisterComparison comparison = table("""
                        Serial No.;Make;Model;Customer;Time zone;Room;Counter reading;Reading date;Colour
                        SN-0417;Example Works (invented);Small B18;Riverside Dental Care (invented);;Sterilising room;901;2026-03-02;blue
                        SN-0471;;Small B18;;;;;;
                        SN-9001;Other Works (invented);Big 22;Hillside Vets (invented);Australia/Perth;Back;12;2026-03-01;
                        """).compare(office);
        assertThat(comparison.rows())
                .extracting(RegisterComparison.Row::line, RegisterComparison.Row::id, RegisterComparison.Row::answer)
                .containsExactly(
                        tuple(2, "ST-01", Answer.CHANGED),
                        tuple(3, "ST-02", Answer.SAME),
                        tuple(4, "SN-9001", Answer.ADDED));
        assertThat(comparison.rows().get(0).fields())
                .containsExactly(new RegisterComparison.Field("counter", "", "901 on 2026-03-02"));
        assertThat(office).isEqualTo(Office.example());

        Register next = RegisterChange.apply(comparison.changes(), office);
        SterilizerRecord added = next.findSterilizer("SN-9001").orElseThrow();
        assertThat(next.findPlace(added).orElseThrow().title()).isEqualTo("Hillside Vets (invented), Back");
        assertThat(added.home()).isEqualTo("hillside-vets-invented-site-back");
        assertThat(next.findSterilizer("ST-01")
                        .orElseThrow()
                        .counter()
                        .last()
                        .orElseThrow()
                        .cycles())
                .isEqualTo(4702 + 901);
        assertThat(RegisterChange.apply(RegisterChange.inverse(comparison.changes()), next))
                .isEqualTo(office);
    }

    @Test
    void names_the_columns_it_understood_and_those_it_left_out() throws RegisterException {
        RegisterTable table = table("Serial No.,Brand,Colour\nX,Y,Z\n");
        assertThat(table.columns())
                .isEqualTo(Map.of("Serial No.", RegisterColumn.SERIAL, "Brand", RegisterColumn.MAKER));
        assertThat(table.leftOut()).containsExactly("Colour");
    }

    @ParameterizedTest(name = "{1}")
    @CsvSource(
            delimiter = '~',
            value = {
                "id,serial,last-validation ~ ST-01,SN-0417,02/03/2026 ~ REGISTER-024 column last-validation: found"
                        + " \"02/03/2026\", expected a day as year-month-day; a day or month written first is understood"
                        + " only if the mapping says which, by date-order, and with a year of four digits",
                "id,serial,last-validation ~ ST-01,SN-0417,2026-02-30 ~ REGISTER-024 column last-validation: found"
                        + " \"2026-02-30\", expected a day that exists",
                "id,serial,chamber ~ ST-01,SN-0417,big ~ REGISTER-024 column chamber: found \"big\", expected litres, such"
                        + " as 18 L",
                "id,serial,chamber-size ~ ST-01,SN-0417,250 x 450 ~ REGISTER-024 column chamber-size: found \"250 x 450\","
                        + " expected diameter and depth such as 250 x 450 mm, or width, height and depth such as 280 x 200"
                        + " x 400 mm, each side from 50 mm to 2000 mm, with one unit, mm or cm, at the end",
                "id,serial,tray-levels ~ ST-01,SN-0417,13 ~ REGISTER-024 column tray-levels: found \"13\", expected a whole"
                        + " number of levels, 1 to 12",
                "id,serial,counter ~ ST-01,SN-0417,900 ~ REGISTER-024 column counter: found \"900\", expected its day"
                        + " beside it, in a column counter-on",
                "id,serial,cycles ~ ST-01,SN-0417,134 wrapped ~ REGISTER-024 column cycles: found \"134 wrapped\", expected"
                        + " cycles parted by semicolons, each as name|type|temperature|in-use, such as"
                        + " 134 wrapped|B|134 °C|in-use",
                "id,serial ~ ST-01,SN-0417,more ~ REGISTER-025 found 3 cells, expected 2 as in the headings; is a cell with"
                        + " a comma in it without quotation marks?",
                "id,serial ~ ST-01,SN-0418 ~ ST-01 has the serial number SN-0417 in the register, SN-0418 in the table;"
                        + " another machine needs another id",
                "id,serial,model ~ ST-09,SN-0417,Small B18 ~ the serial number SN-0417 of this model belongs to ST-01"
                        + " already; an id never changes",
                "id,serial,counter,counter-on ~ ST-01,SN-0417,100,2026-03-01 ~ the reading of 2026-03-01 stands below that"
                        + " of 2026-02-02, and no reset between them is known",
                "id,serial,room-id,site-id ~ ST-01,SN-0417,riverside-two,riverside-main ~ it stands in riverside-steri in"
                        + " the register, in riverside-two in the table; a move is an event with a day: write moved on",
                "id,serial,room-id,site-id ~ ST-01,SN-0417,northgate-back,riverside-main ~ the room northgate-back belongs"
                        + " to the site northgate-one",
                "id,serial,clinic ~ ST-10,SN-10,New (invented) ~ the new site new-invented-site needs its time zone",
                "id,maker ~ ST-10,Some ~ a new machine needs its serial number",
            })
    void refuses_a_row_with_its_reason(String headings, String cells, String reason) throws RegisterException {
        RegisterComparison.Row row = only(headings + "\n" + cells + "\n");
        assertThat(row.answer()).isEqualTo(Answer.REFUSED);
        assertThat(row.reason()).isEqualTo(reason);
        assertThat(row.line()).isEqualTo(2);
        assertThat(table(headings + "\n" + cells + "\n")
                        .compare(Office.example())
                        .changes())
                .as("nothing of a refused row is taken")
                .isEmpty();
    }

    @Test
    void takes_sides_and_levels_of_a_chamber_and_writes_them_again() throws RegisterException {
        String csv = "id,serial,chamber-size,tray-levels\nST-01,SN-0417,ø 25 x 45 cm,5\n";
        Register office = Office.example();
        RegisterComparison comparison = table(csv).compare(office);
        assertThat(comparison.rows().get(0).fields())
                .containsExactly(
                        new RegisterComparison.Field("chamber-size", "250 x 370 mm", "250 x 450 mm"),
                        new RegisterComparison.Field("tray-levels", "3", "5"));

        Register next = RegisterChange.apply(comparison.changes(), office);
        SterilizerRecord.Identity machine =
                next.findSterilizer("ST-01").orElseThrow().identity();
        assertThat(machine.chamberSize().orElseThrow().litres()).isCloseTo(22.1, within(0.05));
        assertThat(machine.trayLevels()).hasValue(5);
        assertThat(RegisterCsv.write(next)).contains(",250 x 450 mm,5,in-use,");
        assertThat(table(RegisterCsv.write(next)).compare(next).changes()).isEmpty();
        assertThat(table("id,serial\nST-01,SN-0417\n").compare(next).changes())
                .as("a table without the columns erases nothing")
                .isEmpty();
        assertThat(RegisterChange.apply(RegisterChange.inverse(comparison.changes()), next))
                .isEqualTo(office);
    }

    @Test
    void takes_a_move_with_its_day() throws RegisterException {
        String csv = "id,site-id,room-id,moved-on\nST-01,riverside-main,riverside-two,2026-03-01\n";
        RegisterComparison comparison = table(csv).compare(Office.example());
        Register next = RegisterChange.apply(comparison.changes(), Office.example());
        SterilizerRecord machine = next.findSterilizer("ST-01").orElseThrow();
        assertThat(machine.room()).isEqualTo("riverside-two");
        assertThat(machine.roomOn(LocalDate.of(2026, 2, 28))).isEqualTo("riverside-steri");
        assertThat(table(csv).compare(next).changes()).isEmpty();
    }

    @Test
    void refuses_a_machine_that_stands_in_the_table_twice() throws RegisterException {
        RegisterComparison comparison = table("id,serial,year\nST-01,SN-0417,2021\nST-01,SN-0417,2022\n")
                .compare(Office.example());
        assertThat(comparison.rows())
                .extracting(RegisterComparison.Row::answer)
                .containsExactly(Answer.SAME, Answer.REFUSED);
        assertThat(comparison.rows().get(1).reason()).isEqualTo("the table has ST-01 in an earlier row already");
    }

    @Test
    void blank_cells_erase_nothing() throws RegisterException {
        assertThat(only("id,serial,maker,model,year,chamber,status\nST-01,SN-0417,,,,,\n")
                        .answer())
                .isEqualTo(Answer.SAME);
    }

    @Test
    void reads_other_dates_by_a_mapping() throws RegisterException {
        String csv = "Nr,validiert\nST-02,02.03.2026\n";
        TableMapping mapping = new TableMapping(
                Map.of("Nr", RegisterColumn.ID, "validiert", RegisterColumn.VALIDATED_ON),
                Optional.of(DateOrder.DAY_MONTH_YEAR),
                Optional.empty());
        Register next = RegisterChange.apply(
                table(csv, mapping).compare(Office.example()).changes(), Office.example());
        assertThat(next.findSterilizer("ST-02")
                        .orElseThrow()
                        .lastDone(Duty.VALIDATION)
                        .orElseThrow()
                        .on())
                .isEqualTo(LocalDate.of(2026, 3, 2));
    }

    @Test
    void reads_a_mapping_file(@TempDir Path folder) throws Exception {
        Path file = Files.writeString(folder.resolve("mapping.yaml"), """
                steamwright-table-mapping: 1
                date-order: day-month-year
                zone: Europe/Berlin
                columns: {Nr: id, validiert: last-validation}
                """);
        TableMapping mapping = TableMapping.read(file);
        assertThat(mapping.columns()).containsEntry("Nr", RegisterColumn.ID).hasSize(2);
        assertThat(mapping.dateOrder()).contains(DateOrder.DAY_MONTH_YEAR);
        Path wrong = Files.writeString(
                folder.resolve("wrong.yaml"), "steamwright-table-mapping: 1\ncolumns: {Nr: number}\n");
        assertThat(catchThrowableOfType(RegisterException.class, () -> TableMapping.read(wrong))
                        .problems()
                        .get(0)
                        .toString())
                .startsWith(
                        "REGISTER-027 wrong.yaml, line 2, columns.Nr: found \"number\", expected a column: id, serial");
    }

    @Test
    void refuses_what_is_no_table_of_machines() {
        assertThat(refused("", TableMapping.SNIFFED)).startsWith("REGISTER-020 machines.csv: found an empty file");
        assertThat(refused("a,b\n1,2\n", TableMapping.SNIFFED))
                .startsWith("REGISTER-021 machines.csv, line 1: found no column of ids or serial numbers");
        assertThat(refused("id,serial,SN\n1,2,3\n", TableMapping.SNIFFED))
                .startsWith("REGISTER-022 machines.csv, line 1, SN: found a second column for \"serial\"");
        assertThat(refused(
                        "id\n1\n",
                        new TableMapping(Map.of("Nr", RegisterColumn.SERIAL), Optional.empty(), Optional.empty())))
                .startsWith("REGISTER-023 machines.csv, line 1, Nr: found no such heading");
        assertThat(refused("id,serial\n\"1,2\n", TableMapping.SNIFFED)).startsWith("REGISTER-020");
        RegisterException latin = catchThrowableOfType(
                RegisterException.class,
                () -> RegisterTable.read(
                        "id,maker\n1,Größe\n".getBytes(StandardCharsets.ISO_8859_1), "m.csv", TableMapping.SNIFFED));
        assertThat(latin.problems().get(0).text()).contains("Save it as \"CSV UTF-8\"");
    }

    @Test
    void an_old_change_list_is_refused_where_the_register_moved_on() throws RegisterException {
        Register office = Office.example();
        RegisterComparison comparison = table("id,year\nST-01,2022\n").compare(office);
        Register other = RegisterChange.apply(
                table("id,year\nST-01,2020\n").compare(office).changes(), office);
        assertThat(catchThrowable(() -> RegisterChange.apply(comparison.changes(), other)))
                .isInstanceOf(IllegalStateException.class)
                .hasMessage("steriliser ST-01 has been changed since these changes were made; compare anew");
    }
}
