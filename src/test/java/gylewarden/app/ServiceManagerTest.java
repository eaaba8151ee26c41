package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The words are those of sd_notify(3) of systemd 252: READY=1, WATCHDOG=1, STOPPING=1. */
@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class ServiceManagerTest {
    private static final Map<String, String> ASKED = Map.of("NOTIFY_SOCKET", "/run/systemd/notify");

    private final Queue<Throwable> bugs = new ConcurrentLinkedQueue<>();

    @TempDir
    Path folder;

    private void bug(Thread thread, Throwable thrown) {
        bugs.add(thrown);
    }

    @AfterEach
    void no_bug() {
        assertEquals(List.of(), List.copyOf(bugs));
    }

    private List<String> noting() throws Exception {
        Path program = Files.writeString(
                folder.resolve("notify"), "#!/bin/sh\necho \"$*\" >>\"" + folder.resolve("told") + "\"\n");
        Files.setPosixFilePermissions(program, PosixFilePermissions.fromString("rwxr-xr-x"));
        return List.of(program.toString());
    }

    private List<String> told() throws Exception {
        Path told = folder.resolve("told");
        return Files.exists(told) ? Files.readAllLines(told) : List.of();
    }

    @Test
    void where_nobody_asked_nobody_is_told() throws Exception {
        assertEquals(Optional.empty(), ServiceManager.of(Map.of(), noting(), () -> true, this::bug));
    }

    @Test
    void it_is_fed_only_while_every_loop_ticks() throws Exception {
        var ticking = new AtomicBoolean(true);
        var manager =
                ServiceManager.of(ASKED, noting(), ticking::get, this::bug).orElseThrow();
        manager.feed();
        ticking.set(false);
        manager.feed();
        ticking.set(true);
        manager.feed();
        manager.close();
        while (told().size() < 3) TimeUnit.MILLISECONDS.sleep(20);
        assertEquals(List.of("WATCHDOG=1", "WATCHDOG=1", "STOPPING=1"), told());
    }

    @Test
    void that_the_daemon_ends_is_told_without_waiting_for_a_program_that_hangs() throws Exception {
        // It ends when its standard input does, with this test's process.
        List<String> hangs = List.of("sh", "-c", "cat; echo", "notify");
        var manager = ServiceManager.of(ASKED, hangs, () -> true, this::bug).orElseThrow();
        long begun = System.nanoTime();
        manager.close();
        Duration took = Duration.ofNanos(System.nanoTime() - begun);
        assertTrue(took.compareTo(ServiceManager.EACH) < 0, () -> "it waited for " + took);
    }

    @Test
    void it_says_ready_and_then_by_itself_that_the_daemon_is_alive() throws Exception {
        try (var manager =
                ServiceManager.of(ASKED, noting(), () -> true, this::bug).orElseThrow()) {
            manager.ready();
            while (told().size() < 2) TimeUnit.MILLISECONDS.sleep(20);
            assertEquals(List.of("READY=1", "WATCHDOG=1"), told());
        }
    }

    @Test
    void a_program_that_is_missing_or_fails_stops_no_daemon() throws Exception {
        for (String program : List.of(folder.resolve("missing").toString(), "false")) {
            try (var manager = ServiceManager.of(ASKED, List.of(program), () -> true, this::bug)
                    .orElseThrow()) {
                manager.feed();
                manager.feed();
            }
        }
        assertTrue(told().isEmpty());
    }
}
