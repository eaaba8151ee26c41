package gylewarden.app;

import gylewarden.app.config.ChamberConfig;
import gylewarden.app.config.Config;
import gylewarden.app.config.ConfigFile;
import gylewarden.app.config.Fingerprint;
import gylewarden.app.config.MqttConfig;
import gylewarden.app.config.RelayConfig;
import gylewarden.app.config.WrongFile;
import gylewarden.batch.Mandate;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clocks;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Instruments;
import gylewarden.chamber.StatusBoard;
import gylewarden.commission.Commissioned;
import gylewarden.commission.Verdict;
import gylewarden.control.Side;
import gylewarden.journal.FindingWords;
import gylewarden.journal.Scale;
import gylewarden.link.BrokerLink;
import gylewarden.probe.Probe;
import gylewarden.relay.LeasedRelay;
import gylewarden.relay.PlugDriver;
import gylewarden.relay.Relay;
import gylewarden.schedule.ClockReading;
import gylewarden.store.CommissionedFile;
import gylewarden.store.InstanceLock;
import gylewarden.store.LatchFolder;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.Charset;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Does cooling cool, and does heating heat? Tried once, before beer is at stake. */
@Command(
        name = "commission",
        description =
                "Proves a chamber's wiring: clicks each relay, then tries heating and cooling while the probes are"
                        + " watched, and names what is wrong in words. Asks for a yes, read from standard input, before anything is"
                        + " energised. Keeps the result with its date.")
final class CommissionCommand implements Callable<Integer> {
    @Option(names = "--config", paramLabel = "FILE", required = true, description = "the config that names the chamber")
    private Optional<Path> file = Optional.empty();

    @Option(names = "--chamber", paramLabel = "ID", required = true, description = "the id of the chamber")
    private Optional<String> id = Optional.empty();

    @Spec
    private CommandSpec spec;

    private final MonotonicClock clock = MonotonicClock.system();

    @Override
    public Integer call() throws WrongFile, CommandFailed, InterruptedException {
        Config config = ConfigFile.read(file.orElseThrow());
        ChamberConfig chamber = chamber(config, id.orElseThrow());
        try {
            InstanceLock lock = InstanceLock.take(config.dataDirectory());
            try {
                if (new LatchFolder(config.dataDirectory()).read().relaysOff())
                    throw new CommandFailed(
                            "the relays are latched off: end that first with relays-off --resume --config "
                                    + config.file());
                return commission(config, chamber) ? Main.DONE : Main.FAILED;
            } finally {
                lock.close();
            }
        } catch (InstanceLock.Held held) {
            throw new CommandFailed(held.getMessage()
                    + ": stop the daemon first (systemctl stop gylewarden), for it would switch the same relays");
        } catch (IOException e) {
            throw new CommandFailed("chamber " + chamber.id() + " was not commissioned: " + e.getMessage());
        }
    }

    private ChamberConfig chamber(Config config, String wanted) {
        return config.chambers().stream()
                .filter(each -> each.id().equals(wanted))
                .findFirst()
                .orElseThrow(() -> new ParameterException(
                        spec.commandLine(),
                        "--chamber " + wanted + ": there is no such chamber in " + config.file() + "; there are: "
                                + String.join(
                                        ", ",
                                        config.chambers().stream()
                                                .map(ChamberConfig::id)
                                                .toList())));
    }

