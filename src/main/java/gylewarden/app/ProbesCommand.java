package gylewarden.app;

import gylewarden.app.config.Quantity;
import gylewarden.probe.OneWireBus;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Lists the 1-Wire probes, for whoever wires them or writes a config. */
@Command(name = "probes", description = "Lists the 1-Wire probes that the kernel sees, each read once.")
final class ProbesCommand implements Callable<Integer> {
    /** A read takes about a second; ten of them are a bus that hangs. */
    static final Duration PATIENCE = Duration.ofSeconds(10);

    @Option(
            names = "--root",
            paramLabel = "DIR",
            defaultValue = "/sys/bus/w1/devices",
            description = "the folder in which the kernel lists them (default: ${DEFAULT-VALUE})")
    private Path root = Path.of("/sys/bus/w1/devices");

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws CommandFailed, InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        try {
            List<OneWireBus.Found> found = OneWireBus.list(root, PATIENCE);
            for (OneWireBus.Found probe : found) out.println(probe.address() + "  " + said(probe.raw()));
            if (found.isEmpty())
                out.println("No 1-Wire probe in " + root + ". Is the bus switched on in the board's set-up, and are"
                        + " the probe's three wires right?");
        } catch (IOException failed) {
            throw new CommandFailed(root + " cannot be listed: " + failed.getMessage());
        }
        out.flush();
        return Main.DONE;
    }

    /** A reading, or the fault in words. */
    static String said(gylewarden.probe.Raw raw) {
        return raw.fold(temperature -> Quantity.written(temperature.celsius()) + " C", OneWireBus.Found::words);
    }
}
