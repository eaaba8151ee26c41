package gylewarden.process;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * A board as the daemon sees it, made of files in one folder: a 1-Wire tree with a probe in the beer, a valve that cools
 * and a heating belt, a data folder and a config. The times are the shortest that the config allows. Closing ends every
 * process that it started.
 */
final class FakeBoard implements AutoCloseable {
    static final String BEER = "28-0316a2791001";

    /** The valve's minimum off and on time, and that between cooling and heating. */
    static final Duration SHORTEST = Duration.ofSeconds(10);

    /** Below those that the kernel gives to whoever asks for any (ip_local_port_range, from 32 768). */
    private static final int PORT = 18_080;

    private static final AtomicInteger BOARDS = new AtomicInteger();

    private final Path folder;
    private final FakeWires wires;
    private final FakeWires.Probe beer;
    private final RelayFiles valve;
    private final RelayFiles belt;
    private final String address = addressOfItsOwn();
    private final List<DaemonProcess> started = new ArrayList<>();

    private FakeBoard(Path folder, double celsius) throws IOException, InterruptedException {
        this.folder = folder;
        wires = new FakeWires(Files.createDirectories(folder.resolve("w1")));
        beer = wires.plug(1, BEER, celsius);
        valve = new RelayFiles(folder.resolve("relays/valve"));
        belt = new RelayFiles(folder.resolve("relays/belt"));
        Files.writeString(config(), text());
    }

    /** With 20 °C, a degree above the target: the valve is energised as soon as it may be. */
    static FakeBoard withWarmBeer(Path folder) throws IOException, InterruptedException {
        return new FakeBoard(folder, 20);
    }

    /** With 18 °C, a degree below the target. */
    static FakeBoard withColdBeer(Path folder) throws IOException, InterruptedException {
        return new FakeBoard(folder, 18);
    }

    /** The config of this board, for a test that wants another. */
    String text() {
        return """
                [store]
                directory = "data"
                [web]
                listen = "%s"
                [probes]
                root = "w1/devices"
                [[probe]]
                id = "beer"
                kind = "one-wire"
                address = "%s"
                interval = "1s"
                [[relay]]
                id = "valve"
                kind = "file"
                path = "relays/valve"
                [[relay]]
                id = "belt"
                kind = "file"
                path = "relays/belt"
                [[chamber]]
                id = "cellar"
                target = "19.0C"
                beer_probe = "beer"
                cooling = "valve"
                cooling_by = "valve"
                heating = "belt"
                min_off = "10s"
                min_on = "10s"
                changeover = "10s"
                """.formatted(address, BEER);
    }

    /**
     * An address on which nobody else listens, and the same over a restart: of the whole block 127.0.0.0/8, which is the
     * machine itself (RFC 1122 3.2.1.3), one for each board of this process. A port that was free a moment ago would be
     * anybody's again.
     */
    private static String addressOfItsOwn() {
        int number = (int) (ProcessHandle.current().pid() % 16_384) * 1024 + BOARDS.incrementAndGet() % 1023;
        return "127." + (number >> 16) + "." + (number >> 8 & 255) + "." + (number & 255) + ":" + PORT;
    }

    /** Where its page is, without a path. */
    String page() {
        return "http://" + address;
    }

    void configure(String text) throws IOException {
        Files.writeString(config(), text);
    }

    Path folder() {
        return folder;
    }

    Path config() {
        return folder.resolve("gylewarden.toml");
    }

    Path data() {
        return folder.resolve("data");
    }

    FakeWires.Probe beer() {
        return beer;
    }

    RelayFiles valve() {
        return valve;
    }

    RelayFiles belt() {
        return belt;
    }

    /** Starts the daemon and waits until it says that it has started. */
    DaemonProcess run() throws IOException {
        return run(Map.of());
    }

    /** @param environment is added to this process's own */
    DaemonProcess run(Map<String, String> environment) throws IOException {
        return run(environment, List.of());
    }

    /** @param wrapper a command that runs the daemon in its own process */
    DaemonProcess run(Map<String, String> environment, List<String> wrapper) throws IOException {
        DaemonProcess daemon =
                DaemonProcess.start(folder, environment, wrapper, "run", "--config", config().toString());
        started.add(daemon);
        daemon.says("Started with one chamber in ");
        return daemon;
    }

    /** Starts the daemon and waits until the valve is energised. */
    DaemonProcess runUntilCooling() throws IOException {
        DaemonProcess daemon = run();
        valve.becomes("1", Await.LONG, daemon);
        return daemon;
    }

    /** Starts a command of the jar and does not wait for it. */
    DaemonProcess start(String... arguments) throws IOException {
        DaemonProcess process = DaemonProcess.start(folder, arguments);
        started.add(process);
        return process;
    }

    /** Runs a command of the jar, with this board's config, to its end. */
    Jar.Outcome command(String name, String... more) throws IOException, InterruptedException {
        List<String> arguments = new ArrayList<>(List.of(name, "--config", config().toString()));
        arguments.addAll(List.of(more));
        return Jar.run(folder, arguments.toArray(String[]::new));
    }

    /** What the service manager does after every end of the daemon. */
    Jar.Outcome stopHook() throws IOException, InterruptedException {
        List<String> line = Jar.unitLine("ExecStopPost");
        Path script = Path.of("systemd").resolve(Path.of(line.get(0)).getFileName());
        String list = line.get(1).replace("%S/gylewarden", data().toString());
        return Jar.end(folder, List.of(script.toAbsolutePath().toString(), list));
    }

    @Override
    public void close() throws IOException {
        started.forEach(DaemonProcess::close);
        wires.close();
        valve.close();
        belt.close();
    }
}
