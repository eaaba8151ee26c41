package gylewarden.app;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Tells the service manager that the daemon is ready and alive, in the words of sd_notify(3). Fed only while every loop
 * ticks, so that a daemon whose loop stands still is killed and the stop hook releases. By the program systemd-notify, for
 * Java 17 has no datagram sockets of the kind it takes; at one call in three seconds that costs little.
 */
final class ServiceManager implements AutoCloseable {
    /** A third of the unit's WatchdogSec=10, so that one lost call kills nothing. */
    static final Duration EACH = Duration.ofSeconds(3);

    private static final Logger LOG = LoggerFactory.getLogger(ServiceManager.class);

    private final List<String> program;
    private final BooleanSupplier everyLoopTicks;
    private final Repeating thread;
    private boolean failing;

    private ServiceManager(List<String> program, BooleanSupplier everyLoopTicks, Thread.UncaughtExceptionHandler bug) {
        this.program = List.copyOf(program);
        this.everyLoopTicks = everyLoopTicks;
        thread = new Repeating("service manager", bug);
    }

    /**
     * Empty where no service manager asked to be told.
     *
     * @param everyLoopTicks whether every loop has ticked within the last {@link #EACH}
     * @param bug is told when {@code everyLoopTicks} throws
     */
    static Optional<ServiceManager> of(
            Map<String, String> environment, BooleanSupplier everyLoopTicks, Thread.UncaughtExceptionHandler bug) {
        return of(environment, List.of("systemd-notify"), everyLoopTicks, bug);
    }

    /** @param program what is started, its argument the state */
    static Optional<ServiceManager> of(
            Map<String, String> environment,
            List<String> program,
            BooleanSupplier everyLoopTicks,
            Thread.UncaughtExceptionHandler bug) {
        return Optional.ofNullable(environment.get("NOTIFY_SOCKET"))
                .map(socket -> new ServiceManager(program, everyLoopTicks, bug));
    }

    /** Says that the daemon is ready, and from then on each three seconds that it is alive. */
    void ready() {
        thread.after(Duration.ZERO, () -> say("READY=1"));
        thread.atRate(EACH, this::feed);
    }

    void feed() {
        if (everyLoopTicks.getAsBoolean()) say("WATCHDOG=1");
    }

    /** Says that the daemon is ending, and does not wait until that is heard: nothing hangs on it. */
    @Override
    public void close() {
        thread.close();
        try {
            begin("STOPPING=1");
        } catch (IOException e) {
            LOG.warn("The service manager could not be told that the daemon ends: {}", e.getMessage());
        }
    }

    private synchronized void say(String state) {
        try {
            Process process = begin(state);
            boolean ended = process.waitFor(EACH.toSeconds(), TimeUnit.SECONDS);
            if (!ended) process.destroyForcibly();
            told(ended && process.exitValue() == 0, ended ? "it ended with " + process.exitValue() : "it hangs");
        } catch (IOException e) {
            told(false, e.getMessage());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private Process begin(String state) throws IOException {
        List<String> command = new ArrayList<>(program);
        command.add(state);
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                .start();
    }

    private void told(boolean done, String why) {
        if (!done && !failing)
            LOG.error(
                    "The service manager could not be told that the daemon is alive, and will kill it: {}: {}",
                    String.join(" ", program),
                    why);
        if (done && failing) LOG.info("The service manager can be told again that the daemon is alive.");
        failing = !done;
    }
}
