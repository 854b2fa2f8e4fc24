package org.steamwright.intake.folder;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.ChemicalIndicator.StatedValue;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.Quantity;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.assessment.uncertainty.Budget;
import org.steamwright.assessment.uncertainty.ExpandedUncertainty;
import org.steamwright.intake.folder.Flaw.Sort;
import org.steamwright.visit.SiteMoment;

/** What a visit file says about the resistance of spores and about chemical indicators. */
final class Indicators {

    private static final double SECONDS_PER_MINUTE = 60;

    private Indicators() {}

    /** The resistance of an indicator's lot; empty if no D-value is stated. */
    static Optional<Resistance> resistance(Fields fields) {
        Optional<Entry> dEntry = fields.find("d-value");
        Optional<Double> seconds = dEntry.flatMap(entry -> entry.quantity(Measure.DURATION));
        Optional<Entry> uEntry = fields.find("d-value-U");
        Optional<Double> uncertainty = uEntry.flatMap(entry -> entry.quantity(Measure.DURATION));
        Optional<Entry> atEntry = fields.find("d-value-at");
        Optional<Double> at = atEntry.flatMap(entry -> entry.quantity(Measure.TEMPERATURE));
        Optional<Entry> zEntry = fields.find("z");
        Optional<Double> z = zEntry.flatMap(entry -> entry.quantity(Measure.TEMPERATURE_DIFFERENCE));
        if (dEntry.isEmpty()) {
            uEntry.or(() -> atEntry)
                    .or(() -> zEntry)
                    .ifPresent(entry -> entry.problem(
                            Mistake.MISSING_KEY,
                            Flaw.missing(
                                            "found no \"%s\" beside it, expected the D-value that it belongs to.",
                                            "d-value")
                                    .inFile("Add a line like: d-value: 1.8 min")));
        }
        boolean isUnread = (uEntry.isPresent() && uncertainty.isEmpty())
                || (atEntry.isPresent() && at.isEmpty())
                || (zEntry.isPresent() && z.isEmpty());
        if (dEntry.isEmpty() || seconds.isEmpty() || isUnread) {
            return Optional.empty();
        }
        return Facts.checked(
                dEntry.get(),
                () -> new Resistance(
                        seconds.get() / SECONDS_PER_MINUTE,
                        uncertainty.map(
                                u -> new ExpandedUncertainty(u / SECONDS_PER_MINUTE, Budget.USUAL_COVERAGE_FACTOR)),
                        at.orElse(Resistance.USUAL_REFERENCE_CELSIUS),
                        z.orElse(Resistance.USUAL_Z_KELVIN)));
    }

    /** A day at the site with or without its time; empty after a problem was added. */
    static Optional<SiteMoment> moment(Entry entry) {
        Optional<String> text = entry.text();
        Optional<SiteMoment> moment = text.flatMap(SiteMoment::find);
        if (text.isPresent() && moment.isEmpty()) {
            entry.problem(
                    Mistake.NOT_A_DATE,
                    Flaw.found(
                                    Sort.NOT_A_DAY,
                                    "found \"%s\", expected a day that exists as year-month-day, with its time of day if it was noted.",
                                    text.get())
                            .with("Write for example: 2026-03-04 16:05"));
        }
        return moment;
    }

    /** A channel that an indicator names has to be a temperature of its run. */
    static void checkChannels(List<Entry> indicators, Trace trace) {
        List<String> names = trace.channels().stream()
                .filter(channel -> channel.column().quantity() == Quantity.TEMPERATURE)
                .map(Channel::name)
                .toList();
        for (Entry indicator : indicators) {
            if (!indicator.isMapping()) {
                continue;
            }
            Optional<Entry> entry = indicator.entries().map(keys -> keys.get("channel"));
            Optional<String> name = entry.flatMap(Entry::text);
            if (name.isPresent() && !names.contains(name.get())) {
                entry.get()
                        .problem(
                                Mistake.UNKNOWN_NAME,
                                Flaw.notAmong(
                                                "found the channel \"%s\", expected a temperature of this run: %s.",
                                                name.get(), names)
                                        .with(Nearest.didYouMean(name.get(), names)
                                                + " Correct it, or state the position instead."));
            }
        }
    }

    static List<ChemicalIndicator> chemicals(Entry entry) {
        List<ChemicalIndicator> indicators = new ArrayList<>();
        Set<String> ids = new HashSet<>();
        for (Entry one : entry.list()) {
            Optional<Fields> fields = one.fields(Shape.CHEMICAL_INDICATOR);
            fields.flatMap(Indicators::chemical).ifPresent(indicator -> {
                if (ids.add(indicator.id())) {
                    indicators.add(indicator);
                } else {
                    one.problem(
                            Mistake.NAME_TWICE,
                            Flaw.found(
                                            Sort.TWICE,
                                            "found \"%1$s\" again: two chemical indicators \"%1$s\" in one run, expected each once.",
                                            indicator.id())
                                    .with("Rename one of them."));
                }
            });
        }
        return indicators;
    }

    private static Optional<ChemicalIndicator> chemical(Fields fields) {
        Optional<String> id = fields.needText("id", "CI-1");
        Optional<ChemicalIndicator.Type> type =
                fields.need("type", "5").flatMap(entry -> entry.word(Words.CHEMICAL_TYPE));
        String product = fields.text("product");
        String lot = fields.text("lot");
        Optional<LocalDate> expires = fields.date("expires");
        List<StatedValue> stated = new ArrayList<>();
        for (Entry one : fields.list("stated-values")) {
            one.fields(Shape.STATED_VALUE).flatMap(Indicators::statedValue).ifPresent(stated::add);
        }
        String position = fields.text("position");
        Optional<ChemicalIndicator.Result> result =
                fields.need("result", "reached").flatMap(entry -> entry.word(Words.END_POINT));
        return id.isEmpty() || type.isEmpty() || result.isEmpty()
                ? Optional.empty()
                : Optional.of(new ChemicalIndicator(
                        id.get(), type.get(), product, lot, expires, stated, position, result.get()));
    }

    private static Optional<StatedValue> statedValue(Fields fields) {
        Optional<Double> celsius =
                fields.need("temperature", "134 °C").flatMap(entry -> entry.quantity(Measure.TEMPERATURE));
        Optional<Double> seconds = fields.need("time", "3.5 min").flatMap(entry -> entry.quantity(Measure.DURATION));
        return celsius.isEmpty() || seconds.isEmpty()
                ? Optional.empty()
                : Facts.checked(fields.entry(), () -> new StatedValue(celsius.get(), seconds.get()));
    }
}
