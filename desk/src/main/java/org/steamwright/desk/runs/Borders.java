package org.steamwright.desk.runs;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.cycle.Phase;
import org.steamwright.assessment.cycle.Phases;
import org.steamwright.assessment.cycle.StatedBorder;
import org.steamwright.assessment.cycle.StatedPhases;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.verdict.RunEvaluation;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;

/** Stated borders of phases, put into the draft of a visit and taken away again. The plateau is not among them. */
final class Borders {

    private static final String STATED = "stated-borders";
    private static final int LONGEST_REASON = 500;
    private static final String SECONDS = "-?[0-9]{1,7}(\\.[0-9]{1,6})?";
    private static final int ATTEMPTS = 4;

    private final Office office;

    Borders(Office office) {
        this.office = office;
    }

    /** States a border, in the place of the same border if that is stated already. */
    Reply state(Ask ask, RunPlace place) {
        RunEvaluation evaluation = place.run().evaluation();
        Optional<Phases> phases = evaluation.phases();
        Optional<BorderForm.Choice> choice = choice(evaluation, ask.typed("border"));
        Optional<String> typed = ask.frame().figures().typed(ask.typed("at")).filter(one -> one.matches(SECONDS));
        String reason = ask.typed("because");
        if (phases.isEmpty() || choice.isEmpty()) {
            return refusal(ask, "runs.border-unknown");
        }
        if (typed.isEmpty()) {
            return refusal(ask, "runs.border-no-moment");
        }
        if (reason.isBlank() || reason.length() > LONGEST_REASON) {
            return refusal(ask, "runs.border-no-reason");
        }
        List<StatedBorder> borders = new ArrayList<>(evaluation.run().statedBorders());
        borders.removeIf(border -> isOf(border, choice.get().name()));
        borders.add(border(
                choice.get().name(),
                Double.parseDouble(typed.get()),
                ask.author().name(),
                reason));
        Trace trace = evaluation.run().trace();
        Optional<String> objection = StatedPhases.of(
                        phases.get().phases(), borders, trace.firstSeconds(), trace.lastSeconds())
                .refusal();
        if (objection.isPresent()) {
            return new Reply.Refusal(
                    422,
                    ask.frame().say("runs.border-refused", objection.get()),
                    ask.frame().say("runs.border-refused-remedy"));
        }
        return kept(
                ask, place, choice.get().name(), Optional.of(fact(choice.get().name(), typed.get(), ask, reason)));
    }

    /** Takes a stated border away; the found one stands alone again. */
    Reply remove(Ask ask, RunPlace place) {
        String name = ask.typed("border");
        return place.run().evaluation().run().statedBorders().stream().noneMatch(border -> isOf(border, name))
                ? refusal(ask, "runs.border-unknown")
                : kept(ask, place, name, Optional.empty());
    }

    private static FactPath path(RunPlace place) {
        return FactPath.of("runs", place.run().run().number(), STATED);
    }

    /** A short mark of the borders that stand, by which a form knows that they are still those that it showed. */
    String mark(RunPlace place) {
        return mark(office.drafts().of(place.subject().id()).find(path(place)));
    }

    private static String mark(Optional<Object> standing) {
        return Integer.toHexString(standing.map(Object::hashCode).orElse(0));
    }

    private Reply kept(Ask ask, RunPlace place, String name, Optional<Map<String, Object>> fact) {
        FactPath path = path(place);
        for (int attempt = 1; ; attempt++) {
            Draft draft = office.drafts().of(place.subject().id());
            Optional<Object> standing = draft.find(path);
            String shown = ask.typed("seen");
            if (!shown.isEmpty() && !shown.equals(mark(standing))) {
                return new Reply.Refusal(
                        409,
                        ask.frame().say("runs.borders-changed"),
                        ask.frame().say("runs.borders-changed-remedy"));
            }
            List<Object> facts = new ArrayList<>();
            for (Object one : standing.filter(List.class::isInstance)
                    .map(List.class::cast)
                    .orElse(List.of())) {
                if (!(one instanceof Map<?, ?> map) || !name.equals(map.get("phase") + "/" + map.get("end"))) {
                    facts.add(one);
                }
            }
            fact.ifPresent(facts::add);
            try {
                draft.set(path, facts.isEmpty() ? Optional.empty() : Optional.of(facts), standing, ask.author(), "");
                break;
            } catch (DraftRefusal refused) {
                if (refused.reason() != DraftRefusal.Reason.CHANGED_MEANWHILE || attempt == ATTEMPTS) {
                    return Reply.Refusal.heard(ask.frame(), 409, refused.getMessage() + ".", refused.remedy());
                }
            }
        }
        return new Reply.Next(
                "/visits/" + place.subject().id() + "/runs/" + place.run().run().number() + "#phases");
    }

    private static Map<String, Object> fact(String name, String seconds, Ask ask, String reason) {
        String[] parts = name.split("/", 2);
        Map<String, Object> fact = new LinkedHashMap<>();
        fact.put("phase", parts[0]);
        fact.put("end", parts[1]);
        fact.put("at", seconds + " s");
        fact.put("by", ask.author().name());
        fact.put("because", reason);
        return fact;
    }

    private static StatedBorder border(String name, double at, String author, String reason) {
        for (Phase.Kind kind : Phase.Kind.values()) {
            for (StatedBorder.End end : StatedBorder.End.values()) {
                if (BorderForm.name(kind, end).equals(name)) {
                    return new StatedBorder(kind, end, at, author, reason);
                }
            }
        }
        throw new IllegalArgumentException("no border is called " + name);
    }

    private static boolean isOf(StatedBorder border, String name) {
        return BorderForm.name(border.phase(), border.end()).equals(name);
    }

    private static Optional<BorderForm.Choice> choice(RunEvaluation evaluation, String name) {
        return BorderForm.of(evaluation, true).choices().stream()
                .filter(choice -> choice.name().equals(name))
                .findFirst();
    }

    private static Reply refusal(Ask ask, String key) {
        return new Reply.Refusal(422, ask.frame().say(key), ask.frame().say("runs.nothing-changed"));
    }
}
