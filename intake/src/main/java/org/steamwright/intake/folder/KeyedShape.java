package org.steamwright.intake.folder;

import java.util.List;

/** A mapping of a YAML file and the keys it accepts. */
public interface KeyedShape {

    /** Name of its definition in the JSON Schema of the file. */
    String word();

    /** Accepted keys in the order of the reference page. */
    List<String> keys();
}
