package org.steamwright.command;

import java.io.BufferedOutputStream;
import java.io.BufferedReader;
import java.io.FileDescriptor;
import java.io.FileInputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.Charset;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.steamwright.assessment.verdict.Assessment;
import org.steamwright.report.result.ResultJson;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;

/** Where the program starts, and the only place that turns exceptions into texts and exit statuses. */
public final class Steamwright {
    private Steamwright() {}

    /** Runs the command line and ends the process with its exit status. */
    public static void main(String... typed) {
        // figures and dates read the same whatever the machine's language is
        Locale.setDefault(Locale.ROOT);
        String streams = System.getProperty("steamwright.terminal", "");
        boolean isShowing = streams.contains("o");
        String noColour = System.getenv("NO_COLOR");
        Surroundings surroundings = new Surroundings(
                Path.of(""),
                new BufferedReader(
                        new InputStreamReader(new FileInputStream(FileDescriptor.in), Charset.defaultCharset())),
                new BufferedOutputStream(new FileOutputStream(FileDescriptor.out), 1 << 16),
                new FileOutputStream(FileDescriptor.err),
                new Surroundings.Terminal(
                        streams.contains("i") && streams.contains("e"),
                        isShowing,
                        streams.contains("e"),
                        isShowing && (noColour == null || noColour.isEmpty()) && !streams.contains("d"),
                        !isShowing || streams.contains("u")));
        System.exit(run(surroundings, typed).number());
    }

    /** Runs one command line. */
    public static ExitStatus run(Surroundings surroundings, String... typed) {
        ExitStatus status = guarded(surroundings, typed);
        if (!surroundings.flush()) {
            return status == ExitStatus.FAULT ? status : ExitStatus.SURROUNDINGS;
        }
        return status;
    }

    private static ExitStatus guarded(Surroundings surroundings, String... typed) {
        try {
            return dispatch(surroundings, typed);
        } catch (Refusal refusal) {
            tell(surroundings, refusal.lines());
            return refusal.status();
        } catch (ParameterException wrong) {
            surroundings.warn("steamwright: " + wrong.getMessage());
            CommandLine parser = wrong.getCommandLine();
            if (wrong instanceof CommandLine.UnmatchedArgumentException unmatched
                    && !unmatched.getUnmatched().isEmpty()) {
                Near.to(
                                unmatched.getUnmatched().get(0),
                                parser.getCommandSpec().optionsMap().keySet())
                        .ifPresent(near -> surroundings.warn("Did you mean " + near + "?"));
            }
            surroundings.warn("'" + parser.getCommandName() + " --help' lists what can be said.");
            return ExitStatus.USAGE;
        } catch (InvalidPathException impossible) {
            tell(surroundings, List.of("no file can be called '" + impossible.getInput() + "'."));
            return ExitStatus.USAGE;
        } catch (NoSuchFileException absent) {
            tell(surroundings, List.of(absent.getFile() + ": there is no such file or folder."));
            return ExitStatus.UNREADABLE;
        } catch (AccessDeniedException denied) {
            tell(
                    surroundings,
                    List.of(
                            denied.getFile() + ": permission denied.",
                            "Make it accessible, or write elsewhere with --out DIR."));
            return ExitStatus.SURROUNDINGS;
        } catch (FileSystemException problem) {
            String reason = problem.getReason();
            tell(
                    surroundings,
                    List.of(
                            problem.getFile() + ": "
                                    + (reason == null ? problem.getClass().getSimpleName() : reason) + ".",
                            "Is the disk full, read-only or gone?"));
            return ExitStatus.SURROUNDINGS;
        } catch (IOException problem) {
            tell(
                    surroundings,
                    List.of(
                            "reading or writing failed: " + problem.getMessage() + ".",
                            "Is the disk full, read-only or gone?"));
            return ExitStatus.SURROUNDINGS;
        } catch (RuntimeException | Error fault) {
            report(surroundings, fault, typed);
            return ExitStatus.FAULT;
        }
    }

    private static ExitStatus dispatch(Surroundings surroundings, String... typed) throws Refusal, IOException {
        boolean isStyled = surroundings.terminal().isStyled();
        if (typed.length > 0 && Commands.isKnown(typed[0])) {
            Command command = Commands.get(typed[0]);
            Usage usage = command.usage();
            List<String> words = List.of(typed).subList(1, typed.length);
            Optional<Typed> plain = usage.findPlain(words);
            if (plain.isPresent()) {
                return command.run(plain.get(), surroundings);
            }
            CommandLine parser = Commands.parser(command, typed[0], isStyled);
            ParseResult parsed = parser.parseArgs(words.toArray(String[]::new));
            if (parsed.isUsageHelpRequested()) {
                help(parser, surroundings);
                return ExitStatus.PASS;
            }
            return command.run(usage.parsed(parsed), surroundings);
        }
        if (typed.length == 0) {
            help(Commands.overview(isStyled), surroundings);
            return ExitStatus.USAGE;
        }
        switch (typed[0]) {
            case "-h", "--help", "help" -> {
                help(Commands.overview(isStyled), surroundings);
                return ExitStatus.PASS;
            }
            case "--version" -> {
                surroundings.say("Steamwright " + ResultJson.PROGRAM_VERSION);
                surroundings.say("rules and algorithms, version " + Assessment.ALGORITHM_VERSION);
                surroundings.say("result format, version " + ResultJson.FORMAT_VERSION);
                surroundings.say("Java " + System.getProperty("java.runtime.version") + " ("
                        + System.getProperty("java.vendor") + ")");
                return ExitStatus.PASS;
            }
            default -> {
                String near = Near.to(typed[0], Commands.words())
                        .map(word -> " Did you mean '" + word + "'?")
                        .orElse("");
                throw new Refusal(
                        ExitStatus.USAGE,
                        "there is no command '" + typed[0] + "'." + near,
                        "Commands: " + String.join(", ", Commands.words()) + ". 'steamwright --help' explains them.");
            }
        }
    }

    private static void help(CommandLine parser, Surroundings surroundings) {
        surroundings.say(parser.getUsageMessage().stripTrailing());
    }

    private static void tell(Surroundings surroundings, Iterable<String> lines) {
        surroundings.progress("");
        String lead = "steamwright: ";
        for (String line : lines) {
            surroundings.warn(lead + line);
            lead = "";
        }
    }

    private static void report(Surroundings surroundings, Throwable fault, String... typed) {
        surroundings.progress("");
        StringWriter trace = new StringWriter();
        fault.printStackTrace(new PrintWriter(trace));
        surroundings.warn("steamwright: this is a fault of the program, not of your files.");
        surroundings.warn(
                "Nothing was overwritten. Please report it as CONTRIBUTING.md says, with the lines below and,");
        surroundings.warn("if you may share it, the file that was read.");
        surroundings.warn("");
        surroundings.warn(
                "Steamwright " + ResultJson.PROGRAM_VERSION + ", rules " + Assessment.ALGORITHM_VERSION + ", Java "
                        + System.getProperty("java.runtime.version") + ", " + System.getProperty("os.name") + " "
                        + System.getProperty("os.arch"));
        surroundings.warn("arguments: " + String.join(" ", typed));
        surroundings.warn(trace.toString().stripTrailing());
    }
}
