package org.steamwright.desk.path;

import java.time.LocalDate;
import java.util.Optional;
import org.steamwright.criteriasets.Presets;
import org.steamwright.desk.shelf.Office;
import org.steamwright.filing.FactPath;
import org.steamwright.filing.StatedVisit;
import org.steamwright.filing.VisitStates;
import org.steamwright.records.Subject;
import org.steamwright.visit.register.Register;
import org.steamwright.visit.register.Site;
import org.steamwright.visit.state.VisitState;

/** The criteria set that a visit begins with: by the rules of its site, else as in the visit before. */
final class OfficeSet {

    /** Where neither is known. */
    static final String USUAL = "eu-en13060";

    private OfficeSet() {}

    static Optional<String> of(Office office, Subject machine, Register around, LocalDate day) {
        return around.sterilizers().stream()
                .findFirst()
                .flatMap(known -> ofSite(around, known.room()))
                .or(() -> ofVisitBefore(office, machine, day));
    }

    /** The first preset whose name begins with the name of the site's set of due rules, such as 'au'. */
    private static Optional<String> ofSite(Register register, String room) {
        return register.clinics().stream()
                .flatMap(clinic -> clinic.sites().stream())
                .filter(site -> site.rooms().stream().anyMatch(one -> one.id().equals(room)))
                .map(Site::rules)
                .filter(rules -> !rules.isBlank())
                .findFirst()
                .flatMap(rules -> new Presets()
                        .names().stream()
                                .filter(name -> name.equals(rules) || name.startsWith(rules + "-"))
                                .findFirst());
    }

    private static Optional<String> ofVisitBefore(Office office, Subject machine, LocalDate day) {
        for (StatedVisit before : new VisitStates(office.records()).ofSterilizer(machine.id())) {
            boolean isBefore = before.visit().text("date").compareTo(day.toString()) <= 0;
            boolean isThere =
                    before.state() == VisitState.OPEN || before.state().isOut();
            String set = office.drafts().of(before.visit().id()).text(FactPath.of("criteria-set"));
            if (isBefore && isThere && new Presets().names().contains(set)) {
                return Optional.of(set);
            }
        }
        return Optional.empty();
    }
}
