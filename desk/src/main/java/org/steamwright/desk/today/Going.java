package org.steamwright.desk.today;

import java.io.IOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.steamwright.assessment.criteria.CriteriaSet;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.shelf.WhoGoes;
import org.steamwright.filing.FilingException;
import org.steamwright.filing.RegisterFiling;
import org.steamwright.intake.register.DataFiles;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.records.Subject;
import org.steamwright.records.SubjectId;
import org.steamwright.visit.plan.GoCheck;
import org.steamwright.visit.plan.Planning;
import org.steamwright.visit.plan.VisitPlan;
import org.steamwright.visit.register.Lot;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.SterilizerRecord;
import org.steamwright.visit.register.Technician;

/**
 * What keeps a visit to come from being made: people, instruments and lots of the register, looked at for the whole of a yearly
 * visit to each machine that it names. It begins at nine at the site, as nobody states the hour.
 *
 * @param machines serial numbers; empty if the visit names none yet
 * @param who goes; empty if the visit names nobody yet
 * @param isKnown whether the register knows a machine of it, so that anything could be looked at
 * @param blocks what keeps it, each with its reason
 */
public record Going(List<String> machines, List<String> who, boolean isKnown, List<Block> blocks) {

    private static final String YEARLY = "yearly";
    private static final String USUAL_SET = "eu-en13060";
    private static final LocalTime BEGINS = LocalTime.of(9, 0);

    /**
     * One thing.
     *
     * @param what id of instrument, lot, person or part; blank where the sentence says it
     * @param why in words of the engine
     */
    public record Block(String what, String why) {}

    public Going {
        machines = List.copyOf(machines);
        who = List.copyOf(who);
        blocks = List.copyOf(blocks);
    }

    static Going of(Office office, Subject visit) throws IOException {
        List<Subject> machines = named(office, visit, "sterilizer");
        List<String> who = WhoGoes.to(office, visit);
        List<Block> blocks = new ArrayList<>();
        boolean isKnown = false;
        for (Subject machine : machines) {
            try {
                isKnown |= look(office, visit, machine, who, blocks);
            } catch (FilingException | RegisterException | IllegalArgumentException unreadable) {
                blocks.add(new Block(machine.text("serial"), String.valueOf(unreadable.getMessage())));
            }
        }
        return new Going(
                machines.stream().map(machine -> machine.text("serial")).toList(),
                who,
                isKnown,
                blocks.stream().distinct().toList());
    }

    private static boolean look(Office office, Subject visit, Subject machine, List<String> who, List<Block> blocks)
            throws IOException, FilingException, RegisterException {
        Register register = new RegisterFiling(office.records()).around(machine);
        if (register.sterilizers().isEmpty()) {
            return false;
        }
        SterilizerRecord record = register.sterilizers().get(0);
        ZoneId zone =
                register.findPlace(record).map(place -> place.site().zone()).orElse(ZoneOffset.UTC);
        VisitPlan plan =
                Planning.of(DataFiles.afterChange(), register, record, criteria(visit), List.of(YEARLY), List.of());
        Optional<Technician> technician = register.technicians().stream()
                .filter(one -> who.contains(one.name()))
                .findFirst()
                // somebody is named of whom the register knows nothing: no competence is shown
                .or(() -> who.stream().findFirst().map(name -> new Technician(name, name, List.of())));
        Instant begins = day(visit, office).atTime(BEGINS).atZone(zone).toInstant();
        GoCheck.of(plan, register, GoCheck.fitting(plan, register, technician, begins, zone), begins, zone)
                .of(GoCheck.Answer.BLOCKS)
                .forEach(point -> blocks.add(new Block(subject(point.subject(), who), point.sentence())));
        return true;
    }

    /** What a sentence names itself, a kind of lot or a person, is not put before it once more. */
    private static String subject(String subject, List<String> who) {
        boolean isNamed = subject.equals("technician")
                || who.contains(subject)
                || Arrays.stream(Lot.Kind.values()).anyMatch(kind -> kind.word().equals(subject));
        return isNamed ? "" : subject;
    }

    private static CriteriaSet criteria(Subject visit) {
        Presets presets = new Presets();
        String stated = visit.text("criteria-set");
        return presets.get(presets.names().stream()
                .filter(name -> stated.equals(name) || stated.startsWith(name + " "))
                .findFirst()
                .orElse(USUAL_SET));
    }

    private static LocalDate day(Subject visit, Office office) {
        try {
            return LocalDate.parse(visit.text("date"));
        } catch (DateTimeException noDay) {
            return LocalDate.now(office.clock());
        }
    }

    private static List<Subject> named(Office office, Subject visit, String fact) {
        List<SubjectId> ids = new ArrayList<>();
        visit.fact(fact)
                .ifPresent(list -> list.node().forEach(id -> {
                    if (id.isTextual()) {
                        ids.add(SubjectId.parse(id.asText()));
                    }
                }));
        return office.records().subjects(ids);
    }
}
