package gylewarden.units;

/** Tells {@link Uptime}: never goes back, does not count while the board sleeps. For protections, leases and ages. */
@FunctionalInterface
public interface MonotonicClock {
    Uptime read();

    /** The clock of this process. */
    static MonotonicClock system() {
        return () -> new Uptime(System.nanoTime());
    }
}
