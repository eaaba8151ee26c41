package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.RelayFiles.Write;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The door of the daemon: a port that somebody else has, and very many who look on. */
@OfTheRealJar
class ManyPagesIT {
    private static final Logger LOG = LoggerFactory.getLogger(ManyPagesIT.class);
    private static final int READING = 100;
    private static final Duration LOOKED_ON = Duration.ofSeconds(15);

    /** Of a chamber in which nothing happens a page hears each 5 s. */
    private static final Duration TOLD_EACH = Duration.ofSeconds(5);

    /** What the heap may grow to by the unit's flags is far less than this; the rest is the machine's own. */
    private static final long MOST_RESIDENT_KILOBYTES = 256 * 1024;

    private static InetSocketAddress door(FakeBoard board) {
        URI page = URI.create(board.page());
        return new InetSocketAddress(page.getHost(), page.getPort());
    }

    @Test
    void a_port_that_somebody_else_has_ends_the_start_in_words_and_with_every_relay_released(@TempDir Path folder)
            throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder);
                var other = new ServerSocket()) {
            other.bind(door(board));
            Jar.Outcome outcome = board.command("run");
            assertEquals(1, outcome.status(), outcome.out());
            String address = board.page().substring("http://".length());
            assertEquals(
                    "The page cannot listen on " + address
                            + ": another program has that port, or it is below 1024. Write another under [web] listen, or end"
                            + " the other program. Nothing was started.\n",
                    outcome.err());
            // The recorder of the pipe may be a moment behind the process that has ended.
            Await.until(
                    "each relay is released",
                    Await.LONG,
                    () -> board.valve().texts() + ", " + board.belt().texts(),
                    () -> isReleased(board.valve()) && isReleased(board.belt()));
            assertEquals(-1, board.valve().texts().indexOf('1'), "it was energised meanwhile");
        }
    }

    private static boolean isReleased(RelayFiles relay) {
        return relay.last().map(Write::text).filter("0"::equals).isPresent();
    }

    @Test
    void with_a_hundred_live_pages_and_one_that_never_reads_no_tick_is_missed(@TempDir Path folder) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            DaemonProcess daemon = board.runUntilCooling();
            var api = new Api(board);
            List<Socket> pages = new ArrayList<>();
            List<AtomicInteger> heard = new ArrayList<>();
            try (Socket deaf = connected(board)) {
                for (int i = 0; i < READING; i++) {
                    Socket page = connected(board);
                    pages.add(page);
                    heard.add(new AtomicInteger());
                    reads(page, heard.get(i));
                }
                Await.until("every page hears of the chamber", Await.LONG, daemon::said, () -> leastOf(heard) > 0);
                long residentBefore = residentKilobytes(daemon);
                Duration latest = Ticks.seenFor(LOOKED_ON, api, daemon).latest();
                int least = leastOf(heard);
                long resident = residentKilobytes(daemon);
                LOG.info(
                        "the latest tick of {} s was {} ms late; {} statuses to each of {} pages; the process has {} MB, before {}",
                        LOOKED_ON.toSeconds(),
                        latest.toMillis(),
                        least,
                        READING,
                        resident / 1024,
                        residentBefore / 1024);
                assertTrue(least >= LOOKED_ON.dividedBy(TOLD_EACH), "a page heard only " + least + " times");
                assertTrue(resident < MOST_RESIDENT_KILOBYTES, "it has grown to " + resident + " kB");
                assertTrue(deaf.isConnected() && !deaf.isClosed());
                // A lease that had run out would have released and, after the valve's rest, energised it again.
                assertEquals("0 1", board.valve().texts(), daemon::said);
            } finally {
                for (Socket page : pages) page.close();
            }
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
        }
    }

    private static Socket connected(FakeBoard board) throws IOException {
        var socket = new Socket();
        socket.setReceiveBufferSize(4096);
        socket.connect(door(board));
        String request = "GET /api/live HTTP/1.1\r\nHost: " + board.page().substring("http://".length())
                + "\r\nAccept: text/event-stream\r\n\r\n";
        socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
        return socket;
    }

    /** Counts the statuses that a page hears, on a thread of the test, until the page is closed. */
    private static void reads(Socket page, AtomicInteger heard) {
        var reader = new Thread(
                () -> {
                    byte[] sought = "event: status".getBytes(StandardCharsets.US_ASCII);
                    byte[] piece = new byte[4096];
                    int found = 0;
                    try (var in = page.getInputStream()) {
                        for (int read = in.read(piece); read >= 0; read = in.read(piece))
                            for (int i = 0; i < read; i++) {
                                found = piece[i] == sought[found] ? found + 1 : piece[i] == sought[0] ? 1 : 0;
                                if (found < sought.length) continue;
                                heard.incrementAndGet();
                                found = 0;
                            }
                    } catch (IOException closed) {
                        return;
                    }
                },
                "a page");
        reader.setDaemon(true);
        reader.start();
    }

    private static int leastOf(List<AtomicInteger> heard) {
        return heard.stream().mapToInt(AtomicInteger::get).min().orElseThrow();
    }

    private static long residentKilobytes(DaemonProcess daemon) throws IOException {
        String line = Files.readAllLines(Path.of("/proc/" + daemon.pid() + "/status")).stream()
                .filter(each -> each.startsWith("VmRSS:"))
                .findFirst()
                .orElseThrow();
        return Long.parseLong(line.replaceAll("[^0-9]", ""));
    }
}
