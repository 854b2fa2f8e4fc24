package org.steamwright.desk.accounts;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

class PasswordHashTest {

    private final PasswordHash hash = new PasswordHash();

    /**
     * Text form of "password" with the salt "somesalt" as the reference implementation's own tests have it (quoted by several
     * independent implementations as their outside check).
     */
    private static final String OF_THE_REFERENCE =
            "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";

    @Test
    void takes_the_hash_of_the_reference_implementation() {
        assertThat(hash.isOf(OF_THE_REFERENCE, "password".toCharArray())).isTrue();
        assertThat(hash.isOf(OF_THE_REFERENCE, "passworD".toCharArray())).isFalse();
    }

    @Test
    void a_hash_is_of_its_password_only_and_never_the_same_twice() {
        String first = hash.of("drei Körbe, lose".toCharArray());
        assertThat(first).startsWith("$argon2id$v=19$m=19456,t=2,p=1$");
        assertThat(hash.isOf(first, "drei Körbe, lose".toCharArray())).isTrue();
        assertThat(hash.isOf(first, "drei Koerbe, lose".toCharArray())).isFalse();
        assertThat(hash.of("drei Körbe, lose".toCharArray())).isNotEqualTo(first);
    }

    @Test
    void nothing_is_cut_off() {
        String made = hash.of("a".repeat(1_000).toCharArray());
        assertThat(hash.isOf(made, "a".repeat(999).toCharArray())).isFalse();
    }

    @Test
    void no_password_opens_an_empty_hash_and_a_text_that_is_none_is_refused() {
        assertThat(hash.isOf("", new char[0])).isFalse();
        assertThatThrownBy(() -> hash.isOf("$1$abc", "password".toCharArray())).hasMessage("not a hash by Argon2id");
    }
}
