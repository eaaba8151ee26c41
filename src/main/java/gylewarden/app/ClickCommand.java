package gylewarden.app;

import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.RelayConfig;
import gylewarden.app.config.WrongFile;
import gylewarden.control.Contact;
import gylewarden.relay.LeasedRelay;
import gylewarden.relay.PlugDriver;
import gylewarden.store.InstanceLock;
import gylewarden.store.LatchFolder;
import gylewarden.units.MonotonicClock;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** For commissioning: which load does this relay switch? */
@Command(
        name = "click",
        description =
                "Energises one relay for two seconds. A compressor's only after a yes, read from standard input, that"
                        + " its plug is out; else after its minimum off time and for its minimum on time. A plug on the network"
                        + " is proved to go off by itself, which takes minutes.")
final class ClickCommand implements Callable<Integer> {
    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config that names the relay")
    private Optional<Path> file = Optional.empty();

    @Option(names = "--relay", paramLabel = "ID", required = true, description = "the id of the relay")
    private Optional<String> id = Optional.empty();

    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() throws WrongFile, CommandFailed, InterruptedException {
        Config config = ConfigFile.read(file.orElseThrow());
        RelayConfig relay = relay(config, id.orElseThrow());
        try {
            InstanceLock lock = InstanceLock.take(config.dataDirectory());
            try {
                if (new LatchFolder(config.dataDirectory()).read().relaysOff())
                    throw new CommandFailed(
                            "the relays are latched off: end that first with relays-off --resume --config "
                                    + config.file());
                click(config, relay);
            } finally {
                lock.close();
            }
        } catch (InstanceLock.Held held) {
            throw new CommandFailed(held.getMessage()
                    + ": stop the daemon first (systemctl stop gylewarden), for it would switch the same relay");
        } catch (IOException e) {
            throw new CommandFailed("relay " + relay.id() + " was not clicked: " + e.getMessage());
        }
        return Main.DONE;
    }

    private RelayConfig relay(Config config, String wanted) {
        List<String> ids = config.relays().stream().map(RelayConfig::id).toList();
        if (!ids.contains(wanted))
            throw new ParameterException(
                    spec.commandLine(),
                    "--relay " + wanted + ": there is no such relay in " + config.file() + "; there are: "
                            + String.join(", ", ids));
        return config.relay(wanted);
    }

    private void click(Config config, RelayConfig wanted) throws IOException, CommandFailed, InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        out.println("Stand clear of the load and of its wires. " + RelaysOffCommand.CAUTION);
        var click = new Click(
                out, new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset())), Pause.real());
        if (wanted.wiring() instanceof RelayConfig.Plug plug) {
            prove(config, wanted, plug, click);
            return;
        }
        try (var drivers = Drivers.real();
                var relay = LeasedRelay.start(wanted.id(), drivers.of(wanted), MonotonicClock.system())) {
            releaseAtExit(relay, drivers);
            Duration span = click.ask(wanted.id(), Click.compressor(config, wanted.id()));
            click.energise(relay, span);
        }
    }

    private void prove(Config config, RelayConfig wanted, RelayConfig.Plug plug, Click click)
            throws IOException, CommandFailed, InterruptedException {
        MonotonicClock clock = MonotonicClock.system();
        try (Plugs plugs = Plugs.forCommand(config.mqtt().orElseThrow(), config.dataDirectory(), "click", clock)) {
            var line = new MqttPlug(plugs.link(wanted.id(), plug), plug);
            Optional<String> away = Brokers.await(line.link(), clock);
            if (away.isPresent()) throw new CommandFailed("relay " + wanted.id() + " was not clicked: " + away.get());
            var driver = new PlugDriver(line, plug.autoOff());
            var proof = new PlugProof(spec.commandLine().getOut(), line, driver, plug.autoOff(), clock, click.pause());
            Duration least = click.ask(wanted.id(), Click.compressor(config, wanted.id()), proof.renewed());
            Runtime.getRuntime().addShutdownHook(new Thread(() -> off(line), "release"));
            proof.run(wanted.id(), least);
        }
    }

    /** Ctrl-C ends the process by its hooks alone, and nobody waits for the plug's answer then. */
    private static void off(MqttPlug plug) {
        try {
            plug.say(Contact.RELEASED);
        } catch (IOException gone) {
            // At an orderly end the plug was released before, and the link is closed.
        }
    }

    /** Ctrl-C and SIGTERM end the process by its hooks alone; at an orderly end closing twice does no harm. */
    private static void releaseAtExit(LeasedRelay relay, Drivers drivers) {
        Runtime.getRuntime()
                .addShutdownHook(new Thread(
                        () -> {
                            relay.close();
                            drivers.close();
                        },
                        "release"));
    }
}
