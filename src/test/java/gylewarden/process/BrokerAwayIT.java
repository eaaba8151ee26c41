package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A broker that is not there, or takes the call and says nothing: no chamber waits for either. */
@OfTheRealJar
class BrokerAwayIT {
    private static final Logger LOG = LoggerFactory.getLogger(BrokerAwayIT.class);
    private static final Duration LOOKED_ON = Duration.ofSeconds(30);

    /** A tick so late is still before the next one is due: none was missed. */
    private static final Duration NONE_IS_MISSED = Duration.ofMillis(900);

    @Test
    void no_tick_is_missed_while_nobody_listens_at_the_brokers_port(@TempDir Path folder) throws Exception {
        int port;
        try (var closed = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = closed.getLocalPort();
        }
        noTickIsMissed(folder, port);
    }

    @Test
    void no_tick_is_missed_while_the_broker_takes_the_call_and_stays_silent(@TempDir Path folder) throws Exception {
        List<Socket> calls = new CopyOnWriteArrayList<>();
        try (var silent = new ServerSocket(0, 50, InetAddress.getLoopbackAddress())) {
            var taker = new Thread(
                    () -> {
                        try {
                            while (true) calls.add(silent.accept());
                        } catch (java.io.IOException closed) {
                            return;
                        }
                    },
                    "a silent broker");
            taker.setDaemon(true);
            taker.start();
            noTickIsMissed(folder, silent.getLocalPort());
            assertTrue(!calls.isEmpty(), "nobody has called: this tested nothing");
        } finally {
            for (Socket call : calls) call.close();
        }
    }

    private static void noTickIsMissed(Path folder, int port) throws Exception {
        try (var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text() + "\n[mqtt]\nbroker = \"mqtt://127.0.0.1:" + port + "\"\n");
            DaemonProcess daemon = board.runUntilCooling();
            Ticks ticks = Ticks.seenFor(LOOKED_ON, new Api(board), daemon);
            LOG.info(
                    "{} ticks; the latest was {} ms late",
                    ticks.seen(),
                    ticks.latest().toMillis());
            assertTrue(ticks.latest().compareTo(NONE_IS_MISSED) < 0, () -> "a tick was late by " + ticks.latest());
            assertTrue(ticks.seen() >= LOOKED_ON.toSeconds() - 1, () -> "only " + ticks.seen() + " ticks");
            // A lease that had run out would have released and, after the valve's rest, energised it again.
            assertEquals("0 1", board.valve().texts(), daemon::said);
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
        }
    }
}
