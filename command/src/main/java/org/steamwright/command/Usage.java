package org.steamwright.command;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/**
 * What can be typed after the word of a command, and how it is understood.
 *
 * <p>The parser of the library understands everything and knows how to explain it, but takes longer to get ready than a
 * cycle takes to be assessed. {@link #findPlain} understands the usual line by itself and gives up on the first thing
 * that is not plain; {@link #parsed} asks the library. Where both answer they answer the same, which a test holds.
 */
final class Usage {
    /** How many values an option takes. */
    private enum Takes {
        NOTHING,
        ONE,
        MANY
    }

    private record Option(String name, Takes takes, String label, String description) {}

    private record Argument(String label, boolean isNeeded, String description) {}

    private final Map<String, Option> options = new LinkedHashMap<>();
    private final List<Argument> arguments = new ArrayList<>();
    private final List<String> description;
    private List<String> footer = List.of();

    /** @param description lines above the options; the first is a sentence that says it all */
    Usage(String... description) {
        this.description = List.of(description);
    }

    /** Lines below the options. */
    void footer(String... lines) {
        footer = List.of(lines);
    }

    /** An option that is there or not. */
    void flag(String name, String says) {
        options.put(name, new Option(name, Takes.NOTHING, "", says));
    }

    /** An option with one value. */
    void value(String name, String label, String says) {
        options.put(name, new Option(name, Takes.ONE, label, says));
    }

    /** An option with a value that may be given more than once. */
    void values(String name, String label, String says) {
        options.put(name, new Option(name, Takes.MANY, label, says));
    }

    /** The next argument without a name; one that is not needed comes last. */
    void argument(String label, boolean isNeeded, String says) {
        arguments.add(new Argument(label, isNeeded, says));
    }

    /** The line as it is meant, if every word of it is plainly an option, its value or an argument. */
    Optional<Typed> findPlain(List<String> words) {
        Map<String, List<String>> values = new HashMap<>();
        List<String> loose = new ArrayList<>();
        for (int i = 0; i < words.size(); i++) {
            String word = words.get(i);
            if (isLoose(word)) {
                loose.add(word);
                continue;
            }
            Option option = options.get(word);
            if (option == null || (values.containsKey(word) && option.takes() != Takes.MANY)) {
                return Optional.empty();
            }
            List<String> given = values.computeIfAbsent(word, unseen -> new ArrayList<>());
            if (option.takes() != Takes.NOTHING) {
                i++;
                if (i == words.size() || !isLoose(words.get(i))) {
                    return Optional.empty();
                }
                given.add(words.get(i));
            }
        }
        long needed = arguments.stream().filter(Argument::isNeeded).count();
        return loose.size() < needed || loose.size() > arguments.size()
                ? Optional.empty()
                : Optional.of(new Typed(values, loose));
    }

    /** Whether a word is plainly no option: those begin with a hyphen, and files of words with an at sign. */
    private static boolean isLoose(String word) {
        return !word.isEmpty() && word.charAt(0) != '-' && word.charAt(0) != '@';
    }

    /** The line as the library understood it. */
    Typed parsed(ParseResult result) {
        Map<String, List<String>> values = new HashMap<>();
        for (Option option : options.values()) {
            if (result.hasMatchedOption(option.name())) {
                values.put(
                        option.name(),
                        switch (option.takes()) {
                            case NOTHING -> List.of();
                            case ONE -> List.of(result.matchedOptionValue(option.name(), ""));
                            case MANY -> List.of(result.matchedOptionValue(option.name(), new String[0]));
                        });
            }
        }
        List<String> loose = new ArrayList<>();
        for (int i = 0; i < arguments.size(); i++) {
            if (result.hasMatchedPositional(i)) {
                loose.add(result.matchedPositionalValue(i, ""));
            }
        }
        return new Typed(values, loose);
    }

    /** The parser of the library for this usage. */
    CommandLine parser(String name, List<String> examples) {
        CommandSpec spec = spec();
        spec.name(name);
        List<String> below = new ArrayList<>(footer);
        below.add("");
        below.add("Examples:");
        examples.forEach(example -> below.add("  " + example));
        spec.usageMessage().footer(below.toArray(String[]::new));
        spec.addOption(help());
        return new CommandLine(spec);
    }

    /** Options and arguments as the library describes them. */
    CommandSpec spec() {
        CommandSpec spec = CommandSpec.create();
        spec.usageMessage().description(description.toArray(String[]::new));
        for (Option option : options.values()) {
            OptionSpec.Builder builder = OptionSpec.builder(option.name()).description(option.description());
            switch (option.takes()) {
                case NOTHING -> builder.type(boolean.class);
                case ONE -> builder.type(String.class).paramLabel(option.label());
                case MANY -> builder.type(String[].class).arity("1").paramLabel(option.label());
            }
            spec.addOption(builder.build());
        }
        for (int i = 0; i < arguments.size(); i++) {
            Argument argument = arguments.get(i);
            spec.addPositional(PositionalParamSpec.builder()
                    .index(Integer.toString(i))
                    .arity(argument.isNeeded() ? "1" : "0..1")
                    .type(String.class)
                    .paramLabel(argument.label())
                    .description(argument.description())
                    .build());
        }
        return spec;
    }

    /** The option that every command has. */
    static OptionSpec help() {
        return OptionSpec.builder("-h", "--help")
                .usageHelp(true)
                .type(boolean.class)
                .description("Show this help.")
                .build();
    }
}
