package gylewarden.app;

import gylewarden.app.config.WrongFile;
import gylewarden.app.demo.DemoCommand;
import gylewarden.app.simulate.SimulateCommand;
import java.io.PrintWriter;
import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ScopeType;

/**
 * The command line. Exit status: 0 done; 1 it failed while running; 2 the command line, the config or an input file is
 * wrong.
 */
@Command(
        name = "gylewarden",
        description = "Keeps beer at the temperature that its schedule asks for.",
        mixinStandardHelpOptions = true,
        scope = ScopeType.INHERIT,
        versionProvider = Main.Version.class,
        synopsisSubcommandLabel = "COMMAND",
        subcommands = {
            RunCommand.class,
            DemoCommand.class,
            SimulateCommand.class,
            CheckCommand.class,
            ProbesCommand.class,
            RelaysOffCommand.class,
            ClickCommand.class,
            CommissionCommand.class,
            ExportCommand.class,
            BackupCommand.class,
            RestoreCommand.class
        })
public final class Main {
    static final int DONE = 0;
    static final int FAILED = 1;
    static final int WRONG = 2;

    private Main() {}

    public static void main(String[] arguments) {
        System.exit(commandLine().execute(arguments));
    }

    /** The whole command line, ready to be executed. */
    static CommandLine commandLine() {
        return new CommandLine(new Main())
                .setColorScheme(CommandLine.Help.defaultColorScheme(CommandLine.Help.Ansi.OFF))
                .setParameterExceptionHandler((wrong, arguments) -> wrongArguments(wrong))
                .setExecutionExceptionHandler((failure, command, parsed) -> failed(failure, command));
    }

    private static int wrongArguments(ParameterException wrong) {
        CommandLine command = wrong.getCommandLine();
        PrintWriter err = command.getErr();
        err.println(wrong.getMessage());
        CommandLine.UnmatchedArgumentException.printSuggestions(wrong, err);
        err.println("How to write it: " + command.getCommandSpec().qualifiedName() + " --help");
        err.flush();
        return WRONG;
    }

    /** Files with mistakes and failures of the world are told in words; anything else is our own bug and shows where. */
    private static int failed(Exception failure, CommandLine command) throws Exception {
        if (!(failure instanceof WrongFile) && !(failure instanceof CommandFailed)) throw failure;
        command.getErr().println(failure.getMessage());
        command.getErr().flush();
        return failure instanceof WrongFile ? WRONG : FAILED;
    }

    /** The version that the build wrote into the jar. */
    static final class Version implements IVersionProvider {
        @Override
        public String[] getVersion() {
            Optional<String> version =
                    Optional.ofNullable(Main.class.getPackage().getImplementationVersion());
            return new String[] {"gylewarden " + version.orElse("(not run from its jar)")};
        }
    }
}
