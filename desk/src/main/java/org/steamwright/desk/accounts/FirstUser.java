package org.steamwright.desk.accounts;

import java.security.SecureRandom;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.desk.web.Role;

/** The first user of an office that has none yet, with a password that is told once, at the start, and has to be changed. */
public final class FirstUser {

    /** Name of the first user; others are added by the pages. */
    public static final String NAME = "office";

    private static final int BYTES = 10;

    private FirstUser() {}

    /** Makes the first user if there is none; the password to be told, empty if there are users already. */
    public static Optional<String> make(LogIns logIns) {
        if (!logIns.book().isEmpty()) {
            return Optional.empty();
        }
        byte[] bytes = new byte[BYTES];
        new SecureRandom().nextBytes(bytes);
        String password = Base32.text(bytes).toLowerCase(Locale.ROOT).replaceAll("(.{4})(?=.)", "$1-");
        return logIns.add(NAME, Role.OFFICE.word(), "", password, "the program at its first start")
                        .isEmpty()
                ? Optional.of(password)
                : Optional.empty();
    }
}
