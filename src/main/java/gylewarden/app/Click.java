package gylewarden.app;

import gylewarden.app.config.ChamberConfig;
import gylewarden.app.config.Config;
import gylewarden.app.config.Quantity;
import gylewarden.control.Contact;
import gylewarden.control.Switched;
import gylewarden.relay.Relay;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;

/**
 * Energises one relay once, so that a person sees which load it switches. Nothing decides here but a person, so the one
 * rule that protects a compressor is kept by hand: its minimum off time before, its minimum on time during.
 */
record Click(PrintWriter out, BufferedReader in, Pause pause) {
    static final Duration CLICK = Duration.ofSeconds(2);

    private static final Duration LEASE = Duration.ofSeconds(5);
    private static final Duration RENEWAL = Duration.ofSeconds(1);
    private static final int RETRIES = 3;
    private static final String STOOD_STILL = "this machine stood still for seconds";

    /** The chamber whose compressor a relay drives. */
    static Optional<ChamberConfig> compressor(Config config, String relay) {
        return config.chambers().stream()
                .filter(chamber -> chamber.coolingRelay().equals(Optional.of(relay)))
                .filter(chamber -> chamber.rules().fitted().hasCompressor())
                .findFirst();
    }

    /** How long to energise it: a click if a person says that no compressor can run, else what a compressor needs. */
    Duration ask(String relay, Optional<ChamberConfig> compressor) throws IOException, InterruptedException {
        return ask(relay, compressor, CLICK);
    }

    /** @param click how long it takes where no compressor can run */
    Duration ask(String relay, Optional<ChamberConfig> compressor, Duration click)
            throws IOException, InterruptedException {
        if (compressor.isEmpty()) return click;
        Duration off = compressor.get().rules().timing().minimumOff();
        Duration on = compressor.get().rules().timing().minimumOn();
        out.println("Relay " + relay + " drives a compressor, and " + words(click)
                + " would harm it. Is the compressor's plug out"
                + " of its socket? Write yes for " + words(click) + "; anything else keeps the relay released for "
                + Quantity.written(off) + " and then runs the compressor for " + Quantity.written(on) + ":");
        out.flush();
        String answer = Optional.ofNullable(in.readLine()).orElse("");
        if (answer.strip().toLowerCase(Locale.ROOT).equals("yes")) return click;
        out.println("The relay stays released for " + Quantity.written(off) + " first. Ctrl-C ends it.");
        out.flush();
        pause.of(off);
        return on;
    }

    private static String words(Duration click) {
        return click.equals(CLICK) ? "two seconds" : Quantity.written(click);
    }

    /** Energises for so long, then releases; ends at once if the relay no longer does what it was asked. */
    void energise(Relay relay, Duration span) throws CommandFailed, InterruptedException {
        Switched on = relay.apply(Contact.ENERGISED, LEASE);
        if (!runs(on)) throw failed("energised", relay, on);
        out.println("Relay " + relay.id() + " is energised for " + Quantity.written(span) + ".");
        out.flush();
        for (Duration left = span; left.compareTo(Duration.ZERO) > 0; left = left.minus(RENEWAL)) {
            pause.of(left.compareTo(RENEWAL) < 0 ? left : RENEWAL);
            // Not at the end: a renewal there would be followed at once by the release.
            if (left.compareTo(RENEWAL) > 0) renew(relay);
        }
        if (release(relay).lapsed().isPresent()) throw tooEarly(relay, STOOD_STILL);
        out.println("Relay " + relay.id() + " is released.");
        out.flush();
    }

    /** The call after the one that tells of a lapse would energise again: a compressor a second after its stop. */
    private void renew(Relay relay) throws CommandFailed, InterruptedException {
        Switched renewed = relay.apply(Contact.ENERGISED, LEASE);
        if (runs(renewed)) return;
        release(relay);
        throw tooEarly(relay, renewed.failure().orElse(STOOD_STILL));
    }

    /** A release that fails is tried again by the relay itself, each second: it is waited for a little. */
    private Switched release(Relay relay) throws CommandFailed, InterruptedException {
        Switched off = relay.apply(Contact.RELEASED, LEASE);
        for (int retry = 0; off.contact() != Contact.RELEASED && retry < RETRIES; retry++) {
            pause.of(RENEWAL);
            off = relay.apply(Contact.RELEASED, LEASE);
        }
        if (off.contact() != Contact.RELEASED) throw failed("released", relay, off);
        return off;
    }

    private static boolean runs(Switched did) {
        return did.contact() == Contact.ENERGISED && did.failure().isEmpty();
    }

    private static CommandFailed tooEarly(Relay relay, String why) {
        return new CommandFailed("relay " + relay.id() + " was released before its time: " + why);
    }

    private static CommandFailed failed(String wanted, Relay relay, Switched did) {
        return new CommandFailed("relay " + relay.id() + " could not be " + wanted + ": "
                + did.failure().orElse("it released by itself") + ". Pull the plug of its load.");
    }
}
