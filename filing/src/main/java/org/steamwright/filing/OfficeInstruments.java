package org.steamwright.filing;

import com.fasterxml.jackson.databind.JsonNode;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import org.steamwright.assessment.calibration.CalibrationCertificate;
import org.steamwright.assessment.calibration.Quarantine;
import org.steamwright.assessment.calibration.ReferenceInstrument;
import org.steamwright.records.Kind;
import org.steamwright.records.Records;
import org.steamwright.records.Subject;
import org.steamwright.records.proof.Hash;

/** The reference instruments of the office's register, as they stand on the day of a visit. */
public final class OfficeInstruments {

    private final Records records;

    /** @param records opened */
    public OfficeInstruments(Records records) {
        this.records = records;
    }

    /**
     * One instrument on a day.
     *
     * @param subject of the record
     * @param instrument as the register has it
     * @param certificate that is in force, or would be if it were in date
     * @param standing whether it may be used on that day
     * @param quarantine that covers the day
     */
    public record OnDay(
            Subject subject,
            ReferenceInstrument instrument,
            Optional<CalibrationCertificate> certificate,
            Standing standing,
            Optional<Quarantine> quarantine) {

        /** Its entry, as a visit states one; the clock is compared at each visit. */
        public Map<String, Object> entry() {
            Map<String, Object> entry = new LinkedHashMap<>();
            RegisterReading.statedEntry(subject)
                    .forEach((key, value) ->
                            entry.put(key, value instanceof JsonNode node ? RegisterEntries.plain(node) : value));
            entry.remove("clock");
            return entry;
        }

        /** The files that its certificates lie in, by name. */
        public NavigableMap<String, Hash> files() {
            return VisitFiles.of(subject);
        }
    }

    /** Whether an instrument may be used. */
    public enum Standing {
        USABLE,
        QUARANTINED,
        WITHOUT_CERTIFICATE,
        NOT_CALIBRATED_YET,
        OUT_OF_DATE
    }

    /**
     * How they stand on a day at the site.
     *
     * @param instruments as the register has them, in the order of the answer
     */
    public List<OnDay> on(LocalDate day, List<ReferenceInstrument> instruments) {
        Map<String, Subject> subjects = new LinkedHashMap<>();
        records.eachSubject(Kind.INSTRUMENT, one -> subjects.putIfAbsent(one.text("stated/id"), one));
        List<OnDay> all = new ArrayList<>();
        for (ReferenceInstrument one : instruments) {
            Optional<Subject> subject = Optional.ofNullable(subjects.get(one.id()));
            subject.ifPresent(found -> all.add(onDay(found, one, day)));
        }
        return all;
    }

    private static OnDay onDay(Subject subject, ReferenceInstrument instrument, LocalDate day) {
        Optional<CalibrationCertificate> certificate = instrument.on(day).certificate();
        Optional<Quarantine> quarantine = instrument.history().quarantineOn(day);
        Standing standing = quarantine.isPresent()
                ? Standing.QUARANTINED
                : certificate.isEmpty()
                        ? Standing.WITHOUT_CERTIFICATE
                        : certificate.get().calibratedOn().isAfter(day)
                                ? Standing.NOT_CALIBRATED_YET
                                : certificate.get().dueOn().isBefore(day) ? Standing.OUT_OF_DATE : Standing.USABLE;
        return new OnDay(subject, instrument, certificate, standing, quarantine);
    }
}
