package org.steamwright.journeys;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.RSASSASigner;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.RSAKey;
import com.nimbusds.jose.jwk.gen.RSAKeyGenerator;
import com.nimbusds.jose.util.Base64URL;
import com.nimbusds.jose.util.JSONObjectUtils;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Collectors;

/**
 * A small OpenID provider on the loopback address, with a page on which a person says who they are. It gives a token only for a
 * code that it gave out itself, once, with the secret of the desk and the verifier of whoever asked (PKCE).
 *
 * @source OpenID Connect Core 1.0, 3.1; Discovery 1.0, 3; RFC 7636, 4.6
 */
final class OpenIdProvider implements AutoCloseable {

    static final String CLIENT = "steamwright-desk";
    static final String SECRET = "a secret of the test (invented)";

    private static final Date NEVER_BEFORE = Date.from(Instant.EPOCH);
    private static final long TOKEN_SECONDS = 300;

    private final HttpServer server;
    private final RSAKey key;
    private final Map<String, Map<String, String>> grants = new ConcurrentHashMap<>();

    /** Why tokens were refused; empty when all went well. */
    private final List<String> refusals = new CopyOnWriteArrayList<>();

    OpenIdProvider() throws IOException {
        try {
            key = new RSAKeyGenerator(2048).keyID("one").issueTime(NEVER_BEFORE).generate();
        } catch (JOSEException missing) {
            throw new IllegalStateException(missing);
        }
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", this::answer);
        server.start();
    }

    String issuer() {
        return "http://127.0.0.1:" + server.getAddress().getPort();
    }

    List<String> refusals() {
        return List.copyOf(refusals);
    }

    private static Map<String, String> fields(String query) {
        return Arrays.stream(query.split("&"))
                .map(field -> field.split("=", 2))
                .collect(Collectors.toMap(
                        field -> field[0],
                        field -> field.length < 2 ? "" : URLDecoder.decode(field[1], StandardCharsets.UTF_8)));
    }

    private void answer(HttpExchange exchange) throws IOException {
        try (exchange) {
            switch (exchange.getRequestURI().getPath()) {
                case "/.well-known/openid-configuration" -> json(exchange, 200, description());
                case "/keys" -> json(exchange, 200, new JWKSet(key).toJSONObject(true));
                case "/authorize" -> whoAreYou(exchange);
                case "/agree" -> agree(exchange);
                case "/token" -> token(exchange);
                default -> json(exchange, 404, Map.of());
            }
        } catch (JOSEException | GeneralSecurityException broken) {
            throw new IOException(broken);
        }
    }

    private Map<String, Object> description() {
        return Map.of(
                "issuer", issuer(),
                "authorization_endpoint", issuer() + "/authorize",
                "token_endpoint", issuer() + "/token",
                "jwks_uri", issuer() + "/keys",
                "response_types_supported", List.of("code"),
                "subject_types_supported", List.of("public"),
                "id_token_signing_alg_values_supported", List.of("RS256"),
                "token_endpoint_auth_methods_supported", List.of("client_secret_basic"),
                "code_challenge_methods_supported", List.of("S256"));
    }

    /** The page of the provider: a field for the subject, which a true provider would ask a password for. */
    private static void whoAreYou(HttpExchange exchange) throws IOException {
        String hidden = fields(exchange.getRequestURI().getRawQuery()).entrySet().stream()
                .map(field -> "<input type=\"hidden\" name=\"%s\" value=\"%s\">"
                        .formatted(html(field.getKey()), html(field.getValue())))
                .collect(Collectors.joining());
        byte[] page = """
                <!doctype html><html lang="en"><title>Provider of the test</title><link rel="icon" href="data:,">
                <form action="/agree"><label>Who are you? <input name="who"></label>%s<button>Agree</button></form>
                """.formatted(hidden).getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "text/html;charset=utf-8");
        exchange.sendResponseHeaders(200, page.length);
        exchange.getResponseBody().write(page);
    }

    private static String html(String text) {
        return text.replace("&", "&amp;").replace("\"", "&quot;").replace("<", "&lt;");
    }

    private void agree(HttpExchange exchange) throws IOException {
        Map<String, String> asked = fields(exchange.getRequestURI().getRawQuery());
        String code = UUID.randomUUID().toString();
        grants.put(code, asked);
        String back = asked.get("redirect_uri") + "?code=" + code + "&state="
                + URLEncoder.encode(asked.getOrDefault("state", ""), StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Location", back);
        exchange.sendResponseHeaders(302, -1);
    }

    private void token(HttpExchange exchange) throws IOException, JOSEException, GeneralSecurityException {
        Map<String, String> typed =
                fields(new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
        Map<String, String> grant = grants.getOrDefault(typed.getOrDefault("code", ""), Map.of());
        grants.remove(typed.getOrDefault("code", ""));
        String login = CLIENT + ":" + URLEncoder.encode(SECRET, StandardCharsets.UTF_8);
        String basic = "Basic " + Base64.getEncoder().encodeToString(login.getBytes(StandardCharsets.UTF_8));
        String challenge = Base64URL.encode(MessageDigest.getInstance("SHA-256")
                        .digest(typed.getOrDefault("code_verifier", "").getBytes(StandardCharsets.US_ASCII)))
                .toString();
        String wrong = "";
        if (grant.isEmpty()) {
            wrong = "no such code";
        } else if (!basic.equals(exchange.getRequestHeaders().getFirst("Authorization"))) {
            wrong = "not the secret of the desk";
        } else if (!"S256".equals(grant.get("code_challenge_method"))
                || !challenge.equals(grant.get("code_challenge"))) {
            wrong = "not the verifier of the challenge";
        } else if (!grant.getOrDefault("redirect_uri", "").equals(typed.get("redirect_uri"))) {
            wrong = "another place to go back to";
        }
        if (!wrong.isEmpty()) {
            refusals.add(wrong);
            json(exchange, 400, Map.of("error", "invalid_grant"));
            return;
        }
        // the desk under test is a process of its own that lives by the machine's time
        Instant now = Instant.now();
        SignedJWT token = new SignedJWT(
                new JWSHeader.Builder(JWSAlgorithm.RS256).keyID(key.getKeyID()).build(),
                new JWTClaimsSet.Builder()
                        .issuer(issuer())
                        .subject(grant.getOrDefault("who", ""))
                        .audience(CLIENT)
                        .issueTime(Date.from(now))
                        .expirationTime(Date.from(now.plusSeconds(TOKEN_SECONDS)))
                        .claim("nonce", grant.get("nonce"))
                        .build());
        token.sign(new RSASSASigner(key));
        json(
                exchange,
                200,
                Map.of(
                        "access_token",
                        "a-1",
                        "token_type",
                        "Bearer",
                        "expires_in",
                        TOKEN_SECONDS,
                        "id_token",
                        token.serialize()));
    }

    private static void json(HttpExchange exchange, int status, Map<String, Object> values) throws IOException {
        byte[] bytes = JSONObjectUtils.toJSONString(values).getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "application/json");
        exchange.sendResponseHeaders(status, bytes.length);
        exchange.getResponseBody().write(bytes);
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
