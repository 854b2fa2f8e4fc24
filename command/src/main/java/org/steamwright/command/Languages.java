package org.steamwright.command;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.steamwright.report.language.Language;

/** The languages in which reports and certificates are wanted. */
final class Languages {
    private static final String OPTION = "--language";

    private Languages() {}

    static void place(Usage usage) {
        usage.value(
                OPTION,
                "CODES",
                "Reports and certificates in en, de or fr, or several such as en,de; otherwise in English.");
    }

    /**
     * In the order in which they were named, each once.
     *
     * @throws Refusal if one is named in which there are no documents
     */
    static List<Language> of(Typed typed) throws Refusal {
        String codes = typed.find(OPTION).orElse(Language.ENGLISH.code());
        Set<Language> wanted = new LinkedHashSet<>();
        for (String code : codes.split(",", -1)) {
            wanted.add(Language.ofCode(code.strip())
                    .orElseThrow(() -> new Refusal(
                            ExitStatus.USAGE,
                            OPTION + " " + codes + ": found '" + code.strip() + "', expected " + known() + ".",
                            "Part several with commas, for example: " + OPTION + " en,de")));
        }
        return List.copyOf(wanted);
    }

    private static String known() {
        return Arrays.stream(Language.values())
                .map(one -> one.code() + " (" + one.ownName() + ")")
                .collect(Collectors.joining(", "));
    }
}
