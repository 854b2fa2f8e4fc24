package org.steamwright.intake.table;

import java.util.List;
import org.steamwright.assessment.remark.Remark;

/**
 * What the reader of a format has found before the first row is looked at.
 *
 * @param isSimulated whether the file says that it was simulated; see {@link TableRecordings#SIMULATED_MARK}
 * @param explanation one line per decision: encoding, delimiter, sheet
 * @param remarks what was odd
 */
public record Opening(boolean isSimulated, List<String> explanation, List<Remark> remarks) {

    public Opening {
        explanation = List.copyOf(explanation);
        remarks = List.copyOf(remarks);
    }
}
