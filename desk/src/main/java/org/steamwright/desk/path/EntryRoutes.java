package org.steamwright.desk.path;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;

/** Entries of lists: added, taken over, copied, taken away, set aside, and what a run is doing. */
final class EntryRoutes {

    private final Office office;
    private final RegisterShelf shelf;

    EntryRoutes(Office office, RegisterShelf shelf) {
        this.office = office;
        this.shelf = shelf;
    }

    Reply entry(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        Map<String, String> values = new LinkedHashMap<>();
        ask.request().getParameterMap().forEach((name, typed) -> {
            if (name.startsWith("with.") && typed.length == 1) {
                values.put(name.substring("with.".length()), typed[0]);
            }
        });
        FactPath list = VisitDoor.parsed(FactPath::parse, ask.typed("list"));
        DraftChange change = draft.change().add(list, Again.begun(draft, list, values));
        RunFiles.unsign(draft, change, list);
        Draft now = change.keep(ask.author(), "");
        String first = list.then(now.count(list)).toString();
        return VisitDoor.back(ask, now, "e-" + Field.id(first));
    }

    /** Takes one entry over that an earlier visit had. */
    Reply offer(Ask ask, Draft draft)
            throws IOException, FilingException, RegisterException, DraftRefusal, VisitDoor.Garbled {
        FactPath list = VisitDoor.parsed(FactPath::parse, ask.typed("list"));
        RegisterInstruments register = list.toString().equals("instruments")
                ? RegisterInstruments.of(draft, office, shelf, ask.frame())
                : RegisterInstruments.NONE;
        Optional<Earlier.Offer> offer = Stream.concat(
                        register.offers().stream(),
                        Earlier.of(draft, office).stream()
                                .flatMap(before -> before.offers(list, draft).stream())
                                .filter(one ->
                                        !register.known().contains(one.words().getOrDefault("id", ""))))
                .filter(one -> one.mark().equals(ask.typed("mark")))
                .findFirst();
        if (offer.isEmpty()) {
            return VisitDoor.changedMeanwhile(ask);
        }
        Map<String, Object> entry = new LinkedHashMap<>(offer.get().entry());
        if (list.toString().endsWith("/indicators")) {
            entry.put("result", "awaited");
        }
        for (Map.Entry<String, byte[]> file : offer.get().files().entrySet()) {
            if (draft.bytes(file.getKey())
                    .filter(there -> !Arrays.equals(there, file.getValue()))
                    .isPresent()) {
                return new Reply.Refusal(
                        409,
                        ask.frame().say("path.offer-other-file", file.getKey()),
                        ask.frame().say("path.offer-other-file-remedy"));
            }
        }
        if (Again.isList(list)) {
            Again.mark(draft, list, 0).ifPresent(mark -> entry.put("id", mark));
        }
        DraftChange change = draft.change().expect(list, draft.find(list)).add(list, entry);
        offer.get().files().forEach((name, bytes) -> {
            if (!draft.files().containsKey(name)) {
                change.putFile(name, new ByteArrayInputStream(bytes));
            }
        });
        RunFiles.unsign(draft, change, list);
        Draft now = change.keep(ask.author(), "");
        return VisitDoor.back(
                ask, now, "e-" + Field.id(list.then(now.count(list)).toString()));
    }

    Reply removal(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        if (Recorded.isKept(draft, VisitDoor.parsed(FactPath::parse, ask.typed("path")))) {
            return VisitDoor.kept(ask);
        }
        Optional<Draft> now = Saving.remove(draft, ask.typed("path"), ask.typed("seen"), ask.author());
        return now.isPresent() ? VisitDoor.back(ask, now.get(), "") : VisitDoor.changedMeanwhile(ask);
    }

    Reply line(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        FactPath list = VisitDoor.parsed(FactPath::parse, ask.typed("list"));
        Draft now = ask.typed("text").isBlank() ? draft : draft.add(list, ask.typed("text"), ask.author(), "");
        return VisitDoor.back(ask, now, "");
    }

    Reply copy(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        FactPath from = VisitDoor.parsed(FactPath::parse, ask.typed("from"));
        FactPath to = VisitDoor.parsed(FactPath::parse, ask.typed("to"));
        if (Recorded.isKept(draft, to)) {
            return VisitDoor.kept(ask);
        }
        boolean isAsShown = Saving.mark(draft, from.toString()).equals(ask.typed("seen-from"))
                && Saving.mark(draft, to.toString()).equals(ask.typed("seen-to"));
        if (!isAsShown) {
            return VisitDoor.changedMeanwhile(ask);
        }
        DraftChange change = draft.change().expect(from, draft.find(from)).set(to, draft.find(from), draft.find(to));
        RunFiles.unsign(draft, change, to.then("description"));
        // what the clinic agreed to and what was photographed belongs to one run
        for (String own : List.of("agreed-by", "photos")) {
            change.set(to.then(own), Optional.empty());
        }
        return VisitDoor.back(ask, change.keep(ask.author(), ""), "");
    }

