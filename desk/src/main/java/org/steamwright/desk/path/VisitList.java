package org.steamwright.desk.path;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.text.Figures;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Kind;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;

/**
 * Visits of the record, and what a new one is begun with.
 *
 * @param visits the newest first, those of one page
 * @param from how many newer ones there are
 * @param all how many there are
 * @param machines of the record, if they are few enough to choose from; of more the serial number is typed
 * @param technicians whom the register knows, to be chosen or typed over
 * @param number that is free
 * @param day today
 * @param sets names of criteria sets
 * @param typed what was typed and refused, by field; empty at first
 */
public record VisitList(
        List<Line> visits,
        int from,
        int all,
        List<Machine> machines,
        List<String> technicians,
        String number,
        LocalDate day,
        List<String> sets,
        Map<String, String> typed) {

    private static final int MOST = 200;
    private static final int SHOWN = 60;
    private static final Pattern NUMBER = Pattern.compile("R-(\\d{4})-(\\d{1,6})");

    /**
     * One visit.
     *
     * @param id identity
     * @param number of the report
     * @param clinic name
     * @param day of the visit, as it stands; may be blank
     * @param purpose in words
     * @param state in words of the engine, such as issued or replaced
     */
    public record Line(String id, String number, String clinic, String day, String purpose, String state) {

        /** The day as the reader's language writes it; what is no day stays as it stands. */
        public String day(Figures figures) {
            try {
                return figures.day(LocalDate.parse(day));
            } catch (DateTimeException noDay) {
                return day;
            }
        }
    }

    /**
     * A sterilizer of the record.
     *
     * @param id identity in the record, which several machines of one serial number do not share
     * @param words maker, model, serial number
     */
    public record Machine(String id, String words) {}

    public VisitList {
        visits = List.copyOf(visits);
        machines = List.copyOf(machines);
        technicians = List.copyOf(technicians);
        sets = List.copyOf(sets);
        typed = Map.copyOf(typed);
    }

    /** What was typed for a field, or what is proposed. */
    public String typed(String field, String proposed) {
        return typed.getOrDefault(field, proposed);
    }

    /** Where the page of newer visits begins; empty on the first. */
    public Optional<Integer> newer() {
        return from > 0 ? Optional.of(Math.max(0, from - SHOWN)) : Optional.empty();
    }

    /** Where the page of older visits begins; empty on the last. */
    public Optional<Integer> older() {
        return from + visits.size() < all ? Optional.of(from + visits.size()) : Optional.empty();
    }

    static VisitList of(Office office, Map<String, String> typed, int from) {
        List<Line> lines = new ArrayList<>();
        LocalDate day = LocalDate.now(office.clock());
        VisitStates states = new VisitStates(office.records());
        int all = (int) office.records().count(Kind.VISIT);
        int newer = Math.min(from, all);
        for (Subject visit : office.records().newest(Kind.VISIT, newer, SHOWN)) {
            lines.add(new Line(
                    visit.id().toString(),
                    visit.text("number"),
                    visit.text("clinic-name"),
                    visit.text("date"),
                    visit.text("purpose"),
                    states.of(visit).words()));
        }
        List<Subject> known = office.records().subjects(Kind.STERILIZER, MOST + 1);
        List<Machine> machines = new ArrayList<>();
        (known.size() > MOST ? List.<Subject>of() : known).forEach(one -> machines.add(machine(one)));
        machines.sort(Comparator.comparing(Machine::words));
        asked(office, typed, machines).ifPresent(machines::add);
        List<String> technicians = office.records().subjects(Kind.TECHNICIAN, MOST).stream()
                .map(one -> one.text("name"))
                .filter(name -> !name.isBlank())
                .distinct()
                .sorted()
                .toList();
        return new VisitList(
                lines, newer, all, machines, technicians, freeNumber(office), day, new Presets().names(), typed);
    }

    private static Machine machine(Subject one) {
        return new Machine(
                one.id().toString(), (one.text("maker") + " " + one.text("model") + ", " + one.text("serial")).strip());
    }

    /** The machine that is asked for, where it is not among those to choose from. */
    private static Optional<Machine> asked(Office office, Map<String, String> typed, List<Machine> known) {
        String id = typed.getOrDefault("machine", "");
        if (id.isBlank() || known.stream().anyMatch(one -> one.id().equals(id))) {
            return Optional.empty();
        }
        try {
            return office.records()
                    .find(SubjectId.parse(id))
                    .filter(one -> one.kind() == Kind.STERILIZER)
                    .map(VisitList::machine);
        } catch (IllegalArgumentException noId) {
            return Optional.empty();
        }
    }

    /** The number after the highest of this year among the visits that were made last. */
    static String freeNumber(Office office) {
        int year = LocalDate.now(office.clock()).getYear();
        int highest = 0;
        for (Subject visit : office.records().newest(Kind.VISIT, SHOWN)) {
            Matcher number = NUMBER.matcher(visit.text("number"));
            if (number.matches() && number.group(1).equals(String.valueOf(year))) {
                highest = Math.max(highest, Integer.parseInt(number.group(2)));
            }
        }
        return String.format(Locale.ROOT, "R-%d-%04d", year, highest + 1);
    }
}
