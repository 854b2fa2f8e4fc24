package org.steamwright.desk.runs;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.steamwright.assessment.trace.ChannelRole;

/** Words of roles as a visit file has them; what people read is found by them. */
final class RoleWord {

    private RoleWord() {}

    static String of(ChannelRole role) {
        return role.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Words of the roles that a column of a file can have. */
    static List<String> ofFiles() {
        return Arrays.stream(ChannelRole.values())
                .filter(role -> role != ChannelRole.THEORETICAL)
                .map(RoleWord::of)
                .toList();
    }
}
