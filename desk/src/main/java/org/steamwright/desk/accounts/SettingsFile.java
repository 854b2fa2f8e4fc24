package org.steamwright.desk.accounts;

import java.io.IOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import org.steamwright.desk.web.Limit;
import org.steamwright.desk.web.Role;

/**
 * Reads an office's settings: lines of {@code key = value}, lines that begin with {@code #} left out. A key that is not known, or
 * stands there twice, is refused: a misspelt setting that is quietly left out may be the one that keeps somebody out.
 */
public final class SettingsFile {

    private static final String SECOND_FACTOR = "second_factor_for";
    private static final String SECOND_FACTOR_KEY = "second_factor_key_file";
    private static final String PASSWORD = "password_for";
    private static final String APPROVED = "sign_only_when_approved";
    private static final String ISSUER = "issuer";
    private static final String CLIENT_ID = "client_id";
    private static final String SECRET_FILE = "client_secret_file";
    private static final String SCOPE = "scope";
    private static final String ACR = "acr_values";
    private static final String ALGORITHM = "id_token_signed_response_alg";
    private static final String AUTH_METHOD = "token_endpoint_auth_method";
    private static final String CLIENT_NAME = "provider_name";
    private static final Set<String> OF_PROVIDER =
            Set.of(CLIENT_ID, SECRET_FILE, SCOPE, ACR, ALGORITHM, AUTH_METHOD, CLIENT_NAME);
    private static final Set<String> ALGORITHMS =
            Set.of("RS256", "RS384", "RS512", "PS256", "PS384", "PS512", "ES256", "ES384", "ES512");
    private static final String BASIC = "client_secret_basic";
    private static final String NONE = "none";
    private static final Set<String> AUTH_METHODS = Set.of(BASIC, "client_secret_post", NONE);
    private static final Set<String> LOOPBACK = Set.of("127.0.0.1", "localhost", "[::1]");
    private static final Pattern WHOLE = Pattern.compile("[0-9]{1,7}");
    private static final String BLANKS = "\\s+";

    private record Line(int number, String value) {}

    private final Path file;
    private final Map<String, Line> lines = new LinkedHashMap<>();

    private SettingsFile(Path file) {
        this.file = file;
    }

    /**
     * The settings in a file.
     *
     * @throws IOException if it can't be read, or holds what is not understood; the message says line, reason and remedy
     */
    public static OfficeSettings read(Path file) throws IOException {
        if (!Files.isReadable(file)) {
            throw new IOException(file + ": there is no such file of settings that this user may read");
        }
        SettingsFile settings = new SettingsFile(file);
        settings.load();
        return settings.settings();
    }

    /** All keys that are known, as documents list them. */
    static Set<String> keys() {
        Set<String> keys = new LinkedHashSet<>(List.of(
                SECOND_FACTOR,
                PASSWORD,
                APPROVED,
                SECOND_FACTOR_KEY,
                ISSUER,
                CLIENT_ID,
                SECRET_FILE,
                SCOPE,
                ACR,
                ALGORITHM,
                AUTH_METHOD,
                CLIENT_NAME));
        Arrays.stream(Limit.values()).map(Limit::key).forEach(keys::add);
        return keys;
    }

    private void load() throws IOException {
        List<String> all = Files.readAllLines(file, StandardCharsets.UTF_8);
        for (int i = 0; i < all.size(); i++) {
            String text = all.get(i).strip();
            if (text.isEmpty() || text.startsWith("#")) {
                continue;
            }
            int mark = text.indexOf('=');
            if (mark < 0) {
                throw wrong(i + 1, "'key = value' is expected");
            }
            String key = text.substring(0, mark).strip();
            if (!keys().contains(key)) {
                throw wrong(i + 1, "'" + key + "' is no setting; there are " + String.join(", ", keys()));
            }
            if (lines.putIfAbsent(key, new Line(i + 1, text.substring(mark + 1).strip())) != null) {
                throw wrong(i + 1, "'" + key + "' stands here a second time; leave one of the two");
            }
        }
    }

    private IOException wrong(int line, String why) {
        return new IOException(file + ", line " + line + ": " + why);
    }

    private String text(String key, String otherwise) {
        return Optional.ofNullable(lines.get(key)).map(Line::value).orElse(otherwise);
    }

    private OfficeSettings settings() throws IOException {
        Optional<ProviderSettings> provider = provider();
        Set<Role> passwordFor = roles(PASSWORD, EnumSet.allOf(Role.class));
        if (provider.isEmpty() && passwordFor.size() < Role.values().length) {
            throw wrong(line(PASSWORD), "who may not log in with a password needs a provider, and no issuer is named");
        }
        return new OfficeSettings(
                provider,
                passwordFor,
                roles(SECOND_FACTOR, EnumSet.noneOf(Role.class)),
                limits(),
                yes(APPROVED),
                secondFactorKey());
    }

    /** Whether a setting says yes; not, where it is not set. */
    private boolean yes(String key) throws IOException {
        Line line = lines.get(key);
        if (line == null || line.value().equals("no")) {
            return false;
        }
        if (!line.value().equals("yes")) {
            throw wrong(line.number(), "'" + line.value() + "' is neither yes nor no");
        }
        return true;
    }

