package org.steamwright.criteriasets;

import java.nio.charset.StandardCharsets;
import org.steamwright.assessment.criteria.CriteriaSet;

/** Small sets for the tests. Names and documents are invented. */
final class Examples {

    static final String WHOLE = """
            steamwright-criteria-set: 1
            name: high-street
            version: 7
            title: High Street clinic, own rules
            formula:
              use: iapws-r7-97
              source: {document: Quality manual, provenance: user, confidence: high}
            theoretical-temperature-in-band: true
            decision-rule: simple
            revalidation:
              after: 6 months
              source: {document: Quality manual, provenance: user, confidence: high}
            consecutive-runs:
              count: 2
              source: {document: Quality manual, provenance: user, confidence: high}
            cycles:
              - sterilizing-temperature: 134 °C
                holding-time:
                  at-least: 3.5 min
                  source: {document: Quality manual, clause: '4.2', provenance: user, confidence: high}
                band-width:
                  at-most: 4 K
                  source: {document: Quality manual, provenance: user, confidence: high}
            criteria:
              recording-complete:
                use: decides
                source: {document: Quality manual, provenance: user, confidence: high}
              sampling-interval:
                use: decides
                at-most: 1 s
                source: {document: Quality manual, provenance: user, confidence: high}
              sensors-alive:
                use: decides
                source: {document: Quality manual, provenance: user, confidence: high}
              calibration-valid:
                use: decides
                source: {document: Quality manual, provenance: user, confidence: high}
              calibration-range:
                use: decides
                source: {document: Quality manual, provenance: user, confidence: high}
              pressure-kind:
                use: decides
                source: {document: Quality manual, provenance: user, confidence: high}
              minimum-holding-time:
                use: decides
                rule: four-words
                source: {document: Quality manual, provenance: user, confidence: high}
              temperature-spread:
                use: advises
                at-most: 1.5 K
                source: {document: Quality manual, provenance: user, confidence: high}
              leak-rate:
                use: decides
                at-most: 0.8 mbar/min
                source: {document: Instructions for use, provenance: user, confidence: high, note: stricter than usual}
              load-dryness:
                use: decides
                at-most: 0.2 %
                porous-at-most: 0.9 %
                source: {document: Quality manual, provenance: user, confidence: high}
              biological-indicators:
                use: decides
                at-least: 4
                source: {document: Quality manual, provenance: user, confidence: high}
            """;

    static final String BASED = """
            steamwright-criteria-set: 1
            name: mill-lane
            version: 2026-03
            title: Mill Lane clinic
            based-on: eu-en13060
            cycles:
              - sterilizing-temperature: 134 °C
                holding-time:
                  at-least: 4 min
                  source: {document: Instructions for use, edition: '3', provenance: user, confidence: high}
              - sterilizing-temperature: 115 °C
                holding-time:
                  at-least: 30 min
                  source: {document: Instructions for use, edition: '3', provenance: user, confidence: high}
            criteria:
              leak-rate:
                use: decides
                at-most: 0.8 mbar/min
                source: {document: Instructions for use, edition: '3', provenance: user, confidence: high}
              penetration-time:
                use: off
            """;

    private Examples() {}

    static CriteriaSet read(String yaml) {
        return new Presets().read(bytes(yaml), "clinic.yaml");
    }

    static byte[] bytes(String yaml) {
        return yaml.getBytes(StandardCharsets.UTF_8);
    }

    /** The whole set with one piece exchanged; the piece has to be there. */
    static String with(String piece, String other) {
        if (!WHOLE.contains(piece)) {
            throw new IllegalArgumentException("no '" + piece + "' in the example");
        }
        return WHOLE.replaceFirst(
                java.util.regex.Pattern.quote(piece), java.util.regex.Matcher.quoteReplacement(other));
    }
}
