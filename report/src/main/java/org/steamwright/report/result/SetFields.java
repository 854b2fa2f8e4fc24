package org.steamwright.report.result;

import java.io.IOException;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.assessment.criteria.CriterionId;
import org.steamwright.assessment.criteria.Limit;
import org.steamwright.assessment.criteria.Requirement;
import org.steamwright.assessment.criteria.Source;

/** The criteria set in full, so that a result can be checked without the program that made it. */
final class SetFields {
    private SetFields() {}

    static void write(CriteriaSet set, Fields fields) throws IOException {
        fields.object("criteriaSet");
        fields.text("name", set.name());
        fields.text("version", set.version());
        fields.text("sha256", set.sha256());
        fields.text("title", set.title());
        fields.text("notes", set.notes());
        fields.object("saturationCurve");
        fields.text("id", set.curve().id());
        fields.text("title", set.curve().title());
        source("source", set.curveSource(), fields);
        fields.endObject();
        fields.flag("isTheoreticalInBand", set.isTheoreticalInBand());
        fields.list("cycles");
        for (CriteriaSet.CycleLimits cycle : set.cycles()) {
            fields.element();
            fields.number("sterilizingCelsius", cycle.sterilizingCelsius());
            limit("holdingTime", CriterionId.MINIMUM_HOLDING_TIME, cycle.holdingTime(), fields);
            if (cycle.bandWidth().isPresent()) {
                limit(
                        "bandWidth",
                        CriterionId.HIGHEST_TEMPERATURE,
                        cycle.bandWidth().get(),
                        fields);
            }
            fields.endObject();
        }
        fields.endList();
        fields.list("requirements");
        for (CriterionId id : CriterionId.values()) {
            Optional<Requirement> asked = Optional.ofNullable(set.requirements().get(id));
            fields.element();
            fields.text("criterion", id.word());
            fields.text("title", id.title());
            fields.text(
                    "use", asked.map(requirement -> requirement.use().word()).orElse("off"));
            if (asked.isPresent()) {
                fields.text("rule", asked.get().rule().word());
                if (asked.get().limit().isPresent()) {
                    limit("limit", id, asked.get().limit().get(), fields);
                }
                if (asked.get().secondLimit().isPresent()) {
                    limit("secondLimit", id, asked.get().secondLimit().get(), fields);
                }
                source("source", asked.get().source(), fields);
            }
            fields.endObject();
        }
        fields.endList();
        if (set.revalidation().isPresent()) {
            fields.count("revalidationMonths", set.revalidation().get());
        }
        if (set.revalidationSource().isPresent()) {
            source("revalidationSource", set.revalidationSource().get(), fields);
        }
        fields.count("consecutiveRuns", set.consecutiveRuns());
        if (set.consecutiveRunsSource().isPresent()) {
            source("consecutiveRunsSource", set.consecutiveRunsSource().get(), fields);
        }
        fields.endObject();
    }

    static void limit(String name, CriterionId id, Limit limit, Fields fields) throws IOException {
        fields.object(name);
        fields.word("comparison", limit.comparison());
        fields.number("value" + UnitNames.of(id, limit.unit()), limit.value());
        source("source", limit.source(), fields);
        fields.endObject();
    }

    static void source(String name, Source source, Fields fields) throws IOException {
        fields.object(name);
        fields.text("document", source.document());
        fields.text("edition", source.edition());
        fields.text("clause", source.clause());
        fields.word("provenance", source.provenance());
        fields.word("confidence", source.confidence());
        fields.text("note", source.note());
        fields.endObject();
    }
}
