package org.steamwright.desk.web;

import java.util.Locale;

/** What somebody is there to do. */
public enum Role {
    TECHNICIAN,
    REVIEWER,
    OFFICE,
    CLINIC;

    /** The word kept in the journal and in the accounts. */
    public String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
