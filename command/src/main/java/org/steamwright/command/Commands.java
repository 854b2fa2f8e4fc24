package org.steamwright.command;

import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/** The words of the command line. Only the one that was typed is made. */
final class Commands {
    /** Columns of the help text. */
    private static final int HELP_WIDTH = 100;

    private static final List<String> SHOWN = List.of(
            "assess",
            "read",
            "whatif",
            "dvalue",
            "demo",
            "desk",
            "register",
            "due",
            "plan",
            "open",
            "criteria",
            "schema",
            "record",
            "find",
            "covered",
            "key",
            "sign",
            "amend",
            "withdraw",
            "print",
            "verify",
            "backup",
            "restore",
            "export",
            "import",
            "undo");

    private Commands() {}

    /** All words, in the order of the help. */
    static List<String> words() {
        return SHOWN;
    }

    /** The command of that word; only for words of {@link #words()} and the hidden one of the launcher. */
    static Command get(String word) {
        return switch (word) {
            case "assess" -> new AssessCommand();
            case "read" -> new ReadCommand();
            case "whatif" -> new WhatIfCommand();
            case "dvalue" -> new DValueCommand();
            case "demo" -> new DemoCommand();
            case "register" -> new RegisterCommand();
            case "due" -> new DueCommand();
            case "plan" -> new PlanCommand();
            case "open" -> new OpenCommand();
            case "covered" -> new CoveredCommand();
            case "criteria" -> new CriteriaCommand();
            case "schema" -> new SchemaCommand();
            case "record" -> new RecordCommand();
            case "find" -> new FindCommand();
            case "key" -> new KeyCommand();
            case "sign" -> new SignCommand();
            case "amend" -> new AmendCommand();
            case "withdraw" -> new WithdrawCommand();
            case "print" -> new PrintCommand();
            case "verify" -> new VerifyCommand();
            case "desk" -> new DeskCommand();
            case "backup" -> new BackupCommand();
            case "restore" -> new RestoreCommand();
            case "export" -> new ExportCommand();
            case "import" -> new ImportCommand();
            case "undo" -> new UndoCommand();
            case WarmUpCommand.WORD -> new WarmUpCommand();
            default -> throw new IllegalArgumentException("no command " + word);
        };
    }

    static boolean isKnown(String word) {
        return SHOWN.contains(word) || word.equals(WarmUpCommand.WORD);
    }

    /** The parser of one command, named as it is typed. */
    static CommandLine parser(Command command, String word, boolean isStyled) {
        return finished(command.usage().parser("steamwright " + word, command.examples()), isStyled);
    }

    /** The parser that knows all words, for help and for telling what was mistyped. */
    static CommandLine overview(boolean isStyled) {
        CommandSpec spec = CommandSpec.create();
        spec.name("steamwright");
        spec.usageMessage()
                .description(
                        "Recordings of a small steam steriliser in, a verdict that can be defended and a report out.")
                .footer(
                        "",
                        "Examples:",
                        "  steamwright demo",
                        "  steamwright assess demo",
                        "  steamwright assess --help",
                        "",
                        "Exit statuses: 0 pass, 1 the steriliser did not pass, 4 undecided or invalid;",
                        "2, 3, 69, 70 and 74 mean that the program could not do its work.");
        spec.addOption(Usage.help());
        spec.addOption(OptionSpec.builder("--version")
                .versionHelp(true)
                .type(boolean.class)
                .description("Show the versions of the program, of its rules and of Java.")
                .build());
        CommandLine overview = new CommandLine(spec);
        for (String word : words()) {
            overview.addSubcommand(word, get(word).usage().spec());
        }
        return finished(overview, isStyled);
    }

    private static CommandLine finished(CommandLine parser, boolean isStyled) {
        parser.setUsageHelpWidth(HELP_WIDTH);
        parser.setUsageHelpAutoWidth(false);
        parser.setColorScheme(CommandLine.Help.defaultColorScheme(isStyled ? Ansi.ON : Ansi.OFF));
        return parser;
    }
}
