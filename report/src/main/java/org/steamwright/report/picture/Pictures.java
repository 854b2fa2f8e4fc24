package org.steamwright.report.picture;

import java.io.IOException;
import java.util.Optional;

/** The files of a visit that are pictures, by the names that its facts give them. */
@FunctionalInterface
public interface Pictures {

    /** No picture is at hand; they are named in a document and not printed. */
    Pictures NONE = name -> Optional.empty();

    /**
     * The bytes of a file of the visit.
     *
     * @param name with {@code /} between folders
     * @return empty if there is no such file, or one too large to be a picture
     * @throws IOException if it is there and can't be read
     */
    Optional<byte[]> find(String name) throws IOException;
}
