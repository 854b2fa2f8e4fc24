package org.steamwright.report.picture;

import java.io.IOException;
import java.util.Collection;
import java.util.List;
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

    /**
     * Names of the files that no fact of the visit names, such as the photos of a name plate.
     *
     * @throws IOException if they can't be listed
     */
    default List<String> names() throws IOException {
        return List.of();
    }

    /** Pictures that are found one by one, and can be listed. */
    static Pictures of(Collection<String> names, Pictures found) {
        List<String> all = List.copyOf(names);
        return new Pictures() {
            @Override
            public Optional<byte[]> find(String name) throws IOException {
                return found.find(name);
            }

            @Override
            public List<String> names() {
                return all;
            }
        };
    }
}
