package org.steamwright.records.accounts;

/**
 * By what a provider of identities knows a user. A subject is never given to somebody else by its provider; an address may
 * be, so it only leads to the subject at the first log-in.
 *
 * @param account id of the user
 * @param issuer address of the provider, as it names itself
 * @param subject the provider's own name for the user; empty until it is known
 * @param mail address by which the user is found at the first log-in; empty if the subject was stated
 * @source OpenID Connect Core 1.0, 5.7: issuer and subject together are the only identifier to rely on
 */
public record Identity(String account, String issuer, String subject, String mail) {

    private static final int LONGEST = 255;

    public Identity {
        if (subject.length() > LONGEST || mail.length() > LONGEST) {
            throw new IllegalArgumentException("a subject or address has at most %s characters".formatted(LONGEST));
        }
    }
}
