package org.steamwright.records;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.steamwright.records.json.JsonText;
import org.steamwright.records.signing.Issue;
import org.steamwright.records.signing.Issues;
import org.steamwright.records.signing.Keys;
import org.steamwright.records.signing.SignRequest;

/** A small invented register with one visit. */
public final class SampleRecord {

    public static final Author ALEX = new Author("Alex Example", "technician");

    private static final String SECRET = "four quiet words here";

    public final Records records;
    public final SubjectId technician;
    public final SubjectId sterilizer;
    public final SubjectId visit;

    public SampleRecord(Records records) {
        this.records = records;
        SubjectId clinic = records.newSubject();
        technician = records.newSubject();
        sterilizer = records.newSubject();
        visit = records.newSubject();
        records.append(
                ALEX,
                List.of(
                        Change.set(Kind.CLINIC, clinic, "name", "Harbour Clinic"),
                        Change.set(Kind.TECHNICIAN, technician, "name", "Alex Example"),
                        Change.set(Kind.TECHNICIAN, technician, "role", "technician"),
                        Change.set(Kind.STERILIZER, sterilizer, "serial", "SN-0042"),
                        Change.set(Kind.STERILIZER, sterilizer, "clinic", clinic.toString())));
        visit("V-2026-001");
    }

    private void visit(String number) {
        KeptFile file = records.files().put(recording(number));
        records.append(
                ALEX,
                Records.changes(
                        Kind.VISIT,
                        visit,
                        Map.of(
                                "number",
                                number,
                                "date",
                                "2026-03-02",
                                "sterilizer",
                                sterilizer.toString(),
                                "instruments",
                                List.of("LOG-07"),
                                "criteria-set",
                                "example-134@1",
                                "algorithm-version",
                                "0.1.0",
                                "files/run-1.csv",
                                Map.of("sha256", file.sha256().hex(), "size", file.size()))));
    }

    public static byte[] recording(String number) {
        return ("time;T1\n10:00:00;134.5\n# " + number + "\n").getBytes(StandardCharsets.UTF_8);
    }

    public static char[] secret() {
        return SECRET.toCharArray();
    }

    public SignRequest request(SubjectId which) {
        return request(which, records);
    }

    /** The same in another store that has the visit, such as a restored one. */
    public SignRequest request(SubjectId which, Records place) {
        return new SignRequest(
                which,
                place.subject(which).hash(),
                technician,
                "performed and assessed",
                JsonText.of(Map.of("id", "example-134", "sha256", "00")),
                "0.1.0",
                JsonText.of(Map.of("verdict", "PASS", "runs", List.of(Map.of("holding", 215.5)))),
                false);
    }

    /** Makes a key and signs the visit. */
    public Issue signed() {
        new Keys(records).make(technician, secret(), ALEX);
        return new Issues(records).sign(request(visit), secret());
    }

    /** Many more entries, so that the tree has levels of its own. */
    public List<SubjectId> lots(int count) {
        List<SubjectId> lots = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            SubjectId lot = records.newSubject();
            lots.add(lot);
            records.append(
                    ALEX,
                    List.of(Change.set(Kind.LOT, lot, "number", "LOT-" + i).because("delivery " + i)));
        }
        return lots;
    }

    public Optional<JsonText> sameResult(JsonText document, Map<String, byte[]> files) {
        return Optional.of(JsonText.of(document.node().path("result")));
    }
}
