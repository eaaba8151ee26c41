package gylewarden.process;

import java.time.Duration;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;

/** Waiting for a process: a condition is asked again and again, up to a deadline that is generous for a slow machine. */
final class Await {
    /** Long enough for a start of the daemon on a machine with something else to do. */
    static final Duration LONG = Duration.ofSeconds(90);

    private static final long EACH_MILLIS = 20;

    private Await() {}

    /**
     * Until {@code condition} holds.
     *
     * @param what the sentence of the failure if it does not within {@code deadline}
     * @param evidence what to show then
     */
    static void until(String what, Duration deadline, Supplier<String> evidence, BooleanSupplier condition) {
        long end = System.nanoTime() + deadline.toNanos();
        while (!condition.getAsBoolean()) {
            if (System.nanoTime() - end > 0)
                throw new AssertionError("not within " + deadline.toSeconds() + " s: " + what + "\n" + evidence.get());
            pause();
        }
    }

    /** {@code condition} has to hold all the time for so long. */
    static void holds(String what, Duration span, Supplier<String> evidence, BooleanSupplier condition) {
        long end = System.nanoTime() + span.toNanos();
        while (System.nanoTime() - end < 0) {
            if (!condition.getAsBoolean()) throw new AssertionError("no longer true: " + what + "\n" + evidence.get());
            pause();
        }
    }

    static void pause() {
        try {
            Thread.sleep(EACH_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new AssertionError("interrupted while waiting", e);
        }
    }
}
