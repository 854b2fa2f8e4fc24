package org.steamwright.visit.due;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Sets of rules by jurisdiction.
 *
 * @param sets in the order of their file; the first holds for sites that name none
 */
public record DueRules(List<RuleSet> sets) {

    /**
     * The rules of one place.
     *
     * @param name word without blanks
     * @param title for people
     * @param basedOn name of the set whose rules hold too unless one here has the same id; blank for none
     * @param rules of this set alone
     */
    public record RuleSet(String name, String title, String basedOn, List<DueRule> rules) {
        public RuleSet {
            rules = List.copyOf(rules);
        }
    }

    public DueRules {
        sets = List.copyOf(sets);
        if (sets.isEmpty()) {
            throw new IllegalArgumentException("no set of rules");
        }
        Set<String> names = new HashSet<>();
        for (RuleSet set : sets) {
            if (!set.basedOn().isBlank() && !names.contains(set.basedOn())) {
                throw new IllegalArgumentException(
                        "set " + set.name() + " is based on " + set.basedOn() + ", which does not stand before it");
            }
            if (!names.add(set.name())) {
                throw new IllegalArgumentException("two sets have the name " + set.name());
            }
        }
    }

    public List<String> names() {
        return sets.stream().map(RuleSet::name).toList();
    }

    /** The rules of a set with those it is based on; a blank name takes the first set. */
    public Optional<List<DueRule>> find(String name) {
        String wanted = name.isBlank() ? sets.get(0).name() : name;
        return sets.stream()
                .filter(set -> set.name().equals(wanted))
                .findFirst()
                .map(this::rules);
    }

    private List<DueRule> rules(RuleSet set) {
        Map<String, DueRule> byId = new LinkedHashMap<>();
        if (!set.basedOn().isBlank()) {
            for (DueRule rule : find(set.basedOn()).orElseThrow()) {
                byId.put(rule.id(), rule);
            }
        }
        for (DueRule rule : set.rules()) {
            byId.put(rule.id(), rule);
        }
        return new ArrayList<>(byId.values());
    }
}
