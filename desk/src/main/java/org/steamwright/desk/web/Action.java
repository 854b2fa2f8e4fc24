package org.steamwright.desk.web;

import java.io.IOException;
import org.steamwright.filing.FilingException;
import org.steamwright.intake.folder.VisitFolderException;
import org.steamwright.intake.register.RegisterException;

/** What answers a route. */
@FunctionalInterface
public interface Action {

    /**
     * The answer.
     *
     * @throws IOException if the disk or the network fails
     * @throws FilingException if the record refuses, with the remedy
     * @throws VisitFolderException if facts or files can't be read as a visit
     * @throws RegisterException if the register can't be read
     */
    Reply answer(Ask ask) throws IOException, FilingException, VisitFolderException, RegisterException;
}
