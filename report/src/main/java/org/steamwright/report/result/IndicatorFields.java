package org.steamwright.report.result;

import java.io.IOException;
import org.steamwright.assessment.indicator.ChemicalComparison;
import org.steamwright.assessment.indicator.ChemicalIndicator;
import org.steamwright.assessment.indicator.Estimate;
import org.steamwright.assessment.indicator.ExpectedReduction;
import org.steamwright.assessment.indicator.IndicatorComparison;
import org.steamwright.assessment.indicator.Resistance;
import org.steamwright.assessment.indicator.SporeKinetics;
import org.steamwright.visit.AssessedRun;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.SiteMoment;
import org.steamwright.visit.VisitRun;

/** Resistance and chemical indicators among the facts of a run, and how indicators fit the thermometry. */
final class IndicatorFields {
    private IndicatorFields() {}

    static void resistance(IndicatorUse use, Fields fields) throws IOException {
        if (use.resistance().isEmpty()) {
            return;
        }
        Resistance spores = use.resistance().get();
        fields.object("resistance");
        fields.number("decimalReductionMinutes", spores.decimalReductionMinutes());
        fields.number("expandedUncertaintyMinutes", spores.uncertainty().map(u -> u.value()));
        fields.number("coverageFactor", spores.uncertainty().map(u -> u.coverageFactor()));
        fields.number("referenceCelsius", spores.referenceCelsius());
        fields.number("zKelvin", spores.z());
        if (use.population().isPresent()) {
            SporeKinetics kinetics = spores.kinetics(use.population().get());
            fields.number("survivalMinutes", kinetics.survivalMinutes());
            fields.number("killMinutes", kinetics.killMinutes());
        }
        fields.endObject();
    }

    /** When it was read, and whether that was before its incubation had ended. */
    static void readOut(IndicatorUse use, Fields fields) throws IOException {
        fields.text("incubatedUntil", use.incubatedUntil().map(SiteMoment::text).orElse(""));
        fields.text("readOn", use.readOn().map(SiteMoment::text).orElse(""));
        fields.text("readBy", use.readBy());
        if (use.isReadEarly()) {
            fields.flag("isReadEarly", true);
        }
    }

    static void chemicalEntries(VisitRun run, Fields fields) throws IOException {
        fields.list("chemicalIndicatorEntries");
        for (ChemicalIndicator entry : run.chemicalEntries()) {
            fields.element();
            fields.text("id", entry.id());
            fields.count("type", entry.type().number());
            fields.text("product", entry.product());
            fields.text("lot", entry.lot());
            fields.text("expires", entry.expires().map(Object::toString).orElse(""));
            fields.list("statedValues");
            for (ChemicalIndicator.StatedValue stated : entry.statedValues()) {
                fields.element();
                fields.number("celsius", stated.celsius());
                fields.number("seconds", stated.seconds());
                fields.endObject();
            }
            fields.endList();
            fields.text("position", entry.position());
            fields.word("result", entry.result());
            fields.endObject();
        }
        fields.endList();
    }

    static void comparisons(AssessedRun assessed, Fields fields) throws IOException {
        fields.list("indicatorComparisons");
        for (IndicatorComparison one : assessed.indicators()) {
            fields.element();
            fields.text("id", one.id());
            fields.word("agreement", one.agreement());
            if (one.expected().isPresent()) {
                expected(one.expected().get(), fields);
            }
            fields.text("sentence", one.sentence());
            fields.texts("hints", one.hints());
            fields.endObject();
        }
        fields.endList();
        fields.list("chemicalComparisons");
        for (ChemicalComparison one : assessed.chemicals()) {
            fields.element();
            fields.text("id", one.id());
            fields.word("agreement", one.agreement());
            fields.text("channel", one.channel());
            fields.flag("isQuestion", one.isQuestion());
            fields.text("sentence", one.sentence());
            fields.endObject();
        }
        fields.endList();
    }

    private static void expected(ExpectedReduction expected, Fields fields) throws IOException {
        fields.object("expected");
        fields.text("channel", expected.channel());
        fields.number("lethalityMinutes", expected.lethality().minutes());
        fields.number("referenceCelsius", expected.lethality().referenceCelsius());
        fields.number("zKelvin", expected.lethality().z());
        fields.number("skippedSeconds", expected.lethality().skippedSeconds());
        estimate("reductionDecades", expected.decades(), fields);
        if (expected.survivors().isPresent()) {
            estimate("survivingSpores", expected.survivors().get(), fields);
        }
        if (expected.growth().isPresent()) {
            estimate("growthProbability", expected.growth().get(), fields);
        }
        fields.flag("isResistanceDoubtCounted", expected.isResistanceDoubtCounted());
        fields.endObject();
    }

    private static void estimate(String name, Estimate estimate, Fields fields) throws IOException {
        fields.object(name);
        fields.number("value", estimate.value());
        fields.number("low", estimate.low());
        fields.number("high", estimate.high());
        fields.endObject();
    }
}
