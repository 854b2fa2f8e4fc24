package org.steamwright.desk.accounts;

import com.nimbusds.jose.util.DefaultResourceRetriever;
import com.nimbusds.jwt.JWT;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.oauth2.sdk.GeneralException;
import com.nimbusds.oauth2.sdk.ParseException;
import com.nimbusds.oauth2.sdk.http.HTTPRequest;
import com.nimbusds.oauth2.sdk.id.Issuer;
import com.nimbusds.oauth2.sdk.pkce.CodeChallengeMethod;
import com.nimbusds.oauth2.sdk.token.AccessToken;
import com.nimbusds.openid.connect.sdk.UserInfoRequest;
import com.nimbusds.openid.connect.sdk.UserInfoResponse;
import com.nimbusds.openid.connect.sdk.claims.UserInfo;
import com.nimbusds.openid.connect.sdk.op.OIDCProviderMetadata;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import jakarta.servlet.http.HttpSession;
import java.io.IOException;
import java.net.HttpURLConnection;
import java.net.URI;
import java.net.URL;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.pac4j.core.context.CallContext;
import org.pac4j.core.credentials.Credentials;
import org.pac4j.core.exception.TechnicalException;
import org.pac4j.core.exception.http.WithLocationAction;
import org.pac4j.core.http.callback.NoParameterCallbackUrlResolver;
import org.pac4j.core.util.generator.RandomValueGenerator;
import org.pac4j.jee.context.JEEContext;
import org.pac4j.jee.context.session.JEESessionStore;
import org.pac4j.oidc.client.OidcClient;
import org.pac4j.oidc.config.OidcConfiguration;
import org.pac4j.oidc.credentials.OidcCredentials;
import org.pac4j.oidc.exceptions.OidcIssuerMismatchException;
import org.pac4j.oidc.exceptions.OidcMissingSessionStateException;
import org.pac4j.oidc.exceptions.OidcMissingStateParameterException;
import org.pac4j.oidc.exceptions.OidcStateMismatchException;
import org.pac4j.oidc.exceptions.OidcTokenException;
import org.pac4j.oidc.metadata.StaticOidcOpMetadataResolver;

/**
 * The office's provider of identities, reached by the authorization code flow with PKCE, state and nonce. A log-in that was
 * begun here is good for one answer, within ten minutes. The desk takes from the provider who somebody is, and nothing else:
 * no role, no name.
 *
 * <p>pac4j does the steps. Checked here besides, because it leaves them to us: the issuer of the description (Discovery, 4.3),
 * the subject of the user info (Core, 5.3.2), the way of log-in (Core, 3.1.3.7, 12), that there is an ID token at all, and that
 * an answer is used once.
 *
 * <p>May be used by several threads.
 *
 * @source OpenID Connect Core 1.0; OpenID Connect Discovery 1.0; RFC 7636; RFC 9207
 */
public final class IdentityProvider {

    private static final String BEGUN = "provider-begun";
    private static final Duration TO_ANSWER = Duration.ofMinutes(10);
    private static final Duration DESCRIPTION_HOLDS = Duration.ofHours(1);
    private static final int CONNECT_MILLIS = 5_000;
    private static final int READ_MILLIS = 10_000;
    private static final int STATE_LENGTH = 43;
    private static final int LONGEST_SUBJECT = 255;
    private static final int MOST_BYTES_OF_KEYS = 100_000;

    private final ProviderSettings settings;
    private final Clock clock;
    private Optional<Reached> reached = Optional.empty();

    private record Reached(OidcClient client, OIDCProviderMetadata metadata, String back, Instant until) {}

    /**
     * @param settings how the desk is known there
     * @param clock time
     */
    public IdentityProvider(ProviderSettings settings, Clock clock) {
        this.settings = settings;
        this.clock = clock;
    }

    /** What users call the provider. */
    public String name() {
        return settings.clientName();
    }

    /** By what the provider names itself. */
    public String issuer() {
        return settings.issuer().toString();
    }

    /**
     * Whom the provider vouches for.
     *
     * @param subject the provider's own name for the user
     * @param mail address that the provider has verified; empty if it gave none
     */
    public record Vouched(String subject, Optional<String> mail) {}

    /** Why nobody was vouched for. */
    public enum Reason {
        /** The provider does not answer, or not as a provider does. */
        UNREACHABLE,
        /** The provider itself said no. */
        REFUSED,
        /** The answer belongs to no log-in that was begun in this browser, or was used already, or comes too late. */
        NOT_BEGUN_HERE,
        /** The answer can't be believed. */
        NOT_BELIEVED;

        /** The word by which texts and the log know it. */
        public String word() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }

    /** Nobody was vouched for. */
    public static final class NotVouchedException extends Exception {

        private static final long serialVersionUID = 1L;

        private final Reason reason;

        NotVouchedException(Reason reason, String what) {
            super(what);
            this.reason = reason;
        }

        NotVouchedException(Reason reason, Throwable cause) {
            super(cause);
            this.reason = reason;
        }

