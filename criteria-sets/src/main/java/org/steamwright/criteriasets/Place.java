package org.steamwright.criteriasets;

/**
 * A place in a file.
 *
 * @param fileName for messages
 * @param line counted from 1
 * @param path keys from the top joined by dots, list entries counted from 1 in brackets; empty at the top
 */
record Place(String fileName, int line, String path) {

    /** The same file, one level down. */
    Place below(String key, int itsLine) {
        return new Place(fileName, itsLine, path.isEmpty() ? key : path + "." + key);
    }

    /** The same file, one entry of a list; the first is 1. */
    Place entry(int number, int itsLine) {
        return new Place(fileName, itsLine, path + "[" + number + "]");
    }
}
