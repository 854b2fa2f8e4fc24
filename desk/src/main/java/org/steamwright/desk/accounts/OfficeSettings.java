package org.steamwright.desk.accounts;

import java.nio.file.Path;
import java.util.Collections;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.steamwright.desk.web.Limit;
import org.steamwright.desk.web.Role;

/**
 * What an office has set for its desk.
 *
 * @param provider who vouches for users; empty if nobody does
 * @param passwordFor roles whose users may log in with name and password
 * @param secondFactorFor roles whose users need a second factor after their password
 * @param limits values that differ from the usual ones
 * @param isSignedOnlyWhenApproved whether a visit is signed only while a reviewer's approval of its facts stands
 * @param secondFactorKey file of the key that seals second factors, kept by the office's own vault; empty for one that the desk
 *     makes beside the record
 */
public record OfficeSettings(
        Optional<ProviderSettings> provider,
        Set<Role> passwordFor,
        Set<Role> secondFactorFor,
        Map<Limit, Long> limits,
        boolean isSignedOnlyWhenApproved,
        Optional<Path> secondFactorKey) {

    /** What holds where nothing is set: passwords for everybody, the second factor as each user likes. */
    public static final OfficeSettings USUAL =
            new OfficeSettings(Optional.empty(), EnumSet.allOf(Role.class), EnumSet.noneOf(Role.class), Map.of());

    /** Settings of an office that signs without being asked for an approval. */
    public OfficeSettings(
            Optional<ProviderSettings> provider,
            Set<Role> passwordFor,
            Set<Role> secondFactorFor,
            Map<Limit, Long> limits) {
        this(provider, passwordFor, secondFactorFor, limits, false, Optional.empty());
    }

    public OfficeSettings {
        passwordFor = Collections.unmodifiableSet(copy(passwordFor));
        secondFactorFor = Collections.unmodifiableSet(copy(secondFactorFor));
        Map<Limit, Long> sorted = new EnumMap<>(Limit.class);
        sorted.putAll(limits);
        limits = Collections.unmodifiableMap(sorted);
    }

    private static EnumSet<Role> copy(Set<Role> roles) {
        EnumSet<Role> copied = EnumSet.noneOf(Role.class);
        copied.addAll(roles);
        return copied;
    }

    /** Whether users in a role, by its word, may log in with a password. */
    public boolean takesPasswordOf(String role) {
        return passwordFor.stream().anyMatch(one -> one.word().equals(role));
    }

    /** Whether users in a role, by its word, need a second factor after their password. */
    public boolean wantsSecondFactorOf(String role) {
        return secondFactorFor.stream().anyMatch(one -> one.word().equals(role));
    }
}