        /** Why. */
        public Reason reason() {
            return reason;
        }
    }

    /**
     * Begins a log-in in this session.
     *
     * @param back address at this desk to which the provider answers
     * @return where the browser has to go
     * @throws NotVouchedException if the provider is not reached
     */
    public URI begin(HttpServletRequest request, HttpServletResponse response, URI back) throws NotVouchedException {
        try {
            URI away = reach(back)
                    .client()
                    .getRedirectionAction(context(request, response))
                    .filter(WithLocationAction.class::isInstance)
                    .map(action -> URI.create(((WithLocationAction) action).getLocation()))
                    .orElseThrow(() -> new NotVouchedException(Reason.UNREACHABLE, "no address to go to"));
            request.getSession().setAttribute(BEGUN, clock.instant());
            return away;
        } catch (TechnicalException failed) {
            throw new NotVouchedException(Reason.UNREACHABLE, failed);
        }
    }

    /**
     * Takes the provider's answer.
     *
     * @param back as it was when the log-in began
     * @throws NotVouchedException if nobody is vouched for
     */
    public Vouched vouched(HttpServletRequest request, HttpServletResponse response, URI back)
            throws NotVouchedException {
        boolean isBegun = Optional.ofNullable(request.getSession(false))
                .map(session -> session.getAttribute(BEGUN))
                .filter(Instant.class::isInstance)
                .map(Instant.class::cast)
                .filter(begun -> clock.instant().isBefore(begun.plus(TO_ANSWER)))
                .isPresent();
        if (!isBegun) {
            throw new NotVouchedException(Reason.NOT_BEGUN_HERE, "no log-in is under way");
        }
        try {
            if (request.getParameter("error") != null) {
                throw new NotVouchedException(Reason.REFUSED, "the provider answered with an error");
            }
            // the library would also take a log-out at the same address; here there are log-ins only
            if (request.getParameter("code") == null
                    || request.getParameter("logout_token") != null
                    || request.getParameter("sid") != null) {
                throw new NotVouchedException(Reason.NOT_BELIEVED, "the answer is none to a log-in");
            }
            return believed(reach(back), context(request, response));
        } catch (TechnicalException | IllegalArgumentException failed) {
            throw new NotVouchedException(reason(failed), failed);
        } catch (java.text.ParseException | ParseException unreadable) {
            throw new NotVouchedException(Reason.NOT_BELIEVED, unreadable);
        } catch (IOException silent) {
            throw new NotVouchedException(Reason.UNREACHABLE, silent);
        } finally {
            forget(request.getSession());
        }
    }

    private Vouched believed(Reached at, CallContext context)
            throws NotVouchedException, IOException, ParseException, java.text.ParseException {
        Optional<Credentials> answered = at.client().getCredentials(context);
        if (!(answered.orElse(null) instanceof OidcCredentials credentials)) {
            throw new NotVouchedException(Reason.NOT_BELIEVED, "the answer is none to a log-in");
        }
        at.client().validateCredentials(context, credentials);
        if (credentials.getIdToken() == null) {
            throw new NotVouchedException(Reason.NOT_BELIEVED, "there is no ID token");
        }
        // signature, issuer, audience, time and nonce are looked at by this
        if (at.client().getUserProfile(context, credentials).isEmpty()) {
            throw new NotVouchedException(Reason.NOT_BELIEVED, "there is no profile");
        }
        JWT token = credentials.toIdToken();
        JWTClaimsSet claims = token.getJWTClaimsSet();
        String subject = Optional.ofNullable(claims.getSubject()).orElse("");
        if (subject.isEmpty() || subject.length() > LONGEST_SUBJECT) {
            throw new NotVouchedException(Reason.NOT_BELIEVED, "there is no subject");
        }
        if (!settings.acrValues().isEmpty()
                && !settings.acrValues().contains(String.valueOf(claims.getStringClaim("acr")))) {
            throw new NotVouchedException(Reason.NOT_BELIEVED, "the way of log-in is not among those that are wanted");
        }
        if (claims.getClaim("email") != null) {
            return new Vouched(subject, verified(claims.getStringClaim("email"), claims.getClaim("email_verified")));
        }
        return new Vouched(subject, mailOf(at, subject, Optional.ofNullable(credentials.toAccessToken())));
    }

    /** The address from the user info, if the provider has one and the ID token had none. */
    private static Optional<String> mailOf(Reached at, String subject, Optional<AccessToken> access)
            throws IOException, ParseException, NotVouchedException {
        URI place = at.metadata().getUserInfoEndpointURI();
        if (place == null || access.isEmpty()) {
            return Optional.empty();
        }
        HTTPRequest request = new UserInfoRequest(place, access.get()).toHTTPRequest();
        limited(request);
        UserInfoResponse answer = UserInfoResponse.parse(request.send());
        UserInfo info = answer.indicatesSuccess() ? answer.toSuccessResponse().getUserInfo() : null;
        if (info == null) {
            return Optional.empty();
        }
        if (!subject.equals(info.getSubject().getValue())) {
            throw new NotVouchedException(Reason.NOT_BELIEVED, "the user info is about somebody else");
        }
        return verified(info.getEmailAddress(), info.getEmailVerified());
    }