    private Set<Role> roles(String key, Set<Role> otherwise) throws IOException {
        Line line = lines.get(key);
        if (line == null) {
            return otherwise;
        }
        if (line.value().equals("all")) {
            return EnumSet.allOf(Role.class);
        }
        Set<Role> roles = EnumSet.noneOf(Role.class);
        if (line.value().equals(NONE)) {
            return roles;
        }
        for (String word : line.value().split(BLANKS, -1)) {
            roles.add(Arrays.stream(Role.values())
                    .filter(role -> role.word().equals(word))
                    .findFirst()
                    .orElseThrow(() -> wrong(
                            line.number(),
                            "'" + word
                                    + "' is no role; write all, none, or some of technician, reviewer,"
                                    + " office, clinic")));
        }
        return roles;
    }

    private Map<Limit, Long> limits() throws IOException {
        Map<Limit, Long> limits = new EnumMap<>(Limit.class);
        for (Limit limit : Limit.values()) {
            Line line = lines.get(limit.key());
            if (line != null) {
                long value = WHOLE.matcher(line.value()).matches() ? Long.parseLong(line.value()) : -1;
                if (value < limit.least() || value > limit.most()) {
                    throw wrong(
                            line.number(),
                            "'" + line.value() + "' is not a whole number from " + limit.least() + " to "
                                    + limit.most());
                }
                limits.put(limit, value);
            }
        }
        return limits;
    }

    private Optional<ProviderSettings> provider() throws IOException {
        Line issuer = lines.get(ISSUER);
        if (issuer == null) {
            for (String key : OF_PROVIDER) {
                Line line = lines.get(key);
                if (line != null) {
                    throw wrong(line.number(), "'" + key + "' belongs to a provider, and no issuer is named");
                }
            }
            return Optional.empty();
        }
        Line clientId = lines.get(CLIENT_ID);
        if (clientId == null || clientId.value().isEmpty()) {
            throw wrong(issuer.number(), "an issuer needs a client_id too: the name that it gave to this desk");
        }
        String method = oneOf(AUTH_METHOD, AUTH_METHODS, lines.containsKey(SECRET_FILE) ? BASIC : NONE);
        if (method.equals(NONE) == lines.containsKey(SECRET_FILE)) {
            throw wrong(
                    issuer.number(),
                    method.equals(NONE)
                            ? "with token_endpoint_auth_method none there is no client_secret_file"
                            : "token_endpoint_auth_method " + method + " needs a client_secret_file");
        }
        String scope = text(SCOPE, "openid email");
        if (!Arrays.asList(scope.split(BLANKS, -1)).contains("openid")) {
            throw wrong(line(SCOPE), "openid has to be among the words of the scope");
        }
        String acr = text(ACR, "");
        return Optional.of(new ProviderSettings(
                address(issuer),
                clientId.value(),
                secret(),
                scope,
                acr.isEmpty() ? List.of() : Arrays.asList(acr.split(BLANKS, -1)),
                oneOf(ALGORITHM, ALGORITHMS, "RS256"),
                method,
                text(CLIENT_NAME, address(issuer).getHost())));
    }

    private int line(String key) {
        return Optional.ofNullable(lines.get(key)).map(Line::number).orElse(0);
    }

    private String oneOf(String key, Set<String> allowed, String otherwise) throws IOException {
        String value = text(key, otherwise);
        if (!allowed.contains(value)) {
            throw wrong(
                    line(key),
                    "'" + value + "' is not taken; there are "
                            + String.join(", ", allowed.stream().sorted().toList()));
        }
        return value;
    }

    /** Only what is encrypted can be believed; a provider on this very machine is an exception that tests need. */
    private URI address(Line issuer) throws IOException {
        try {
            URI address = new URI(issuer.value());
            String scheme = String.valueOf(address.getScheme()).toLowerCase(Locale.ROOT);
            boolean isHere = scheme.equals("http") && LOOPBACK.contains(String.valueOf(address.getHost()));
            if (address.getHost() != null && (scheme.equals("https") || isHere) && address.getQuery() == null) {
                return address;
            }
        } catch (URISyntaxException notAnAddress) {
            throw wrong(issuer.number(), "'" + issuer.value() + "' is no address: " + notAnAddress.getReason());
        }
        throw wrong(issuer.number(), "'" + issuer.value() + "' is no address that begins with https://");
    }

    /** A key that somebody else keeps is never made here: a typing error would lock every second factor out. */
    private Optional<Path> secondFactorKey() throws IOException {
        Line line = lines.get(SECOND_FACTOR_KEY);
        if (line == null) {
            return Optional.empty();
        }
        Path place = beside(line);
        if (!Files.isReadable(place)) {
            throw wrong(line.number(), place + " is not there, or this user may not read it");
        }
        if (Files.size(place) != SecretBox.KEY_BYTES) {
            throw wrong(
                    line.number(),
                    "%s holds %d bytes; a key of %d random bytes is expected"
                            .formatted(place, Files.size(place), SecretBox.KEY_BYTES));
        }
        return Optional.of(place);
    }

    /** A name without a folder is looked for beside the settings. */
    private Path beside(Line line) {
        return Optional.ofNullable(file.toAbsolutePath().getParent())
                .map(folder -> folder.resolve(line.value()))
                .orElse(Path.of(line.value()));
    }

    private String secret() throws IOException {
        Line line = lines.get(SECRET_FILE);
        if (line == null) {
            return "";
        }
        Path place = beside(line);
        if (!Files.isReadable(place)) {
            throw wrong(line.number(), place + " is not there, or this user may not read it");
        }
        String secret = Files.readString(place, StandardCharsets.UTF_8).strip();
        if (secret.isEmpty()) {
            throw wrong(line.number(), place + " is empty; the secret that the provider gave stands in it, alone");
        }
        return secret;
    }
}
