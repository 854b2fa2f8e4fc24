package org.steamwright.filing;

import org.steamwright.records.Subject;

/** A visit that was to be signed is not the one that the signer has seen. Nothing was signed. */
public final class VisitChangedException extends FilingException {

    private static final long serialVersionUID = 1L;

    VisitChangedException(Subject visit) {
        super(
                "visit %s was changed after it was looked at and before it was signed; nothing was signed"
                        .formatted(visit.text("number")),
                "Look at the visit and its answer as they stand now, then sign again.");
    }
}
