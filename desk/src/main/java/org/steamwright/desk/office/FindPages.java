package org.steamwright.desk.office;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Reply;
import org.steamwright.records.Found;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.records.Use;

/** One box that finds everything, and the reverse: what used an instrument, a lot, a criteria set, a version. */
final class FindPages {

    private static final int MOST = 100;
    private static final List<Use> ASKED = List.of(
            Use.INSTRUMENT,
            Use.CRITERIA_SET,
            Use.ALGORITHM_VERSION,
            Use.LOT,
            Use.PART,
            Use.TECHNICIAN,
            Use.STERILIZER,
            Use.CLINIC,
            Use.FILE);

    /** Newest visits whose criteria sets and versions are offered. */
    private static final int LOOKED_AT = 200;

    private final Office office;

    FindPages(Office office) {
        this.office = office;
    }

    Reply find(Ask ask) {
        Frame frame = ask.frame();
        String typed = ask.typed("q");
        List<List<Cell>> rows = new ArrayList<>();
        boolean isComplete = true;
        if (!typed.isBlank()) {
            Found found = office.records().find(typed, MOST);
            isComplete = found.isComplete();
            for (Found.Hit hit : found.hits()) {
                rows.add(row(hit.subject(), met(hit.subject(), hit.property(), frame), frame));
            }
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.find"))
                .table(
                        "",
                        frame.say(typed.isBlank() ? "office.find-how" : "office.find-none"),
                        List.of(frame.say("office.kind"), frame.say("office.name"), frame.say("office.matched")),
                        rows);
        if (!isComplete) {
            writer.say("", List.of(frame.say("office.find-more")));
        }
        return Reply.page("office/find.jte", Map.of("sheet", writer.sheet(), "typed", typed, "path", "/find"));
    }

    /** What was met, as it is read: of a list what stands in it, of a word of the register the reader's. */
    private static String met(Subject subject, String property, Frame frame) {
        return subject.fact(property)
                .map(fact -> {
                    List<String> texts = new ArrayList<>();
                    if (fact.node().isArray()) {
                        fact.node().forEach(one -> texts.add(one.asText()));
                    } else {
                        texts.add(frame.words()
                                .find("office.word." + fact.plain())
                                .orElseGet(fact::plain));
                    }
                    return String.join(", ", texts);
                })
                .orElse("");
    }

    private static List<Cell> row(Subject subject, String matched, Frame frame) {
        return List.of(
                Cell.of(frame.say("office.kind-" + subject.kind().word())),
                Cell.link(title(subject), path(subject)),
                Shown.text(matched));
    }

    static String title(Subject subject) {
        return switch (subject.kind()) {
            case VISIT, ISSUE ->
                (subject.text("number") + " " + subject.text("clinic-name") + " " + subject.text("date")).strip();
            case STERILIZER ->
                (subject.text("maker") + " " + subject.text("model") + " " + subject.text("serial")).strip();
            case NONCONFORMITY -> subject.text("number") + " " + subject.text("what");
            default ->
                List.of(
                                subject.text("name"),
                                subject.text("number"),
                                subject.id().toString())
                        .stream()
                        .filter(text -> !text.isBlank())
                        .findFirst()
                        .orElse("");
        };
    }

    static String path(Subject subject) {
        return switch (subject.kind()) {
            case VISIT -> "/visits/" + subject.id();
            case ISSUE -> subject.text("visit").isBlank() ? "" : "/visits/" + subject.text("visit");
            case CLINIC, SITE -> "/clinic/" + subject.id();
            case STERILIZER -> Shown.machinePath(subject);
            case INSTRUMENT -> "/register/instruments/" + subject.id();
            case TECHNICIAN, LOT, PART -> EntryPages.path(subject);
            case NONCONFORMITY -> "/nonconformities/" + subject.id();
            case BATCH -> "";
        };
    }

    Reply affected(Ask ask) {
        Frame frame = ask.frame();
        Optional<Use> use = Arrays.stream(Use.values())
                .filter(one -> one.word().equals(ask.typed("use")))
                .findFirst();
        String what = ask.typed("what");
        List<List<Cell>> rows = new ArrayList<>();
        Optional<String> next = Optional.empty();
        if (use.isPresent() && !what.isBlank()) {
            Optional<SubjectId> after = Optional.empty();
            if (!ask.typed("after").isBlank()) {
                try {
                    after = Optional.of(SubjectId.parse(ask.typed("after")));
                } catch (IllegalArgumentException noId) {
                    after = Optional.empty();
                }
            }
            List<Subject> found = office.records().usedBy(use.get(), what, after, MOST);
            found.stream()
                    .filter(subject -> subject.kind() != Kind.SITE)
                    .forEach(subject -> rows.add(row(subject, Shown.day(frame, subject.text("date")), frame)));
            if (found.size() == MOST) {
                next = Optional.of("/affected?use=" + use.get().word() + "&what=" + Shown.part(what) + "&after="
                        + found.get(MOST - 1).id());
            }
        }
        Sheet.Writer writer = new Sheet.Writer(frame.say("office.affected"))
                .table(
                        "",
                        frame.say(what.isBlank() ? "office.affected-how" : "office.affected-none"),
                        List.of(frame.say("office.kind"), frame.say("office.name"), frame.say("office.day")),
                        rows);
        next.ifPresent(path -> writer.links(new Sheet.Link(frame.say("office.more"), path)));
        return Reply.page(
                "office/affected.jte",
                Map.of(
                        "sheet",
                        writer.sheet(),
                        "uses",
                        ASKED.stream().map(Use::word).toList(),
                        "use",
                        use.map(Use::word).orElse(""),
                        "what",
                        what,
                        "known",
                        known()));
    }

    /**
     * What instruments, lots, criteria sets and versions of the assessment are called, of those that the register has, this program
     * knows or newest visits used.
     */
    private List<String> known() {
        Set<String> known = new TreeSet<>();
        Presets presets = new Presets();
        for (String name : presets.names()) {
            CriteriaSet set = presets.get(name);
            known.add(set.name() + " " + set.version());
        }
        office.records().subjects(Kind.INSTRUMENT, LOOKED_AT).forEach(one -> known.add(one.text("number")));
        office.records().newest(Kind.LOT, LOOKED_AT).forEach(one -> known.add(one.text("number")));
        for (Subject visit : office.records().newest(Kind.VISIT, LOOKED_AT)) {
            known.add(visit.text("criteria-set"));
            known.add(visit.text("algorithm-version"));
        }
        known.remove("");
        return List.copyOf(known);
    }
}
