package org.steamwright.desk.office;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.steamwright.desk.web.Frame;
import org.steamwright.records.Subject;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.AssessedVisit;
import org.steamwright.visit.ReferenceLoad;
import org.steamwright.visit.register.Sterilizer;

/** What of a visit to a steriliser is laid beside the visit before: each in one line, so that a difference shows. */
final class VisitFeatures {

    private VisitFeatures() {}

    /** The lines of the steriliser with that key, by the key of what they tell, in the order in which they are shown. */
    static Map<String, String> of(AssessedVisit assessed, Subject visit, String key, Frame frame) {
        Optional<Sterilizer> machine = assessed.visit().sterilizers().stream()
                .filter(one -> one.key().equals(key))
                .findFirst();
        List<AssessedRun> runs = assessed.runs().stream()
                .filter(run -> run.run().sterilizer().equals(key))
                .toList();
        Map<String, String> features = new LinkedHashMap<>();
        features.put("office.outcomes", outcomes(runs, frame));
        features.put("office.firmware", machine.map(Sterilizer::firmware).orElse(""));
        features.put(
                "office.cycles",
                machine.map(Sterilizer::cycles).orElse(List.of()).stream()
                        .map(cycle -> "%s (%s, %s %s)"
                                .formatted(
                                        cycle.name(),
                                        cycle.type(),
                                        frame.figures()
                                                .of(String.valueOf(cycle.sterilizingTemperature()
                                                        .celsius())),
                                        "°C"))
                        .sorted()
                        .collect(Collectors.joining("; ")));
        features.put(
                "office.loads",
                runs.stream()
                        .flatMap(run -> run.run().load().stream()
                                .map(load -> run.run().test().cycle().name() + ": " + load(load, frame)))
                        .distinct()
                        .sorted()
                        .collect(Collectors.joining("; ")));
        features.put("office.deviation", String.join("; ", assessed.visit().deviations()));
        features.put("office.not-tested", String.join("; ", assessed.visit().notTested()));
        features.put(
                "office.instruments",
                assessed.visit().instruments().keySet().stream().sorted().collect(Collectors.joining(", ")));
        features.put(
                "office.criteria-set",
                assessed.visit().criteriaSet().name() + " "
                        + assessed.visit().criteriaSet().version());
        features.put("office.program-version", visit.text("algorithm-version"));
        return features;
    }

    private static String outcomes(List<AssessedRun> runs, Frame frame) {
        Map<String, List<String>> words = runs.stream()
                .collect(Collectors.groupingBy(
                        run -> run.run().test().kind() + " "
                                + run.run().test().cycle().name(),
                        LinkedHashMap::new,
                        Collectors.mapping(run -> frame.heard(run.word()), Collectors.toList())));
        return runs.stream()
                .map(run ->
                        run.run().test().kind() + " " + run.run().test().cycle().name())
                .distinct()
                .map(test -> {
                    AssessedRun first = runs.stream()
                            .filter(run -> (run.run().test().kind() + " "
                                            + run.run().test().cycle().name())
                                    .equals(test))
                            .findFirst()
                            .orElseThrow();
                    return frame.heard(first.run().test().kind().words()) + ", "
                            + first.run().test().cycle().name() + ": "
                            + String.join(", ", words.getOrDefault(test, List.of()));
                })
                .sorted()
                .collect(Collectors.joining("; "));
    }

    private static String load(ReferenceLoad load, Frame frame) {
        return Stream.of(
                        Stream.of(load.description()),
                        load.items().stream().map(item -> item.count() + " × " + item.name()),
                        load.massKilogram().stream().map(mass -> frame.figures().of(String.valueOf(mass)) + " kg"))
                .flatMap(part -> part)
                .filter(text -> !text.isBlank())
                .collect(Collectors.joining(", "));
    }
}
