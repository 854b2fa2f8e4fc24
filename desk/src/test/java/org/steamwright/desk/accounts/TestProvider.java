package org.steamwright.desk.accounts;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.math.BigInteger;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.URLDecoder;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.MessageDigest;
import java.security.Signature;
import java.security.interfaces.RSAPublicKey;
import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * A small OpenID provider on the loopback address, written from the standards and with the JDK alone, so that it shares no code
 * with the library under test. It can be told to lie.
 *
 * @source OpenID Connect Core 1.0, Discovery 1.0; RFC 7515, 7517, 7518, 7636
 */
final class TestProvider implements AutoCloseable {

    static final String CLIENT = "steamwright-desk";
    static final String SECRET = "not so secret, invented";

    private static final Base64.Encoder BASE64 = Base64.getUrlEncoder().withoutPadding();

    private static final KeyPair KEY = newKey();
    private static final KeyPair ANOTHER = newKey();

    private record Grant(Map<String, String> asked) {}

    /** How a token is signed. */
    enum Signing {
        OWN_KEY,
        ANOTHER_KEY,
        NONE,
        HMAC_WITH_PUBLIC_KEY
    }

    private final HttpServer server;
    /** Whether somebody followed. */
    boolean wasElsewhere;

    private final Map<String, Grant> grants = new HashMap<>();

    /** Claims of the next token, to be changed by a test. */
    Consumer<Map<String, Object>> lie = claims -> {};

    /** How the next token is signed. */
    Signing signing = Signing.OWN_KEY;

    /** Claims of the user info; empty if there is no such end point. */
    Map<String, Object> userInfo = Map.of();

    /** By what the description names the issuer, if not by the truth. */
    Optional<String> claimedIssuer = Optional.empty();

    /** A place to which the token end point sends on instead of answering. */
    Optional<String> sendsOn = Optional.empty();

    String subject = "s-1001";