    private boolean commission(Config config, ChamberConfig chamber)
            throws IOException, CommandFailed, InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        var in = new BufferedReader(new InputStreamReader(System.in, Charset.defaultCharset()));
        var talk = new CommissionTalk(out, in);
        if (!talk.begin(chamber)) throw new CommandFailed("Nothing was begun and nothing energised.");
        Map<Side, LeasedRelay> relays = new EnumMap<>(Side.class);
        try (var drivers = Drivers.real(plugs(config, chamber))) {
            releaseAtExit(relays, drivers);
            try {
                start(config, chamber, drivers, relays);
                click(config, relays, talk, new Click(out, in, Pause.real()));
                Verdict verdict = watched(config, chamber, relays, out);
                talk.tell(chamber.id(), verdict);
                keep(config, chamber, verdict, out);
                return verdict.passed();
            } finally {
                release(relays, out);
            }
        }
    }

    /** Where a relay of this chamber is a plug on the network. */
    private Optional<Plugs> plugs(Config config, ChamberConfig chamber) throws CommandFailed, InterruptedException {
        boolean needed = Stream.of(chamber.coolingRelay(), chamber.heatingRelay())
                .flatMap(Optional::stream)
                .anyMatch(relay -> isPlug(config, relay));
        if (!needed) return Optional.empty();
        MqttConfig mqtt = config.mqtt().orElseThrow();
        try (BrokerLink link = Brokers.link(mqtt, config.dataDirectory(), "commission", clock)) {
            Optional<String> away = Brokers.await(link, clock);
            if (away.isPresent())
                throw new CommandFailed("chamber " + chamber.id() + " was not commissioned: " + away.get());
        }
        return Optional.of(Plugs.forCommand(mqtt, config.dataDirectory(), "commission", clock));
    }

    /** All at once; a plug on the network is waited for. */
    private void release(Map<Side, LeasedRelay> relays, PrintWriter out) {
        relays.values().forEach(LeasedRelay::close);
        Uptime until = clock.read().plus(PlugDriver.ANSWERS_WITHIN);
        for (LeasedRelay relay : relays.values())
            relay.awaitRelease(until).ifPresent(why -> out.println("NOT released, pull its plug: " + why));
        out.flush();
    }

    private static boolean isPlug(Config config, String relay) {
        return config.relay(relay).wiring() instanceof RelayConfig.Plug;
    }

    private void start(Config config, ChamberConfig chamber, Drivers drivers, Map<Side, LeasedRelay> relays)
            throws IOException {
        for (Side side : Side.values()) {
            Optional<String> relay = side == Side.COOLING ? chamber.coolingRelay() : chamber.heatingRelay();
            if (relay.isEmpty()) continue;
            synchronized (relays) {
                relays.put(side, LeasedRelay.start(relay.get(), drivers.of(config.relay(relay.get())), clock));
            }
        }
    }

    private static void click(Config config, Map<Side, LeasedRelay> relays, CommissionTalk talk, Click click)
            throws IOException, CommandFailed, InterruptedException {
        for (Map.Entry<Side, LeasedRelay> each : relays.entrySet()) {
            LeasedRelay relay = each.getValue();
            // A plug's click takes minutes, for it also proves that the plug goes off by itself: the command click is
            // for that.
            if (isPlug(config, relay.id())) continue;
            click.energise(relay, click.ask(relay.id(), Click.compressor(config, relay.id())));
            if (!talk.rightLoad(relay.id(), each.getKey()))
                throw new CommandFailed("Relay " + relay.id()
                        + " and its load don't belong together yet. Find the plug, or the relay's line in the config, by the"
                        + " command click; then commission again.");
        }
    }

    private Verdict watched(Config config, ChamberConfig chamber, Map<Side, LeasedRelay> relays, PrintWriter out)
            throws InterruptedException {
        try (var thermometers = Thermometers.open(config, "-commission", clock, Brokers.ENDS_COMMAND)) {
            Map<String, Probe> probes = thermometers.byId();
            var instruments = new Instruments(
                    probes.get(chamber.probes().beer()),
                    chamber.probes().secondBeer().map(probes::get),
                    chamber.probes().air().map(probes::get),
                    chamber.probes().room().map(probes::get),
                    chamber.probes().watch().stream().map(probes::get).toList(),
                    Optional.<Relay>ofNullable(relays.get(Side.COOLING)),
                    Optional.<Relay>ofNullable(relays.get(Side.HEATING)));
            Uptime begun = clock.read();
            // Clicked a moment ago: what was energised then counts as a run.
            var plan =
                    new Chamber.Plan(chamber.id(), chamber.rules(), Mandate.nothing(), Optional.empty(), true, false);
            var running =
                    new Chamber(plan, instruments, clocks(begun), StatusBoard.nobodyLooks(), new CompressorQueue());
            return new CommissionLoop(
                            out,
                            trial -> running.order(orders -> orders.trying(trial)),
                            running::tick,
                            Pause.real(),
                            Scale.CELSIUS)
                    .run(chamber.rules(), begun);
        }
    }

    /** The date is asked for nothing but sleeps of the board. */
    private Clocks clocks(Uptime begun) {
        return new Clocks(
                clock, () -> new ClockReading("commissioning", clock.read().since(begun), Instant.now(), false));
    }

    private static void keep(Config config, ChamberConfig chamber, Verdict verdict, PrintWriter out)
            throws IOException {
        var kept = new CommissionedFile(config.dataDirectory(), chamber.id());
        kept.write(new Commissioned(
                Instant.now().truncatedTo(ChronoUnit.SECONDS),
                FindingWords.kept(verdict),
                Fingerprint.of(config, chamber)));
        out.println("Kept in " + kept.path() + ".");
        out.flush();
    }

    /** Ctrl-C and SIGTERM end the process by its hooks alone; at an orderly end closing twice does no harm. */
    private static void releaseAtExit(Map<Side, LeasedRelay> relays, Drivers drivers) {
        Runtime.getRuntime()
                .addShutdownHook(new Thread(
                        () -> {
                            synchronized (relays) {
                                relays.values().forEach(LeasedRelay::close);
                            }
                            drivers.close();
                        },
                        "release"));
    }
}
