package gylewarden.web;

import gylewarden.browser.Browser;
import gylewarden.units.MonotonicClock;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Timer;
import java.util.TimerTask;

/**
 * The page, open in a browser, on the real API of a house whose time passes ten times as fast as ours.
 *
 * @param address of the page, without a slash at its end
 */
record PageInABrowser(SmallHouse house, Live live, Timer time, String address, Server server, Browser browser)
        implements AutoCloseable {
    private static final Duration EACH = Duration.ofMillis(200);
    private static final Duration PASSES = Duration.ofSeconds(2);

    /** So often the page hears of each chamber, though nothing happens. */
    private static final Duration TOLD_EACH = Duration.ofSeconds(1);

    static PageInABrowser open(Path folder, SmallHouse house) throws NotStarted {
        Browser browser = Browser.start(folder);
        try {
            house.runFor(Duration.ofMinutes(1));
            var live = new Live(house, MonotonicClock.system(), TOLD_EACH, (thread, bug) -> bug.printStackTrace());
            house.record.tell(live::happened);
            Server server = Server.start(
                    new Address("127.0.0.1", 0), new Api(house.wired(), Assets.load(), live).routes(), List.of(live));
            String address = "http://127.0.0.1:" + server.port();
            browser.open(address + "/");
            var time = new Timer("time of the house", true);
            time.scheduleAtFixedRate(
                    new TimerTask() {
                        @Override
                        public void run() {
                            house.runFor(PASSES);
                        }
                    },
                    0,
                    EACH.toMillis());
            return new PageInABrowser(house, live, time, address, server, browser);
        } catch (NotStarted | RuntimeException notOpened) {
            browser.close();
            throw notOpened;
        }
    }

    /** From now on no loop ticks. */
    void stopTime() {
        time.cancel();
    }

    void go(String path) {
        browser.open(address + path);
    }

    @Override
    public void close() {
        stopTime();
        browser.close();
        server.close();
    }
}
