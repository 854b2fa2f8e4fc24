package org.steamwright.desk.office;

import jakarta.servlet.http.Part;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterBatches;
import org.steamwright.filing.RegisterBatches.Batch;
import org.steamwright.filing.RegisterField.Listed;
import org.steamwright.filing.TemporaryFolder;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterColumn;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.proof.Hash;
import org.steamwright.visit.register.RegisterComparison;
import org.steamwright.visit.register.RegisterComparison.Answer;

/** A table of machines: looked at first, then entered as one batch, which can be taken back as one. */
final class TablePages {

    private static final int LARGEST = 8_000_000;
    /** Tables that were looked at and are kept at hand until they are entered. */
    private static final int AT_HAND = 4;

    private static final int LONGEST_NAME = 100;

    private final Office office;
    private final RegisterBatches batches;
    private final Map<String, Looked> looked = new LinkedHashMap<>();

    /** A table that was looked at. */
    private static final class Looked {
        private final String name;
        private final byte[] bytes;

        Looked(String name, byte[] bytes) {
            this.name = name;
            this.bytes = bytes;
        }

        String name() {
            return name;
        }

        byte[] bytes() {
            return bytes;
        }
    }

    TablePages(Office office) {
        this.office = office;
        this.batches = new RegisterBatches(office.records());
    }

    Reply front(Ask ask) {
        return page(ask, List.of(), 200);
    }

    private Reply page(Ask ask, List<Told> complaints, int status) {
        Sheet.Writer writer = new Sheet.Writer(ask.frame().say("office.table"));
        return page(ask, writer, complaints, "", status);
    }

    private Reply page(Ask ask, Sheet.Writer writer, List<Told> complaints, String known, int status) {
        Frame frame = ask.frame();
        List<List<Cell>> rows = new ArrayList<>();
        List<String> standing = new ArrayList<>();
        for (Batch batch : batches.all()) {
            rows.add(
                    0,
                    List.of(
                            Cell.of(batch.number()),
                            Cell.of(batch.file()),
                            Cell.of(frame.figures()
                                    .day(batch.at()
                                            .atZone(office.clock().getZone())
                                            .toLocalDate())),
                            Cell.of(batch.by()),
                            Cell.of(frame.hear(batch.rows())),
                            Cell.of(batch.undone().orElse(frame.say("office.table-stands")))));
            if (batch.undone().isEmpty()) {
                standing.add(0, batch.number());
            }
        }
        Sheet entered = new Sheet.Writer("")
                .table(
                        frame.say("office.tables"),
                        frame.say("office.tables-none"),
                        List.of(
                                frame.say("office.number"),
                                frame.say("office.name"),
                                frame.say("office.day"),
                                frame.say("office.who"),
                                frame.say("office.rows"),
                                frame.say("office.state")),
                        rows)
                .sheet();
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("sheet", writer.sheet());
        values.put("entered", entered);
        values.put("standing", standing);
        values.put("known", known);
        values.put(
                "columns",
                Arrays.stream(RegisterColumn.values()).map(RegisterColumn::word).collect(Collectors.joining(", ")));
        values.put("complaints", complaints);
        return new Reply.Page("office/table.jte", values, status);
    }

    private Reply complaint(Ask ask, String key) {
        return page(ask, List.of(Told.asItIs(ask.frame().say(key))), 422);
    }

    /** Looks at a table; nothing is entered. */
    Reply look(Ask ask) throws IOException, FilingException {
        Optional<Part> part =
                ask.files("table").stream().filter(one -> one.getSize() > 0).findFirst();
        if (part.isEmpty()) {
            return complaint(ask, "office.table-missing");
        }
        Looked table;
        try (InputStream in = part.get().getInputStream()) {
            table = new Looked(name(part.get().getSubmittedFileName()), in.readNBytes(LARGEST + 1));
        }
        if (table.bytes().length > LARGEST) {
            return complaint(ask, "office.table-too-large");
        }
        String known = Hash.ofContent(table.bytes()).hex();
        try {
            return with(table, file -> {
                RegisterBatches.Preview preview = batches.preview(file, Optional.empty());
                boolean wouldChange = preview.entered().isEmpty()
                        && !preview.comparison().changes().isEmpty();
                if (wouldChange) {
                    keep(known, table);
                }
                return preview(ask, table, preview, wouldChange ? known : "");
            });
        } catch (RegisterException | VisitFolderException unread) {
            return unread(ask, unread);
        }
    }

