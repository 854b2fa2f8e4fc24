package org.steamwright.command;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriteriaSets;
import org.steamwright.assessment.quantity.PressureReference;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.intake.Question;
import org.steamwright.intake.UnreadableFileException;
import org.steamwright.intake.folder.Problem;
import org.steamwright.intake.folder.QuestionsException;
import org.steamwright.intake.folder.SingleRecording;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.profile.ReadingProfiles;
import org.steamwright.visit.Visit;

/**
 * What is said about a single recording on the command line or in answer to a question.
 *
 * <p>Every question of the readers has a key; every key has an option here, so that whatever can be asked can also be
 * said beforehand.
 */
final class Declared {
    /** Options with one value, and the key that each answers. */
    private static final Map<String, String> KEYS = new LinkedHashMap<>();

    /** Options of the form COLUMN=WORD, and the key that each answers. */
    private static final Map<String, String> COLUMN_KEYS = new LinkedHashMap<>();

    static {
        KEYS.put("--kind", "kind");
        KEYS.put("--cycle", "cycle");
        KEYS.put("--type", "cycle-type");
        KEYS.put("--at", "sterilizing-temperature");
        KEYS.put("--hold", "holding-time");
        KEYS.put("--pulses", "air-removal-pulses");
        KEYS.put("--barometer", "barometer");
        KEYS.put("--altitude", "altitude");
        KEYS.putAll(Reading.KEYS);
        COLUMN_KEYS.put("--channel", "role");
        COLUMN_KEYS.putAll(Reading.COLUMN_KEYS);
    }

    private Declared() {}

    /** Adds the options to a command. */
    static void options(Usage usage) {
        usage.value("--kind", "WORD", "What was tested: empty-chamber, reference-load or air-leakage.");
        usage.value("--cycle", "NAME", "Name of the cycle as the steriliser calls it.");
        usage.value("--type", "B|N|S", "Type of the cycle.");
        usage.value("--at", "TEMPERATURE", "Sterilising temperature with its unit: '121 °C'.");
        usage.value("--hold", "TIME", "Holding time that the maker declares, with its unit: '15 min'.");
        usage.value("--pulses", "NUMBER", "Air removal pulses that the cycle is meant to have.");
        usage.values(
                "--channel",
                "COLUMN=ROLE",
                "What a column stands for: reference-point, free-chamber, load, challenge-pack, pressure, ambient,"
                        + " or leave-out. May be repeated.");
        usage.value("--barometer", "PRESSURE", "Ambient pressure at the site with its unit: '101.3 kPa'.");
        usage.value("--altitude", "HEIGHT", "Height of the site, where no barometer was read: '1495 m'.");
        Reading.options(usage);
    }

    /** The options of this kind that were given. */
    static List<String> said(Typed typed) {
        List<String> said = new ArrayList<>();
        for (String option : KEYS.keySet()) {
            if (typed.find(option).isPresent()) {
                said.add(option);
            }
        }
        for (String option : COLUMN_KEYS.keySet()) {
            if (!typed.all(option).isEmpty()) {
                said.add(option);
            }
        }
        return said;
    }

    /**
     * The recording as a visit of one run, after asking for what is open if somebody can be asked.
     *
     * @throws Refusal if something is open and nobody can be asked, or what was said can't be
     */
    static Visit visit(Path file, Typed typed, boolean isAsking, CriteriaSets sets, Surroundings surroundings)
            throws Refusal, IOException, UnreadableFileException {
        Map<String, String> answers = answers(typed);
        Optional<PressureReference> everyPressure = Reading.everyPressure(typed);
        Optional<CriteriaSet> set = Optional.empty();
        Optional<String> criteria = typed.find("--criteria");
        if (criteria.isPresent()) {
            set = Optional.of(CriteriaChoice.of(criteria.get(), sets, surroundings));
        }
        ReadingProfiles profiles = Reading.profiles(typed, file, surroundings);
        while (true) {
            try {
                Visit visit =
                        SingleRecording.toVisit(file, new SingleRecording.Declarations(answers, set), sets, profiles);
                if (everyPressure.isPresent()) {
                    checkPressures(visit, everyPressure.get());
                }
                return visit;
            } catch (QuestionsException open) {
                List<Question> questions = new ArrayList<>();
                int before = answers.size();
                for (Question question : open.questions()) {
                    if (question.key().startsWith("reference:") && everyPressure.isPresent()) {
                        answers.put(question.key(), Reading.word(everyPressure.get()));
                    } else {
                        questions.add(question);
                    }
                }
                if (!questions.isEmpty()) {
                    if (!isAsking) {
                        throw open(file, questions);
                    }
                    Asking.ask(questions, answers, surroundings);
                }
                if (answers.size() == before) {
                    throw open(file, open.questions());
                }
            } catch (VisitFolderException wrong) {
                throw contradicted(wrong);
            }
        }
    }

