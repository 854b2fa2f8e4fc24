package org.steamwright.desk.path;

import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.FactPath;
import org.steamwright.visit.register.Lot;

/** Lots of the office's store at a visit: those that are good for its day are one touch away, of the others the reason is told. */
final class LotOffers {

    private static final Map<String, Lot.Kind> KINDS = Map.of(
            "indicators", Lot.Kind.BIOLOGICAL,
            "chemical-indicators", Lot.Kind.CHEMICAL,
            "penetration", Lot.Kind.PENETRATION_DEVICE);

    private LotOffers() {}

    /** Buttons for the lots that fit a list, and notes on those that don't. */
    static void offer(Draft draft, List<Lot> lots, FactPath list, Frame frame, Block.Maker maker) {
        Lot.Kind kind = KINDS.get(list.last());
        Optional<LocalDate> day = DraftInstruments.day(draft);
        List<Lot> fitting = lots.stream().filter(lot -> lot.kind() == kind).toList();
        if (!fitting.isEmpty() && day.isEmpty()) {
            maker.note(frame.say("path.lot.no-day"));
            return;
        }
        for (Lot lot : fitting) {
            String until = frame.figures().day(lot.expires());
            Optional<String> reason = reason(lot, day.orElseThrow(), frame);
            if (reason.isPresent()) {
                maker.note(reason.get());
            } else if (kind == Lot.Kind.BIOLOGICAL) {
                button(maker, frame.say("path.lot.exposed", lot.product(), lot.number(), until), list, lot, "no");
                button(maker, frame.say("path.lot.control", lot.product(), lot.number(), until), list, lot, "yes");
            } else {
                button(maker, frame.say("path.lot.take", lot.product(), lot.number(), until), list, lot, "");
            }
        }
    }

    private static void button(Block.Maker maker, String words, FactPath list, Lot lot, String control) {
        maker.button(words, "lots", Map.of("list", list.toString(), "lot", lot.id(), "control", control));
    }

    /** Why a lot is not good for a day; empty if it is. */
    private static Optional<String> reason(Lot lot, LocalDate day, Frame frame) {
        String until = frame.figures().day(lot.expires());
        if (lot.expires().isBefore(day)) {
            return Optional.of(frame.say("path.lot.expired", lot.number(), lot.product(), until));
        }
        LocalDate read = lastDay(lot, day);
        return lot.expires().isBefore(read)
                ? Optional.of(frame.say(
                        "path.lot.too-short",
                        lot.number(),
                        lot.product(),
                        until,
                        frame.figures().day(read)))
                : Optional.empty();
    }

    /** The day on which the incubation ends, if it begins on the day of the visit. */
    private static LocalDate lastDay(Lot lot, LocalDate day) {
        return day.atStartOfDay().plus(lot.incubation()).toLocalDate();
    }

    /** The entry that a lot gives in a list; empty if it does not fit, or is not good on the day of the visit. */
    static Optional<Map<String, Object>> entry(Draft draft, FactPath list, Lot lot, boolean isControl) {
        Optional<LocalDate> day = DraftInstruments.day(draft);
        boolean isFitting = lot.kind() == KINDS.get(list.last())
                && (Again.isList(list) || list.toString().equals("job-sheet/penetration"))
                && day.filter(date -> !lot.expires().isBefore(lastDay(lot, date)))
                        .isPresent();
        if (!isFitting) {
            return Optional.empty();
        }
        Map<String, Object> entry = new LinkedHashMap<>();
        Again.mark(draft, list, 0).ifPresent(mark -> entry.put("id", mark));
        entry.put(lot.kind() == Lot.Kind.PENETRATION_DEVICE ? "device" : "product", lot.product());
        entry.put("lot", lot.number());
        entry.put("expires", lot.expires().toString());
        if (lot.kind() == Lot.Kind.BIOLOGICAL) {
            entry.put("control", isControl ? "yes" : "no");
            entry.put("result", "awaited");
            if (!lot.incubation().isZero()) {
                entry.put("incubation", words(lot.incubation()));
            }
        }
        if (lot.kind() == Lot.Kind.PENETRATION_DEVICE) {
            List<String> keys = new ArrayList<>();
            for (int i = 1; i <= draft.count(FactPath.of("sterilizers")); i++) {
                keys.add(draft.text(FactPath.of("sterilizers", i, "key")));
            }
            keys.stream().filter(key -> !key.isBlank()).findFirst().ifPresent(key -> entry.put("sterilizer", key));
        }
        entry.values().removeIf(value -> String.valueOf(value).isBlank());
        return Optional.of(entry);
    }

    private static String words(Duration incubation) {
        return incubation.toMinutesPart() == 0
                ? incubation.toHours() + " h"
                : incubation.toHours() + " h " + incubation.toMinutesPart() + " min";
    }
}
