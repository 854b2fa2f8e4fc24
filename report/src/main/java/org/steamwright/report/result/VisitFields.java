package org.steamwright.report.result;

import java.io.IOException;
import java.util.List;
import org.steamwright.assessment.cycle.CycleDefinition;
import org.steamwright.assessment.remark.Remark;
import org.steamwright.visit.CheckItem;
import org.steamwright.visit.CheckResult;
import org.steamwright.visit.Checklist;
import org.steamwright.visit.Conditions;
import org.steamwright.visit.SetChange;
import org.steamwright.visit.Visit;
import org.steamwright.visit.register.ChamberSize;
import org.steamwright.visit.register.Clinic;
import org.steamwright.visit.register.NamePlate;
import org.steamwright.visit.register.Person;
import org.steamwright.visit.register.Sterilizer;

/** The facts of the visit as they were stated; what was not stated is left out. */
final class VisitFields {
    private VisitFields() {}

    static void write(Visit visit, Fields fields) throws IOException {
        fields.object("visit");
        fields.text("reportNumber", visit.reportNumber());
        fields.text("purpose", visit.purpose());
        if (visit.date().isPresent()) {
            fields.text("date", visit.date().get().toString());
        }
        fields.text("zone", visit.zone().getId());
        fields.text("company", visit.company());
        if (visit.clinic().isPresent()) {
            clinic(visit.clinic().get(), fields);
        }
        fields.list("sterilizers");
        for (Sterilizer sterilizer : visit.sterilizers()) {
            sterilizer(sterilizer, fields);
        }
        fields.endList();
        fields.list("people");
        for (Person person : visit.people()) {
            fields.element();
            fields.text("name", person.name());
            fields.text("role", person.role());
            fields.text("organisation", person.organisation());
            fields.text("authorisation", person.authorisation());
            fields.text("confirms", person.confirms());
            fields.endObject();
        }
        fields.endList();
        conditions(visit.conditions(), fields);
        fields.list("checklists");
        for (Checklist checklist : visit.checklists()) {
            checklist(checklist, fields);
        }
        fields.endList();
        setChanges(visit.setChanges(), fields);
        fields.texts("deviations", visit.deviations());
        fields.texts("recommendations", visit.recommendations());
        fields.texts("nextDue", visit.nextDue());
        fields.texts("notTested", visit.notTested());
        remarks(visit.remarks(), fields);
        fields.endObject();
    }

    static void remarks(List<Remark> remarks, Fields fields) throws IOException {
        fields.list("remarks");
        for (Remark remark : remarks) {
            fields.element();
            fields.text("id", remark.id());
            fields.word("rank", remark.rank());
            fields.text("where", remark.where());
            fields.text("text", remark.text());
            fields.endObject();
        }
        fields.endList();
    }

    static void cycle(CycleDefinition cycle, Fields fields) throws IOException {
        fields.text("name", cycle.name());
        fields.text("type", cycle.type().name());
        fields.number("sterilizingCelsius", cycle.sterilizingTemperature().celsius());
        if (cycle.holdingTime().isPresent()) {
            fields.number(
                    "declaredHoldingTimeSeconds", cycle.holdingTime().get().toMillis() / 1000.0);
        }
        fields.count("declaredAirRemovalPulses", cycle.airRemovalPulses());
        fields.number("declaredPulseDepthKilopascalAbsolute", cycle.pulseDepth());
        if (cycle.dryingTime().isPresent()) {
            fields.number("declaredDryingTimeSeconds", cycle.dryingTime().get().toMillis() / 1000.0);
        }
    }

    private static void clinic(Clinic clinic, Fields fields) throws IOException {
        fields.object("clinic");
        fields.text("name", clinic.name());
        fields.text("address", clinic.address());
        fields.text("room", clinic.room());
        fields.text("contact", clinic.contact());
        fields.text("reference", clinic.reference());
        fields.endObject();
    }

    private static void sterilizer(Sterilizer sterilizer, Fields fields) throws IOException {
        fields.element();
        fields.text("key", sterilizer.key());
        fields.text("maker", sterilizer.maker());
        fields.text("model", sterilizer.model());
        fields.text("serial", sterilizer.serial());
        fields.text("year", sterilizer.year());
        fields.number("chamberLitres", sterilizer.chamberLitres());
        fields.text(
                "chamberSize", sterilizer.chamberSize().map(ChamberSize::text).orElse(""));
        fields.count("trayLevels", sterilizer.trayLevels());
        fields.text("firmware", sterilizer.firmware());
        fields.text("location", sterilizer.location());
        fields.text("pressurePapers", sterilizer.pressurePapers());
        fields.count("counterAtArrival", sterilizer.counterAtArrival());
        fields.count("counterAtDeparture", sterilizer.counterAtDeparture());
        if (sterilizer.plate().isPresent()) {
            plate(sterilizer.plate().get(), fields);
        }
        fields.list("cycles");
        for (CycleDefinition cycle : sterilizer.cycles()) {
            fields.element();
            cycle(cycle, fields);
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    private static void plate(NamePlate plate, Fields fields) throws IOException {
        fields.object("namePlate");
        fields.text("serial", plate.serial());
        fields.text("readBy", plate.readBy());
        fields.list("photos");
        for (NamePlate.Photo photo : plate.photos()) {
            fields.element();
            fields.text("file", photo.name());
            fields.text("sha256", photo.sha256());
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }

    private static void setChanges(List<SetChange> changes, Fields fields) throws IOException {
        if (changes.isEmpty()) {
            return;
        }
        fields.list("criteriaSetChanges");
        for (SetChange change : changes) {
            fields.element();
            fields.text("from", change.from());
            fields.text("to", change.to());
            fields.text("because", change.because());
            fields.text("by", change.by());
            fields.endObject();
        }
        fields.endList();
    }

    private static void conditions(Conditions conditions, Fields fields) throws IOException {
        fields.object("conditions");
        fields.number("barometerKilopascalAbsolute", conditions.barometerKilopascal());
        fields.text("barometerSource", conditions.barometerSource());
        fields.number("altitudeMetres", conditions.altitudeMetres());
        fields.number("roomCelsius", conditions.roomCelsius());
        fields.number("roomHumidityPercent", conditions.roomHumidityPercent());
        fields.number("supplyVolts", conditions.supplyVoltage());
        fields.number("waterConductivityMicrosiemensPerCentimetre", conditions.waterConductivity());
        fields.endObject();
    }

    private static void checklist(Checklist checklist, Fields fields) throws IOException {
        fields.element();
        fields.word("section", checklist.section());
        fields.text("sterilizer", checklist.sterilizer());
        fields.list("items");
        for (CheckItem item : checklist.items()) {
            fields.element();
            fields.text("title", item.title());
            fields.text("result", item.result());
            fields.word("counts", CheckResult.of(checklist.section(), item));
            fields.text("remark", item.remark());
            fields.text("asFound", item.asFound());
            fields.text("asLeft", item.asLeft());
            fields.text("limit", item.limit());
            fields.text("instrument", item.instrument());
            fields.endObject();
        }
        fields.endList();
        fields.endObject();
    }
}
