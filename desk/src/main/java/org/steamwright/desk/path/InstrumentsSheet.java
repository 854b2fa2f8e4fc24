package org.steamwright.desk.path;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.steamwright.assessment.alignment.ClockCheck;
import org.steamwright.assessment.alignment.ClockReading;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.CalibrationPoint;
import org.steamwright.assessment.calibration.Correction;
import org.steamwright.assessment.calibration.FieldCheck.Moment;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.desk.path.Block.Part;
import org.steamwright.desk.path.Field.Look;
import org.steamwright.desk.path.Field.Option;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Role;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.OfficeInstruments.OnDay;
import org.steamwright.filing.OfficeInstruments.Standing;
import org.steamwright.visit.InstrumentDay.Judged;

/**
 * Reference instruments of the visit: whether each may be relied on that day, how its clock compares, and how it was checked
 * before the runs and after them.
 */
final class InstrumentsSheet extends StageSheet {

    private static final List<String> METHODS = List.of("melting ice", "comparison", "open chamber");
    private static final int DECIMALS = 3;
    private static final double HOUR_SECONDS = 3600;

    private final DraftInstruments visit;

    InstrumentsSheet(Seen seen) {
        super(seen);
        this.visit = equipment.visit().orElseThrow();
    }

    /** Identity in the page of what is known of an instrument. */
    static String anchor(String id) {
        return "e-" + Field.id(CheckFacts.of(id));
    }

    @Override
    List<Block> blocks() {
        List<Block> blocks = new ArrayList<>();
        blocks.add(offers());
        Set<String> shown = new LinkedHashSet<>(visit.used().keySet());
        for (int i = 1; i <= count("instruments"); i++) {
            shown.add(text("instruments", i, "id"));
        }
        for (int i = 1; i <= count(CheckFacts.LIST); i++) {
            shown.add(text(CheckFacts.LIST, i, "instrument"));
        }
        shown.remove("");
        for (String id : new TreeSet<>(shown)) {
            visit.find(id).ifPresentOrElse(one -> known(one, blocks), () -> blocks.add(unknown(id)));
        }
        List<Option> others = visit.read().instruments().values().stream()
                .filter(one -> !shown.contains(one.id()))
                .map(one -> new Option(one.id(), words(one)))
                .toList();
        if (!others.isEmpty()) {
            blocks.add(section("other-instruments")
                    .choosing(say("checked.another"), "instrument-choices", Map.of(), others)
                    .make());
        }
        return blocks;
    }

    /** Those of the register first; what the register has is not taken from the last visit, for its certificate may be older. */
    private Block offers() {
        Block.Maker maker = section("instruments");
        RegisterInstruments register = equipment.register();
        List<Earlier.Offer> last =
                earlier.map(before -> before.offers(FactPath.of("instruments"), draft)).orElse(List.of()).stream()
                        .filter(offer ->
                                !register.known().contains(offer.words().get("id")))
                        .toList();
        if (!register.offers().isEmpty()) {
            maker.note(say("note.register"));
        }
        register.notes().forEach(maker::note);
        register.offers().forEach(offer -> offer(maker, "offer-register", "instruments", offer));
        if (!last.isEmpty()) {
            maker.note(say("note.last-instruments"));
        }
        last.forEach(offer -> offer(maker, "offer", "instruments", offer));
        boolean isAnything = !last.isEmpty()
                || !register.offers().isEmpty()
                || !register.notes().isEmpty();
        if (!isAnything && count("instruments") == 0) {
            maker.note(say("note.no-instruments"));
        }
        if (frame.may(Role.OFFICE) && !draft.isSigned()) {
            maker.link(
                    say("to.register"),
                    "/register/new/instruments?back=" + Context.address(draft) + "/instruments" + like());
        }
        return maker.make();
    }

    /** The last instrument of the visit that the register has, after which a further one is filled in. */
    private String like() {
        for (int i = count("instruments"); i >= 1; i--) {
            OnDay last = equipment.register().office().get(text("instruments", i, "id"));
            if (last != null) {
                return "&like=" + last.subject().id();
            }
        }
        return "";
    }

