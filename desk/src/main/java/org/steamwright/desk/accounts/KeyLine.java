package org.steamwright.desk.accounts;

/**
 * A key for signing as the office's page shows it.
 *
 * @param id of the key
 * @param name of its bearer
 * @param role of its bearer in the record; may be blank
 * @param standing word of the texts: a user, one who is shut off, or none
 * @param from since when
 * @param lastUsed when it signed last; blank if never
 */
public record KeyLine(String id, String name, String role, String standing, String from, String lastUsed) {}
