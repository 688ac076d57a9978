package org.rollwright.cli;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.rollwright.cli.books.AlbumCommand;
import org.rollwright.cli.books.CabinetCommand;
import org.rollwright.cli.books.CalcCommand;
import org.rollwright.cli.books.CatalogCommand;
import org.rollwright.cli.books.KindsCommand;
import org.rollwright.cli.books.OddsCommand;
import org.rollwright.cli.books.TakeCommand;
import org.rollwright.cli.books.TillCommand;
import org.rollwright.cli.keeping.BackupCommand;
import org.rollwright.cli.keeping.CheckCommand;
import org.rollwright.cli.keeping.ImportCommand;
import org.rollwright.cli.keeping.JournalCommand;
import org.rollwright.cli.keeping.RestoreCommand;
import org.rollwright.cli.keeping.SalvageCommand;
import org.rollwright.cli.mat.BoxCommand;
import org.rollwright.cli.mat.DoCommand;
import org.rollwright.cli.mat.MatCommand;
import org.rollwright.cli.mat.NarrateCommand;
import org.rollwright.cli.mat.RecapCommand;
import org.rollwright.cli.mat.VoiceCommand;
import org.rollwright.cli.serve.Listening;
import org.rollwright.cli.serve.Pages;
import org.rollwright.cli.serve.ServeCommand;
import org.rollwright.cli.serve.WarmUpCommand;
import org.rollwright.cli.shell.ExitCode;
import org.rollwright.cli.shell.LogFile;
import org.rollwright.cli.shell.Open;
import org.rollwright.journal.JournalException;
import org.rollwright.text.Texts;
import picocli.CommandLine;

/// The command line as a whole: which commands there are, and what becomes of failures.
@CommandLine.Command(
        name = "./run",
        mixinStandardHelpOptions = true,
        version = "Rollwright 0.1.0",
        description =
                "Rollwright, a bench tool for coin roll hunters. Without a command it starts and prints its address.",
        synopsisSubcommandLabel = "[COMMAND]",
        footer = {
            "",
            "Example: ./run --demo              look at the tool with an invented series",
            "         ./run                     start with your own data",
            "         ./run mat --help          what a command does",
            "",
            "Data go to standard output, talk to standard error."
        },
        exitCodeListHeading = "%nExit status:%n",
        exitCodeList = {
            "0:done",
            "1:a mistake of the tool; the log tells more",
            "2:the command, a file or a line was not usable",
            "3:what was asked for is not there",
            "4:the store is open in another process",
            "5:it could not be saved, or the store could not be opened"
        })
public final class RootCommand implements java.util.concurrent.Callable<Integer> {
    private static final Logger LOG = Logger.getLogger(RootCommand.class.getName());

    private static final int HELP_WIDTH = 108;

    /// What asks for the help, which lists every command.
    private static final Set<String> HELP = Set.of("-h", "--help");

    /// How each command is made, in the order of the help.
    private static final Map<String, Function<Pages, Object>> COMMANDS = commands();

    private static Map<String, Function<Pages, Object>> commands() {
        Map<String, Function<Pages, Object>> commands = new LinkedHashMap<>();
        commands.put(ServeCommand.NAME, ServeCommand::new);
        commands.put("mat", pages -> new MatCommand());
        commands.put("box", pages -> new BoxCommand());
        commands.put("album", pages -> new AlbumCommand());
        commands.put("catalog", pages -> new CatalogCommand());
        commands.put("kinds", pages -> new KindsCommand());
        commands.put("narrate", pages -> new NarrateCommand());
        commands.put("voice", pages -> new VoiceCommand());
        commands.put("odds", pages -> new OddsCommand());
        commands.put("till", pages -> new TillCommand());
        commands.put("recap", pages -> new RecapCommand());
        commands.put("calc", pages -> new CalcCommand());
        commands.put("do", pages -> new DoCommand());
        commands.put("import", pages -> new ImportCommand());
        commands.put("take", pages -> new TakeCommand());
        commands.put("cabinet", pages -> new CabinetCommand());
        commands.put("journal", pages -> new JournalCommand());
        commands.put("check", pages -> new CheckCommand());
        commands.put("backup", pages -> new BackupCommand());
        commands.put("restore", pages -> new RestoreCommand());
        commands.put("salvage", pages -> new SalvageCommand());
        commands.put("warm-up", WarmUpCommand::new);
        return commands;
    }

    @CommandLine.Mixin
    private Listening listening = new Listening();

    private final Pages pages;

    private RootCommand(Pages pages) {
        this.pages = pages;
    }

    @Override
    public Integer call() {
        return new ServeCommand(pages, listening).call();
    }

    /// The command line with every command, ready to execute.
    public static CommandLine commandLine(Pages pages) {
        return commandLine(pages, name -> true);
    }

    /// Runs what the arguments say. Making a command takes a part of the start, so only one named first is made, and
    /// none where the arguments only start the tool; what does not fit is read again with all of them, for a help
    /// that knows them.
    ///
    /// @return the exit status
    public static int run(Pages pages, List<String> args) {
        String[] all = args.toArray(String[]::new);
        if (args.stream().anyMatch(HELP::contains)) {
            return commandLine(pages).execute(all);
        }
        Predicate<String> named =
                COMMANDS.containsKey(args.isEmpty() ? "" : args.getFirst()) ? args.getFirst()::equals : name -> false;
        CommandLine few = commandLine(pages, named);
        return few.setParameterExceptionHandler(
                        (failure, again) -> commandLine(pages).execute(again))
                .execute(all);
    }

