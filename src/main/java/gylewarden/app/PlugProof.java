package gylewarden.app;

import gylewarden.app.config.Quantity;
import gylewarden.control.Contact;
import gylewarden.relay.PlugLine;
import gylewarden.relay.RelayDriver;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;

/**
 * Proves that a plug stays energised as long as it is told so again and again, and goes off by itself once it is told
 * nothing. All that keeps a load from running for ever after a crash hangs on that, so the plug's own timer has to be the
 * only thing that can have switched it off: at its time, while one connection stood, and with nobody else's word on its
 * topic. A broker that starts anew says the will of whoever was connected, and that is "off".
 *
 * @param autoOff after which the config says that it goes off
 */
record PlugProof(PrintWriter out, Line line, RelayDriver driver, Duration autoOff, MonotonicClock clock, Pause pause) {
    private static final Duration LOOK_EACH = Duration.ofSeconds(1);

    /** How long beyond its own time it is renewed: else it might have stayed on without being told again. */
    private static final Duration BEYOND = Duration.ofSeconds(10);

    /** The way to the plug, and what others say on it. */
    interface Line extends PlugLine {
        /** @param told run when the plug may have been told something else than "on" */
        void overhear(Runnable told);
    }

    /** It says nothing of the plug: its proof can be tried again. */
    private static final class NothingProved extends IOException {
        private static final long serialVersionUID = 1;

        NothingProved(String why) {
            super(why);
        }
    }

    /** What is said on the plug's topics, each with its time. */
    private static final class Ear {
        private final Queue<Uptime> off = new ConcurrentLinkedQueue<>();
        private final Queue<Uptime> others = new ConcurrentLinkedQueue<>();

        private static Optional<Uptime> first(Queue<Uptime> heard, Uptime after) {
            return heard.stream().filter(at -> at.isAfter(after)).findFirst();
        }
    }

    static final String AT_POWER_UP =
            "Now prove what only you can see: pull the plug out of the wall and put it back. It must stay off, until it is"
                    + " told otherwise; set it so in the plug. Else a power cut starts its load before anything guards it.";

    /** A fifth early: told "on" each third of its time, it still lives through one of these words lost. */
    private Duration earliest() {
        return autoOff.dividedBy(5).multipliedBy(4);
    }

    /**
     * A tenth late, for a plug counts as it likes, and 5 s for the ways there and back, on each of which a word may wait for a
     * radio that sleeps.
     */
    private Duration latest() {
        return autoOff.plus(autoOff.dividedBy(10)).plusSeconds(5);
    }

    /** How long it is energised in all, if nothing is longer. */
    Duration renewed() {
        return autoOff.plus(BEYOND);
    }

    /**
     * @param least for how long it has to stay energised, for a compressor's sake
     * @throws CommandFailed if the plug is not proved; it has been told "off" then
     */
    void run(String relay, Duration least) throws CommandFailed, InterruptedException {
        Duration span = least.compareTo(renewed()) > 0 ? least : renewed();
        var ear = new Ear();
        line.listen(says -> {
            if (says == Contact.RELEASED) ear.off.add(clock.read());
        });
        line.overhear(() -> ear.others.add(clock.read()));
        Optional<Uptime> over = line.connection();
        try {
            driver.write(Contact.RELEASED);
            driver.write(Contact.ENERGISED);
            say("Relay " + relay + " is energised and told so again for " + Quantity.written(span) + ".");
            Uptime last = renew(span);
            say("It has stayed on. Now it is told nothing, and must go off by itself within "
                    + Quantity.written(autoOff) + ".");
            Duration after = awaitOff(ear, last, over);
            driver.write(Contact.RELEASED);
            requireSame(over);
            say("It has gone off by itself, " + inSeconds(after) + " after it was last told to be on. Relay " + relay
                    + " is released.");
            say(AT_POWER_UP);
        } catch (IOException failed) {
            boolean nothing = failed instanceof NothingProved || !stands(over);
            String released = release()
                    .map(why -> "It is NOT known to be released (" + why + "): pull it")
                    .orElse("It is released");
            throw new CommandFailed(
                    nothing
                            ? "relay " + relay + " is not proved, and nothing is said against it: "
                                    + failed.getMessage() + ". " + released + ". Run click again."
                            : "relay " + relay + " is not fit for use: " + failed.getMessage() + ". " + released
                                    + ". docs/mqtt.md says what a plug must do.");
        }
    }

    /** @return when it was last told */
    private Uptime renew(Duration span) throws IOException, InterruptedException {
        Duration each = driver.rewriteEach().orElse(autoOff);
        Uptime last = clock.read();
        Uptime until = last.plus(span);
        while (clock.read().isBefore(until)) {
            pause.of(LOOK_EACH);
            Optional<String> astray = driver.astray();
            if (astray.isPresent()) throw new IOException(astray.get());
            if (clock.read().since(last).compareTo(each) >= 0) {
                last = clock.read();
                driver.write(Contact.ENERGISED);
            }
        }
        return last;
    }

    /** @return how long after it was last told it said live, and of itself, that it is off */
    private Duration awaitOff(Ear ear, Uptime last, Optional<Uptime> over) throws IOException, InterruptedException {
        Optional<Uptime> off = Optional.empty();
        while (off.isEmpty()) {
            requireSame(over);
            if (clock.read().since(last).compareTo(latest()) > 0)
                throw new IOException("it was told nothing for " + inSeconds(latest())
                        + " and has not said that it went off by itself: set its own timer to "
                        + Quantity.written(autoOff));
            pause.of(LOOK_EACH);
            off = Ear.first(ear.off, last);
        }
        requireSame(over);
        if (Ear.first(ear.others, last).isPresent())
            throw new NothingProved(
                    "another program told it something while it was told nothing by us; end that program first");
        Duration after = off.get().since(last);
        if (after.compareTo(earliest()) < 0)
            throw new IOException("it said that it is off " + inSeconds(after) + " after it was last told to be on, and"
                    + " auto_off is " + Quantity.written(autoOff)
                    + ": somebody has switched it off, or its own timer is shorter");
        if (after.compareTo(latest()) > 0)
            throw new IOException("it said that it is off only " + inSeconds(after)
                    + " after it was last told to be on, and auto_off is " + Quantity.written(autoOff));
        return after;
    }

    /** What it does over another connection may be by the word of the broker, which says our will when it loses us. */
    private void requireSame(Optional<Uptime> over) throws NothingProved {
        if (!stands(over))
            throw new NothingProved("the broker was away, and nobody knows what switched the plug meanwhile");
    }

    private boolean stands(Optional<Uptime> over) {
        return over.isPresent() && line.connection().equals(over);
    }

    private static String inSeconds(Duration span) {
        return Quantity.written(Duration.ofSeconds(span.toSeconds()));
    }

    /** Why it is not known to be released. */
    private Optional<String> release() {
        try {
            driver.write(Contact.RELEASED);
            return Optional.empty();
        } catch (IOException failed) {
            return Optional.of(failed.getMessage());
        }
    }

    private void say(String sentence) {
        out.println(sentence);
        out.flush();
    }
}
