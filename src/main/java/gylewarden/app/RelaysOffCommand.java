package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.Report;
import gylewarden.app.config.WrongFile;
import gylewarden.store.InstanceLock;
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
        MonotonicClock clock = MonotonicClock.system();
        Path data = salvage.dataDirectory().orElse(config);
        try (var drivers =
                Drivers.real(salvage.mqtt().map(mqtt -> Plugs.forCommand(mqtt, data, "relays-off", clock)))) {
            var patience = Patience.of(RelaysOff.PATIENCE);
            var page = new DaemonPage(salvage.web(), patience);
            released = new RelaysOff(out, drivers, clock, patience, page::switchOff)
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

    private int resume() throws WrongFile, CommandFailed, InterruptedException {
        Config config = ConfigFile.read(file.orElseThrow());
        Path data = config.dataDirectory();
        boolean heard = false;
        try {
            if (Files.isDirectory(data)) {
                var latches = new LatchFolder(data);
                latches.resume();
                heard = InstanceLock.heldBy(data).isPresent();
                if (heard) awaitTaken(latches);
            }
        } catch (IOException e) {
            throw new CommandFailed("the latch in " + data + " could not be ended: " + e.getMessage());
        }
        PrintWriter out = spec.commandLine().getOut();
        out.println(
                heard
                        ? "No relay is latched off any more. The daemon goes on within seconds; compressors wait their minimum"
                                + " off time first."
                        : "No relay is latched off any more. No daemon uses " + data
                                + " now; one that runs without its data folder stays off until it is restarted with it.");
        out.println(CAUTION);
        out.flush();
        return Main.DONE;
    }

    /** A daemon that was just ending leaves the word to the next one. */
    private static void awaitTaken(LatchFolder latches) throws IOException, CommandFailed, InterruptedException {
        boolean taken = Patience.of(RelaysOff.PATIENCE).until(() -> !latches.isResumed());
        if (taken || InstanceLock.heldBy(latches.data()).isEmpty()) return;
        throw new CommandFailed("the latch in " + latches.data()
                + " is ended, but the daemon has not taken that within " + RelaysOff.PATIENCE.toSeconds()
                + " s: look at its log (journalctl -u gylewarden), or restart it (systemctl restart gylewarden)");
    }
}
