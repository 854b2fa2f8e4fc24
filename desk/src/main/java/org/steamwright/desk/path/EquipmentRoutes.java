package org.steamwright.desk.path;

import java.io.IOException;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftChange;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.DraftRefusal;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.visit.register.Lot;

/** Instruments and lots of a visit: what comes from the register, checks and clocks. */
final class EquipmentRoutes {

    /** What a clock shows. */
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);

    private final Office office;
    private final RegisterShelf shelf;

    EquipmentRoutes(Office office, RegisterShelf shelf) {
        this.office = office;
        this.shelf = shelf;
    }

    /** Brings an instrument of the office's register into the visit, or to it what the visit does not say of it. */
    Reply instrument(Ask ask, Draft draft) throws IOException, FilingException, RegisterException, DraftRefusal {
        String id = ask.typed("id");
        DraftChange change = draft.change();
        if (!RegisterInstruments.of(draft, office, shelf, ask.frame()).bring(draft, change, List.of(id), office)) {
            return VisitDoor.changedMeanwhile(ask);
        }
        return VisitDoor.back(ask, change.keep(ask.author(), ""), InstrumentsSheet.anchor(id));
    }

    /** Takes over what the register says of an instrument by now, with the reason, which stays in the journal. */
    Reply renewal(Ask ask, Draft draft) throws IOException, FilingException, RegisterException, DraftRefusal {
        String id = ask.typed("id");
        String reason = ask.typed("text");
        Optional<Reply> bad = CorrectionRoutes.withoutReason(ask, reason);
        if (bad.isPresent()) {
            return bad.get();
        }
        DraftChange change = draft.change();
        if (!RegisterInstruments.of(draft, office, shelf, ask.frame()).renew(draft, change, id, office)) {
            return VisitDoor.changedMeanwhile(ask);
        }
        return VisitDoor.back(ask, change.keep(ask.author(), reason), InstrumentsSheet.anchor(id));
    }

    /** Begins the checks of an instrument that the visit has and no column names yet. */
    Reply choice(Ask ask, Draft draft) throws IOException, FilingException, DraftRefusal {
        String id = ask.typed("text");
        FactPath entry = DraftInstruments.entry(draft, id);
        if (draft.instruments().find(id).isEmpty() || draft.find(entry).isPresent()) {
            return VisitDoor.changedMeanwhile(ask);
        }
        FactPath list = FactPath.of(CheckFacts.LIST);
        Draft now = draft.change()
                .expect(list, draft.find(list))
                .add(list, Map.of("instrument", id))
                .keep(ask.author(), "");
        return VisitDoor.back(ask, now, InstrumentsSheet.anchor(id));
    }

    /** The same check for the other instruments, such as in the same bath of ice; what each showed is typed for each. */
    Reply sameChecks(Ask ask, Draft draft) throws IOException, FilingException, DraftRefusal {
        String id = ask.typed("instrument");
        Moment moment = ask.typed("when").equals(Moment.BEFORE.word()) ? Moment.BEFORE : Moment.AFTER;
        DraftInstruments visit = draft.instruments();
        Map<String, String> frame = CheckFacts.frame(draft, id, moment);
        List<String> others = visit.find(id)
                .map(one -> CheckFacts.without(draft, visit, one, moment))
                .orElse(List.of());
        if (frame.isEmpty() || others.isEmpty()) {
            return VisitDoor.changedMeanwhile(ask);
        }
        DraftChange change = draft.change();
        CheckFacts.same(draft, change, others, frame, moment);
        return VisitDoor.back(
                ask, change.keep(ask.author(), ""), Field.id(CheckFacts.check(others.get(0), moment, "indicated")));
    }

    /** What the clock of the desk shows at this moment, as the reference with which the clock of a logger is read. */
    Reply clockReading(Ask ask, Draft draft) throws IOException, FilingException, VisitDoor.Garbled {
        String path = ask.typed("path");
        Optional<CheckFacts.Place> place = CheckFacts.place(path);
        if (place.isEmpty() || !path.endsWith("/reference")) {
            throw new VisitDoor.Garbled(path);
        }
        String now = CLOCK.format(office.clock().instant().atZone(Strip.zone(draft, office)));
        Saving.Saved saved = Saving.field(
                draft, path, now, VisitDoor.parsed(KeyedPath::parse, path).text(draft), Optional.empty(), ask.author());
        return saved.complaint()
                .map(why -> (Reply) Reply.Refusal.heard(ask.frame(), 409, why.what(), why.remedy()))
                .orElseGet(() -> VisitDoor.back(
                        ask,
                        saved.draft(),
                        Field.id(CheckFacts.clock(
                                place.get().instrument(), place.get().moment(), "logger"))));
    }

    /** An indicator of a lot of the office's store, with what stands on its box. */
    Reply lot(Ask ask, Draft draft)
            throws IOException, FilingException, RegisterException, DraftRefusal, VisitDoor.Garbled {
        FactPath list = VisitDoor.parsed(FactPath::parse, ask.typed("list"));
        Optional<Lot> lot = shelf.now().register().lots().stream()
                .filter(one -> one.id().equals(ask.typed("lot")))
                .findFirst();
        Optional<Map<String, Object>> entry = lot.flatMap(
                one -> LotOffers.entry(draft, list, one, ask.typed("control").equals("yes")));
        if (entry.isEmpty()) {
            return VisitDoor.changedMeanwhile(ask);
        }
        Draft now = draft.change().add(list, entry.get()).keep(ask.author(), "");
        return VisitDoor.back(
                ask, now, "e-" + Field.id(list.then(now.count(list)).toString()));
    }
}
