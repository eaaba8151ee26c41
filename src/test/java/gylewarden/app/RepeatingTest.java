package gylewarden.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.BiConsumer;
import org.junit.jupiter.api.DisplayNameGeneration;
import org.junit.jupiter.api.DisplayNameGenerator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@DisplayNameGeneration(DisplayNameGenerator.ReplaceUnderscores.class)
@Timeout(60)
class RepeatingTest {
    private static final Duration SOON = Duration.ofMillis(1);

    private record Bug(String thread, Throwable thrown) {}

    private final BlockingQueue<Bug> bugs = new LinkedBlockingQueue<>();

    private void bug(Thread thread, Throwable thrown) {
        bugs.add(new Bug(thread.getName(), thrown));
    }

    @Test
    void work_is_done_again_and_again_until_it_is_closed() throws Exception {
        var times = new CountDownLatch(5);
        try (var repeating = new Repeating("worker", this::bug)) {
            repeating.each(SOON, times::countDown);
            times.await();
        }
        assertTrue(bugs.isEmpty());
    }

    @Test
    void a_bug_is_handed_on_with_its_thread_and_ends_the_work() throws Exception {
        for (BiConsumer<Repeating, Runnable> way : List.<BiConsumer<Repeating, Runnable>>of(
                (repeating, work) -> repeating.each(SOON, work),
                (repeating, work) -> repeating.atRate(SOON, work),
                (repeating, work) -> repeating.after(SOON, work))) {
            var wrong = new AssertionError("wrong");
            var times = new AtomicInteger();
            var later = new CountDownLatch(1);
            try (var repeating = new Repeating("worker", this::bug)) {
                way.accept(repeating, () -> {
                    times.incrementAndGet();
                    throw wrong;
                });
                assertEquals(new Bug("worker", wrong), bugs.take());
                repeating.after(Duration.ofMillis(20), later::countDown);
                later.await();
            }
            assertEquals(1, times.get());
        }
        assertTrue(bugs.isEmpty());
    }

    @Test
    void a_bug_in_what_the_service_manager_is_told_is_handed_on() throws Exception {
        var wrong = new IllegalStateException("wrong");
        var asked = Map.of("NOTIFY_SOCKET", "/run/systemd/notify");
        try (var manager = ServiceManager.of(
                        asked,
                        List.of("true"),
                        () -> {
                            throw wrong;
                        },
                        this::bug)
                .orElseThrow()) {
            manager.ready();
            assertEquals(new Bug("service manager", wrong), bugs.take());
        }
    }
}