    private Reply preview(Ask ask, Looked table, RegisterBatches.Preview preview, String known) {
        Frame frame = ask.frame();
        List<List<Cell>> rows = new ArrayList<>();
        for (RegisterComparison.Row row : preview.comparison().rows()) {
            String fields = row.fields().stream()
                    .map(one -> EntryForm.label(frame, Listed.STERILIZERS, one.name()) + " "
                            + (one.before().isBlank() ? "–" : one.before()) + " → " + one.after())
                    .collect(Collectors.joining("; "));
            rows.add(List.of(
                    Cell.figure(Integer.toString(row.line())),
                    Shown.text(row.id()),
                    Cell.of(frame.say("office.answer-" + row.answer().word())),
                    row.answer() == Answer.REFUSED ? Cell.of(frame.hear(row.reason())) : Shown.text(fields)));
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.table"));
        preview.entered().ifPresent(batch -> writer.say("", List.of(frame.say("office.table-there", batch.number()))));
        List<String> leftOut = preview.table().leftOut();
        if (!leftOut.isEmpty()) {
            writer.say("", List.of(frame.say("office.table-left-out", String.join(", ", leftOut))));
        }
        if (known.isEmpty() && preview.entered().isEmpty()) {
            writer.say("", List.of(frame.say("office.table-nothing")));
        }
        writer.table(
                table.name(),
                frame.say("office.table-nothing"),
                List.of(
                        frame.say("office.line"),
                        frame.say("office.id"),
                        frame.say("office.would"),
                        frame.say("office.reason")),
                rows);
        return page(ask, writer, List.of(), known, 200);
    }

    private Reply unread(Ask ask, Exception unread) {
        List<Told> complaints = new ArrayList<>();
        complaints.add(Told.asItIs(ask.frame().say("office.table-unread")));
        if (unread instanceof RegisterException register) {
            register.problems().forEach(problem -> complaints.add(ask.frame().hear(problem.where(), problem.text())));
        } else {
            complaints.add(ask.frame().hear(String.valueOf(unread.getMessage())));
        }
        return page(ask, complaints, 422);
    }

    /** Enters a table that was looked at. */
    Reply enter(Ask ask) throws IOException, FilingException {
        Optional<Looked> table = take(ask.typed("known"));
        if (table.isEmpty()) {
            return complaint(ask, "office.table-again");
        }
        try {
            with(table.get(), file -> batches.enter(file, Optional.empty(), ask.author(), ask.typed("why")));
        } catch (RegisterException | VisitFolderException unread) {
            return unread(ask, unread);
        }
        return new Reply.Next("/register/table");
    }

    /** Takes a table back. */
    Reply undo(Ask ask) throws IOException, FilingException {
        Frame frame = ask.frame();
        if (ask.typed("number").isBlank() || ask.typed("why").isBlank()) {
            return complaint(ask, "office.table-back-incomplete");
        }
        RegisterBatches.Undoing undoing =
                batches.undo(batches.find(ask.typed("number")), ask.author(), ask.typed("why"));
        if (undoing.conflicts().isEmpty()) {
            return new Reply.Next("/register/table");
        }
        List<Told> complaints = new ArrayList<>();
        complaints.add(Told.asItIs(frame.say("office.table-back-not")));
        undoing.conflicts().forEach(one -> complaints.add(frame.hear(one.where(), one.what())));
        return page(ask, complaints, 409);
    }

    private synchronized void keep(String known, Looked table) {
        looked.remove(known);
        looked.put(known, table);
        while (looked.size() > AT_HAND) {
            looked.remove(looked.keySet().iterator().next());
        }
    }

    private synchronized Optional<Looked> take(String known) {
        return Optional.ofNullable(looked.remove(known));
    }

    private static String name(String sent) {
        String plain = sent.replaceAll("^.*[/\\\\]", "").replaceAll("[^\\p{L}\\p{N} ._-]", "-");
        String small = plain.length() > LONGEST_NAME ? plain.substring(plain.length() - LONGEST_NAME) : plain;
        return small.isBlank() || small.startsWith(".") ? "table.csv" : small;
    }

    /** Work on a file. */
    @FunctionalInterface
    private interface Work<T> {
        T on(Path file) throws IOException, RegisterException, FilingException, VisitFolderException;
    }

    private static <T> T with(Looked table, Work<T> work)
            throws IOException, RegisterException, FilingException, VisitFolderException {
        try (TemporaryFolder folder = TemporaryFolder.create("table")) {
            return work.on(Files.write(folder.path().resolve(table.name()), table.bytes()));
        }
    }
}
