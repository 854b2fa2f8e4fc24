package org.steamwright.assessment.oracle;

import org.steamwright.assessment.OutsideData;

/** Univariate data sets of the NIST statistical reference data. */
public final class CertifiedSets {

    private CertifiedSets() {}

    /** The observations: every line that is one number and nothing else. */
    public static double[] values(String set) {
        return OutsideData.lines("nist/" + set + ".txt").stream()
                .map(String::strip)
                .filter(line -> line.matches("-?[0-9]+(\\.[0-9]+)?"))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }
}
