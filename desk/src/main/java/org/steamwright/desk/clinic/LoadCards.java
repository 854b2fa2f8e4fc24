package org.steamwright.desk.clinic;

import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.steamwright.desk.office.Sheet;
import org.steamwright.desk.office.Sheet.Cell;
import org.steamwright.desk.office.Shown;
import org.steamwright.desk.text.Told;
import org.steamwright.desk.web.Ask;
import org.steamwright.desk.web.Frame;
import org.steamwright.desk.web.Percent;
import org.steamwright.desk.web.Reply;
import org.steamwright.filing.CoverageInRecord.CycleStanding;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Subject;
import org.steamwright.visit.ReferenceLoad;

/** The loads with which cycles passed, as cards that hang beside the steriliser. */
final class LoadCards {

    /** Of a load on its card; more are with the report. */
    private static final int MOST_PHOTOS = 2;

    private static final int SHA_SHOWN = 16;
    private static final Set<String> FAMILIES = Set.of("solid", "hollow-a", "hollow-b", "porous");

    private final Premises premises;

    LoadCards(Premises premises) {
        this.premises = premises;
    }

    /** The loads with which cycles of a steriliser passed, to be printed and hung up beside it. */
    Reply cards(Ask ask) throws IOException, FilingException, RegisterException {
        Optional<Subject> clinic = premises.asked(ask);
        Map<String, Premises.Here> here = clinic.map(premises::here).orElse(Map.of());
        Optional<Premises.Here> found = Premises.named(here, ask.part("machine"));
        if (clinic.isEmpty() || found.isEmpty()) {
            return Premises.unknown(ask);
        }
        Frame frame = ask.frame();
        Premises.Here one = found.get();
        Sheet.Writer writer = new Sheet.Writer(
                        frame.say("clinic.cards-of", Premises.called(one.machine(), here.values())))
                .say("", List.of(frame.say("clinic.card-why"), frame.say("clinic.tests-first")));
        boolean isAny = false;
        for (CycleStanding standing :
                premises.coverage(clinic.get()).cycles(one.machine(), premises.today(one), OptionalInt.empty())) {
            for (ReferenceLoad load : standing.cycle().loads()) {
                isAny = true;
                card(writer, clinic.get(), standing, load, frame);
            }
        }
        if (!isAny) {
            writer.say("", List.of(frame.say("clinic.nothing-in-force")));
        }
        return writer.links(new Sheet.Link(
                        frame.say("clinic.back"), "/clinic/" + clinic.get().id()))
                .reply();
    }

    private static void card(
            Sheet.Writer writer, Subject clinic, CycleStanding standing, ReferenceLoad load, Frame frame) {
        List<Told> words = new ArrayList<>();
        words.add(Told.asItIs(load.description()));
        if (standing.against().isEmpty()) {
            words.add(Told.asItIs(frame.say("clinic.card-until", FrontPage.until(standing.state(), frame))));
        } else {
            words.add(Told.asItIs(frame.say("clinic.card-not-today")));
            standing.against().forEach(reason -> words.add(frame.hear(reason)));
        }
        words.add(Told.asItIs(load.totalKilogram()
                .map(mass -> frame.say(
                        "clinic.card-mass",
                        frame.figures()
                                .of(BigDecimal.valueOf(mass)
                                        .stripTrailingZeros()
                                        .toPlainString())))
                .orElse(frame.say("clinic.card-no-mass"))));
        List<String> stated = new ArrayList<>();
        stated.add(
                load.trays().isEmpty()
                        ? ""
                        : frame.say("clinic.card-trays", load.trays().getAsInt()));
        stated.add(load.packaging().isBlank() ? "" : frame.say("clinic.card-packaging", load.packaging()));
        stated.add(load.challengePack().isBlank() ? "" : frame.say("clinic.card-challenge", load.challengePack()));
        stated.add(load.challengePlace().isBlank() ? "" : frame.say("clinic.card-place", load.challengePlace()));
        stated.add(load.agreedBy().isBlank() ? "" : frame.say("clinic.card-agreed", load.agreedBy()));
        stated.add(areAllShown(load) ? "" : frame.say("clinic.card-photos", String.join(", ", load.photos())));
        stated.stream().filter(line -> !line.isBlank()).map(Told::asItIs).forEach(words::add);
        words.add(Told.asItIs(
                frame.say("clinic.card-report", standing.visit().visit().text("number"))));
        writer.hear(standing.cycle().name(), words);
        writer.pictures(load.photoFiles().stream()
                .map(photo -> new Sheet.Picture(
                        "/clinic/" + clinic.id() + "/photos/"
                                + standing.visit().visit().id() + "?name=" + Percent.encoded(photo.name()),
                        frame.say(
                                "clinic.card-photo",
                                load.description(),
                                photo.name(),
                                photo.sha256().substring(0, SHA_SHOWN))))
                .limit(MOST_PHOTOS)
                .toList());
        writer.table(
                "",
                frame.say("clinic.card-no-items"),
                List.of(
                        frame.say("clinic.thing-name"),
                        frame.say("clinic.thing-count"),
                        frame.say("clinic.thing-family"),
                        frame.say("clinic.card-packed"),
                        frame.say("clinic.card-tray")),
                load.items().stream()
                        .map(item -> List.of(
                                Cell.of(item.name()),
                                Cell.figure(Integer.toString(item.count())),
                                Cell.of(family(item.family(), frame)),
                                Shown.text(item.packaging().isBlank() ? load.packaging() : item.packaging()),
                                Shown.text(item.tray())))
                        .toList());
    }

    /** Whether the card shows every photo of a load, so that their names say nothing more. */
    private static boolean areAllShown(ReferenceLoad load) {
        return load.photos().size() <= MOST_PHOTOS
                && load.photoFiles().size() == load.photos().size();
    }

    private static String family(String family, Frame frame) {
        String word = family.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s-]+", "-");
        return FAMILIES.contains(word) ? frame.say("clinic.family-" + word) : family;
    }
}
