package gylewarden.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.chamber.ChamberLoop;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.EventWords.Loudness;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A real loop in real time, with a hundred pages open beside it. */
@Timeout(120)
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class LiveBesideALoopTest {
    private static final Logger LOG = LoggerFactory.getLogger(LiveBesideALoopTest.class);
    private static final MonotonicClock CLOCK = MonotonicClock.system();
    private static final int PAGES = 100;
    private static final Duration LONG = Duration.ofSeconds(12);

    /** A relay's lease is 15 s and the service manager's patience 10 s: a tick that is this late is no harm yet. */
    private static final Duration LATE = Duration.ofSeconds(2);

    @Test
    void a_hundred_pages_and_one_that_never_reads_make_no_chamber_miss_a_tick() throws IOException, NotStarted {
        var house = new SmallHouse(Optional.of(CLOCK));
        var ticks = new TreeSet<Uptime>();
        var messages = new AtomicInteger();
        List<Socket> pages = new ArrayList<>();
        try (var running = RunningServer.of(house);
                var loop = new ChamberLoop(house.chambers().get(0), CLOCK, (thread, bug) -> {})) {
            house.record.tell(running.live()::happened);
            loop.start();
            Socket deaf = open(running);
            pages.add(deaf);
            for (int i = 0; i < PAGES; i++) {
                Socket page = open(running);
                pages.add(page);
                read(page, messages);
            }
            Uptime patience = CLOCK.read().plus(Duration.ofSeconds(20));
            while (running.live().clients() <= PAGES && CLOCK.read().isBefore(patience)) pause();
            assertEquals(PAGES + 1, running.live().clients());
            Uptime end = CLOCK.read().plus(LONG);
            int told = 0;
            while (CLOCK.read().isBefore(end)) {
                house.record.happened(SmallHouse.BEGINNING, "cave", "Something", Loudness.INFO, "x".repeat(5_000));
                told++;
                house.status("cave").map(ChamberStatus::at).ifPresent(ticks::add);
                pause();
            }
            int expected = PAGES * told;
            patience = CLOCK.read().plus(Duration.ofSeconds(20));
            while (messages.get() < expected && CLOCK.read().isBefore(patience)) pause();
            assertEquals(expected, messages.get(), "every page that reads hears everything");
            assertTrue(told > LiveClient.MOST_WAITING, "too little was told to fill a queue: " + told);
            Duration longest = longestBetween(ticks);
            LOG.info(
                    "beside {} pages: {} ticks in {} s, the latest {} ms after the one before; {} events to each page",
                    PAGES,
                    ticks.size(),
                    LONG.toSeconds(),
                    longest.toMillis(),
                    told);
            assertTrue(ticks.size() >= LONG.toSeconds() - 2, "only " + ticks.size() + " ticks");
            assertTrue(longest.compareTo(LATE) < 0, "a tick came " + longest + " after the one before");
        } finally {
            for (Socket page : pages) page.close();
        }
    }

    private static void pause() {
        LockSupport.parkNanos(Duration.ofMillis(20).toNanos());
    }

    private static Duration longestBetween(SortedSet<Uptime> ticks) {
        Duration longest = Duration.ZERO;
        Uptime before = ticks.first();
        for (Uptime tick : ticks) {
            if (tick.since(before).compareTo(longest) > 0) longest = tick.since(before);
            before = tick;
        }
        return longest;
    }

    private static Socket open(RunningServer running) throws IOException {
        Socket page = running.client().connect();
        page.getOutputStream()
                .write(("GET /api/live HTTP/1.1\r\nHost: 127.0.0.1:"
                                + running.server().port() + "\r\n\r\n")
                        .getBytes(StandardCharsets.US_ASCII));
        return page;
    }

    /** Counts the messages that a page hears, on a thread of the test. */
    private static void read(Socket page, AtomicInteger messages) {
        var reader = new Thread(() -> {
            try (var lines = page.getInputStream()) {
                byte[] sought = "\"kind\":\"something\"".getBytes(StandardCharsets.US_ASCII);
                byte[] piece = new byte[16_384];
                int found = 0;
                for (int read = lines.read(piece); read >= 0; read = lines.read(piece))
                    for (int i = 0; i < read; i++) {
                        found = piece[i] == sought[found] ? found + 1 : piece[i] == sought[0] ? 1 : 0;
                        if (found == sought.length) {
                            messages.incrementAndGet();
                            found = 0;
                        }
                    }
            } catch (IOException closed) {
                return;
            }
        });
        reader.setDaemon(true);
        reader.start();
    }
}
