package org.steamwright.desk.accounts;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.steamwright.records.Author;
import org.steamwright.records.Change;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;

/**
 * The one person who works at a laptop. Name and role are asked once and stand in the journal; there is no password, because
 * who can open the laptop can open its files.
 */
public final class Owner {

    private static final String MARK = "desk-owner";

    private Owner() {}

    /** The owner, as the journal names the author of what is entered here; empty if nobody was asked yet. */
    public static Optional<Author> find(Records records) {
        return people(records).stream()
                .filter(person -> person.text(MARK).equals("true"))
                .findFirst()
                .map(person -> new Author(person.text("name"), person.text("role")));
    }

    private static List<Subject> people(Records records) {
        List<Subject> people = new ArrayList<>();
        records.eachSubject(Kind.TECHNICIAN, people::add);
        return people;
    }

    /**
     * Says who works here. A person of that name whom the record knows already is the same; an owner before is one no more.
     *
     * @param name as it shall stand on documents; not blank
     * @param role technician, for example
     */
    public static Author state(Records records, String name, String role) {
        Author owner = new Author(name.strip(), role);
        SubjectId id = people(records).stream()
                .filter(person -> person.text("name").equals(owner.name()))
                .findFirst()
                .map(Subject::id)
                .orElseGet(records::newSubject);
        for (Subject person : people(records)) {
            if (!person.id().equals(id) && person.text(MARK).equals("true")) {
                records.append(
                        owner,
                        List.of(Change.set(Kind.TECHNICIAN, person.id(), MARK, false)
                                .because("another person works here")));
            }
        }
        records.append(
                owner,
                List.of(
                        Change.set(Kind.TECHNICIAN, id, "name", owner.name()),
                        Change.set(Kind.TECHNICIAN, id, "role", role),
                        Change.set(Kind.TECHNICIAN, id, MARK, true)));
        return owner;
    }
}
