package org.steamwright.intake.certificate;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.assessment.remark.Rank;
import org.steamwright.intake.xml.XmlElement;

/**
 * Numbers with unit and uncertainty, in the older and the newer spelling of D-SI.
 *
 * @source D-SI XML schema 1.3 and 2.x: elements real, realListXMLList, realList, constant, hybrid, list and their univariate
 *     uncertainties
 */
final class SiReader {

    private static final Set<String> SINGLE = Set.of("real", "constant");
    private static final Set<String> VALUES = Set.of("value", "valueXMLList");
    private static final Set<String> UNITS = Set.of("unit", "unitXMLList", "listUnit");
    private static final Set<String> EXPANDED =
            Set.of("uncertainty", "uncertaintyXMLList", "valueExpandedMU", "valueExpandedMUXMLList");
    private static final Set<String> STANDARD =
            Set.of("standardUnc", "standardUncXMLList", "valueStandardMU", "valueStandardMUXMLList");
    private static final Set<String> FACTORS = Set.of("coverageFactor", "coverageFactorXMLList");
    private static final Set<String> PROBABILITIES = Set.of("coverageProbability", "coverageProbabilityXMLList");
    private static final Set<String> DISTRIBUTIONS = Set.of("distribution", "distributionXMLList");

    /** Elements that hold others of this list, or say what is not needed to use a value. */
    private static final Set<String> FRAMES = Set.of(
            "real",
            "realListXMLList",
            "realList",
            "constant",
            "label",
            "labelXMLList",
            "quantityTypeQUDT",
            "quantityTypeQUDTXMLList",
            "significantDigit",
            "significantDigitXMLList",
            "listsignificantDigit",
            "dateTime",
            "dateTimeXMLList",
            "intervalMin",
            "intervalMax",
            "intervalMinXMLList",
            "intervalMaxXMLList",
            "expandedUnc",
            "expandedUncXMLList",
            "coverageInterval",
            "coverageIntervalXMLList",
            "measurementUncertaintyUnivariate",
            "measurementUncertaintyUnivaraite",
            "measurementUncertaintyUnivariateXMLList",
            "listMeasurementUncertaintyUnivariate",
            "listUnivariateUnc",
            "expandedMU",
            "expandedMUXMLList",
            "standardMU",
            "standardMUXMLList",
            "coverageIntervalMU",
            "coverageIntervalMUXMLList");

    /** No table of calibration points is as long; a longer list is a recording, or no honest one. */
    private static final int MOST_VALUES = 10_000;

    private final Notes notes;

    SiReader(Notes notes) {
        this.notes = notes;
    }

    /** The values of a {@code quantity}; empty after a remark if they could not be read, silently if there are none. */
    Optional<SiColumn> column(XmlElement quantity) {
        for (XmlElement child : quantity.children()) {
            switch (child.name()) {
                case "real", "constant", "realListXMLList", "realList" -> {
                    return values(child);
                }
                case "hybrid", "list" -> {
                    return hybrid(child);
                }
                case "complex", "complexList", "complexListXMLList" -> {
                    notUnderstood(child, "complex numbers");
                    return Optional.empty();
                }
                default -> {
                    // names, methods and conditions of the quantity are read elsewhere
                }
            }
        }
        return Optional.empty();
    }

