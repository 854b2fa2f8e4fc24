package org.steamwright.desk.runs;

import java.io.IOException;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.path.Earlier;
import org.steamwright.desk.path.RegisterInstruments;
import org.steamwright.desk.path.Strip;
import org.steamwright.desk.path.Trail;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.visit.AssessedRun;

/** Routes of the page of a run's recordings: it is looked at by all of the house, written by technicians. */
final class RecordingRoutes {

    private static final String PAGE = "/visits/{visit}/runs/{run}/recordings";
    private static final Set<Role> READERS = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> WRITERS = Set.of(Role.TECHNICIAN);

    private static final int ATTEMPTS = 8;

    private final Office office;
    private final Drafts drafts;
    private final FileReading reader = new FileReading();
    private final RegisterShelf shelf;

    RecordingRoutes(Office office) {
        this.office = office;
        this.drafts = office.drafts();
        this.shelf = new RegisterShelf(office);
    }

    /** What puts an entry into the draft. */
    @FunctionalInterface
    private interface Entry {
        void make(RunFacts facts, Ask ask)
                throws IOException, FilingException, RegisterException, DraftRefusal, Entries.Refused;
    }

    List<Route> all() {
        return List.of(
                Route.get(PAGE, READERS, this::page),
                Route.post(PAGE, WRITERS, ask -> entered(ask, Entries::files)),
                Route.post(PAGE + "/remove", WRITERS, ask -> entered(ask, Entries::remove)),
                Route.post(PAGE + "/reading", WRITERS, ask -> entered(ask, Entries::answer)),
                Route.post(PAGE + "/channels", WRITERS, ask -> entered(ask, this::channels)),
                Route.post(PAGE + "/places", WRITERS, ask -> entered(ask, Entries::place)),
                Route.post(PAGE + "/clock", WRITERS, ask -> entered(ask, Entries::clock)),
                Route.post(PAGE + "/undo", WRITERS, ask -> entered(ask, Entries::undo)),
                Route.get(PAGE + "/follows", READERS, this::follows),
                Route.get(PAGE + "/clocks", READERS, this::clocks));
    }

    private void channels(RunFacts facts, Ask ask)
            throws IOException, FilingException, RegisterException, DraftRefusal, Entries.Refused {
        Entries.channels(facts, ask, Earlier.of(facts.draft(), office), office, register(facts, ask));
    }

    private RegisterInstruments register(RunFacts facts, Ask ask)
            throws IOException, FilingException, RegisterException {
        return RegisterInstruments.of(facts.draft(), office, shelf, ask.frame());
    }

    private Optional<RunFacts> facts(Ask ask) {
        return RunPlace.visit(office, ask)
                .flatMap(subject -> RunPlace.number(ask).map(number -> new RunFacts(drafts.of(subject.id()), number)))
                .filter(RunFacts::isThere);
    }

    /** Instruments that a column can name, each with what it is. */
    private Map<String, String> instruments(Ask ask, RunFacts facts)
            throws IOException, FilingException, RegisterException {
        Map<String, String> words = new TreeMap<>(register(facts, ask).usable());
        facts.draft().instruments().read().instruments().forEach((id, one) -> words.put(id, one.description()));
        words.remove("");
        return words;
    }

    private Reply page(Ask ask) throws IOException, FilingException, RegisterException {
        return shown(ask, "runs/recordings.jte");
    }

    private Reply follows(Ask ask) throws IOException, FilingException, RegisterException {
        return shown(ask, "runs/follows.jte");
    }

    private Reply clocks(Ask ask) throws IOException, FilingException {
        Optional<RunFacts> facts = facts(ask);
        if (facts.isEmpty()) {
            return RunPlace.nothing(ask);
        }
        RunFacts run = facts.get();
        Optional<AssessedRun> assessed = run.draft().read().assessed().flatMap(visit -> visit.find(run.number()));
        return new Reply.Attachment(
                "application/json", out -> ClockCurves.write(run, reader, assessed, out), Optional.empty());
    }

    private Reply shown(Ask ask, String template) throws IOException, FilingException, RegisterException {
        Optional<RunFacts> facts = facts(ask);
        return facts.isEmpty()
                ? RunPlace.nothing(ask)
                : Reply.page(
                        template,
                        Map.of(
                                "page",
                                RecordingsPage.of(
                                        facts.get(),
                                        reader,
                                        Optional.of(facts.get().draft().read()),
                                        trail(ask, facts.get()),
                                        Earlier.of(facts.get().draft(), office),
                                        instruments(ask, facts.get())),
                                "strips",
                                Strip.of(facts.get().draft(), ask.frame(), office)));
    }

    private Trail trail(Ask ask, RunFacts facts) {
        return Trail.of(facts.draft(), ask.frame(), office.clock().getZone());
    }

    private Reply entered(Ask ask, Entry entry) throws IOException, FilingException, RegisterException {
        for (int attempt = 1; ; attempt++) {
            Optional<RunFacts> facts = facts(ask);
            if (facts.isEmpty()) {
                return RunPlace.nothing(ask);
            }
            try {
                entry.make(facts.get(), ask);
            } catch (DraftRefusal refused) {
                if (refused.reason() == DraftRefusal.Reason.CHANGED_MEANWHILE && attempt < ATTEMPTS) {
                    // somebody else wrote to the same run between reading and keeping; this entry is made upon theirs
                    continue;
                }
                return Reply.Refusal.heard(ask.frame(), 409, refused.getMessage() + ".", refused.remedy());
            } catch (Entries.Refused refused) {
                return new Reply.Refusal(
                        422, refused.words(ask.frame()), ask.frame().say("runs.nothing-changed"));
            }
            return ask.isPartial() ? kept(ask) : new Reply.Next(address(ask, facts.get()));
        }
    }

    private static String address(Ask ask, RunFacts facts) {
        String run = "/visits/" + facts.draft().id() + "/runs/" + facts.number();
        return ask.typed("back").equals("run") ? run : run + "/recordings";
    }

    /** What of the page changes with an entry, without the assessment, which the page asks for by itself. */
    private Reply kept(Ask ask) throws IOException, FilingException {
        Optional<RunFacts> facts = facts(ask);
        if (facts.isEmpty()) {
            return RunPlace.nothing(ask);
        }
        String saved = ask.frame().say("path.saved", ask.frame().figures().time(ZonedDateTime.now(office.clock())));
        return Reply.page(
                "runs/kept.jte",
                Map.of(
                        "page",
                        RecordingsPage.of(
                                facts.get(),
                                reader,
                                Optional.empty(),
                                trail(ask, facts.get()),
                                Optional.empty(),
                                Map.of()),
                        "file",
                        ask.typed("file"),
                        "channel",
                        ask.typed("channel"),
                        "form",
                        ask.typed("form"),
                        "saved",
                        saved));
    }
}
