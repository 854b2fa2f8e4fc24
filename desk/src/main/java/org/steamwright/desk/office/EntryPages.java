package org.steamwright.desk.office;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import org.steamwright.desk.office.EntryForm.Option;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterEntries;
import org.steamwright.filing.RegisterEntries.Complaint;
import org.steamwright.filing.RegisterEntries.Entry;
import org.steamwright.filing.RegisterEntries.Refused;
import org.steamwright.filing.RegisterField;
import org.steamwright.filing.RegisterField.Listed;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.filing.RegisterForm;
import org.steamwright.records.JournalEntry;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.json.JsonText;

/**
 * One entry of the register: what it states and its history for everybody of the office, and for those who keep the register
 * the form in which it is entered and changed. Nothing is deleted; what ends gets a day or a state, and a reason.
 */
final class EntryPages {

    private static final String STATED = "stated/";
    /** Clinics whose rooms are offered to choose from. */
    private static final int OFFERED = 300;

    private static final int LONGEST = 4_000;

    private final Office office;
    private final RegisterEntries entries;

    EntryPages(Office office) {
        this.office = office;
        this.entries = new RegisterEntries(office.records());
    }

    /** Where an entry is shown. */
    static String path(Subject subject) {
        return "/register/entries/" + subject.id();
    }

    private static Reply missing(Frame frame) {
        return new Reply.Refusal(404, frame.say("office.not-in-register"), frame.say("office.not-in-register-remedy"));
    }

