package org.steamwright.intake.register;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.Test;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.RegisterChange;
import org.steamwright.visit.register.RegisterComparison;

/** What is written reads back the same, whatever the register holds. */
class RegisterYamlProperties {

    @Property(tries = 300)
    void a_register_written_and_read_is_the_same(@ForAll @LongRange(min = 0, max = 1L << 40) long seed)
            throws IOException, RegisterException {
        Register register = new RandomRegister(seed).register();
        String yaml = RegisterYaml.write(new RegisterFile.Contents(register, Optional.empty()));
        assertThat(Office.read(yaml)).isEqualTo(register);
        assertThat(RegisterYaml.write(new RegisterFile.Contents(Office.read(yaml), Optional.empty())))
                .isEqualTo(yaml);
    }

    @Property(tries = 300)
    void a_table_of_a_register_changes_nothing_in_it(@ForAll @LongRange(min = 0, max = 1L << 40) long seed)
            throws RegisterException {
        Register register = new RandomRegister(seed).register();
        RegisterComparison comparison = table(RegisterCsv.write(register)).compare(register);
        assertThat(comparison.changes()).isEmpty();
        assertThat(comparison.rows())
                .hasSameSizeAs(register.sterilizers())
                .allMatch(row -> row.answer() == RegisterComparison.Answer.SAME);
    }

    @Property(tries = 300)
    void importing_twice_gives_no_change_and_undoing_gives_the_old_register(
            @ForAll @LongRange(min = 0, max = 1L << 40) long seed) throws RegisterException {
        Register old = new RandomRegister(seed).register();
        Register other = new RandomRegister(seed + 1).register();
        RegisterTable table = table(RegisterCsv.write(other));
        RegisterComparison first = table.compare(old);
        Register next = RegisterChange.apply(first.changes(), old);
        assertThat(table.compare(next).changes()).isEmpty();
        assertThat(table.compare(next).rows())
                .filteredOn(row -> row.answer() != RegisterComparison.Answer.REFUSED)
                .allMatch(row -> row.answer() == RegisterComparison.Answer.SAME);
        assertThat(RegisterChange.apply(RegisterChange.inverse(first.changes()), next))
                .isEqualTo(old);
    }

    @Property(tries = 200)
    void no_cell_begins_with_a_sign_that_a_spreadsheet_runs(@ForAll @LongRange(min = 0, max = 1L << 40) long seed) {
        String csv = RegisterCsv.write(new RandomRegister(seed).register());
        for (String line : csv.split("\r\n", -1)) {
            assertThat(line).doesNotMatch("^\"?[=+\\-@].*").doesNotMatch(".*,\"?[=+@].*|.*,\"?-.*");
        }
    }

    @Test
    void the_example_reads_back_the_same() throws IOException, RegisterException {
        RegisterFile.Contents contents = RegisterFile.read(Office.FOLDER);
        assertThat(contents.instrumentsFile()).contains("instruments.yaml");
        assertThat(RegisterFile.read(
                        RegisterYaml.write(contents).getBytes(StandardCharsets.UTF_8),
                        "register.yaml",
                        Optional.of(Office.FOLDER)))
                .isEqualTo(contents);
    }

    private static RegisterTable table(String csv) throws RegisterException {
        return RegisterTable.read(csv.getBytes(StandardCharsets.UTF_8), "machines.csv", TableMapping.SNIFFED);
    }

    @Test
    void takes_an_apostrophe_off_only_where_it_was_put() {
        for (String text : List.of("=1+1", "'=1+1", "''=x", "'quoted'", "-5", "a=b", "@x", "+61 8", "'", "O'Neil")) {
            assertThat(CellText.read(CellText.write(text))).isEqualTo(text);
            assertThat(CellText.write(text)).doesNotMatch("^[=+\\-@].*");
        }
    }
}
