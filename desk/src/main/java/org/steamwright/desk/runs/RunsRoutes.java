package org.steamwright.desk.runs;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.steamwright.desk.path.About;
import org.steamwright.desk.path.Strip;
import org.steamwright.desk.path.Trail;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.desk.web.Role;
import org.steamwright.desk.web.Route;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.records.Subject;
import org.steamwright.report.language.Phrasebook;
import org.steamwright.report.language.Speaker;
import org.steamwright.report.plot.CyclePlot;
import org.steamwright.report.plot.Drawing;
import org.steamwright.report.plot.PlotJson;
import org.steamwright.report.plot.SvgWriter;

/** Routes of the runs. */
public final class RunsRoutes {

    private static final Set<Role> READERS = Set.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);
    private static final Set<Role> WRITERS = Set.of(Role.TECHNICIAN);
    private static final String RUN = "/visits/{visit}/runs/{run}";

    private RunsRoutes() {}

    /** The routes. */
    public static List<Route> all(Office office) {
        List<Route> routes = new ArrayList<>(new RecordingRoutes(office).all());
        Borders borders = new Borders(office);
        routes.addAll(List.of(
                Route.get(RUN, READERS, ask -> RunPlace.answer(office, ask, place -> run(office, ask, place, borders))),
                Route.post(
                        RUN + "/borders",
                        WRITERS,
                        ask -> RunPlace.answer(office, ask, place -> borders.state(ask, place))),
                Route.post(
                        RUN + "/borders/remove",
                        WRITERS,
                        ask -> RunPlace.answer(office, ask, place -> borders.remove(ask, place))),
                Route.get(RUN + "/traces", READERS, ask -> RunPlace.answer(office, ask, place -> traces(ask, place))),
                Route.get(
                        RUN + "/whole.svg",
                        READERS,
                        ask -> RunPlace.answer(
                                office,
                                ask,
                                place ->
                                        picture(ask, RunPage.drawing(place.run().evaluation(), speaker(ask))))),
                Route.get(
                        RUN + "/plateau.svg",
                        READERS,
                        ask -> RunPlace.answer(
                                office,
                                ask,
                                place -> picture(
                                        ask, CyclePlot.plateau(place.run().evaluation(), speaker(ask))))),
                Route.get("/visits/{visit}/compare", READERS, ask -> compare(office, ask))));
        return List.copyOf(routes);
    }

    private static Reply run(Office office, Ask ask, RunPlace place, Borders borders) {
        boolean mayState = ask.frame().may(Role.TECHNICIAN)
                && !office.records().isSealed(place.subject().id());
        return Reply.page(
                "runs/run.jte",
                Map.of(
                        "nonconformity",
                        About.of(office.drafts().of(place.subject().id()))
                                .sterilizer(place.run().run().sterilizer())
                                .run(Optional.of(place.run().run().number()))
                                .href(),
                        "run",
                        RunPage.of(place, mayState, speaker(ask)),
                        "isFixed",
                        !mayState,
                        "seen",
                        borders.mark(place),
                        "trail",
                        Trail.of(
                                office.drafts().of(place.subject().id()),
                                ask.frame(),
                                office.clock().getZone()),
                        "strips",
                        Strip.of(office.drafts().of(place.subject().id()), ask.frame(), office)));
    }

    private static Reply compare(Office office, Ask ask) throws IOException, FilingException, VisitFolderException {
        Optional<Subject> visit = RunPlace.visit(office, ask);
        return visit.isEmpty()
                ? RunPlace.nothing(ask)
                : Reply.page(
                        "runs/compare.jte",
                        Map.of(
                                "compare",
                                ComparePage.of(visit.get(), office.visits().of(visit.get()), ask.chosen("run")),
                                "strips",
                                Strip.of(office.drafts().of(visit.get().id()), ask.frame(), office)));
    }

    private static Reply traces(Ask ask, RunPlace place) {
        OptionalDouble from = seconds(ask.typed("from"));
        OptionalDouble to = seconds(ask.typed("to"));
        if (from.isPresent() && to.isPresent() && !(from.getAsDouble() < to.getAsDouble())) {
            return new Reply.Refusal(400, ask.frame().say("runs.no-stretch"), "");
        }
        return new Reply.Attachment(
                "application/json",
                out -> PlotJson.write(
                        place.run().evaluation(),
                        place.run().loadFindings(),
                        from,
                        to,
                        Phrasebook.in(ask.frame().words().language()),
                        out),
                Optional.empty());
    }

    private static OptionalDouble seconds(String typed) {
        return typed.matches("-?[0-9]{1,7}(\\.[0-9]{1,6})?")
                ? OptionalDouble.of(Double.parseDouble(typed))
                : OptionalDouble.empty();
    }

    private static Speaker speaker(Ask ask) {
        return Speaker.of(ask.frame().words().language(), Set.of());
    }

    private static Reply picture(Ask ask, Optional<Drawing> drawing) {
        return drawing.<Reply>map(one -> new Reply.Attachment(
                        "image/svg+xml;charset=utf-8",
                        out -> out.write(SvgWriter.write(one).getBytes(StandardCharsets.UTF_8)),
                        Optional.empty()))
                .orElseGet(() -> RunPlace.nothing(ask));
    }
}
