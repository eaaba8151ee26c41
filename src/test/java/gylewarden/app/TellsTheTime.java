package gylewarden.app;

import gylewarden.schedule.ClockReading;
import gylewarden.store.ConfirmedTime;
import gylewarden.units.MonotonicClock;
import java.nio.file.Path;

/** A process of its own that reads the board's clock once and prints it. */
final class TellsTheTime {
    private TellsTheTime() {}

    public static void main(String[] arguments) {
        var clock = new BoardClock(
                BoardClock.Sources.kernel(MonotonicClock.system()), false, new ConfirmedTime(Path.of(arguments[0])));
        if (arguments.length > 1) clock.confirm();
        ClockReading now = clock.get();
        System.out.println(now.boot() + " " + now.sinceBoot() + " " + now.wall() + " " + clock.voucher());
    }
}
