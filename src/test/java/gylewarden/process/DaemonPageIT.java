package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.browser.Browser;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The page of a daemon, seen and used through a browser. */
@OfTheRealJar
class DaemonPageIT {
    /** What the first view of a chamber may cost on the wire. */
    private static final long MOST_BYTES = 150_000;

    @Test
    void a_schedule_is_edited_and_the_setpoint_follows(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder);
                var daemon = board.run();
                var browser = Browser.start(folder)) {
            browser.open(board.page() + "/chamber/cellar");
            browser.until("the config's target", () -> hasSetpoint(browser, "19.0"));
            browser.press("Start a batch");
            browser.shows("Start a batch in");
            browser.type("Name", "Lantern Porter 3");
            browser.tick("The yeast is pitched already.");
            browser.press("Start the batch");
            browser.until("the first step's", () -> hasSetpoint(browser, "18.0"));

            browser.press("Change it");
            browser.shows("Schedule of Lantern Porter 3");
            browser.type("Temperature of step 1", "63 °F");
            browser.shows("now: hold at 17.2 °C");
            browser.until("the preview is drawn", () -> browser.count(".plot canvas") == 1);
            browser.press("Save from now on");
            browser.shows("Saved. It holds from now on.");
            browser.picture("daemon-schedule-saved");

            browser.open(board.page() + "/chamber/cellar");
            browser.until("the new one", () -> hasSetpoint(browser, "17.2"));
            board.valve().becomes("1", Await.LONG, daemon);
            browser.shows("Cooling. Coolant on for");
            browser.picture("daemon-chamber-after-the-edit");
            assertOnlyOurs(browser, board);
        }
    }

    private static boolean hasSetpoint(Browser browser, String celsius) {
        return browser.words(".figures").contains("Setpoint\n" + celsius + " °C");
    }

    @Test
    void the_first_view_of_a_chamber_is_small_and_asks_nobody_else(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder);
                var daemon = board.run();
                var browser = Browser.start(folder)) {
            browser.beNarrow();
            browser.open(board.page() + "/chamber/cellar");
            browser.until("the beer is told", () -> browser.words(".figures").startsWith("Beer\n20.0°C"));
            browser.until("the chart is drawn", () -> browser.count(".plot canvas") == 1);
            long cost = browser.bytes();
            assertTrue(cost > 40_000, "only " + cost + " bytes were counted; the chart's library alone has more");
            assertTrue(cost <= MOST_BYTES, "the first view costs " + cost + " bytes");
            assertEquals(360L, browser.evaluate("return document.documentElement.scrollWidth"), "something sticks out");
            browser.picture("daemon-chamber-narrow");
            assertOnlyOurs(browser, board);
            assertTrue(daemon.isAlive(), daemon::said);
        }
    }

    /** What a person sees who has just installed it. */
    @Test
    void a_board_that_names_no_chamber_says_what_to_do_next(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text().substring(0, board.text().indexOf("[[relay]]")));
            try (var daemon = board.start("run", "--config", board.config().toString());
                    var browser = Browser.start(folder)) {
                daemon.says("Nothing is controlled yet: name probes, relays and a chamber in " + board.config()
                        + ", ask check about it, then restart the daemon (systemctl restart gylewarden).");
                daemon.says("Started with no chamber in ");
                browser.beNarrow();
                browser.open(board.page());
                browser.shows("Nothing is controlled yet: the config names no chamber.");
                browser.shows("What to do next");
                assertEquals(
                        360L, browser.evaluate("return document.documentElement.scrollWidth"), "something sticks out");
                browser.picture("daemon-without-a-chamber");
                assertEquals(List.of(), browser.complaints());
            }
        }
    }

    /** No request leaves the machine, no script fails, and the security policy has had nothing to refuse. */
    private static void assertOnlyOurs(Browser browser, FakeBoard board) {
        List<String> asked = browser.asked();
        assertTrue(asked.size() > 20, "only " + asked);
        for (String address : asked)
            assertTrue(address.startsWith(board.page() + "/") || address.startsWith("data:"), address);
        assertEquals(List.of(), browser.complaints());
    }

    @Test
    void when_the_daemon_is_gone_the_page_says_so_and_lives_again_with_it(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder);
                var daemon = board.run();
                var browser = Browser.start(folder)) {
            browser.open(board.page() + "/");
            browser.shows("One chamber is all right.");
            assertEquals(1, browser.count(".beat:not(.is-still)"));
            daemon.kill();
            browser.shows("No word from the board since");
            browser.shows("Beer was, at");
            assertEquals(0, browser.count(".beat:not(.is-still)"), "nothing beats any more");
            browser.picture("daemon-gone");
            board.run();
            browser.until("it lives again", () -> browser.count(".beat:not(.is-still)") == 1);
            browser.shows("One chamber is all right.");
        }
    }
}