    private static Map<String, String> answers(Typed typed) throws Refusal {
        Map<String, String> answers = new LinkedHashMap<>();
        for (Map.Entry<String, String> key : KEYS.entrySet()) {
            typed.find(key.getKey()).ifPresent(value -> answers.put(key.getValue(), value));
        }
        for (Map.Entry<String, String> key : COLUMN_KEYS.entrySet()) {
            for (String said : typed.all(key.getKey())) {
                if (key.getKey().equals("--pressure") && said.indexOf('=') < 0) {
                    continue;
                }
                Reading.ColumnWord word = Reading.columnWord(key.getKey(), said);
                answers.put(key.getValue() + ":" + word.column(), word.word());
            }
        }
        return answers;
    }

    /** A file that says absolute where the caller says gauge must not go unnoticed. */
    private static void checkPressures(Visit visit, PressureReference said) throws Refusal {
        for (Channel channel : visit.runs().get(0).test().trace().channels()) {
            if (channel.reference().isPresent() && channel.reference().get() != said) {
                throw new Refusal(
                        ExitStatus.USAGE,
                        "--pressure " + Reading.word(said) + ": the file says that its column \"" + channel.name()
                                + "\" is " + Reading.word(channel.reference().get()) + ".",
                        "Leave the option out, or say --pressure '" + channel.name() + "=" + Reading.word(said)
                                + "' if the file is wrong.");
            }
        }
    }

    private static Refusal open(Path file, List<Question> questions) {
        List<String> lines = new ArrayList<>();
        lines.add(file.getFileName() + " leaves something open that only a person can tell:");
        boolean isKindOpen = false;
        String evidence = "";
        for (Question question : questions) {
            // what several questions rest on is told once
            lines.add("  " + question.text() + (question.evidence().equals(evidence) ? "" : " " + question.evidence()));
            evidence = question.evidence();
            lines.add("    " + option(question));
            isKindOpen |= question.key().equals("kind");
        }
        if (isKindOpen) {
            lines.add("  Unless it was an air leakage test, the type of the cycle and its temperature are needed too:");
            lines.add("    --type: B or N or S, --at: '134 °C'");
        }
        return new Refusal(ExitStatus.USAGE, lines);
    }

    /** The option that answers a question. */
    static String option(Question question) {
        String key = question.key();
        String example = question.options().isEmpty() ? "…" : String.join(" or ", question.options());
        int colon = key.indexOf(':');
        Map<String, String> options = colon < 0 ? KEYS : COLUMN_KEYS;
        String kind = colon < 0 ? key : key.substring(0, colon);
        if (kind.equals("criteria-set")) {
            return "--criteria: " + example;
        }
        for (Map.Entry<String, String> option : options.entrySet()) {
            if (option.getValue().equals(kind)) {
                return colon < 0
                        ? option.getKey() + ": " + example
                        : option.getKey() + " '" + key.substring(colon + 1) + "=…': " + example;
            }
        }
        throw new IllegalStateException("no option answers " + key);
    }

    private static Refusal contradicted(VisitFolderException wrong) {
        List<String> lines = new ArrayList<>();
        lines.add("what was said about the recording does not fit; nothing was assessed.");
        for (Problem problem : wrong.problems()) {
            lines.add("  " + problem);
        }
        return new Refusal(ExitStatus.USAGE, lines);
    }
}