    private Optional<Entry> find(Ask ask) {
        try {
            return entries.find(SubjectId.parse(ask.part("id")));
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    Reply one(Ask ask) {
        Optional<Entry> entry = find(ask);
        return entry.isEmpty()
                ? missing(ask.frame())
                : page(ask, entry.get().list(), entry, entry.get().stated(), List.of(), 200);
    }

    Reply blank(Ask ask) {
        Optional<Listed> list = Listed.find(ask.part("list"));
        return list.isEmpty()
                ? missing(ask.frame())
                : page(
                        ask,
                        list.get(),
                        Optional.empty(),
                        like(ask).map(EntryPages::another).orElseGet(JsonNodeFactory.instance::objectNode),
                        List.of(),
                        200);
    }

    /** The instrument after which a new one is filled in; empty if none was asked for. */
    private Optional<Entry> like(Ask ask) {
        try {
            return Optional.of(ask.typed("like"))
                    .filter(id -> !id.isBlank() && ask.part("list").equals(Listed.INSTRUMENTS.word()))
                    .flatMap(id -> entries.find(SubjectId.parse(id)))
                    .filter(entry -> entry.list() == Listed.INSTRUMENTS);
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** What a further instrument of the same kind has in common with one: not what is its own, and what was found of it. */
    private static ObjectNode another(Entry entry) {
        ObjectNode like = entry.stated().deepCopy();
        like.remove(List.of("id", "serial", "certificates", "checks", "quarantine", "clock"));
        if (like.path("certificate") instanceof ObjectNode certificate && !certificate.has("file")) {
            certificate.remove(List.of("number", "points", "as-found"));
        } else {
            like.remove("certificate");
        }
        return like;
    }

    /** The stage of a visit from which somebody came here to enter something; empty if none did. */
    private static Optional<String> back(Ask ask) {
        return Optional.of(ask.typed("back")).filter(path -> path.matches("/visits/[0-9A-Za-z-]+/instruments"));
    }

    Reply add(Ask ask) throws IOException, FilingException {
        Optional<Listed> list = Listed.find(ask.part("list"));
        if (list.isEmpty()) {
            return missing(ask.frame());
        }
        RegisterForm form = form(ask);
        ObjectNode written = form.entry(RegisterField.of(list.get()), JsonNodeFactory.instance.objectNode());
        ObjectNode wanted = written.deepCopy();
        try {
            checkTyped(ask);
            checkClear(form);
            NavigableMap<String, byte[]> files = digital(ask, list.get(), wanted);
            SubjectId id = entries.add(list.get(), wanted, files, ask.author(), ask.typed("why"));
            return new Reply.Next(back(ask).orElse("/register/entries/" + id));
        } catch (Refused refused) {
            // a file that was sent along is not kept either
            return page(ask, list.get(), Optional.empty(), written, refused.complaints(), 422);
        }
    }

    Reply change(Ask ask) throws IOException, FilingException {
        Optional<Entry> found = find(ask);
        if (found.isEmpty()) {
            return missing(ask.frame());
        }
        Entry now = found.get();
        RegisterForm form = form(ask);
        ObjectNode written = form.entry(RegisterField.of(now.list()), now.stated());
        ObjectNode wanted = written.deepCopy();
        Entry seen = new Entry(now.list(), now.subject(), now.stated(), number(ask.typed("seen")));
        try {
            checkTyped(ask);
            checkClear(form);
            entries.change(seen, wanted, digital(ask, now.list(), wanted), ask.author(), ask.typed("why"));
            return new Reply.Next("/register/entries/" + now.subject().id());
        } catch (Refused refused) {
            // what somebody else entered meanwhile is shown, with the history that tells who it was
            return refused.isMeanwhile()
                    ? page(ask, now.list(), found, now.stated(), refused.complaints(), 409)
                    : page(ask, now.list(), found, written, refused.complaints(), 422);
        }
    }

    private static NavigableMap<String, byte[]> digital(Ask ask, Listed list, ObjectNode wanted)
            throws IOException, Refused {
        return list == Listed.INSTRUMENTS ? DigitalPart.take(ask, wanted) : new TreeMap<>();
    }

    private static int number(String text) {
        return text.matches("\\d{1,9}") ? Integer.parseInt(text) : -1;
    }

    private static void checkTyped(Ask ask) throws Refused {
        for (Map.Entry<String, String[]> one : ask.request().getParameterMap().entrySet()) {
            for (String typed : one.getValue()) {
                if (typed.length() > LONGEST || typed.indexOf(0) >= 0) {
                    throw Refused.of(one.getKey().replaceFirst("^f/", ""), "office.too-long");
                }
            }
        }
    }

    private static RegisterForm form(Ask ask) {
        Frame frame = ask.frame();
        return new RegisterForm(name -> ask.chosen("f/" + name), frame.figures()::typed, frame.figures()::of);
    }

    /** Refuses figures that may mean one thing or another, rather than guess. */
    private static void checkClear(RegisterForm form) throws Refused {
        if (!form.unclear().isEmpty()) {
            throw Refused.of(form.unclear().get(0), "office.figure-unclear");
        }
    }

    private Reply page(
            Ask ask, Listed list, Optional<Entry> entry, ObjectNode shown, List<Complaint> complaints, int status) {
        Frame frame = ask.frame();
        String title = entry.map(one -> title(one.subject()))
                .filter(text -> !text.isBlank())
                .orElse(frame.say("office.new-" + list.word()));
        boolean mayKeep = frame.may(Role.OFFICE);
        EntryForm form = new EntryForm(frame, complaints);
        Sheet.Writer writer = new Sheet.Writer(title);
        if (!mayKeep) {
            form.say(writer, RegisterField.of(list), shown);
        }
        entry.ifPresent(one -> history(writer, one, frame));
        List<Told> general = new ArrayList<>();
        general.addAll(form.complaintsOfNoField());
        Map<String, Object> values = new LinkedHashMap<>();
        values.put("sheet", writer.sheet());
        values.put(
                "inputs",
                mayKeep
                        ? form.inputs(
                                RegisterField.of(list),
                                shown,
                                entry.map(Entry::stated).orElse(JsonNodeFactory.instance.objectNode()))
                        : List.of());
        values.put("action", entry.map(one -> path(one.subject())).orElse("/register/new/" + list.word()));
        values.put("seen", entry.map(Entry::changes).orElse(0));
        values.put("isNew", entry.isEmpty());
        values.put("why", ask.typed("why"));
        values.put("whyComplaint", form.complaint("why"));
        values.put("isRefused", !complaints.isEmpty());
        values.put("complaints", general);
        values.put("rooms", mayKeep && list == Listed.STERILIZERS ? rooms() : List.of());
        values.put("links", links(entry, back(ask), frame));
        values.put(
                "digital",
                mayKeep && list == Listed.INSTRUMENTS
                        ? Optional.of(DigitalPart.of(shown, complaints, form::told))
                        : Optional.empty());
        values.put("back", back(ask).orElse(""));
        values.put(
                "like",
                entry.isPresent()
                        ? ""
                        : like(ask).map(one -> title(one.subject())).orElse(""));
        return new Reply.Page("office/entry.jte", values, status);
    }

    private static String title(Subject subject) {
        return subject.kind() == Kind.LOT || subject.kind() == Kind.PART || subject.kind() == Kind.INSTRUMENT
                ? (subject.text("number") + " " + subject.text("name")).strip()
                : FindPages.title(subject);
    }

    private static List<Sheet.Link> links(Optional<Entry> entry, Optional<String> back, Frame frame) {
        List<Sheet.Link> links = new ArrayList<>();
        back.ifPresent(path -> links.add(new Sheet.Link(frame.say("office.back-to-visit"), path)));
        entry.filter(one -> one.list() == Listed.INSTRUMENTS && frame.may(Role.OFFICE))
                .ifPresent(one -> links.add(new Sheet.Link(
                        frame.say("office.another-like"),
                        "/register/new/instruments?like=" + one.subject().id())));
        entry.map(Entry::subject).ifPresent(subject -> {
            if (subject.kind() == Kind.STERILIZER) {
                links.add(new Sheet.Link(frame.say("office.machine-page"), Shown.machinePath(subject)));
            } else if (subject.kind() == Kind.CLINIC) {
                links.add(new Sheet.Link(frame.say("office.clinic-page"), "/clinic/" + subject.id()));
            }
        });
        links.add(new Sheet.Link(frame.say("office.register"), "/register"));
        return links;
    }

    /** Rooms of clinics, as far as there are few enough to choose from. */
    private List<Option> rooms() {
        List<Option> rooms = new ArrayList<>();
        for (Subject clinic : office.records().subjects(Kind.CLINIC, OFFERED)) {
            RegisterFiling.roomsOf(clinic).forEach((id, words) -> rooms.add(new Option(id, words)));
        }
        return rooms;
    }

    private void history(Sheet.Writer writer, Entry entry, Frame frame) {
        List<List<Cell>> rows = new ArrayList<>();
        for (JournalEntry one : entries.history(entry)) {
            String key = one.property().substring(STATED.length());
            LocalDate day = one.at().atOffset(one.offset()).toLocalDate();
            rows.add(List.of(
                    Cell.of(frame.figures().day(day)),
                    Cell.of(one.author().name()),
                    Cell.of(EntryForm.label(frame, entry.list(), key)),
                    Cell.of(EntryForm.words(frame, entry.list(), key, one.oldValue())),
                    Cell.of(EntryForm.words(frame, entry.list(), key, one.newValue())),
                    Shown.text(one.why())));
        }
        writer.table(
                frame.say("office.history"),
                frame.say("office.only-by-visits"),
                List.of(
                        frame.say("office.day"),
                        frame.say("office.who"),
                        frame.say("office.fact"),
                        frame.say("office.before"),
                        frame.say("office.value"),
                        frame.say("office.reason")),
                rows);
    }

    /** What a fact stated, as a text. */
    static String plain(JsonText value) {
        JsonNode node = value.node();
        return value.isNull() ? "–" : node.isTextual() ? node.asText() : value.text();
    }
}
