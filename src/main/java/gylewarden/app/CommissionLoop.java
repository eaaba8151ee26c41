package gylewarden.app;

import gylewarden.chamber.ChamberLoop;
import gylewarden.commission.Commissioning;
import gylewarden.commission.Commissioning.Doing;
import gylewarden.commission.Sight;
import gylewarden.commission.Verdict;
import gylewarden.control.Orders;
import gylewarden.control.Rules;
import gylewarden.control.Side;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.GuidedWords;
import gylewarden.journal.Scale;
import gylewarden.units.Uptime;
import java.io.PrintWriter;
import java.time.Duration;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;

/**
 * Ticks one chamber each second while it is commissioned, and says a line each minute. The chamber is the one of every day; only
 * what it is asked for comes from the commissioning.
 *
 * @param ask tells the chamber what is tried
 * @param tick one tick of the chamber
 */
record CommissionLoop(
        PrintWriter out, Consumer<Orders.Trial> ask, Supplier<ChamberStatus> tick, Pause pause, Scale scale) {
    private static final Duration MINUTE = Duration.ofMinutes(1);
    /** The longest minimum on time is half an hour; a relay that can't be written is not waited for so long. */
    private static final Duration RELEASED_WITHIN = Duration.ofMinutes(31);

    /** Ends with everything released, unless a relay can't be written. */
    Verdict run(Rules rules, Uptime begun) throws InterruptedException {
        Commissioning going = Commissioning.begin(rules, begun);
        Optional<Doing> told = Optional.empty();
        Uptime nextLine = begun;
        while (going.verdict().isEmpty()) {
            ask.accept(new Orders.Trial(going.wanted()));
            ChamberStatus status = tick.get();
            going = going.after(sight(status));
            Doing doing = going.stage().doing();
            boolean changed = !told.equals(Optional.of(doing));
            if (going.verdict().isEmpty() && (changed || !status.at().isBefore(nextLine))) {
                say(line(going, status, begun));
                nextLine = status.at().plus(MINUTE);
            }
            told = Optional.of(doing);
            pause.of(ChamberLoop.EACH);
        }
        release();
        return going.verdict().get();
    }

    private void release() throws InterruptedException {
        ask.accept(new Orders.Trial(Optional.empty()));
        ChamberStatus status = tick.get();
        Uptime until = status.at().plus(RELEASED_WITHIN);
        while (energised(status).isPresent() && writable(status) && status.at().isBefore(until)) {
            pause.of(ChamberLoop.EACH);
            status = tick.get();
        }
        energised(status)
                .ifPresent(side -> say("The relay for " + name(side) + " is NOT released: pull the plug of its load."));
    }

    private static Sight sight(ChamberStatus status) {
        return Sight.of(
                status.at(),
                status.readings().beer(),
                status.readings().air(),
                status.guard(),
                status.decision().reason());
    }

    private String line(Commissioning going, ChamberStatus status, Uptime begun) {
        Duration since = status.at().since(begun);
        return String.format("%3d min  ", since.toMinutes()) + new GuidedWords(scale).now(going, status) + "  beer "
                + words(status.readings().beer().believed().map(scale::words))
                + status.readings()
                        .air()
                        .map(air -> ", air " + words(air.believed().map(scale::words)))
                        .orElse("");
    }

    private static String words(Optional<String> temperature) {
        return temperature.orElse("not believed");
    }

    private static Optional<Side> energised(ChamberStatus status) {
        for (Side side : Side.values()) if (status.guard().load(side).energised()) return Optional.of(side);
        return Optional.empty();
    }

    private static boolean writable(ChamberStatus status) {
        return status.guard().cooling().writable() && status.guard().heating().writable();
    }

    static String name(Side side) {
        return side == Side.COOLING ? "cooling" : "heating";
    }

    private void say(String line) {
        out.println(line);
        out.flush();
    }
}
