package org.steamwright.desk.accounts;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.web.Doorkeeper;
import org.steamwright.desk.web.Person;
import org.steamwright.desk.web.Role;
import org.steamwright.records.Author;
import org.steamwright.records.Records;

/** Knows the one owner of a laptop, who may do all that a technician, a reviewer and an office may. */
public final class OwnerDoorkeeper implements Doorkeeper {

    static final String ASK = "/owner";

    private static final List<Role> ALL = List.of(Role.TECHNICIAN, Role.REVIEWER, Role.OFFICE);

    private final Records records;
    private volatile Person known = Person.STRANGER;

    /** @param records opened */
    public OwnerDoorkeeper(Records records) {
        this.records = records;
    }

    @Override
    public Person person(HttpServletRequest request) {
        Person person = known;
        if (Person.STRANGER.equals(person)) {
            person = Owner.find(records).map(OwnerDoorkeeper::person).orElse(Person.STRANGER);
            known = person;
        }
        return person;
    }

    /** Looks again who works here: somebody has just said it. */
    public void lookAgain() {
        known = Person.STRANGER;
    }

    /** The owner as somebody who asks; the role that was stated comes first and stands in the journal. */
    static Person person(Author owner) {
        Set<Role> roles = new LinkedHashSet<>();
        Arrays.stream(Role.values())
                .filter(role -> role.word().equals(owner.role()))
                .forEach(roles::add);
        roles.addAll(ALL);
        return new Person(owner.name(), roles, Optional.empty());
    }

    @Override
    public Optional<String> signIn(HttpServletRequest request) {
        return Optional.of(ASK);
    }
}
