package org.steamwright.desk.accounts;

import java.time.Instant;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.records.accounts.Account;

/** What comes of an attempt to log in. */
public sealed interface LogInAnswer {

    /** The user is in. */
    record Granted(Account account) implements LogInAnswer {}

    /** The password is right; now the one-time code. */
    record CodeWanted(String account) implements LogInAnswer {}

    /**
     * Not let in.
     *
     * @param reason that may be shown
     * @param until no attempt is looked at before this
     */
    record Refused(Reason reason, Optional<Instant> until) implements LogInAnswer {}

    /** What may be said about a refusal; never whether the name or the password was wrong. */
    enum Reason {
        WRONG,

        /** The password is right, but users in this role come in through the office's provider. */
        PROVIDER,
        WAIT;

        /** The word by which the texts of pages know it. */
        public String word() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
