package org.steamwright.visit.register;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What a table of machines would do to a register. Nothing is done yet: the changes are applied by {@link RegisterChange#apply}, and
 * a table that was applied gives none any more.
 *
 * @param rows answer for each row, in the order of the table
 * @param changes of whole entries, clinics first
 */
public record RegisterComparison(List<Row> rows, List<RegisterChange> changes) {

    /** What a row would do. */
    public enum Answer {
        ADDED("added"),
        CHANGED("changed"),
        SAME("same"),
        /** The row can't be taken; nothing of it is. */
        REFUSED("refused");

        private final String word;

        Answer(String word) {
            this.word = word;
        }

        public String word() {
            return word;
        }
    }

    /**
     * What one row would do.
     *
     * @param line in its file
     * @param id of the machine; blank if none could be told
     * @param answer in a word
     * @param fields that would change; for an added machine none is listed
     * @param reason why it is refused; blank otherwise
     */
    public record Row(int line, String id, Answer answer, List<Field> fields, String reason) {
        public Row {
            fields = List.copyOf(fields);
        }
    }

    /**
     * One field that would change.
     *
     * @param name in words
     * @param before blank if it said nothing
     * @param after as it shall be
     */
    public record Field(String name, String before, String after) {}

    public RegisterComparison {
        rows = List.copyOf(rows);
        changes = List.copyOf(changes);
    }

    public long count(Answer answer) {
        return rows.stream().filter(row -> row.answer() == answer).count();
    }

    /**
     * Compares rows with a register, one after the other: a later row sees what an earlier one adds.
     *
     * @param refused rows that could not even be read, each with its reason; they take their place by line
     */
    public static RegisterComparison of(Register register, List<MachineRow> rows, List<Row> refused) {
        RowTaking taking = new RowTaking(register);
        List<Row> answers = new ArrayList<>(refused);
        for (MachineRow row : rows) {
            answers.add(taking.take(row));
        }
        answers.sort(Comparator.comparingInt(Row::line));
        List<RegisterChange> changes = new ArrayList<>();
        Map<String, ClinicRecord> clinics = new LinkedHashMap<>();
        register.clinics().forEach(clinic -> clinics.put(clinic.id(), clinic));
        taking.clinics().forEach((id, clinic) -> {
            Optional<ClinicRecord> before = Optional.ofNullable(clinics.get(id));
            if (!before.equals(Optional.of(clinic))) {
                changes.add(new RegisterChange.OfClinic(before, Optional.of(clinic)));
            }
        });
        Map<String, SterilizerRecord> machines = new LinkedHashMap<>();
        register.sterilizers().forEach(machine -> machines.put(machine.id(), machine));
        taking.machines().forEach((id, machine) -> {
            Optional<SterilizerRecord> before = Optional.ofNullable(machines.get(id));
            if (!before.equals(Optional.of(machine))) {
                changes.add(new RegisterChange.OfSterilizer(before, Optional.of(machine)));
            }
        });
        return new RegisterComparison(answers, changes);
    }
}
