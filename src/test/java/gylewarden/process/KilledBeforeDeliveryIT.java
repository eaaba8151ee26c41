package gylewarden.process;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gylewarden.process.Receiver.Request;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A daemon that is killed at any moment between a letter and its delivery. */
@OfTheRealJar
class KilledBeforeDeliveryIT {
    private static final Logger LOG = LoggerFactory.getLogger(KilledBeforeDeliveryIT.class);
    private static final int KILLS = Boolean.getBoolean("gylewarden.thorough") ? 200 : 6;
    private static final long SEED = 11;

    /** Refuses all until the end. */
    private static final String SHUT = "shut";

    /** Takes what it gets, after a while. */
    private static final String OPEN = "open";

    /** How long a request lies at a server that takes it: a kill in it leaves a letter that arrived and may come again. */
    private static final int LONGEST_TAKEN_MILLIS = 600;

    /** Over 200 lives fewer than the 1000 that may wait at once. */
    private static final Duration ASKED_EACH = Duration.ofMillis(400);

    /** What the database of a daemon that is dead says of letters. */
    private record Kept(Map<String, String> waiting, Map<String, String> arrived, Set<String> givenUp) {
        static Kept in(FakeBoard board, Path copy) throws IOException, SQLException {
            try (var record = SqlFile.copied(board.data(), copy)) {
                assertEquals(List.of("ok"), record.texts("PRAGMA integrity_check"));
                return new Kept(
                        channels(record, "ending IS NULL"),
                        channels(record, "ending = 'SENT'"),
                        channels(record, "ending = 'GIVEN_UP'").keySet());
            }
        }

        /** The channel of each, by its id. */
        private static Map<String, String> channels(SqlFile record, String which) throws SQLException {
            return record.texts("SELECT id || ' ' || channel FROM letter WHERE " + which).stream()
                    .collect(Collectors.toMap(each -> each.split(" ", 2)[0], each -> each.split(" ", 2)[1]));
        }
    }

    @Test
    @Timeout(2 * 3600)
    void what_waited_arrives_with_its_id_and_what_had_arrived_never_comes_again(@TempDir Path folder) throws Exception {
        var random = new Random(SEED);
        var refuses = new AtomicBoolean(true);
        try (var receiver = Receiver.open(path -> answer(path, refuses));
                var board = FakeBoard.withWarmBeer(folder)) {
            board.configure(board.text() + hook(SHUT, receiver) + hook(OPEN, receiver));
            Map<String, Integer> arrivedInLife = new HashMap<>();
            Set<String> everKept = new HashSet<>();
            Kept kept = new Kept(Map.of(), Map.of(), Set.of());
            int hanging = 0;
            for (int kill = 0; kill < KILLS; kill++) {
                int life = receiver.nextLife();
                DaemonProcess daemon = board.run();
                long moment = random.nextInt(100, 2_000);
                // In each second life one has arrived for certain, however slow the machine is: the next is on its way.
                boolean afterAnArrival = kill % 2 == 1;
                askForLettersUntilKilled(
                        new Api(board),
                        daemon,
                        Duration.ofMillis(moment),
                        () -> !afterAnArrival || taken(life, receiver) >= 2);
                kept = Kept.in(board, folder.resolve("copy-" + kill));
                String when = "seed " + SEED + ", kill " + kill + " after " + moment + " ms";
                assertEquals(Set.of(), missing(everKept, kept), () -> when + ": lost");
                assertEquals(Set.of(), kept.givenUp(), when);
                assertFalse(kept.waiting().isEmpty(), () -> when + ": none waited");
                everKept.addAll(kept.waiting().keySet());
                for (String id : kept.arrived().keySet()) arrivedInLife.putIfAbsent(id, life);
                hanging += (int)
                        kept.waiting().values().stream().filter(OPEN::equals).count();
            }
            refuses.set(false);
            int last = receiver.nextLife();
            DaemonProcess daemon = board.run();
            Set<String> waited = kept.waiting().keySet();
            Await.until(
                    "all that waited arrives",
                    Await.LONG.plusSeconds(KILLS),
                    () -> daemon.said() + "\n" + arrivedIn(last, receiver).size() + " of " + waited.size(),
                    () -> arrivedIn(last, receiver).containsAll(waited));
            for (Request request : requests(receiver))
                if (arrivedInLife.containsKey(request.id()))
                    assertTrue(
                            request.life() <= arrivedInLife.get(request.id()),
                            () -> "it came again in life " + request.life() + " though its arrival was stored in life "
                                    + arrivedInLife.get(request.id()) + ": " + request);
            assertTrue(arrivedInLife.size() >= KILLS / 3, "hardly any arrived before the end: " + arrivedInLife);
            daemon.signal("TERM");
            assertEquals(0, daemon.ended(Await.LONG), daemon::said);
            assertEquals(Map.of(), Kept.in(board, folder.resolve("copy-last")).waiting(), "each is stored as arrived");
            LOG.info(
                    "{} kills: {} letters had arrived before the end, {} waited at it; {} times one waited where it is taken;"
                            + " {} arrived twice",
                    KILLS,
                    arrivedInLife.size(),
                    waited.size(),
                    hanging,
                    twice(receiver));
        }
    }

