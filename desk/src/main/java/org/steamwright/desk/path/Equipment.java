package org.steamwright.desk.path;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.steamwright.desk.office.RegisterShelf;
import org.steamwright.desk.shelf.Office;
import org.steamwright.desk.web.Frame;
import org.steamwright.filing.Draft;
import org.steamwright.filing.DraftInstruments;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.register.RegisterException;
import org.steamwright.visit.register.Lot;

/**
 * What a sheet of a visit may need of instruments and indicators beside what is typed there.
 *
 * @param register instruments of the office; none where they are not asked for
 * @param visit instruments of the visit; empty where they are not asked for
 * @param lots of the office's store
 */
record Equipment(RegisterInstruments register, Optional<DraftInstruments> visit, List<Lot> lots) {

    static final Equipment NONE = new Equipment(RegisterInstruments.NONE, Optional.empty(), List.of());

    Equipment {
        lots = List.copyOf(lots);
    }

    /** What the sheet of a stage needs. */
    static Equipment of(Stage stage, Draft draft, Office office, RegisterShelf shelf, Frame frame)
            throws IOException, FilingException, RegisterException {
        return switch (stage) {
            case INSTRUMENTS ->
                new Equipment(
                        RegisterInstruments.of(draft, office, shelf, frame),
                        Optional.of(draft.instruments()),
                        List.of());
            case INDICATORS, RUNS ->
                new Equipment(
                        RegisterInstruments.NONE,
                        Optional.of(draft.instruments()),
                        draft.isSigned() ? List.of() : shelf.now().register().lots());
            case CLOSE -> ofVisit(draft);
            default -> NONE;
        };
    }

    /** Only what the visit itself says. */
    static Equipment ofVisit(Draft draft) throws IOException, FilingException {
        return new Equipment(RegisterInstruments.NONE, Optional.of(draft.instruments()), List.of());
    }
}
