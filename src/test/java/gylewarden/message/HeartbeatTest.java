package gylewarden.message;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.net.httpserver.HttpServer;
import gylewarden.post.PostRules.Now;
import gylewarden.units.Uptime;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;

/** Against a real HTTP server in this process. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
class HeartbeatTest {
    private final AtomicInteger beats = new AtomicInteger();
    private final AtomicInteger tests = new AtomicInteger();
    private HttpServer server;
    private int status = 200;
    private boolean healthy = true;
    private long seconds = 1;
    private Heartbeat heartbeat;

    @BeforeEach
    void start() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/alive", exchange -> {
            beats.incrementAndGet();
            exchange.sendResponseHeaders(status, -1);
            exchange.close();
        });
        server.start();
        heartbeat = new Heartbeat(
                "watchdog",
                URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/alive"),
                Duration.ofMinutes(5),
                Webhook.client(),
                () -> healthy,
                () -> new Now(Uptime.ofSeconds(seconds), Letters.MADE),
                tests::incrementAndGet);
    }

    @AfterEach
    void stop() {
        server.stop(0);
    }

    @Test
    void it_beats_while_all_is_well() {
        heartbeat.beat();
        assertEquals(1, beats.get());
        assertEquals(Optional.of(Letters.MADE), heartbeat.state().lastArrived());
    }

    @Test
    void it_beats_as_often_as_the_config_says_and_at_once_when_all_is_well_again() {
        heartbeat.beat();
        seconds += 299;
        heartbeat.beat();
        assertEquals(1, beats.get());
        healthy = false;
        seconds += 600;
        heartbeat.beat();
        assertEquals(1, beats.get());
        healthy = true;
        seconds += 5;
        heartbeat.beat();
        assertEquals(2, beats.get());
    }

    @Test
    void one_beat_more_can_be_asked_for_and_says_that_it_arrived() {
        heartbeat.beat();
        assertTrue(heartbeat.ask());
        status = 500;
        seconds += 1;
        heartbeat.beat();
        assertEquals(2, beats.get());
        assertEquals(0, tests.get(), "it did not arrive");
        status = 200;
        assertTrue(heartbeat.ask());
        heartbeat.beat();
        heartbeat.beat();
        assertEquals(3, beats.get(), "one, and no more");
        assertEquals(1, tests.get());
    }

    @Test
    void a_beat_is_refused_while_it_would_say_the_opposite_of_the_truth() {
        healthy = false;
        assertFalse(heartbeat.ask());
        heartbeat.beat();
        healthy = true;
        heartbeat.beat();
        assertEquals(0, tests.get());
    }

    @Test
    void it_keeps_silent_while_a_loop_stands_still_or_an_only_probe_is_lost() {
        healthy = false;
        heartbeat.beat();
        assertEquals(0, beats.get());
        assertEquals(Optional.empty(), heartbeat.state().failing(), "silence is no failure of the network");
    }

    @Test
    void what_does_not_arrive_is_told_until_it_does() {
        status = 500;
        heartbeat.beat();
        seconds += 300;
        heartbeat.beat();
        ChannelState.Failing failing = heartbeat.state().failing().orElseThrow();
        assertEquals(2, failing.tries());
        assertEquals("The server 127.0.0.1 answered 500.", failing.why());
        status = 200;
        seconds += 300;
        heartbeat.beat();
        assertEquals(Optional.empty(), heartbeat.state().failing());
    }

    @Test
    void a_server_that_is_away_is_named() {
        server.stop(0);
        heartbeat.beat();
        assertTrue(heartbeat
                .state()
                .failing()
                .orElseThrow()
                .why()
                .startsWith("The server 127.0.0.1 could not be reached: "));
    }
}
