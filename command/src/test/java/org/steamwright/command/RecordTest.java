package org.steamwright.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The record from the command line: a visit in, found, verified, altered, copied, signed and out again. */
class RecordTest {

    private static final String BY = "Kim Sample (invented)";

    @TempDir
    Path folder;

    Session session;

    @BeforeEach
    void make_the_demo() {
        session = new Session(folder);
        assertThat(session.run("demo", "--no-report", "--quiet").status()).isEqualTo(ExitStatus.PASS);
    }

    private Session.Said good(String... typed) {
        Session.Said said = session.run(typed);
        assertThat(said.status()).as(said.err()).isEqualTo(ExitStatus.PASS);
        return said;
    }

    private static TreeMap<String, byte[]> files(Path root) throws IOException {
        TreeMap<String, byte[]> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(root)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                files.put(root.relativize(file).toString(), Files.readAllBytes(file));
            }
        }
        return files;
    }

    @Test
    void a_visit_goes_in_once_is_found_and_comes_out_as_it_was() throws Exception {
        assertThat(good("record", "office", "demo", "--by", BY).out()).contains("Recorded DEMO-2026-001");
        assertThat(good("record", "office", "demo", "--by", BY).out())
                .contains("Unchanged DEMO-2026-001")
                .contains("Facts entered: 0");
        assertThat(good("find", "office", "ex-1001").out())
                .contains("sterilizer")
                .contains("DEMO-2026-001");
        assertThat(good("find", "office", "--used", "instrument=TL-01").out()).contains("DEMO-2026-001");
        assertThat(good("find", "office", "--used", "instrument=TL-99").err()).contains("Nothing found");
        good("export", "office", "again", "--visit", "DEMO-2026-001");
        TreeMap<String, byte[]> before = files(folder.resolve("demo"));
        before.remove("result.json");
        TreeMap<String, byte[]> after = files(folder.resolve("again"));
        assertThat(after.keySet()).isEqualTo(before.keySet());
        after.forEach((name, bytes) -> assertThat(bytes).as(name).isEqualTo(before.get(name)));
        assertThat(session.run("assess", "again", "--json").out())
                .as("the record and the folder come to equal results")
                .isEqualTo(session.run("assess", "demo", "--json").out())
                .contains("DEMO-2026-001");
    }

    @Test
    void a_changed_fact_is_entered_with_its_reason_and_a_file_that_went_is_gone() throws Exception {
        good("record", "office", "demo", "--by", BY);
        Path yaml = folder.resolve("demo/visit.yaml");
        Files.writeString(yaml, Files.readString(yaml).replace("bench by the window", "bench by the door"));
        assertThat(good("record", "office", "demo", "--by", BY, "--why", "typed wrongly")
                        .out())
                .contains("Recorded again")
                .contains("Facts entered: 2");
        assertThat(good("verify", "office").out()).contains("Everything is as it was kept.");
    }

    @Test
    void a_flipped_bit_is_found_and_located() throws Exception {
        good("record", "office", "demo", "--by", BY);
        Path file;
        try (Stream<Path> all = Files.walk(folder.resolve("office/files"))) {
            file = all.filter(Files::isRegularFile).sorted().findFirst().orElseThrow();
        }
        byte[] bytes = Files.readAllBytes(file);
        bytes[bytes.length / 2] ^= 4;
        Files.setPosixFilePermissions(file, java.nio.file.attribute.PosixFilePermissions.fromString("rw-------"));
        Files.write(file, bytes);
        Session.Said said = session.run("verify", "office");
        assertThat(said.status()).isEqualTo(ExitStatus.ALTERED);
        assertThat(said.out()).contains("DIFFERS").contains(String.valueOf(file.getFileName()));
    }

    @Test
    void copies_are_verified_and_lead_back_to_the_same_journal() {
        String journal = good("record", "office", "demo", "--by", BY)
                .out()
                .lines()
                .reduce((a, b) -> b)
                .orElseThrow();
        assertThat(journal).startsWith("Journal: ");
        assertThat(good("backup", "office", "copy").out()).contains("Good").contains(journal);
        assertThat(good("restore", "second", "copy").out()).contains("Good").contains(journal);
        assertThat(good("export", "office", "plain").out()).contains(journal);
        assertThat(good("import", "third", "plain").out()).contains(journal);
        assertThat(good("verify", "third", "--head", journal.substring("Journal: ".length()))
                        .out())
                .contains("Everything is as it was kept.");
        assertThat(session.run("backup", "office", "copy").status()).isEqualTo(ExitStatus.UNREADABLE);
    }

    @Test
    void an_invented_visit_is_never_signed_nor_mixed_with_a_real_one() throws Exception {
        good("record", "office", "demo", "--by", BY);
        key("office");
        Session.Said said =
                session.answered("open sesame 1\n", "sign", "office", "DEMO-2026-001", "--by", technician());
        assertThat(said.status()).isEqualTo(ExitStatus.UNREADABLE);
        makeReal();
        Session.Said mixed = session.run("record", "office", "demo", "--by", BY);
        assertThat(mixed.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(mixed.err()).contains("invented");
    }

    @Test
    void a_signed_visit_is_fixed_and_assessed_again_by_verify() throws Exception {
        makeReal();
        good("record", "office", "demo", "--by", BY);
        key("office");
        Session.Said wrong =
                session.answered("another secret\n", "sign", "office", "DEMO-2026-001", "--by", technician());
        assertThat(wrong.status()).isEqualTo(ExitStatus.UNREADABLE);
        Session.Said signed =
                session.answered("open sesame 1\n", "sign", "office", "DEMO-2026-001", "--by", technician());
        assertThat(signed.status()).as(signed.err()).isEqualTo(ExitStatus.PASS);
        assertThat(signed.out()).contains("Signed DEMO-2026-001, issue 1");
        assertThat(good("verify", "office").out())
                .contains("1, 1 assessed again")
                .contains("Everything is as it was kept.");
        Path yaml = folder.resolve("demo/visit.yaml");
        Files.writeString(yaml, Files.readString(yaml).replace("bench by the window", "bench by the door"));
        Session.Said late = session.run("record", "office", "demo", "--by", BY, "--why", "typed wrongly");
        assertThat(late.status()).isEqualTo(ExitStatus.UNREADABLE);
    }

    @Test
    void a_register_goes_in_once_and_the_record_says_the_same_is_due() throws Exception {
        Path office = Path.of(System.getProperty("steamwright.root"), "docs/examples/office");
        String register = office.toString();
        Session.Said first = good("record", "office", register, "--by", BY);
        assertThat(first.out()).contains("Register: 1").doesNotContain("Facts entered: 0");
        assertThat(good("record", "office", register, "--by", BY).out()).contains("Facts entered: 0");
        assertThat(good("due", "office", "--on", "2026-03-02", "--json").out())
                .as("the record and the file come to the same list")
                .isEqualTo(good("due", register, "--on", "2026-03-02", "--json").out());
        assertThat(session.run("plan", "office", "SN-0417", "--reason", "yearly", "--at", "2026-03-02T09:00")
                        .out())
                .isEqualTo(session.run("plan", register, "SN-0417", "--reason", "yearly", "--at", "2026-03-02T09:00")
                        .out());
        assertThat(good("find", "office", "riverside").out()).contains("clinic");
        assertThat(good("verify", "office").out()).contains("Everything is as it was kept.");
    }

    @Test
    void a_new_office_begins_with_its_table() throws IOException {
        Files.writeString(
                folder.resolve("machines.csv"), "serial,maker,model\nSN-1,Example Works (invented),Small B18\n");
        Files.writeString(folder.resolve("none.csv"), "colour\nred\n");
        assertThat(good("register", "begun", "--import", "machines.csv").out())
                .contains("1 added, 0 changed, 0 same, 0 refused.")
                .endsWith("begun would be a new record.\n");
        assertThat(session.run("register", "begun", "--import", "none.csv", "--enter", "--by", BY)
                        .status())
                .isEqualTo(ExitStatus.UNREADABLE);
        assertThat(folder.resolve("begun"))
                .as("made by looking, or by what is no table")
                .doesNotExist();
        assertThat(good("register", "begun", "--import", "machines.csv", "--enter", "--by", BY)
                        .out())
                .contains("Entered as B-1: ");
        assertThat(good("register", "begun").out()).contains("1 sterilisers").contains("SN-1");
    }

    @Test
    void a_table_of_machines_is_looked_at_entered_once_and_taken_back() {
        String office = Path.of(System.getProperty("steamwright.root"), "docs/examples/office")
                .toString();
        String table = office + "/machines.csv";
        good("record", "office", office, "--by", BY);
        Session.Said look = session.run("register", "office", "--import", table);
        assertThat(look.status()).as("a row is refused").isEqualTo(ExitStatus.FAIL);
        assertThat(look.out())
                .contains("1 added, 1 changed, 1 same, 1 refused.")
                .endsWith("Nothing was entered. --enter enters these changes as one batch.\n");
        assertThat(session.run("register", office, "--import", table, "--enter", "--by", BY)
                        .err())
                .contains("--enter enters a table into a record");
        assertThat(session.run("register", "office", "--enter", "--by", BY).status())
                .isEqualTo(ExitStatus.USAGE);
        assertThat(session.run("register", "office", "--import", table, "--enter")
                        .err())
                .contains("--by is missing");
        assertThat(good("undo", "office").out()).isEqualTo("No table was entered.\n");

        Session.Said entered =
                session.run("register", "office", "--import", table, "--enter", "--by", BY, "--why", "new list");
        assertThat(entered.status()).as(entered.err()).isEqualTo(ExitStatus.FAIL);
        assertThat(entered.out()).contains("Entered as B-1: ").contains("'undo' takes it back.");
        assertThat(good("register", "office").out()).contains("SN-9001");
        assertThat(session.run("register", "office", "--import", table, "--enter", "--by", BY)
                        .out())
                .contains("This table was entered already, as B-1 by " + BY);
        assertThat(good("undo", "office").out()).startsWith("B-1  machines.csv, entered at ");
        assertThat(good("undo", "office", "B-1", "--dry-run").out())
                .contains("Facts that would be as before: ")
                .endsWith("Nothing was entered.\n");
        assertThat(session.run("undo", "office", "B-1", "--by", BY).err()).contains("--reason is missing");
        assertThat(good("undo", "office", "B-1", "--by", BY, "--reason", "list of another office")
                        .out())
                .startsWith("Taken back: B-1, ");
        assertThat(good("register", "office").out()).doesNotContain("SN-9001");
        assertThat(session.run("undo", "office", "B-1", "--dry-run").status()).isEqualTo(ExitStatus.FAIL);
        assertThat(session.run("undo", "office", "B-9", "--by", BY, "--reason", "x")
                        .err())
                .contains("no table was entered as 'B-9'");
        assertThat(good("verify", "office").out()).contains("Everything is as it was kept.");
    }

    @Test
    void a_key_is_renewed_with_its_secret_or_with_a_reason_and_ended_with_one() throws Exception {
        good("record", "office", "demo", "--by", BY);
        key("office");
        String by = technician();
        Session.Said wrong = session.answered("not the secret\nanother secret\n", "key", "office", "--by", by);
        assertThat(wrong.err()).contains("RECORD-032");
        Session.Said renewed = session.answered("open sesame 1\n  spaces count here \n", "key", "office", "--by", by);
        assertThat(renewed.status()).as(renewed.err()).isEqualTo(ExitStatus.PASS);
        assertThat(session.answered("spaces count here\nanother secret\n", "key", "office", "--by", by)
                        .err())
                .as("a secret is taken as it is typed")
                .contains("RECORD-032");
        assertThat(session.answered("another secret\n", "key", "office", "--by", by, "--reason", "written on a wall")
                        .status())
                .isEqualTo(ExitStatus.PASS);
        assertThat(session.run("key", "office", "--by", by, "--end").err()).contains("--reason is missing");
        assertThat(good("key", "office", "--by", by, "--end", "--reason", "left the office")
                        .out())
                .contains("has ended");
        assertThat(good("verify", "office").out()).contains("Everything is as it was kept.");
    }

    @Test
    void the_address_of_a_database_may_stand_in_a_file_and_is_not_shown() throws Exception {
        Path file = folder.resolve("server");
        Files.writeString(file, "jdbc:sqlite:password-of-the-test");
        Session.Said wrong = session.run("verify", "office", "--server-file", "server");
        assertThat(wrong.status()).isEqualTo(ExitStatus.UNREADABLE);
        assertThat(wrong.err())
                .contains("one line with an address of PostgreSQL is expected")
                .doesNotContain("password-of-the-test");
        assertThat(session.run("backup", "office", "copy", "--server-file", "nowhere")
                        .err())
                .contains("nowhere: there is no such file");
        assertThat(session.run("restore", "again", "copy", "--server-file", "server", "--server", "jdbc:postgresql:x")
                        .status())
                .isEqualTo(ExitStatus.USAGE);
        Files.writeString(file, "jdbc:postgresql://127.0.0.1:1/nothing?user=x&password=password-of-the-test\n");
        Session.Said unreachable = session.run("verify", "office", "--server-file", "server");
        assertThat(unreachable.err())
                .as("the address is taken from the file")
                .contains("RECORD-001")
                .doesNotContain("password-of-the-test");
    }

    @Test
    void what_is_missing_is_said_with_the_remedy() {
        assertThat(session.run("record", "office", "demo").err()).contains("--by is missing");
        assertThat(session.run("find", "nowhere", "x").err()).contains("there is no record in this folder");
        assertThat(session.run("verify", "office", "--head", "12").status()).isEqualTo(ExitStatus.USAGE);
        good("record", "office", "demo", "--by", BY);
        assertThat(session.run("sign", "office", "R-9", "--by", BY).err()).contains("no visit with the report number");
        assertThat(session.run("key", "office", "--by", "Nobody").err()).contains("knows nobody called");
        assertThat(session.run("find", "office", "--used", "colour=red").status())
                .isEqualTo(ExitStatus.USAGE);
    }

    private void key(String record) throws IOException {
        DemoRecord.key(session, record, technician());
    }

    private String technician() throws IOException {
        return DemoRecord.technician(folder.resolve("demo"));
    }

    private void makeReal() throws IOException {
        DemoRecord.makeReal(folder.resolve("demo"));
    }
}
