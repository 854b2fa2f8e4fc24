package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.steamwright.desk.web.Limit;
import org.steamwright.desk.web.Role;

class SettingsFileTest {

    @TempDir
    private Path folder;

    private OfficeSettings read(String... lines) throws IOException {
        Files.write(folder.resolve("secret"), List.of("invented secret"));
        Files.write(folder.resolve("empty"), List.of(" "));
        return SettingsFile.read(Files.write(folder.resolve("office.settings"), List.of(lines)));
    }

    @Test
    void an_empty_file_sets_nothing() throws IOException {
        assertThat(read("# nothing is set", "")).isEqualTo(OfficeSettings.USUAL);
    }

    @Test
    void all_that_can_be_set_is_read() throws IOException {
        OfficeSettings settings = read(
                "second_factor_for = all",
                "password_for = office reviewer",
                "sign_only_when_approved = yes",
                "issuer = https://identity.example/office",
                "client_id = steamwright-desk",
                "client_secret_file = secret",
                "scope = openid email",
                "acr_values = one two",
                "id_token_signed_response_alg = ES256",
                "token_endpoint_auth_method = client_secret_post",
                "provider_name = the office's account",
                "changes_per_minute_per_user = 60",
                "documents_waiting = 0");
        assertThat(settings.secondFactorFor()).containsExactlyInAnyOrder(Role.values());
        assertThat(settings.isSignedOnlyWhenApproved()).isTrue();
        assertThat(read("sign_only_when_approved = no").isSignedOnlyWhenApproved())
                .isFalse();
        assertThatThrownBy(() -> read("sign_only_when_approved = maybe"))
                .hasMessageEndingWith("line 1: 'maybe' is neither yes nor no");
        assertThat(settings.passwordFor()).containsExactlyInAnyOrder(Role.OFFICE, Role.REVIEWER);
        assertThat(settings.limits())
                .isEqualTo(Map.of(Limit.CHANGES_PER_MINUTE_PER_USER, 60L, Limit.DOCUMENTS_WAITING, 0L));
        assertThat(settings.provider())
                .contains(new ProviderSettings(
                        URI.create("https://identity.example/office"),
                        "steamwright-desk",
                        "invented secret",
                        "openid email",
                        List.of("one", "two"),
                        "ES256",
                        "client_secret_post",
                        "the office's account"));
        assertThat(settings.toString()).doesNotContain("invented secret");
    }

    @Test
    void a_desk_without_a_secret_relies_on_its_challenge() throws IOException {
        ProviderSettings provider = read("issuer = https://identity.example", "client_id = desk")
                .provider()
                .orElseThrow();
        assertThat(provider.clientSecret()).isEmpty();
        assertThat(provider.tokenEndpointAuthMethod()).isEqualTo("none");
        assertThat(provider.clientName()).isEqualTo("identity.example");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "second-factor-for = all | line 1: 'second-factor-for' is no setting; there are second_factor_for,"
                        + " password_for",
                "second_factor_for all | line 1: 'key = value' is expected",
                "second_factor_for = technican | line 1: 'technican' is no role; write all, none, or some of",
                "second_factor_for = | line 1: '' is no role",
                "password_for = none | line 1: who may not log in with a password needs a provider",
                "client_id = desk | line 1: 'client_id' belongs to a provider, and no issuer is named",
                "issuer = https://identity.example | line 1: an issuer needs a client_id too",
                "issuer = http://identity.example;client_id = d | line 1: 'http://identity.example' is no address that"
                        + " begins with https",
                "issuer = https://a b;client_id = d | line 1: 'https://a b' is no address",
                "issuer = https://a.example;client_id = d;client_secret_file = nowhere | nowhere is not there",
                "issuer = https://a.example;client_id = d;client_secret_file = empty | empty is empty",
                "issuer = https://a.example;client_id = d;scope = email | line 3: openid has to be among",
                "issuer = https://a.example;client_id = d;id_token_signed_response_alg = none | line 3: 'none' is not"
                        + " taken; there are ES256",
                "issuer = https://a.example;client_id = d;token_endpoint_auth_method = client_secret_basic | needs a"
                        + " client_secret_file",
                "documents_at_once = 0 | line 1: '0' is not a whole number from 1 to 1000000",
                "documents_at_once = two | line 1: 'two' is not a whole number",
                "documents_at_once = 2;documents_at_once = 3 | line 2: 'documents_at_once' stands here a second time",
            })
    void what_is_not_understood_is_refused_with_its_line_and_the_remedy(String lines, String message) {
        assertThatThrownBy(() -> read(lines.split(";", -1)))
                .isInstanceOf(IOException.class)
                .hasMessageContaining(message);
    }

    @Test
    void the_key_of_second_factors_may_be_kept_by_somebody_else_and_is_never_made_here() throws IOException {
        assertThatThrownBy(() -> read("second_factor_key_file = vault.key"))
                .hasMessageContaining("line 1: ")
                .hasMessageEndingWith("vault.key is not there, or this user may not read it");
        assertThat(folder.resolve("vault.key")).doesNotExist();
        Files.write(folder.resolve("vault.key"), new byte[31]);
        assertThatThrownBy(() -> read("second_factor_key_file = vault.key"))
                .hasMessageEndingWith("vault.key holds 31 bytes; a key of 32 random bytes is expected");
        byte[] key = new byte[32];
        new Random(1).nextBytes(key);
        Files.write(folder.resolve("vault.key"), key);
        Path named =
                read("second_factor_key_file = vault.key").secondFactorKey().orElseThrow();
        String sealed = SecretBox.open(named).seal(new byte[] {1, 2, 3}, "somebody");
        assertThat(SecretBox.open(folder.resolve("vault.key")).unseal(sealed, "somebody"))
                .contains(new byte[] {1, 2, 3});
    }

    @Test
    void a_file_that_is_not_there_is_told() {
        assertThatThrownBy(() -> SettingsFile.read(folder.resolve("nowhere")))
                .hasMessageContaining("there is no such file of settings");
    }

    @Test
    void every_setting_stands_in_the_reference_and_every_usual_value_too() throws IOException {
        String page = Files.readString(
                Path.of(System.getProperty("steamwright.root"), "docs/reference/office-settings.md"),
                StandardCharsets.UTF_8);
        for (String key : SettingsFile.keys()) {
            assertThat(page).contains("| `" + key + "` |");
        }
        for (Limit limit : Limit.values()) {
            assertThat(page).contains("| `" + limit.key() + "` | " + limit.usual() + " | " + limit.least() + " |");
        }
    }
}
