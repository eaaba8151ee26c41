package gylewarden.app;

import gylewarden.app.config.Quantity;
import gylewarden.control.Contact;
import gylewarden.relay.RelayDriver;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.Optional;

/**
 * Proves that a plug stays energised as long as it is told so again and again, and goes off by itself once it is told
 * nothing. All that keeps a load from running for ever after a crash hangs on that.
 *
 * @param autoOff after which the config says that it goes off
 */
record PlugProof(PrintWriter out, RelayDriver driver, Duration autoOff, MonotonicClock clock, Pause pause) {
    private static final Duration LOOK_EACH = Duration.ofSeconds(1);

    /** How long beyond its own time it is renewed: else it might have stayed on without being told again. */
    private static final Duration BEYOND = Duration.ofSeconds(10);

    /** What a plug's timer and the network may be late by. */
    private static Duration late(Duration autoOff) {
        return autoOff.dividedBy(10).plusSeconds(5);
    }

    static final String AT_POWER_UP =
            "Now prove what only you can see: pull the plug out of the wall and put it back. It must stay off, until it is"
                    + " told otherwise; set it so in the plug. Else a power cut starts its load before anything guards it.";

    /** How long it is energised in all, if nothing is longer. */
    Duration renewed() {
        return autoOff.plus(BEYOND);
    }

    /**
     * @param least for how long it has to stay energised, for a compressor's sake
     * @throws CommandFailed if the plug is not fit for use; it has been told "off" then
     */
    void run(String relay, Duration least) throws CommandFailed, InterruptedException {
        Duration span = least.compareTo(renewed()) > 0 ? least : renewed();
        try {
            driver.write(Contact.RELEASED);
            driver.write(Contact.ENERGISED);
            say("Relay " + relay + " is energised and told so again for " + Quantity.written(span) + ".");
            Uptime last = renew(span);
            say("It has stayed on. Now it is told nothing, and must go off by itself within "
                    + Quantity.written(autoOff) + ".");
            Duration after = awaitOff(last);
            driver.write(Contact.RELEASED);
            say("It has gone off by itself, " + Quantity.written(Duration.ofSeconds(after.toSeconds()))
                    + " after it was last told to be on. Relay " + relay + " is released.");
            say(AT_POWER_UP);
        } catch (IOException failed) {
            String released = release()
                    .map(why -> "It is NOT known to be released (" + why + "): pull it")
                    .orElse("It is released");
            throw new CommandFailed("relay " + relay + " is not fit for use: " + failed.getMessage() + ". " + released
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

    private Duration awaitOff(Uptime last) throws IOException, InterruptedException {
        Duration most = autoOff.plus(late(autoOff));
        while (driver.astray().isEmpty()) {
            if (clock.read().since(last).compareTo(most) > 0)
                throw new IOException(
                        "it was told nothing for " + Quantity.written(Duration.ofSeconds(most.toSeconds()))
                                + " and has not said that it went off by itself: set its own timer to "
                                + Quantity.written(autoOff));
            pause.of(LOOK_EACH);
        }
        return clock.read().since(last);
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
