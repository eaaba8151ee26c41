package gylewarden.app;

import gylewarden.app.config.RelayConfig;
import gylewarden.relay.LeasedRelay;
import gylewarden.relay.PlugDriver;
import gylewarden.store.InstanceLock;
import gylewarden.store.LatchFolder;
import gylewarden.units.MonotonicClock;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * Releases every relay it is given, by the daemon if one runs, else by itself, and says what happened. Whatever fails,
 * it goes on to the next relay.
 *
 * @param patience how long a running daemon may take to answer
 * @param page the other way to a running daemon, where none leads by the disk
 */
record RelaysOff(PrintWriter out, Drivers drivers, MonotonicClock clock, Patience patience, Page page) {
    /** Asks a running daemon to release everything; returns why it has not, empty if it has. */
    interface Page {
        Optional<String> switchOff() throws InterruptedException;
    }

    /** The daemon looks for the flag four times a second and writes a relay within one second more; ten are a daemon that hangs. */
    static final Duration PATIENCE = Duration.ofSeconds(10);

    /** To connect, and for the plug's answer. */
    private static final Duration PLUG_WITHIN = Brokers.PATIENCE.plus(PlugDriver.ANSWERS_WITHIN);

    private static final String BY_ITSELF =
            "; it goes off by its own timer if it has one, and whoever reaches the broker may switch it on again";

    /**
     * @param data the data folder, empty if a broken config does not tell it
     * @return whether every relay is known to be released and to stay so
     */
    boolean run(Optional<Path> data, List<RelayConfig> relays) throws InterruptedException {
        if (data.isEmpty()) {
            out.println("The config does not say where the data folder is, so a running daemon could not be told:"
                    + " stop it (systemctl stop gylewarden).");
            releaseAll(relays);
            return false;
        }
        boolean latched = latch(new LatchFolder(data.get()));
        try {
            return alone(data.get(), relays) && latched;
        } catch (InstanceLock.Held held) {
            out.println(upper(held.getMessage()) + ".");
            if (latched) return byDaemon(data.get(), relays);
            byPage(relays);
            return false;
        }
    }

    private boolean latch(LatchFolder latches) {
        try {
            latches.askRelaysOff();
            return true;
        } catch (IOException e) {
            out.println("The latch could not be set in " + latches.data() + " (" + e.getMessage()
                    + "): a daemon that starts again may energise relays again.");
            return false;
        }
    }

    /** No daemon runs: holds its place while the relays are released. */
    private boolean alone(Path data, List<RelayConfig> relays) throws InstanceLock.Held {
        Optional<InstanceLock> lock = Optional.empty();
        try {
            lock = Optional.of(InstanceLock.takeAsItIs(data));
        } catch (IOException e) {
            out.println("Whether a daemon runs is not known (" + e.getMessage() + "): stop it if so.");
        }
        try {
            return releaseAll(relays) && lock.isPresent();
        } finally {
            lock.ifPresent(this::giveBack);
        }
    }

    private void giveBack(InstanceLock lock) {
        try {
            lock.close();
        } catch (IOException e) {
            out.println("The lock of the data folder could not be given back: " + e.getMessage());
        }
    }

    private boolean byDaemon(Path data, List<RelayConfig> relays) throws InterruptedException {
        var latches = new LatchFolder(data);
        if (!patience.until(latches::isAnswered)) return endedMeanwhile(data, relays);
        out.println("The daemon has released every relay.");
        return true;
    }

    /** A daemon that was just ending gives no answer and leaves the relays to us. */
    private boolean endedMeanwhile(Path data, List<RelayConfig> relays) throws InterruptedException {
        try {
            return alone(data, relays);
        } catch (InstanceLock.Held stillThere) {
            out.println("It has not answered within " + patience.longest().toSeconds() + " s.");
            return byPage(relays);
        }
    }

    /** A disk that can only be read carries no word to the daemon, nor does a folder that it has not opened. */
    private boolean byPage(List<RelayConfig> relays) throws InterruptedException {
        Optional<String> failure = page.switchOff();
        if (failure.isEmpty()) {
            out.println(
                    "The daemon was asked by its page and has released every relay. They stay off as long as it runs.");
            return true;
        }
        out.println("Nor was it reached by its page: " + failure.get() + ".");
        return unanswered(relays);
    }

    /** The daemon holds its GPIO lines; a file can be written and a plug told all the same. */
    private boolean unanswered(List<RelayConfig> relays) {
        List<RelayConfig> files = relays.stream()
                .filter(relay -> relay.wiring() instanceof RelayConfig.TextFile || isPlug(relay))
                .toList();
        releaseAll(files);
        out.println("What is released here the daemon may energise again, and its GPIO lines are out of reach: stop the"
                + " service (systemctl stop gylewarden) or pull the plugs of all loads now.");
        return false;
    }

    private boolean releaseAll(List<RelayConfig> relays) {
        boolean all = true;
        // A plug that does not answer must not keep the others waiting.
        for (RelayConfig relay : relays) if (!isPlug(relay)) all &= release(relay);
        for (RelayConfig relay : relays) if (isPlug(relay)) all &= release(relay);
        if (relays.isEmpty()) out.println("There is no relay that could be read from the config.");
        return all;
    }

    private static boolean isPlug(RelayConfig relay) {
        return relay.wiring() instanceof RelayConfig.Plug;
    }

    private boolean release(RelayConfig config) {
        Optional<String> failure;
        boolean plug = isPlug(config);
        try (var relay = LeasedRelay.start(config.id(), drivers.of(config), clock)) {
            relay.releaseForGood();
            failure = relay.awaitRelease(clock.read().plus(plug ? PLUG_WITHIN : LeasedRelay.DEADLINE));
        } catch (IOException e) {
            failure = Optional.of(e.getMessage());
        }
        out.println("relay " + config.id() + ": "
                + failure.map(why -> "NOT released, pull its plug (" + why + ")" + (plug ? BY_ITSELF : ""))
                        .orElse("released"));
        return failure.isEmpty();
    }

    private static String upper(String sentence) {
        return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1);
    }
}