    /** The entries of another run once more, such as the same strips from the same box. */
    Reply again(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        FactPath from = VisitDoor.parsed(FactPath::parse, ask.typed("from"));
        FactPath to = VisitDoor.parsed(FactPath::parse, ask.typed("to"));
        if (!Again.isList(from) || !Again.isList(to)) {
            throw new VisitDoor.Garbled(from + " " + to);
        }
        List<Map<String, Object>> entries = Again.of(draft, from, to);
        if (draft.count(to) > 0 || entries.isEmpty()) {
            return VisitDoor.changedMeanwhile(ask);
        }
        DraftChange change = draft.change().expect(to, draft.find(to));
        entries.forEach(entry -> change.add(to, entry));
        return VisitDoor.back(
                ask, change.keep(ask.author(), ""), "e-" + Field.id(to.then(1).toString()));
    }

    /** Lets a recorded run count for nothing good, or count again; both with a reason. */
    Reply setAside(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        int run = VisitDoor.run(ask, draft);
        Optional<Reply> bad = CorrectionRoutes.withoutReason(ask, ask.typed("text"));
        if (bad.isPresent()) {
            return bad.get();
        }
        FactPath path = FactPath.of("runs", run, "set-aside");
        Optional<Object> standing = draft.find(path);
        boolean isAgain = !ask.typed("again").isBlank();
        if (standing.isPresent() != isAgain || !Recorded.is(draft, run)) {
            return VisitDoor.changedMeanwhile(ask);
        }
        Optional<Object> value = isAgain
                ? Optional.empty()
                : Optional.of(
                        Map.of("because", ask.typed("text"), "by", ask.person().name()));
        Draft now = draft.change().set(path, value, standing).keep(ask.author(), ask.typed("text"));
        return VisitDoor.back(ask, now, "e-" + Field.id("runs/" + run));
    }

    /** Another criteria set once something was recorded: with a reason, which the report prints. */
    Reply criteriaSet(Ask ask, Draft draft) throws DraftRefusal {
        Optional<Reply> bad = CorrectionRoutes.withoutReason(ask, ask.typed("text"));
        if (bad.isPresent()) {
            return bad.get();
        }
        FactPath path = FactPath.of("criteria-set");
        String from = draft.text(path);
        String to = ask.typed("to");
        if (to.equals(from) || !new Presets().names().contains(to)) {
            return CorrectionRoutes.refusal(ask, 422, "path.same-set");
        }
        Map<String, Object> change = new LinkedHashMap<>();
        change.put("from", from);
        change.put("to", to);
        change.put("because", ask.typed("text"));
        change.put("by", ask.person().name());
        Draft now = draft.change()
                .set(path, Optional.of(to), draft.find(path))
                .add(FactPath.of("criteria-set-changes"), change)
                .keep(ask.author(), ask.typed("text"));
        return VisitDoor.back(ask, now, "");
    }

    /** Which cycles the visit was asked for. */
    Reply scope(Ask ask, Draft draft) throws DraftRefusal {
        Optional<DraftChange> change = AskedCycles.change(
                draft,
                new CloseSheet(new StageSheet.Seen(draft, ask.frame(), Optional.empty(), List.of(), Equipment.NONE))
                        .cycles(),
                ask.typed("cycle"),
                !ask.typed("asked").isBlank());
        return change.isPresent()
                ? VisitDoor.back(ask, change.get().keep(ask.author(), ""), "")
                : VisitDoor.changedMeanwhile(ask);
    }

    Reply running(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        int run = VisitDoor.run(ask, draft);
        DraftChange change = draft.change();
        if (ask.typed("ended").isBlank()) {
            Running.start(draft, change, run, office.clock().instant());
        } else {
            Running.end(draft, change, run);
        }
        return VisitDoor.back(ask, change.keep(ask.author(), ""), "");
    }

    Reply undo(Ask ask, Draft draft) throws DraftRefusal, VisitDoor.Garbled {
        Optional<UUID> meant = ask.typed("change").isBlank()
                ? Optional.empty()
                : Optional.of(VisitDoor.parsed(UUID::fromString, ask.typed("change")));
        if (Recorded.isOfLastChange(draft)) {
            return VisitDoor.kept(ask);
        }
        return VisitDoor.back(ask, draft.undo(ask.author(), meant), "");
    }
}