    /** The same values in several units: degree Celsius is taken before kelvin, per cent before one. */
    private Optional<SiColumn> hybrid(XmlElement hybrid) {
        List<SiColumn> spellings = new ArrayList<>();
        for (XmlElement child : hybrid.children()) {
            switch (child.name()) {
                case "real", "constant", "realListXMLList", "realList" ->
                    values(child).ifPresent(spellings::add);
                case "label", "dateTime" -> {
                    // says nothing about the values
                }
                default -> notUnderstood(child, "values in a form of their own");
            }
        }
        if (spellings.isEmpty()) {
            return Optional.empty();
        }
        if (hybrid.name().equals("list") && spellings.size() > 1) {
            notUnderstood(hybrid, "several lists in one quantity");
            return Optional.empty();
        }
        SiColumn chosen = spellings.stream()
                .filter(one -> one.unit().isCelsius() || one.unit().asWritten().equals("\\percent"))
                .findFirst()
                .orElse(spellings.get(0));
        for (SiColumn other : spellings) {
            if (other.unit().kind() != chosen.unit().kind()) {
                notes.add(
                        CertificateMessage.VALUES_DISAGREE,
                        Rank.DOUBT,
                        hybrid,
                        "The same values are given as " + chosen.unit().kind().title() + " and as "
                                + other.unit().kind().title() + "; the first is used. Ask the laboratory which holds.");
                continue;
            }
            if (chosen.unit().kind() == MeasuredKind.OTHER) {
                continue;
            }
            other.disagreement(chosen)
                    .ifPresent(how -> notes.add(
                            CertificateMessage.VALUES_DISAGREE,
                            Rank.DOUBT,
                            hybrid,
                            "The same values are given in " + other.unit().asWritten() + " and in "
                                    + chosen.unit().asWritten() + " and do not agree: " + how + ". Those in "
                                    + chosen.unit().asWritten() + " are used. Ask the laboratory which hold."));
        }
        if (!chosen.hasUncertainty()) {
            for (SiColumn other : spellings) {
                if (other.hasUncertainty() && other.size() == chosen.size()) {
                    return Optional.of(chosen.withUncertaintyOf(other));
                }
            }
        }
        return Optional.of(chosen);
    }

    private Optional<SiColumn> values(XmlElement holder) {
        boolean isSingle = SINGLE.contains(holder.name());
        List<String> valueWords = new ArrayList<>();
        List<String> unitWords = new ArrayList<>();
        List<String> expanded = new ArrayList<>();
        List<String> standard = new ArrayList<>();
        List<String> factors = new ArrayList<>();
        List<String> probabilities = new ArrayList<>();
        List<String> distributions = new ArrayList<>();
        for (XmlElement part : holder.all()) {
            String name = part.name();
            if (VALUES.contains(name)) {
                addWords(part, isSingle, valueWords);
            } else if (UNITS.contains(name)) {
                addWords(part, isSingle, unitWords);
            } else if (holder.name().equals("constant") && name.equals("uncertainty")) {
                addWords(part, isSingle, standard);
            } else if (EXPANDED.contains(name)) {
                addWords(part, isSingle, expanded);
            } else if (STANDARD.contains(name)) {
                addWords(part, isSingle, standard);
            } else if (FACTORS.contains(name)) {
                addWords(part, isSingle, factors);
            } else if (PROBABILITIES.contains(name)) {
                addWords(part, isSingle, probabilities);
            } else if (DISTRIBUTIONS.contains(name)) {
                addWords(part, isSingle, distributions);
            } else if (!FRAMES.contains(name)) {
                notUnderstood(part, "a part of a value");
            }
        }
        Optional<SiUnit> unit = unit(holder, unitWords);
        Optional<List<Double>> values = numbers(holder, valueWords, "a value");
        if (unit.isEmpty() || values.isEmpty() || values.get().isEmpty()) {
            return Optional.empty();
        }
        int decimals = valueWords.stream().mapToInt(DccText::decimals).min().orElse(0);
        int size = values.get().size();
        boolean isExpanded = !expanded.isEmpty();
        Optional<List<Double>> doubt = uncertainties(holder, isExpanded ? expanded : standard, size);
        if (doubt.isEmpty()) {
            return Optional.of(
                    new SiColumn(unit.get(), values.get(), decimals, List.of(), List.of(), List.of(), List.of()));
        }
        // a standard uncertainty is an expanded one with k = 1
        List<Double> k =
                isExpanded ? perRow(holder, factors, size, "coverage factors") : Collections.nCopies(size, 1.0);
        List<String> shapes = distributions.size() == size
                ? distributions
                : Collections.nCopies(size, distributions.isEmpty() ? "" : distributions.get(0));
        return Optional.of(new SiColumn(
                unit.get(),
                values.get(),
                decimals,
                doubt.get(),
                k,
                perRow(holder, probabilities, size, "coverage probabilities"),
                shapes));
    }

    private static void addWords(XmlElement part, boolean isSingle, List<String> words) {
        String text = part.text();
        if (isSingle && !text.isEmpty()) {
            words.add(text);
        } else if (!text.isEmpty()) {
            Collections.addAll(words, text.split("\\s+"));
        }
    }