    /** One that a column names and the visit does not have. */
    private Block unknown(String id) {
        Block.Maker maker = new Block.Maker(Part.SECTION, id).at(CheckFacts.of(id));
        maker.caution(say("instrument.unknown", id)).note(used(id));
        if (equipment.register().office().containsKey(id)) {
            maker.button(say("instrument.bring", id), "instruments", Map.of("id", id));
        }
        return maker.make();
    }

    private static String words(ReferenceInstrument one) {
        return one.description().isBlank() ? one.id() : one.id() + ", " + one.description();
    }

    private void known(ReferenceInstrument one, List<Block> blocks) {
        String id = one.id();
        Block.Maker maker = new Block.Maker(Part.SECTION, words(one)).at(CheckFacts.of(id));
        State state = state(one);
        if (state.isGood()) {
            maker.note(state.words());
        } else {
            maker.caution(state.words());
        }
        one.certificate().ifPresent(certificate -> maker.note(points(one, certificate)));
        String since = since(one);
        maker.note(since).note(used(id));
        if (!since.isBlank() && RegisterInstruments.isStatedIn(draft, id)) {
            maker.upload(
                    say("instrument.renew"),
                    "instrument-renewals",
                    Map.of("id", id, "text", since),
                    Block.Upload.JOURNAL);
        }
        if (RegisterInstruments.bare(draft, visit, id).isPresent()) {
            Optional.ofNullable(equipment.register().office().get(id))
                    .flatMap(OnDay::certificate)
                    .ifPresent(certificate -> maker.button(
                            say(
                                    "instrument.certificate",
                                    certificate.number(),
                                    frame.figures().day(certificate.dueOn())),
                            "instruments",
                            Map.of("id", id)));
        }
        blocks.add(maker.make());
        for (Moment moment : Moment.values()) {
            blocks.add(checked(one, moment));
            further(one, moment, blocks);
        }
    }

    /** The check of one moment, with the clock that is read at the same time. */
    private Block checked(ReferenceInstrument one, Moment moment) {
        String id = one.id();
        String when = moment.word();
        String check = CheckFacts.check(id, moment, "indicated");
        String reference = CheckFacts.clock(id, moment, "reference");
        Block.Maker maker = entry(say("checked." + when, id)).at(check).untouched(say("checked.not-yet"));
        follows(visit, id, moment, frame).forEach(maker::note);
        visit.limit(one).ifPresent(limit -> maker.note(say("checked.limit", figure(limit) + " " + difference(one))));
        maker.field(field(check, "checks-indicated", Look.TEXT, List.of()))
                .field(field(CheckFacts.check(id, moment, "reference"), "checks-reference", Look.TEXT, List.of()))
                .field(field(CheckFacts.check(id, moment, "tolerance"), "checks-tolerance", Look.TEXT, List.of()))
                .folded(field(CheckFacts.check(id, moment, "method"), "checks-method", Look.TEXT, methods()))
                .folded(field(CheckFacts.check(id, moment, "against"), "checks-against", Look.TEXT, List.of()))
                .folded(field(reference, "clock-reference", Look.TEXT, List.of()))
                .folded(field(CheckFacts.clock(id, moment, "logger"), "clock-logger", Look.TEXT, List.of()));
        same(one, moment)
                .ifPresent(words -> maker.button(words, "same-checks", Map.of("instrument", id, "when", when)));
        if (KeyedPath.parse(reference).text(draft).isBlank() && visit.day().isPresent()) {
            maker.button(say("clock.now"), "clock-readings", Map.of("path", reference));
        }
        KeyedPath.parse(CheckFacts.of(id) + "/checks/" + KeyedPath.entry("when", when))
                .find(draft)
                .ifPresent(there -> maker.button(
                        say("checked.further." + when),
                        "entries",
                        adding(DraftInstruments.entry(draft, id).then("checks").toString(), "when", when)));
        return maker.make();
    }

