package gylewarden.link;

import java.util.function.BooleanSupplier;
import java.util.function.Supplier;

/** Waiting for a real thread or process, up to a deadline that is generous for a busy machine. */
public final class Until {
    private static final long LONGEST_NANOS = 90_000_000_000L;
    private static final long EACH_MILLIS = 10;

    private Until() {}

    public static void holds(Supplier<String> evidence, BooleanSupplier condition) {
        long end = System.nanoTime() + LONGEST_NANOS;
        while (!condition.getAsBoolean()) {
            if (System.nanoTime() - end > 0) throw new AssertionError("not within 90 s: " + evidence.get());
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
