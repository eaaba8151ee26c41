package gylewarden.link;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A real broker on a port of its own, which can be killed and started again. */
public final class Mosquitto implements AutoCloseable {
    private static final Path PROGRAM = Path.of("/usr/sbin/mosquitto");

    private final Path config;
    private final int port;
    private Optional<Process> process = Optional.empty();

    private Mosquitto(Path config, int port) {
        this.config = config;
        this.port = port;
    }

    /** One that lets everybody in. */
    public static Mosquitto open(Path folder) throws IOException {
        return with(folder, List.of("allow_anonymous true"));
    }

    /** @param lines of its own config, beside the listener */
    public static Mosquitto with(Path folder, List<String> lines) throws IOException {
        if (!Files.isExecutable(PROGRAM)) {
            String missing = "mosquitto is not installed";
            if ("true".equals(System.getenv("CI"))) fail(missing);
            abort(missing);
        }
        int port = freePort();
        Path config = folder.resolve("mosquitto.conf");
        // Where the tests run as root it would become another user, who can't read the test's folder.
        List<String> all = new ArrayList<>(List.of("user root", "listener " + port + " 127.0.0.1"));
        all.addAll(lines);
        Files.write(config, all);
        var broker = new Mosquitto(config, port);
        broker.start();
        return broker;
    }

    static int freePort() throws IOException {
        try (var socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    public int port() {
        return port;
    }

    /** Returns when it takes connections. */
    public void start() throws IOException {
        Process started = new ProcessBuilder(PROGRAM.toString(), "-c", config.toString())
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.appendTo(
                        config.resolveSibling("mosquitto.log").toFile()))
                .start();
        process = Optional.of(started);
        long end = System.nanoTime() + 60_000_000_000L;
        while (!answers()) {
            if (!started.isAlive() || System.nanoTime() - end > 0)
                fail("mosquitto does not run: " + Files.readString(config.resolveSibling("mosquitto.log")));
            Until.pause();
        }
    }

    private boolean answers() {
        try (var socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
            return socket.isConnected();
        } catch (IOException notYet) {
            return false;
        }
    }

    /** As by kill -9; returns when it is dead. */
    public void kill() {
        process.ifPresent(running -> running.destroyForcibly().onExit().join());
        process = Optional.empty();
    }

    @Override
    public void close() {
        kill();
    }
}
