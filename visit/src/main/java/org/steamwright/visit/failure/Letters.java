package org.steamwright.visit.failure;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.job.EarlierEvidence;
import org.steamwright.visit.job.FailureNote;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.Sterilizer;
import org.steamwright.visit.validity.InterimStanding;

/**
 * Letters to the clinic about a failure, ready to be read over and signed by a person.
 *
 * <p>They give evidence and say what is not shown fit. They name no patient and decide about none.
 */
public final class Letters {

    private static final String DECIDES =
            "What becomes of loads already used, and whether anybody has to be told, the clinic decides with its professional body or public health authority. Please send us no names and no data of patients; we need none.";

    private Letters() {}

    /**
     * A letter.
     *
     * @param title one line
     * @param paragraphs in order
     */
    public record Letter(String title, List<String> paragraphs) {

        public Letter {
            paragraphs = List.copyOf(paragraphs);
        }
    }

    /** Everything that has to be sent about a visit on that day; empty if nothing failed. */
    public static List<Letter> of(AssessedVisit assessed, List<Failure> failures, LocalDate day) {
        List<Letter> letters = new ArrayList<>();
        for (Sterilizer sterilizer : assessed.visit().sterilizers()) {
            List<Failure> here = failures.stream()
                    .filter(failure -> failure.sterilizer().equals(sterilizer.key()))
                    .toList();
            outOfService(assessed, sterilizer, here).ifPresent(letters::add);
            for (Failure failure : here) {
                failure.lookBack()
                        .ifPresent(lookBack -> letters.add(lookBack(assessed, sterilizer, failure, lookBack)));
            }
        }
        InterimStanding interim = InterimStanding.of(assessed, day);
        if (interim.standing() == InterimStanding.Standing.POSITIVE) {
            letters.add(withdrawal(assessed, interim));
        }
        return List.copyOf(letters);
    }

    /** The notice that a steriliser or some of its cycles must not be used; empty if everything was shown good again. */
    static Optional<Letter> outOfService(AssessedVisit assessed, Sterilizer sterilizer, List<Failure> failures) {
        List<String> cycles = failures.stream()
                .flatMap(failure -> failure.outOfService().stream())
                .distinct()
                .toList();
        if (cycles.isEmpty()) {
            return Optional.empty();
        }
        boolean isAll = failures.stream().anyMatch(Failure::isAllOut);
        List<String> text = new ArrayList<>();
        text.add(greeting(assessed));
        text.add(
                isAll
                        ? "Please do not use steriliser %s (%s) until we have shown it fit again. No cycle of it is qualified now."
                                .formatted(sterilizer.serial(), machine(sterilizer))
                        : "Please do not run these cycles of steriliser %s (%s) until we have shown them fit again: %s."
                                .formatted(sterilizer.serial(), machine(sterilizer), String.join(", ", cycles)));
        text.add("What we found:");
        failures.forEach(failure -> failure.what().forEach(what -> text.add("– " + what)));
        text.add(
                "What has to be tested before it is used again: %s. Earlier passes are not added to later ones; the row begins anew."
                        .formatted(String.join(
                                ", ",
                                failures.stream()
                                        .flatMap(failure -> failure.retests().stream())
                                        .distinct()
                                        .toList())));
        text.add(
                "A steriliser that stands in for it needs its own qualification with your load. Follow the maker's instructions for putting this one out of use; work on pressure or mains is for people licensed for it.");
        return Optional.of(new Letter("Out of service: steriliser " + sterilizer.serial(), text));
    }

    private static Letter lookBack(AssessedVisit assessed, Sterilizer sterilizer, Failure failure, LookBack lookBack) {
        List<String> text = new ArrayList<>();
        text.add(greeting(assessed));
        text.add("At our visit%s evidence of the kind ‘%s’ failed at steriliser %s%s."
                .formatted(
                        assessed.visit()
                                .date()
                                .map(day -> " on " + Days.words(day))
                                .orElse(""),
                        failure.kind().words(),
                        sterilizer.serial(),
                        failure.isAsFound()
                                ? ", as we found it, before anything was touched. A repair since then changes nothing about the loads before"
                                : ""));
        failure.what().forEach(what -> text.add("– " + what));
        text.add("Loads in question: " + lookBack.words());
        if (!lookBack.others().isEmpty()) {
            text.add("Other good evidence that we know of, each of its own kind and none instead of another: "
                    + String.join(
                            "; ",
                            lookBack.others().stream().map(Letters::evidence).toList())
                    + ".");
        }
        if (failure.blame() == Failure.Blame.INDICATOR_ALONE) {
            text.add(
                    "The recordings of that run are good and the control grew as it should. One grown indicator beside them is seldom a failure of the steriliser; it is repeated and investigated. Until then the loads stay in question.");
        }
        text.add(
                "Please set aside what is still in stock from these loads and reprocess it. From your log book you can list the loads by cycle number with what was in them: surgical, hollow and other items.");
        failure.note().filter(note -> !note.cause().isBlank()).ifPresent(note -> text.add(cause(note)));
        text.add(DECIDES);
        return new Letter(
                "Look-back: steriliser %s, %s"
                        .formatted(sterilizer.serial(), failure.kind().words()),
                text);
    }

    private static Letter withdrawal(AssessedVisit assessed, InterimStanding interim) {
        List<String> text = new ArrayList<>();
        text.add(greeting(assessed));
        text.add(
                "We withdraw report %s and everything given out on its strength. Please take it out of your folder, or mark it as withdrawn, and take down the labels."
                        .formatted(
                                assessed.visit().reportNumber().isBlank()
                                        ? "of our visit"
                                        : assessed.visit().reportNumber()));
        interim.sentences().forEach(sentence -> text.add("– " + sentence));
        text.add(DECIDES);
        return new Letter("Withdrawal of an interim or issued report", text);
    }

    private static String cause(FailureNote note) {
        return "Cause as far as it is known: %s%s"
                .formatted(
                        note.cause().strip(),
                        note.action().isBlank()
                                ? "."
                                : ". Done about it: " + note.action().strip() + ".");
    }

    private static String evidence(EarlierEvidence evidence) {
        return "%s on %s%s, %s"
                .formatted(
                        evidence.kind().words(),
                        Days.words(evidence.on()),
                        evidence.cycle().isPresent()
                                ? " at cycle " + evidence.cycle().getAsInt()
                                : "",
                        evidence.reference().strip());
    }

    private static String greeting(AssessedVisit assessed) {
        String clinic = assessed.visit().clinic().map(Clinic::name).orElse("the clinic");
        return "To %s, to whoever is responsible for reprocessing.%s"
                .formatted(
                        clinic,
                        assessed.visit().isSimulated()
                                ? " This letter rests on simulated recordings and is an exercise."
                                : "");
    }

    private static String machine(Sterilizer sterilizer) {
        return (sterilizer.maker() + " " + sterilizer.model()).strip();
    }
}
