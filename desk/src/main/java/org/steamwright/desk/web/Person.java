package org.steamwright.desk.web;

import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import org.steamwright.records.Author;
import org.steamwright.records.SubjectId;

/**
 * Who asks.
 *
 * @param name as it stands in the journal
 * @param roles what they may do, the one that stands in the journal first; empty for somebody who has not signed in
 * @param clinic the only clinic that somebody in the role of a clinic may see
 */
public record Person(String name, Set<Role> roles, Optional<SubjectId> clinic) {

    /** Somebody who has not signed in. */
    public static final Person STRANGER = new Person("", Set.of(), Optional.empty());

    public Person {
        roles = Collections.unmodifiableSet(new LinkedHashSet<>(roles));
    }

    /** Whether one of those roles is theirs. */
    public boolean isOneOf(Set<Role> wanted) {
        return roles.stream().anyMatch(wanted::contains);
    }

    /** As author of an entry. */
    public Author author() {
        return new Author(name, roles.stream().findFirst().map(Role::word).orElse(""));
    }
}