    /** What lets the others be checked in the same way, such as in the same bath; empty if there is nothing to take, or nobody. */
    private Optional<String> same(ReferenceInstrument one, Moment moment) {
        Map<String, String> frame = CheckFacts.frame(draft, one.id(), moment);
        List<String> others = CheckFacts.without(draft, visit, one, moment);
        return frame.isEmpty() || others.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        say("checked.same", String.join(", ", others), Typing.shownAll(frame, this.frame.figures())));
    }

    private List<Option> methods() {
        return METHODS.stream()
                .map(method -> new Option(method, say("checked.method." + method.replace(' ', '-'))))
                .toList();
    }

    /** Further checks of the same moment, each at another point or by another way. */
    private void further(ReferenceInstrument one, Moment moment, List<Block> blocks) {
        FactPath list = DraftInstruments.entry(draft, one.id()).then("checks");
        boolean isFirst = true;
        for (int i = 1; i <= draft.count(list); i++) {
            if (!draft.text(list.then(i).then("when")).equals(moment.word())) {
                continue;
            }
            if (isFirst) {
                isFirst = false;
                continue;
            }
            String path = list.then(i).toString();
            blocks.add(removable(
                            entry(say("checked.further-one." + moment.word(), one.id()))
                                    .field(field(path + "/indicated", "checks-indicated", Look.TEXT, List.of()))
                                    .field(field(path + "/reference", "checks-reference", Look.TEXT, List.of()))
                                    .field(field(path + "/tolerance", "checks-tolerance", Look.TEXT, List.of()))
                                    .folded(field(path + "/method", "checks-method", Look.TEXT, methods()))
                                    .folded(field(path + "/against", "checks-against", Look.TEXT, List.of())),
                            path)
                    .make());
        }
    }

    // ---- in words

    /** How an instrument stands on the day, and whether that is good. */
    private record State(String words, boolean isGood) {}

    private State state(ReferenceInstrument one) {
        if (visit.day().isEmpty()) {
            return new State(say("state.no-day"), false);
        }
        LocalDate day = visit.day().get();
        Optional<Quarantine> quarantine = one.history().quarantineOn(day);
        if (quarantine.isPresent()) {
            return new State(
                    say(
                            "state.quarantined",
                            frame.figures().day(quarantine.get().from()),
                            quarantine.get().reason()),
                    false);
        }
        if (one.certificate().isEmpty()) {
            return new State(say("state.none"), false);
        }
        CalibrationCertificate certificate = one.certificate().get();
        String on = frame.figures().day(certificate.calibratedOn());
        String due = frame.figures().day(certificate.dueOn());
        if (certificate.calibratedOn().isAfter(day)) {
            return new State(say("state.not-yet", certificate.number(), on), false);
        }
        if (certificate.dueOn().isBefore(day)) {
            return new State(say("state.out", certificate.number(), due), false);
        }
        return new State(say("state.in-date", certificate.number(), certificate.laboratory(), on, due), true);
    }

    private String points(ReferenceInstrument one, CalibrationCertificate certificate) {
        List<CalibrationPoint> points = certificate.points();
        double lowest =
                points.stream().mapToDouble(CalibrationPoint::indicated).min().orElseThrow();
        double highest =
                points.stream().mapToDouble(CalibrationPoint::indicated).max().orElseThrow();
        double widest = points.stream()
                .mapToDouble(CalibrationPoint::expandedUncertainty)
                .max()
                .orElseThrow();
        return say(
                "state.points",
                points.size(),
                figure(lowest) + " " + one.quantity().unit(),
                figure(highest) + " " + one.quantity().unit(),
                figure(widest) + " " + difference(one));
    }

    /** What the office's register says by now, if the visit's copy does not say it. */
    private String since(ReferenceInstrument one) {
        OnDay now = equipment.register().office().get(one.id());
        if (now == null || draft.isSigned() || visit.day().isEmpty()) {
            return "";
        }
        if (now.standing() == Standing.QUARANTINED
                && one.history().quarantineOn(visit.day().get()).isEmpty()) {
            return say(
                    "state.since-quarantined",
                    now.quarantine().map(Quarantine::reason).orElse(""));
        }
        boolean isOther = now.certificate().isPresent()
                && one.certificate().isPresent()
                && !now.certificate()
                        .get()
                        .number()
                        .equals(one.certificate().get().number());
        return isOther ? say("state.since-other", now.certificate().get().number()) : "";
    }

    private String used(String id) {
        Map<Integer, List<String>> runs = visit.used().getOrDefault(id, Map.of());
        return runs.isEmpty()
                ? say("instrument.unused")
                : say(
                        "instrument.used",
                        runs.entrySet().stream()
                                .map(run -> say("instrument.run", run.getKey(), String.join(", ", run.getValue())))
                                .collect(Collectors.joining("; ")));
    }

    /** What follows from what was saved just now; blank if nothing of an instrument was. */
    static String follows(String path, Equipment equipment, Frame frame) {
        Optional<DraftInstruments> visit = equipment.visit();
        return visit.isEmpty()
                ? ""
                : CheckFacts.place(path)
                        .map(place -> String.join(" ", follows(visit.get(), place.instrument(), place.moment(), frame)))
                        .orElse("");
    }

    /** What follows from the checks of one moment and from the clocks. */
    private static List<String> follows(DraftInstruments visit, String id, Moment moment, Frame frame) {
        List<String> sentences = new ArrayList<>();
        Optional<ReferenceInstrument> one = visit.find(id);
        if (one.isEmpty()) {
            return sentences;
        }
        List<Judged> checks = visit.checks(id, moment);
        checks.forEach(judged -> {
            sentences.add(outcome(one.get(), judged, frame));
            boolean isOutside = one.get()
                    .certificate()
                    .filter(certificate ->
                            !Correction.of(certificate).covers(judged.pair().indicated()))
                    .isPresent();
            if (isOutside) {
                sentences.add(frame.say("path.checked.outside"));
            }
        });
        if (checks.isEmpty() && visit.used().containsKey(id)) {
            sentences.add(frame.say("path.checked.none-" + moment.word(), id));
        }
        visit.clock(id).flatMap(clock -> clock(clock, moment, frame)).ifPresent(sentences::add);
        return sentences;
    }

    private static String outcome(ReferenceInstrument one, Judged judged, Frame frame) {
        String unit = " " + one.quantity().unit();
        String reference = frame.figures().of(Figures.nearest(judged.pair().reference(), DECIMALS)) + unit;
        if (judged.corrected().isEmpty()) {
            return frame.say("path.checked.uncorrected");
        }
        String corrected = frame.figures().of(Figures.nearest(judged.corrected().get(), DECIMALS)) + unit;
        if (judged.allowed().isEmpty()) {
            return frame.say("path.checked.unlimited", corrected, reference);
        }
        boolean isGood = judged.isGood().orElseThrow();
        return frame.say(
                isGood
                        ? "path.checked.good"
                        : judged.check().moment() == Moment.BEFORE
                                ? "path.checked.bad-before"
                                : "path.checked.bad-after",
                corrected,
                reference,
                frame.figures().of(Figures.nearest(judged.allowed().get(), DECIMALS)) + " " + difference(one));
    }

    private static Optional<String> clock(ClockCheck clock, Moment moment, Frame frame) {
        Optional<ClockReading> reading = moment == Moment.BEFORE ? clock.before() : clock.after();
        return reading.map(read -> {
            String seconds = seconds(read.offset(), frame);
            if (clock.before().isPresent() && clock.after().isPresent()) {
                double change = Math.abs(
                        clock.after().get().offset() - clock.before().get().offset());
                return frame.say(
                        "path.clock.both",
                        seconds(clock.before().get().offset(), frame),
                        seconds(clock.after().get().offset(), frame),
                        seconds(
                                        Math.max(
                                                        clock.before().get().halfWidth(),
                                                        clock.after().get().halfWidth())
                                                + change / 2,
                                        frame)
                                .substring(1));
            }
            return frame.say(
                    "path.clock.one",
                    seconds,
                    seconds(read.halfWidth(), frame).substring(1),
                    seconds(ClockCheck.RUNAWAY * HOUR_SECONDS, frame).substring(1));
        });
    }

    /** Seconds with their sign. */
    private static String seconds(double value, Frame frame) {
        return frame.figures().of(String.format(Locale.ROOT, "%+.1f", value).replace('-', '\u2212'));
    }

    private String figure(double value) {
        return frame.figures()
                .of(Figures.nearest(value, DECIMALS)
                        .replaceAll("(\\.\\d*?)0+$", "$1")
                        .replaceAll("\\.$", ""));
    }

    private static String difference(ReferenceInstrument one) {
        return one.quantity() == Quantity.TEMPERATURE ? "K" : one.quantity().unit();
    }
}