    /// @param made whether a command is made
    private static CommandLine commandLine(Pages pages, Predicate<String> made) {
        CommandLine line = new CommandLine(new RootCommand(pages));
        COMMANDS.forEach((name, maker) -> {
            if (made.test(name)) {
                line.addSubcommand(name, maker.apply(pages));
            }
        });
        line.setCommandName(Texts.command());
        named(line);
        line.getSubcommands().values().forEach(command -> {
            named(command);
            command.getCommandSpec().mixinStandardHelpOptions(true);
            command.getCommandSpec().usageMessage().synopsisHeading("Usage: ");
        });
        CommandLine.ITypeConverter<Integer> whole = text -> number(text, Integer::valueOf, "whole number");
        CommandLine.ITypeConverter<Long> longer = text -> number(text, Long::valueOf, "whole number");
        CommandLine.ITypeConverter<Double> decimal = text -> number(text, Double::valueOf, "number");
        line.registerConverter(int.class, whole).registerConverter(Integer.class, whole);
        line.registerConverter(long.class, longer).registerConverter(Long.class, longer);
        line.registerConverter(double.class, decimal).registerConverter(Double.class, decimal);
        line.setUsageHelpWidth(HELP_WIDTH);
        line.setUsageHelpAutoWidth(true);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setExecutionStrategy(parsed -> {
            passOn(parsed);
            java.nio.file.Path folder = folder(parsed);
            if (java.nio.file.Files.isDirectory(folder) && !java.nio.file.Files.isExecutable(folder)) {
                // nothing here is inside a command, so nothing would turn a failure into a sentence
                System.err.println("The data folder " + folder
                        + " belongs to another user of this computer, who keeps it closed. Work as"
                        + " that user, or name another folder with --data.");
                return ExitCode.STORE.number();
            }
            LogFile.in(folder);
            return new CommandLine.RunLast().execute(parsed);
        });
        line.setExecutionExceptionHandler((failure, command, parsed) -> ended(failure));
        line.setParameterExceptionHandler((failure, args) -> {
            System.err.println(failure.getMessage());
            CommandLine.UnmatchedArgumentException.printSuggestions(
                    failure, new java.io.PrintWriter(System.err, true, java.nio.charset.Charset.defaultCharset()));
            System.err.println(
                    Texts.command() + " " + name(failure.getCommandLine()) + "--help tells what is possible.");
            return ExitCode.INPUT.number();
        });
        return line;
    }

    private static <T> T number(String text, Function<String, T> read, String what) {
        try {
            return read.apply(text);
        } catch (NumberFormatException e) {
            throw new CommandLine.TypeConversionException(
                    "'" + text + (text.matches("-?[0-9]+") ? "' is too large." : "' is no " + what + "."));
        }
    }

    /// Hands what was said of the folder before the command's name on to the command. Other options there would
    /// be lost without a word, so they are refused.
    private static void passOn(CommandLine.ParseResult parsed) {
        if (!parsed.hasSubcommand()) {
            return;
        }
        java.util.Optional<Open> open = open(parsed);
        for (CommandLine.Model.OptionSpec option : parsed.matchedOptions()) {
            if (!Open.isOfFolder(option.longestName()) || open.isEmpty()) {
                throw new CommandLine.ParameterException(
                        parsed.subcommand().commandSpec().commandLine(),
                        "'" + option.longestName() + "' cannot stand before '"
                                + parsed.subcommand().commandSpec().name()
                                + "'. Write it behind, if it has that option.");
            }
        }
        RootCommand root = (RootCommand) parsed.commandSpec().userObject();
        open.ifPresent(own -> own.unlessSaid(root.listening.open()));
    }

    /// The data folder the command works on, as far as it names one.
    private static java.nio.file.Path folder(CommandLine.ParseResult parsed) {
        return open(parsed).orElseGet(Open::new).folder();
    }

    private static java.util.Optional<Open> open(CommandLine.ParseResult parsed) {
        CommandLine.ParseResult last = parsed;
        while (last.hasSubcommand()) {
            last = last.subcommand();
        }
        return last.commandSpec().mixins().values().stream()
                .map(CommandLine.Model.CommandSpec::userObject)
                .filter(Open.class::isInstance)
                .map(Open.class::cast)
                .findFirst();
    }

    /// Gives a help the name that the tool has here.
    private static void named(CommandLine command) {
        CommandLine.Model.UsageMessageSpec usage = command.getCommandSpec().usageMessage();
        usage.header(named(usage.header()));
        usage.description(named(usage.description()));
        usage.footer(named(usage.footer()));
    }

    private static String[] named(String[] lines) {
        return Arrays.stream(lines).map(Texts::named).toArray(String[]::new);
    }

    private static String name(CommandLine command) {
        return command.getParent() == null ? "" : command.getCommandName() + " ";
    }

    /// The one place where a failure becomes a sentence and a status.
    private static int ended(Exception failure) {
        return switch (failure) {
            case Open.Stop stop -> {
                System.err.println(stop.getMessage());
                yield stop.code().number();
            }
            case JournalException journal -> {
                System.err.println(journal.getMessage());
                yield ExitCode.STORE.number();
            }
            default -> {
                LOG.log(Level.SEVERE, "command", failure);
                System.err.println("This is a mistake of the tool, not yours. Nothing recorded is lost.");
                yield ExitCode.BUG.number();
            }
        };
    }
}
