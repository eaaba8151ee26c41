package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.Report;
import gylewarden.app.config.WrongFile;
import gylewarden.store.LatchFolder;
import gylewarden.units.MonotonicClock;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Releases every relay and keeps it so, whatever else is broken; or ends that. */
@Command(
        name = "relays-off",
        description = "Releases every relay and latches it off, also over a restart of the daemon, until --resume.")
final class RelaysOffCommand implements Callable<Integer> {
    static final String CAUTION =
            "A released relay is not isolation: pull the plug of a load before you touch its wires.";

    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config that names the relays")
    private Optional<Path> file = Optional.empty();

    @Option(names = "--resume", description = "end the latch: the daemon may energise relays again")
    private boolean resume;

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws WrongFile, CommandFailed, InterruptedException {
        return resume ? resume() : release();
    }

    private int release() throws InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        Path config = file.orElseThrow();
        ConfigFile.Salvage salvage = ConfigFile.salvage(config);
        boolean released;
        try (var drivers = Drivers.real()) {
            released = new RelaysOff(out, drivers, MonotonicClock.system(), RelaysOff.PATIENCE)
                    .run(salvage.dataDirectory(), salvage.relays());
        }
        if (released) out.println("They stay off, over a restart too, until: relays-off --resume --config " + config);
        out.println(CAUTION);
        out.flush();
        if (salvage.mistakes().isEmpty()) return released ? Main.DONE : Main.FAILED;
        PrintWriter err = spec.commandLine().getErr();
        err.println(Report.lines(config.toString(), salvage.mistakes()));
        err.println(Report.count(salvage.mistakes().size()) + " in " + config
                + ". A relay whose table has a mistake was not released: pull its plug.");
        err.flush();
        return Main.WRONG;
    }

    private int resume() throws WrongFile, CommandFailed {
        Config config = ConfigFile.read(file.orElseThrow());
        PrintWriter out = spec.commandLine().getOut();
        try {
            if (Files.isDirectory(config.dataDirectory())) new LatchFolder(config.dataDirectory()).resume();
        } catch (IOException e) {
            throw new CommandFailed(
                    "the latch in " + config.dataDirectory() + " could not be ended: " + e.getMessage());
        }
        out.println("No relay is latched off any more. A running daemon goes on within seconds; compressors wait their"
                + " minimum off time first.");
        out.println(CAUTION);
        out.flush();
        return Main.DONE;
    }
}
