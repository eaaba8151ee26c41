package gylewarden.crooked.units;

public interface MonotonicClock {
    static long read() {
        return System.nanoTime();
    }
}
