package org.rollwright.cli;

import java.util.logging.Level;
import java.util.logging.Logger;
import org.rollwright.hunt.JournalException;
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

    @CommandLine.Mixin
    private Open open = new Open();

    @CommandLine.Option(
            names = "--port",
            paramLabel = "N",
            description = "Port to listen on, the next free one if it is taken (default: ${DEFAULT-VALUE}).",
            defaultValue = "7300")
    private int port = 7300;

    @CommandLine.Option(
            names = "--lan",
            description = "Let phones in the same network in as well: encrypted, and only with the word printed.")
    private boolean lan;

    @CommandLine.Option(
            names = "--open",
            description = "Open the page in the browser; when the tool is running already, only that.")
    private boolean show;

    private final Pages pages;

    private RootCommand(Pages pages) {
        this.pages = pages;
    }

    @Override
    public Integer call() {
        ServeCommand serve = new ServeCommand(pages);
        serve.open = open;
        serve.port = port;
        serve.lan = lan;
        serve.show = show;
        return serve.call();
    }

    /// The parsed command line, ready to execute.
    public static CommandLine commandLine(Pages pages) {
        CommandLine line = new CommandLine(new RootCommand(pages));
        line.addSubcommand(new ServeCommand(pages));
        line.addSubcommand(new MatCommand());
        line.addSubcommand(new BoxCommand());
        line.addSubcommand(new AlbumCommand());
        line.addSubcommand(new CatalogCommand());
        line.addSubcommand(new NarrateCommand());
        line.addSubcommand(new OddsCommand());
        line.addSubcommand(new TillCommand());
        line.addSubcommand(new RecapCommand());
        line.addSubcommand(new CalcCommand());
        line.addSubcommand(new ImportCommand());
        line.addSubcommand(new CabinetCommand());
        line.addSubcommand(new JournalCommand());
        line.addSubcommand(new CheckCommand());
        line.addSubcommand(new BackupCommand());
        line.addSubcommand(new RestoreCommand());
        line.addSubcommand(new WarmUpCommand(pages));
        line.getSubcommands().values().forEach(command -> {
            command.getCommandSpec().mixinStandardHelpOptions(true);
            command.getCommandSpec().usageMessage().synopsisHeading("Usage: ");
        });
        line.setUsageHelpWidth(HELP_WIDTH);
        line.setUsageHelpAutoWidth(true);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setExecutionStrategy(parsed -> {
            LogFile.in(folder(parsed));
            return new CommandLine.RunLast().execute(parsed);
        });
        line.setExecutionExceptionHandler((failure, command, parsed) -> ended(failure));
        line.setParameterExceptionHandler((failure, args) -> {
            System.err.println(failure.getMessage());
            CommandLine.UnmatchedArgumentException.printSuggestions(
                    failure, new java.io.PrintWriter(System.err, true, java.nio.charset.Charset.defaultCharset()));
            System.err.println("./run " + name(failure.getCommandLine()) + "--help tells what is possible.");
            return ExitCode.INPUT.number();
        });
        return line;
    }

    /// The data folder the command works on, as far as it names one.
    private static java.nio.file.Path folder(CommandLine.ParseResult parsed) {
        CommandLine.ParseResult last = parsed;
        while (last.hasSubcommand()) {
            last = last.subcommand();
        }
        return last.commandSpec().mixins().values().stream()
                .map(CommandLine.Model.CommandSpec::userObject)
                .filter(Open.class::isInstance)
                .map(Open.class::cast)
                .findFirst()
                .orElseGet(Open::new)
                .folder();
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