    TestProvider() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", this::answer);
        server.start();
    }

    private static KeyPair newKey() {
        try {
            KeyPairGenerator generator = KeyPairGenerator.getInstance("RSA");
            generator.initialize(2048);
            return generator.generateKeyPair();
        } catch (GeneralSecurityException missing) {
            throw new IllegalStateException(missing);
        }
    }

    String issuer() {
        return "http://127.0.0.1:" + server.getAddress().getPort();
    }

    /** How a desk is set up for this provider. */
    ProviderSettings settings(String... acrValues) {
        return new ProviderSettings(
                URI.create(issuer()),
                CLIENT,
                SECRET,
                "openid email",
                List.of(acrValues),
                "RS256",
                "client_secret_basic",
                "the invented provider");
    }

    /**
     * A user agrees at the provider.
     *
     * @param away where the desk has sent the browser
     * @return where the provider sends it back to
     */
    URI agree(URI away) {
        Map<String, String> asked = fields(away.getRawQuery());
        String code = UUID.randomUUID().toString();
        grants.put(code, new Grant(asked));
        return URI.create(asked.get("redirect_uri") + "?code=" + code + "&state="
                + URLEncoder.encode(asked.getOrDefault("state", ""), StandardCharsets.UTF_8));
    }

    static Map<String, String> fields(String query) {
        return Arrays.stream(query.split("&"))
                .map(field -> field.split("=", 2))
                .collect(Collectors.toMap(
                        field -> field[0], field -> URLDecoder.decode(field[1], StandardCharsets.UTF_8)));
    }

    private void answer(HttpExchange exchange) throws IOException {
        String path = exchange.getRequestURI().getPath();
        try {
            switch (path) {
                case "/.well-known/openid-configuration" -> send(exchange, 200, description());
                case "/keys" -> send(exchange, 200, keys());
                case "/token" -> {
                    if (sendsOn.isPresent()) {
                        exchange.getResponseHeaders().set("Location", sendsOn.get());
                        exchange.sendResponseHeaders(307, -1);
                    } else {
                        token(exchange);
                    }
                }
                case "/elsewhere" -> {
                    wasElsewhere = true;
                    token(exchange);
                }
                case "/userinfo" -> send(exchange, 200, json(userInfo));
                case "/authorize" -> page(exchange, agree(exchange.getRequestURI()));
                default -> send(exchange, 404, "{}");
            }
        } catch (GeneralSecurityException broken) {
            throw new IOException(broken);
        } finally {
            exchange.close();
        }
    }

    /** The page on which a person agrees, for whoever looks at this with a browser. */
    private static void page(HttpExchange exchange, URI back) throws IOException {
        byte[] bytes = "<!doctype html><title>provider</title><a id=\"agree\" href=\"%s\">agree</a>"
                .formatted(back.toString().replace("&", "&amp;"))
                .getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "text/html");
        exchange.sendResponseHeaders(200, bytes.length);
        exchange.getResponseBody().write(bytes);
    }

    private static void send(HttpExchange exchange, int status, String json) throws IOException {
        byte[] bytes = json.getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "application/json");
        exchange.sendResponseHeaders(status, bytes.length);
        exchange.getResponseBody().write(bytes);
    }

    private String description() {
        Map<String, Object> all = new LinkedHashMap<>();
        all.put("issuer", claimedIssuer.orElse(issuer()));
        all.put("authorization_endpoint", issuer() + "/authorize");
        all.put("token_endpoint", issuer() + "/token");
        all.put("jwks_uri", issuer() + "/keys");
        if (!userInfo.isEmpty()) {
            all.put("userinfo_endpoint", issuer() + "/userinfo");
        }
        all.put("response_types_supported", List.of("code"));
        all.put("subject_types_supported", List.of("public"));
        all.put("id_token_signing_alg_values_supported", List.of("RS256", "HS256", "none"));
        all.put("token_endpoint_auth_methods_supported", List.of("client_secret_basic"));
        all.put("code_challenge_methods_supported", List.of("S256"));
        return json(all);
    }

    private String keys() {
        RSAPublicKey open = (RSAPublicKey) KEY.getPublic();
        return "{\"keys\":[{\"kty\":\"RSA\",\"use\":\"sig\",\"alg\":\"RS256\",\"kid\":\"one\",\"n\":\"%s\",\"e\":\"%s\"}]}"
                .formatted(number(open.getModulus()), number(open.getPublicExponent()));
    }

    private static String number(BigInteger value) {
        byte[] bytes = value.toByteArray();
        return BASE64.encodeToString(bytes[0] == 0 ? Arrays.copyOfRange(bytes, 1, bytes.length) : bytes);
    }

    private void token(HttpExchange exchange) throws IOException, GeneralSecurityException {
        Map<String, String> typed =
                fields(new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
        String login = "Basic "
                + Base64.getEncoder()
                        .encodeToString((CLIENT + ":" + URLEncoder.encode(SECRET, StandardCharsets.UTF_8))
                                .getBytes(StandardCharsets.UTF_8));
        Grant grant = grants.remove(typed.getOrDefault("code", ""));
        boolean isGood = grant != null
                && login.equals(exchange.getRequestHeaders().getFirst("Authorization"))
                && "authorization_code".equals(typed.get("grant_type"))
                && grant.asked().getOrDefault("redirect_uri", "").equals(typed.get("redirect_uri"))
                && "S256".equals(grant.asked().get("code_challenge_method"))
                && BASE64.encodeToString(MessageDigest.getInstance("SHA-256")
                                .digest(typed.getOrDefault("code_verifier", "").getBytes(StandardCharsets.US_ASCII)))
                        .equals(grant.asked().get("code_challenge"));
        if (!isGood) {
            send(exchange, 400, "{\"error\":\"invalid_grant\"}");
            return;
        }
        // the library compares with the machine's time, so the machine's time it is
        long now = Instant.now().getEpochSecond();
        Map<String, Object> claims = new LinkedHashMap<>();
        claims.put("iss", issuer());
        claims.put("sub", subject);
        claims.put("aud", CLIENT);
        claims.put("iat", now);
        claims.put("exp", now + 300);
        claims.put("nonce", grant.asked().get("nonce"));
        lie.accept(claims);
        send(
                exchange,
                200,
                "{\"access_token\":\"a-1\",\"token_type\":\"Bearer\",\"expires_in\":300,\"id_token\":\""
                        + signed(claims) + "\"}");
    }

    private String signed(Map<String, Object> claims) throws GeneralSecurityException {
        String algorithm = switch (signing) {
            case NONE -> "none";
            case HMAC_WITH_PUBLIC_KEY -> "HS256";
            default -> "RS256";
        };
        String text = BASE64.encodeToString(
                        ("{\"alg\":\"" + algorithm + (signing == Signing.NONE ? "\"}" : "\",\"kid\":\"one\"}"))
                                .getBytes(StandardCharsets.UTF_8))
                + "." + BASE64.encodeToString(json(claims).getBytes(StandardCharsets.UTF_8));
        return text + "." + BASE64.encodeToString(signature(text.getBytes(StandardCharsets.US_ASCII)));
    }

    private byte[] signature(byte[] text) throws GeneralSecurityException {
        if (signing == Signing.NONE) {
            return new byte[0];
        }
        if (signing == Signing.HMAC_WITH_PUBLIC_KEY) {
            Mac mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(KEY.getPublic().getEncoded(), "HmacSHA256"));
            return mac.doFinal(text);
        }
        Signature signature = Signature.getInstance("SHA256withRSA");
        signature.initSign((signing == Signing.OWN_KEY ? KEY : ANOTHER).getPrivate());
        signature.update(text);
        return signature.sign();
    }

    private static String json(Map<String, Object> values) {
        return values.entrySet().stream()
                .map(entry -> "\"" + entry.getKey() + "\":" + json(entry.getValue()))
                .collect(Collectors.joining(",", "{", "}"));
    }

    private static String json(Object value) {
        if (value instanceof List<?> list) {
            return list.stream().map(TestProvider::json).collect(Collectors.joining(",", "[", "]"));
        }
        return value instanceof String text ? "\"" + text + "\"" : String.valueOf(value);
    }

    /** Nobody answers any more. */
    void goDown() {
        server.stop(0);
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
