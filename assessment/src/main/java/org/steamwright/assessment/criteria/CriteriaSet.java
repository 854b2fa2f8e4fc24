package org.steamwright.assessment.criteria;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.assessment.steam.SaturationCurve;

/**
 * A versioned set of limits by which runs are judged.
 *
 * @param name word without blanks, such as 'eu-en13060'
 * @param version of this set
 * @param sha256 of the file it was read from, 64 lower-case hexadecimal digits
 * @param title for people
 * @param curve formula of the theoretical temperature
 * @param curveSource why that formula
 * @param isTheoreticalInBand whether the theoretical temperature has to stay inside the band like a measured point
 * @param cycles minimum holding time and band width by sterilization temperature, in the order of the file
 * @param requirements by criterion; a criterion that is missing is off
 * @param revalidation period after which the qualification ends, in months; empty if the set does not say
 * @param consecutiveRuns number of consecutive passing loaded runs that a performance qualification takes
 * @param notes of the set, for people; may be empty
 * @param revalidationSource where the period comes from; empty only in sets that were not read from a file
 * @param consecutiveRunsSource where the number of runs comes from; empty only in sets that were not read from a file
 */
public record CriteriaSet(
        String name,
        String version,
        String sha256,
        String title,
        SaturationCurve curve,
        Source curveSource,
        boolean isTheoreticalInBand,
        List<CycleLimits> cycles,
        Map<CriterionId, Requirement> requirements,
        Optional<Integer> revalidation,
        int consecutiveRuns,
        String notes,
        Optional<Source> revalidationSource,
        Optional<Source> consecutiveRunsSource) {

    /**
     * What a set says for one sterilization temperature.
     *
     * @param sterilizingCelsius lower limit of the band, in degree Celsius
     * @param holdingTime shortest holding time
     * @param bandWidth upper limit of the band above the lower one, in kelvin; empty if the set states none
     */
    public record CycleLimits(double sterilizingCelsius, Limit holdingTime, Optional<Limit> bandWidth) {}

    public CriteriaSet {
        cycles = List.copyOf(cycles);
        requirements = Map.copyOf(requirements);
        if (!sha256.matches("[0-9a-f]{64}")) {
            throw new IllegalArgumentException("criteria set " + name + " without the hash of its file");
        }
        if (consecutiveRuns < 1) {
            throw new IllegalArgumentException("criteria set " + name + ": at least one run");
        }
    }

    /** A set without notes and without sources for its period and number of runs. */
    public CriteriaSet(
            String name,
            String version,
            String sha256,
            String title,
            SaturationCurve curve,
            Source curveSource,
            boolean isTheoreticalInBand,
            List<CycleLimits> cycles,
            Map<CriterionId, Requirement> requirements,
            Optional<Integer> revalidation,
            int consecutiveRuns) {
        this(
                name,
                version,
                sha256,
                title,
                curve,
                curveSource,
                isTheoreticalInBand,
                cycles,
                requirements,
                revalidation,
                consecutiveRuns,
                "",
                Optional.empty(),
                Optional.empty());
    }

    /** Limits for that sterilization temperature, if the set has them. */
    public Optional<CycleLimits> findCycle(double sterilizingCelsius) {
        return cycles.stream()
                .filter(cycle -> Math.abs(cycle.sterilizingCelsius() - sterilizingCelsius) < 0.005)
                .findFirst();
    }

    /** What the set asks about a criterion, if it asks at all. */
    public Optional<Requirement> find(CriterionId id) {
        return Optional.ofNullable(requirements.get(id)).filter(requirement -> requirement.use() != Use.OFF);
    }

    /** Name, version and the first twelve digits of the hash. */
    public String identity() {
        return name + " " + version + " (" + sha256.substring(0, 12) + ")";
    }

    /** The same set asking otherwise. Its name, version and hash stay: it is a what-if, never the set of a report. */
    public CriteriaSet withRequirements(Map<CriterionId, Requirement> newRequirements) {
        return copy(curve, newRequirements);
    }

    /** The same set with another formula of the theoretical temperature; a what-if as {@link #withRequirements}. */
    public CriteriaSet withCurve(SaturationCurve newCurve) {
        return copy(newCurve, requirements);
    }

    private CriteriaSet copy(SaturationCurve newCurve, Map<CriterionId, Requirement> newRequirements) {
        return new CriteriaSet(
                name,
                version,
                sha256,
                title,
                newCurve,
                curveSource,
                isTheoreticalInBand,
                cycles,
                newRequirements,
                revalidation,
                consecutiveRuns,
                notes,
                revalidationSource,
                consecutiveRunsSource);
    }
}