    private Optional<SiUnit> unit(XmlElement holder, List<String> words) {
        List<String> distinct = words.stream().distinct().toList();
        if (distinct.size() != 1) {
            notes.add(
                    CertificateMessage.NOT_UNDERSTOOD,
                    Rank.DOUBT,
                    holder,
                    distinct.isEmpty()
                            ? "Values stand there without a unit. They are not used."
                            : "Values of one list stand in different units: " + String.join(", ", distinct)
                                    + ". They are not used.");
            return Optional.empty();
        }
        Optional<SiUnit> unit = SiUnit.parse(distinct.get(0));
        if (unit.isEmpty()) {
            notes.add(
                    CertificateMessage.NOT_UNDERSTOOD,
                    Rank.DOUBT,
                    holder,
                    "The unit \"" + DccText.oneLine(distinct.get(0)) + "\" is not known. Its values are not used;"
                            + " expected units such as \\degreecelsius, \\kelvin, \\kilo\\pascal.");
        }
        return unit;
    }

    private Optional<List<Double>> numbers(XmlElement holder, List<String> words, String what) {
        if (words.size() > MOST_VALUES) {
            notes.add(
                    CertificateMessage.NOT_UNDERSTOOD,
                    Rank.DOUBT,
                    holder,
                    "Found " + words.size() + " values in one list, expected up to " + MOST_VALUES
                            + ". The whole list is not used.");
            return Optional.empty();
        }
        List<Double> numbers = new ArrayList<>();
        for (String word : words) {
            Optional<Double> number = DccText.number(word);
            if (number.isEmpty()) {
                notes.add(
                        CertificateMessage.NOT_UNDERSTOOD,
                        Rank.DOUBT,
                        holder,
                        "Found \"" + DccText.oneLine(word) + "\" as " + what
                                + ", expected a number with a point as decimal mark. The whole list is not used.");
                return Optional.empty();
            }
            numbers.add(number.get());
        }
        return Optional.of(numbers);
    }

    private Optional<List<Double>> uncertainties(XmlElement holder, List<String> words, int size) {
        if (words.isEmpty()) {
            return Optional.empty();
        }
        Optional<List<Double>> numbers = numbers(holder, words, "an uncertainty");
        if (numbers.isEmpty()) {
            return Optional.empty();
        }
        boolean isPossible = numbers.get().stream().allMatch(value -> value >= 0);
        if (!isPossible || (numbers.get().size() != 1 && numbers.get().size() != size)) {
            notes.add(
                    CertificateMessage.NOT_UNDERSTOOD,
                    Rank.DOUBT,
                    holder,
                    isPossible
                            ? "Found " + numbers.get().size() + " uncertainties for " + size
                                    + " values, expected one for all or one for each. They are not used."
                            : "An uncertainty below zero is not possible. The uncertainties are not used.");
            return Optional.empty();
        }
        return Optional.of(
                numbers.get().size() == size
                        ? numbers.get()
                        : Collections.nCopies(size, numbers.get().get(0)));
    }

    /** One figure for all rows or one for each; NaN where nothing that can be used is stated. */
    private List<Double> perRow(XmlElement holder, List<String> words, int size, String what) {
        Optional<List<Double>> numbers = numbers(holder, words, "one of the " + what);
        List<Double> known = numbers.orElse(List.of());
        boolean isUsable = known.stream().allMatch(value -> value > 0);
        if (isUsable && known.size() == size) {
            return known;
        }
        if (isUsable && known.size() == 1) {
            return Collections.nCopies(size, known.get(0));
        }
        if (!known.isEmpty()) {
            notes.add(
                    CertificateMessage.NOT_UNDERSTOOD,
                    Rank.DOUBT,
                    holder,
                    "Found " + known.size() + " " + what + " for " + size
                            + " values, expected one above 0 for all or one for each. They are not used.");
        }
        return Collections.nCopies(size, Double.NaN);
    }

    private void notUnderstood(XmlElement element, String what) {
        notes.add(
                CertificateMessage.NOT_UNDERSTOOD,
                Rank.NOTE,
                element,
                "Found <" + element.name() + ">, " + what + ", which this program does not read. It is not used.");
    }
}