    private static Optional<String> verified(String mail, Object isVerified) {
        return mail != null && !mail.isBlank() && String.valueOf(isVerified).equals("true")
                ? Optional.of(mail)
                : Optional.empty();
    }

    private static Reason reason(Throwable failed) {
        for (Throwable cause = failed; cause != null; cause = cause.getCause()) {
            if (cause instanceof OidcMissingSessionStateException
                    || cause instanceof OidcMissingStateParameterException
                    || cause instanceof OidcStateMismatchException) {
                return Reason.NOT_BEGUN_HERE;
            }
            if (cause instanceof OidcTokenException || cause instanceof OidcIssuerMismatchException) {
                return Reason.NOT_BELIEVED;
            }
            if (cause instanceof IOException) {
                return Reason.UNREACHABLE;
            }
        }
        return Reason.NOT_BELIEVED;
    }

    private static CallContext context(HttpServletRequest request, HttpServletResponse response) {
        return new CallContext(new JEEContext(request, response), new JEESessionStore());
    }

    /** State, nonce and verifier are good once. */
    private static void forget(HttpSession session) {
        OidcClient names = new OidcClient();
        for (String attribute : List.of(
                names.getStateSessionAttributeName(),
                names.getNonceSessionAttributeName(),
                names.getCodeVerifierSessionAttributeName(),
                BEGUN)) {
            session.removeAttribute(attribute);
        }
    }

    /** The provider as it describes itself; asked again after an hour, and after it was not reached. */
    private synchronized Reached reach(URI back) throws NotVouchedException {
        Instant now = clock.instant();
        if (reached.filter(one -> one.back().equals(back.toString()) && now.isBefore(one.until()))
                .isEmpty()) {
            reached = Optional.empty();
            reached = Optional.of(reached(back, now.plus(DESCRIPTION_HOLDS)));
        }
        return reached.orElseThrow();
    }

    private Reached reached(URI back, Instant until) throws NotVouchedException {
        try {
            OIDCProviderMetadata metadata =
                    OIDCProviderMetadata.resolve(new Issuer(settings.issuer()), IdentityProvider::limited);
            OidcConfiguration configuration = configuration();
            StaticOidcOpMetadataResolver resolver = new StaticOidcOpMetadataResolver(configuration, metadata);
            configuration.setOpMetadataResolver(resolver);
            resolver.init();
            OidcClient client = new OidcClient(configuration);
            client.setCallbackUrl(back.toString());
            client.setCallbackUrlResolver(new NoParameterCallbackUrlResolver());
            client.setCheckAuthenticationAttempt(false);
            client.init();
            return new Reached(client, metadata, back.toString(), until);
        } catch (GeneralException | IOException | TechnicalException silent) {
            throw new NotVouchedException(Reason.UNREACHABLE, silent);
        }
    }

    /** Not for ever, and only to the address that was meant. */
    private static void limited(HTTPRequest request) {
        request.setConnectTimeout(CONNECT_MILLIS);
        request.setReadTimeout(READ_MILLIS);
        request.setFollowRedirects(false);
    }

    private static final class Straight extends OidcConfiguration {

        @Override
        public void configureHttpRequest(HTTPRequest request) {
            limited(request);
        }
    }

    private static final class StraightKeys extends DefaultResourceRetriever {

        StraightKeys() {
            super(CONNECT_MILLIS, READ_MILLIS, MOST_BYTES_OF_KEYS);
        }

        @Override
        protected HttpURLConnection openHTTPConnection(URL place) throws IOException {
            HttpURLConnection connection = super.openHTTPConnection(place);
            connection.setInstanceFollowRedirects(false);
            return connection;
        }
    }

    private OidcConfiguration configuration() {
        OidcConfiguration configuration = new Straight();
        configuration.setResourceRetriever(new StraightKeys());
        configuration.setClientId(settings.clientId());
        if (!settings.clientSecret().isEmpty()) {
            configuration.setSecret(settings.clientSecret());
            configuration.setClientAuthenticationMethodAsString(settings.tokenEndpointAuthMethod());
        }
        configuration.setScope(settings.scope());
        configuration.setResponseType("code");
        configuration.setUseNonce(true);
        configuration.setWithState(true);
        configuration.setStateGenerator(new RandomValueGenerator(STATE_LENGTH));
        configuration.setPkceMethod(CodeChallengeMethod.S256);
        configuration.setAllowUnsignedIdTokens(false);
        configuration.setPreferredJwsAlgorithmAsString(settings.idTokenSignedResponseAlg());
        configuration.setCallUserInfoEndpoint(false);
        if (!settings.acrValues().isEmpty()) {
            configuration.addCustomParam("acr_values", String.join(" ", settings.acrValues()));
        }
        return configuration;
    }
}
