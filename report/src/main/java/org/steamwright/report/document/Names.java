package org.steamwright.report.document;

import java.util.HashSet;
import java.util.Set;
import java.util.stream.Stream;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.trace.Channel;
import org.steamwright.assessment.trace.Trace;
import org.steamwright.visit.IndicatorUse;
import org.steamwright.visit.Visit;
import org.steamwright.visit.VisitRun;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** The names in a visit. They stay as they are in every language, even one that is also a word of the program. */
final class Names {

    private final Set<String> names = new HashSet<>();

    private Names() {}

    static Set<String> of(Visit visit) {
        Names found = new Names();
        found.add(visit.reportNumber(), visit.company(), visit.zone().getId());
        found.add(
                visit.criteriaSet().name(),
                visit.criteriaSet().version(),
                visit.criteriaSet().identity());
        visit.clinic().ifPresent(clinic -> found.add(clinic.name(), clinic.address(), clinic.room(), clinic.contact()));
        for (Person person : visit.people()) {
            found.add(person.name(), person.organisation(), person.authorisation());
        }
        visit.sterilizers().forEach(found::sterilizer);
        for (ReferenceInstrument instrument : visit.instruments().values()) {
            found.add(instrument.id());
            instrument.certificate().ifPresent(paper -> found.add(paper.number(), paper.laboratory()));
        }
        visit.runs().forEach(found::run);
        return Set.copyOf(found.names);
    }

    private void sterilizer(Sterilizer sterilizer) {
        add(sterilizer.key(), sterilizer.maker(), sterilizer.model(), sterilizer.serial(), sterilizer.firmware());
        sterilizer.cycles().forEach(this::cycle);
    }

    private void cycle(CycleDefinition cycle) {
        add(cycle.name());
    }

    private void run(VisitRun run) {
        Trace trace = run.test().trace();
        cycle(run.test().cycle());
        trace.files().forEach(file -> add(file.name()));
        for (Channel channel : trace.channels()) {
            add(channel.name(), channel.position().letter());
            channel.instrument().ifPresent(this::add);
        }
        for (IndicatorUse use : run.indicators()) {
            add(use.id(), use.lot(), use.position());
        }
    }

    private void add(String... texts) {
        Stream.of(texts).map(String::strip).filter(text -> !text.isEmpty()).forEach(names::add);
    }
}
