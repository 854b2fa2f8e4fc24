package org.steamwright.desk.accounts;

import java.net.URI;
import java.util.List;

/**
 * How the desk is known to the office's provider of identities. The names are those of the standards.
 *
 * @param issuer address by which the provider names itself; its description lies below it
 * @param clientId name of the desk at the provider
 * @param clientSecret what the desk proves itself with; empty for a desk that has none and relies on PKCE
 * @param scope words separated by blanks; {@code openid} among them
 * @param acrValues ways of log-in of which one has to have been used; empty if the provider decides
 * @param idTokenSignedResponseAlg signature that an ID token has to carry
 * @param tokenEndpointAuthMethod how the desk proves itself
 * @param clientName what users call the provider, for the log-in page
 * @source OpenID Connect Core 1.0; Discovery 1.0; Dynamic Client Registration 1.0 for the names of the settings
 */
public record ProviderSettings(
        URI issuer,
        String clientId,
        String clientSecret,
        String scope,
        List<String> acrValues,
        String idTokenSignedResponseAlg,
        String tokenEndpointAuthMethod,
        String clientName) {

    public ProviderSettings {
        acrValues = List.copyOf(acrValues);
    }

    /** The secret belongs in no message. */
    @Override
    public String toString() {
        return "provider " + issuer + " for " + clientId;
    }
}
