package org.steamwright.desk.training;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Method;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.TrainingRecord;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.simulator.LoggerFile;

/** Routes of the training: the way to it on the desk of real visits, and its pages on the desk of its own. */
public final class TrainingRoutes {

    private static final Set<Role> TRAINEES = Set.of(Role.TECHNICIAN);
    private static final String PAGE = "/training";
    private static final String VISIT = PAGE + "/{visit}";
    private static final List<String> SIGNING = List.of("/visits/{visit}/signatures", "/visits/{visit}/keys");
    private static final int SHOWN = 30;
    private static final long SEEDS = 1_000_000;

    private final Office office;
    private final RandomGenerator random;
    private final Runnable deletion;

    private TrainingRoutes(Office office, RandomGenerator random, Runnable deletion) {
        this.office = office;
        this.random = random;
        this.deletion = deletion;
    }

    /** The way to the training on the desk of real visits. */
    public static List<Route> door(TrainingGround ground) {
        return List.of(
                Route.get(PAGE, TRAINEES, ask -> Reply.page("training/door.jte", Map.of("address", ground.address()))),
                Route.post(PAGE + "/open", TRAINEES, ask -> {
                    ground.open(ask.person().name());
                    return new Reply.Next(PAGE);
                }));
    }

    /** The desk's routes for the training record: nothing is signed there, and there are pages of its own. */
    static List<Route> on(List<Route> desk, Office office, RandomGenerator random, Runnable deletion) {
        TrainingRoutes training = new TrainingRoutes(office, random, deletion);
        List<Route> routes = new ArrayList<>(desk);
        routes.removeIf(route -> route.method() == Method.POST && SIGNING.contains(route.pattern()));
        for (String signing : SIGNING) {
            routes.add(Route.post(
                    signing,
                    TRAINEES,
                    ask -> new Reply.Refusal(
                            403,
                            ask.frame().say("training.not-signed"),
                            ask.frame().say("training.not-signed-remedy"))));
        }
        routes.add(Route.get(PAGE, TRAINEES, ask -> training.page()));
        routes.add(Route.post(PAGE, TRAINEES, training::begin));
        routes.add(Route.get(PAGE + "/delete", TRAINEES, ask -> training.asked()));
        routes.add(Route.post(PAGE + "/delete", TRAINEES, ask -> training.deleted()));
        routes.add(Route.get(VISIT, TRAINEES, training::visit));
        routes.add(Route.post(VISIT + "/recordings", TRAINEES, training::readOut));
        routes.add(Route.get(VISIT + "/files", TRAINEES, training::file));
        routes.add(Route.get(VISIT + "/answer", TRAINEES, training::answer));
        return List.copyOf(routes);
    }

    private Reply page() {
        return Reply.page("training/training.jte", Map.of("faults", TrainingFault.all(), "visits", visits()));
    }

    private List<TrainingVisit> visits() {
        return office.records().newest(Kind.VISIT, SHOWN).stream()
                .flatMap(visit -> TrainingVisit.of(office.drafts().of(visit.id())).stream())
                .toList();
    }

    private Reply begin(Ask ask) throws FilingException {
        long seed = random.nextLong(SEEDS);
        Optional<TrainingFault> chosen = TrainingFault.find(ask.typed("fault"));
        try {
            TrainingVisit begun = TrainingVisit.begin(
                    office.drafts(),
                    ask.author(),
                    number(),
                    chosen.orElseGet(() -> TrainingFault.drawn(random.nextLong(SEEDS))),
                    seed,
                    chosen.isEmpty());
            return new Reply.Next(PAGE + "/" + begun.draft().id());
        } catch (DraftRefusal refused) {
            return Reply.Refusal.heard(ask.frame(), 409, refused.getMessage() + ".", refused.remedy());
        }
    }

    private String number() {
        int number = 1;
        while (office.filing().find(TrainingRecord.PREFIX + number).isPresent()) {
            number++;
        }
        return TrainingRecord.PREFIX + number;
    }

    private Optional<TrainingVisit> named(Ask ask) {
        SubjectId id = ask.subject("visit");
        Subject subject = office.records().subject(id);
        Optional<Draft> draft =
                subject.kind() == Kind.VISIT ? Optional.of(office.drafts().of(id)) : Optional.empty();
        return draft.flatMap(TrainingVisit::of);
    }

    private static Reply nothing(Ask ask) {
        return new Reply.Refusal(
                404, ask.frame().say("training.not-there"), ask.frame().say("training.not-there-remedy"));
    }

    private Reply visit(Ask ask) {
        return named(ask)
                .<Reply>map(visit -> Reply.page("training/visit.jte", Map.of("visit", visit, "names", visit.names())))
                .orElseGet(() -> nothing(ask));
    }

    private Reply readOut(Ask ask) throws IOException {
        Optional<TrainingVisit> visit = named(ask);
        if (visit.isEmpty()) {
            return nothing(ask);
        }
        try {
            visit.get().readOut(ask.author());
            return new Reply.Next(PAGE + "/" + visit.get().draft().id());
        } catch (DraftRefusal refused) {
            return Reply.Refusal.heard(ask.frame(), 409, refused.getMessage() + ".", refused.remedy());
        }
    }

    private Reply file(Ask ask) {
        Optional<LoggerFile> file = named(ask).stream()
                .flatMap(visit -> visit.files().stream())
                .filter(one -> one.name().equals(ask.typed("name")))
                .findFirst();
        return file.<Reply>map(one -> new Reply.Attachment(
                        "text/csv;charset=utf-8", out -> out.write(one.bytes()), Optional.of(one.name())))
                .orElseGet(() -> nothing(ask));
    }

    private Reply answer(Ask ask) throws IOException, FilingException {
        Optional<TrainingVisit> visit = named(ask);
        if (visit.isEmpty()) {
            return nothing(ask);
        }
        Optional<TrainingVisit.Answer> answer = visit.get().answer();
        return answer.isEmpty()
                ? new Reply.Refusal(
                        409, ask.frame().say("training.no-answer"), ask.frame().say("training.no-answer-remedy"))
                : Reply.page("training/answer.jte", Map.of("visit", visit.get(), "answer", answer.get()));
    }

    private Reply asked() {
        return Reply.page(
                "training/delete.jte", Map.of("visits", (int) office.records().count(Kind.VISIT)));
    }

    private Reply deleted() {
        deletion.run();
        return Reply.page("training/deleted.jte", Map.of());
    }
}