    private static int answer(String path, AtomicBoolean refuses) {
        if (path.endsWith(SHUT)) return refuses.get() ? 500 : 204;
        if (!refuses.get()) return 204;
        LockSupport.parkNanos(Duration.ofMillis(ThreadLocalRandom.current().nextInt(LONGEST_TAKEN_MILLIS))
                .toNanos());
        return 204;
    }

    private static String hook(String name, Receiver receiver) {
        return "\n[message." + name + "]\nkind = \"webhook\"\naddress = \"" + receiver.address("/" + name) + "\"\n";
    }

    private static long taken(int life, Receiver receiver) {
        return receiver.to("/" + OPEN).stream()
                .filter(request -> request.life() == life)
                .count();
    }

    /** @param due what has to be so before the moment begins */
    private static void askForLettersUntilKilled(Api api, DaemonProcess daemon, Duration moment, BooleanSupplier due)
            throws IOException, InterruptedException {
        var over = new AtomicBoolean();
        var asked = new AtomicInteger();
        var person = new Thread(
                () -> {
                    try {
                        for (; !over.get(); LockSupport.parkNanos(ASKED_EACH.toNanos()))
                            for (String channel : List.of(SHUT, OPEN)) {
                                api.send("POST", "/api/channels/" + channel + "/test", "{}");
                                asked.incrementAndGet();
                            }
                    } catch (IOException gone) {
                        return; // it is killed
                    }
                },
                "a person");
        person.start();
        Await.until("what the moment counts from", Await.LONG, daemon::said, due);
        long end = System.nanoTime() + moment.toNanos();
        Await.until(
                "the moment of the kill",
                Await.LONG,
                daemon::said,
                () -> System.nanoTime() - end >= 0 && asked.get() > 0);
        daemon.kill();
        over.set(true);
        person.join();
    }

    /** Each that was once kept waits still, or has arrived. */
    private static Set<String> missing(Set<String> everKept, Kept kept) {
        Set<String> missing = new HashSet<>(everKept);
        missing.removeAll(kept.waiting().keySet());
        missing.removeAll(kept.arrived().keySet());
        return missing;
    }

    private static List<Request> requests(Receiver receiver) {
        return java.util.stream.Stream.of(SHUT, OPEN)
                .flatMap(name -> receiver.to("/" + name).stream())
                .toList();
    }

    private static Set<String> arrivedIn(int life, Receiver receiver) {
        return requests(receiver).stream()
                .filter(request -> request.life() == life && request.answered() == 204)
                .map(Request::id)
                .collect(Collectors.toSet());
    }

    private static long twice(Receiver receiver) {
        return requests(receiver).stream()
                .filter(request -> request.answered() == 204)
                .collect(Collectors.groupingBy(Request::id, Collectors.counting()))
                .values()
                .stream()
                .filter(times -> times > 1)
                .count();
    }
}
