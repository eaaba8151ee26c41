package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.WrongFile;
import gylewarden.store.InstanceLock;
import gylewarden.store.RecordFailed;
import gylewarden.store.Restore;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Back to what {@code backup} has copied. Needs the data folder for itself; deletes nothing. */
@Command(
        name = "restore",
        description = "Puts a copy made by backup in the place of the record and of what the chambers are asked to do."
                + " Not beside a running daemon. What is there now is renamed, not deleted.")
final class RestoreCommand implements Callable<Integer> {
    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config of the daemon")
    private Optional<Path> file = Optional.empty();

    @Option(names = "--from", paramLabel = "FILE", required = true, description = "the copy made by backup")
    private Optional<Path> from = Optional.empty();

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws WrongFile, CommandFailed {
        Config config = ConfigFile.read(file.orElseThrow());
        Path data = config.dataDirectory();
        Path copy = from.orElseThrow().toAbsolutePath();
        try (InstanceLock lock = InstanceLock.take(data)) {
            Restore.Done done = Restore.from(copy, lock, data, Instant.now());
            tell(done, copy, data);
        } catch (InstanceLock.Held held) {
            throw new CommandFailed("Nothing was restored: " + held.getMessage()
                    + ". Stop the daemon first (systemctl stop gylewarden).");
        } catch (Restore.Refused refused) {
            spec.commandLine()
                    .getErr()
                    .println("Nothing was restored, and nothing was touched. " + refused.getMessage());
            return Main.WRONG;
        } catch (RecordFailed e) {
            throw new CommandFailed("Nothing was restored, and nothing was touched. " + e.getMessage());
        } catch (IOException e) {
            throw new CommandFailed("The restoring broke off: " + e.getMessage() + ". Files named *.replaced-* in "
                    + data + " are what was there before; do it again before you start the daemon.");
        }
        return Main.DONE;
    }

    private void tell(Restore.Done done, Path copy, Path data) {
        PrintWriter out = spec.commandLine().getOut();
        out.println("The record in " + data + " is that of " + copy + ": batches " + done.batches() + ".");
        out.println(
                done.chambers().isEmpty()
                        ? "The copy does not say how far the schedules had got: look at each batch once the daemon runs."
                        : "So is what the chambers are asked to do: " + String.join(", ", done.chambers()) + ".");
        for (Path aside : done.setAside()) out.println("What was there before is now " + aside);
        out.println(
                "Start the daemon again (systemctl start gylewarden), and look whether each batch is where it should be.");
        out.flush();
    }
}
