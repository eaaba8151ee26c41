package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.WrongFile;
import gylewarden.store.Backup;
import gylewarden.store.RecordFailed;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** One file with all that was recorded and all that the chambers are asked to do, also while the daemon runs. */
@Command(
        name = "backup",
        description = "Copies the record, and what the chambers are asked to do, into one file; the daemon may run"
                + " meanwhile.")
final class BackupCommand implements Callable<Integer> {
    private static final long KIB = 1024;

    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config of the daemon")
    private Optional<Path> file = Optional.empty();

    @Option(
            names = "--to",
            paramLabel = "FILE",
            required = true,
            description = "what to write; a file that is there already is never replaced")
    private Optional<Path> to = Optional.empty();

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws WrongFile, CommandFailed {
        Config config = ConfigFile.read(file.orElseThrow());
        Path target = to.orElseThrow().toAbsolutePath();
        try {
            Backup.Made made = Backup.make(config.dataDirectory(), target);
            PrintWriter out = spec.commandLine().getOut();
            out.println(target + " holds the record of " + config.dataDirectory() + ": batches " + made.batches()
                    + ", size " + (made.bytes() + KIB - 1) / KIB + " KiB. It was read back and is whole.");
            out.println("The config is not in it: copy " + config.file() + " too.");
            out.flush();
        } catch (FileAlreadyExistsException e) {
            throw new CommandFailed("Nothing was backed up: " + target
                    + " is there already and is left as it is. Name another file, or move it away.");
        } catch (RecordFailed e) {
            throw new CommandFailed("Nothing was backed up. " + e.getMessage());
        } catch (IOException e) {
            throw new CommandFailed("Nothing was backed up: " + target + " could not be written: " + e.getMessage());
        }
        return Main.DONE;
    }
}
