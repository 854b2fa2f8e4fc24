package org.steamwright.command;

import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** Short forms for describing and asking for options. */
final class Options {
    private Options() {}

    /** An option that is there or not. */
    static void flag(CommandSpec spec, String name, String description) {
        spec.addOption(OptionSpec.builder(name)
                .type(boolean.class)
                .description(description)
                .build());
    }

    /** An option with one value. */
    static void value(CommandSpec spec, String name, String label, String description) {
        spec.addOption(OptionSpec.builder(name)
                .type(String.class)
                .paramLabel(label)
                .description(description)
                .build());
    }

    /** An option that may be given more than once. */
    static void values(CommandSpec spec, String name, String label, String description) {
        spec.addOption(OptionSpec.builder(name)
                .type(String[].class)
                .arity("1")
                .paramLabel(label)
                .description(description)
                .build());
    }

    /** The argument without a name. */
    static void argument(CommandSpec spec, String label, boolean isNeeded, String description) {
        spec.addPositional(PositionalParamSpec.builder()
                .index("0")
                .arity(isNeeded ? "1" : "0..1")
                .type(String.class)
                .paramLabel(label)
                .description(description)
                .build());
    }

    static boolean isSet(ParseResult typed, String name) {
        return typed.matchedOptionValue(name, false);
    }

    static Optional<String> find(ParseResult typed, String name) {
        String value = typed.matchedOptionValue(name, (String) null);
        return Optional.ofNullable(value);
    }

    static List<String> all(ParseResult typed, String name) {
        String[] values = typed.matchedOptionValue(name, new String[0]);
        return List.of(values);
    }

    static Optional<String> findArgument(ParseResult typed) {
        String value = typed.matchedPositionalValue(0, (String) null);
        return Optional.ofNullable(value);
    }
}
