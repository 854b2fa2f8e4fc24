package org.steamwright.desk.runs;

import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.path.Earlier;
import org.steamwright.desk.path.Strip;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.Drafts;
import org.steamwright.filing.FilingException;

/** Routes of the page of a run's recordings: it is looked at by all of the house, written by technicians. */
final class RecordingRoutes {

    private static final String PAGE = "/visits/{visit}/runs/{run}/recordings";
    private static final Set<Role> READERS = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> WRITERS = Set.of(Role.TECHNICIAN);

    private final Office office;
    private final Drafts drafts;
    private final FileReading reader = new FileReading();

    RecordingRoutes(Office office) {
        this.office = office;
        this.drafts = office.drafts();
    }

    /** What puts an entry into the draft. */
    @FunctionalInterface
    private interface Entry {
        void make(RunFacts facts, Ask ask) throws IOException, DraftRefusal, Entries.Refused;
    }

    List<Route> all() {
        return List.of(
                Route.get(PAGE, READERS, this::page),
                Route.post(PAGE, WRITERS, ask -> entered(ask, Entries::files)),
                Route.post(PAGE + "/remove", WRITERS, ask -> entered(ask, Entries::remove)),
                Route.post(PAGE + "/reading", WRITERS, ask -> entered(ask, Entries::answer)),
                Route.post(PAGE + "/channels", WRITERS, ask -> entered(ask, this::channels)),
                Route.post(PAGE + "/clock", WRITERS, ask -> entered(ask, Entries::clock)));
    }

    private void channels(RunFacts facts, Ask ask) throws DraftRefusal, Entries.Refused {
        Entries.channels(facts, ask, Earlier.of(facts.draft(), office));
    }

    private Optional<RunFacts> facts(Ask ask) {
        return RunPlace.visit(office, ask)
                .flatMap(subject -> RunPlace.number(ask).map(number -> new RunFacts(drafts.of(subject.id()), number)))
                .filter(RunFacts::isThere);
    }

    private Reply page(Ask ask) throws IOException, FilingException {
        Optional<RunFacts> facts = facts(ask);
        return facts.isEmpty()
                ? RunPlace.nothing(ask)
                : Reply.page(
                        "runs/recordings.jte",
                        Map.of(
                                "page",
                                RecordingsPage.of(
                                        facts.get(),
                                        reader,
                                        Earlier.of(facts.get().draft(), office)),
                                "strips",
                                Strip.of(facts.get().draft(), ask.frame(), office)));
    }

    private Reply entered(Ask ask, Entry entry) throws IOException {
        Optional<RunFacts> facts = facts(ask);
        if (facts.isEmpty()) {
            return RunPlace.nothing(ask);
        }
        try {
            entry.make(facts.get(), ask);
        } catch (DraftRefusal refused) {
            return Reply.Refusal.heard(ask.frame(), 409, refused.getMessage() + ".", refused.remedy());
        } catch (Entries.Refused refused) {
            return new Reply.Refusal(
                    422, ask.frame().say(refused.key()), ask.frame().say("runs.nothing-changed"));
        }
        return new Reply.Next(
                "/visits/" + facts.get().draft().id() + "/runs/" + facts.get().number() + "/recordings");
    }
}
