package org.steamwright.command;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Figures;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;
import org.steamwright.assessment.criteria.Unit;
import org.steamwright.assessment.criteria.Use;
import org.steamwright.criteriasets.Presets;

/** Lists the criteria sets, or shows one with every limit and where it comes from. */
final class CriteriaCommand implements Command {
    @Override
    public Usage usage() {
        Usage usage = new Usage(
                "List the criteria sets, or show one with every limit.",
                "Each limit comes with its source and how sure it is.");
        usage.argument("NAME|FILE", false, "A preset, or a criteria file of your own. Lists all if not given.");
        return usage;
    }

    @Override
    public List<String> examples() {
        return List.of("steamwright criteria", "steamwright criteria eu-en13060");
    }

    @Override
    public ExitStatus run(Typed typed, Surroundings surroundings) throws Refusal, IOException {
        Presets presets = new Presets();
        Optional<String> name = typed.findArgument(0);
        if (name.isPresent()) {
            surroundings.say(shown(CriteriaChoice.of(name.get(), presets, surroundings)));
            return ExitStatus.PASS;
        }
        for (String preset : presets.names()) {
            CriteriaSet set = presets.get(preset);
            surroundings.say(VerdictText.padded(preset, 14) + "  " + set.title() + " (" + set.identity() + ")");
        }
        surroundings.say("");
        surroundings.say("'steamwright criteria NAME' shows every limit with its source and how sure it is.");
        return ExitStatus.PASS;
    }

    private static List<String> shown(CriteriaSet set) {
        List<String> lines = new ArrayList<>();
        lines.add(set.title());
        lines.add("name " + set.name() + ", version " + set.version());
        lines.add("SHA-256 " + set.sha256());
        VerdictText.broken("", set.notes(), lines);
        lines.add("");
        lines.add("Theoretical temperature: " + set.curve().title()
                + (set.isTheoreticalInBand() ? "; it has to stay inside the band" : ""));
        source(set.curveSource(), lines);
        for (CriteriaSet.CycleLimits cycle : set.cycles()) {
            lines.add("");
            lines.add("At " + Figures.plain(cycle.sterilizingCelsius(), Unit.CELSIUS) + " °C: holding time "
                    + cycle.holdingTime());
            source(cycle.holdingTime().source(), lines);
            if (cycle.bandWidth().isPresent()) {
                lines.add("At " + Figures.plain(cycle.sterilizingCelsius(), Unit.CELSIUS) + " °C: band "
                        + Figures.plain(cycle.bandWidth().get().value(), Unit.KELVIN) + " K wide");
                source(cycle.bandWidth().get().source(), lines);
            }
        }
        for (CriterionId id : CriterionId.values()) {
            Optional<Requirement> asked = set.find(id);
            lines.add("");
            if (asked.isEmpty()) {
                lines.add(id.title() + " (" + id + "): not asked");
                continue;
            }
            Requirement requirement = asked.get();
            lines.add(id.title() + " (" + id + "): "
                    + requirement
                            .limit()
                            .map(Limit::toString)
                            .map(limit -> limit + ", ")
                            .orElse("")
                    + requirement.use().word()
                    + (requirement.use() == Use.REPORTS
                            ? ""
                            : ", rule " + requirement.rule().word()));
            source(requirement.source(), lines);
        }
        lines.add("");
        lines.add("Consecutive passing loaded runs: " + set.consecutiveRuns());
        set.consecutiveRunsSource().ifPresent(source -> source(source, lines));
        set.revalidation().ifPresent(months -> lines.add("Revalidation: every " + months + " months"));
        set.revalidationSource().ifPresent(source -> source(source, lines));
        return lines;
    }

    private static void source(Source source, List<String> lines) {
        VerdictText.broken(
                "    ",
                source.citation() + " (" + source.provenance().words() + ", confidence "
                        + source.confidence().name().toLowerCase(Locale.ROOT) + ")"
                        + (source.note().isBlank() ? "" : ". " + source.note()),
                lines);
    }
}
