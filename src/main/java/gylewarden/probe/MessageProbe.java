package gylewarden.probe;

import gylewarden.control.Sample;
import gylewarden.control.Sample.Failed;
import gylewarden.control.Sample.Fault;
import gylewarden.control.Sample.Measured;
import gylewarden.units.MonotonicClock;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;

/**
 * A thermometer that sends its readings by itself. A message is an attempt that ended when it came; it counts until it is
 * too old, with its true age. From then on each {@link #interval} is an attempt without an answer. Waits for nobody.
 */
public final class MessageProbe implements Probe {
    private static final int INTERVALS = 3;

    private final String id;
    private final MessageForm form;
    private final Duration maxAge;
    private final Calibration calibration;
    private final MonotonicClock clock;
    private final Uptime begun;
    private final AtomicReference<Optional<Sample>> heard = new AtomicReference<>(Optional.empty());

    /** @param maxAge how long a message counts, above 0 s */
    public MessageProbe(String id, MessageForm form, Duration maxAge, Calibration calibration, MonotonicClock clock) {
        if (maxAge.isZero() || maxAge.isNegative())
            throw new IllegalArgumentException("a message must count for more than 0 s: " + maxAge);
        this.id = id;
        this.form = form;
        this.maxAge = maxAge;
        this.calibration = calibration;
        this.clock = clock;
        this.begun = clock.read();
    }

    @Override
    public String id() {
        return id;
    }

    /** A third of the time that a message counts: what is believed outlives its last good reading by three intervals. */
    @Override
    public Duration interval() {
        return Duration.ofNanos((maxAge.toNanos() + INTERVALS - 1) / INTERVALS);
    }

    /**
     * A message has come. One that was kept for us does not belong here: nobody knows when it was measured.
     *
     * @param at when it came; one that is passed on later than its successor is dropped
     * @return why it is no reading, a sentence without its full stop
     */
    public Optional<String> hear(String text, Uptime at) {
        MessageForm.Found found = form.read(text);
        Sample sample = found.fold(
                temperature -> new Measured(at, calibration.apply(temperature)),
                unusable -> new Failed(at, Fault.IMPOSSIBLE));
        heard.accumulateAndGet(Optional.of(sample), MessageProbe::later);
        return found.fold(reading -> Optional.empty(), Optional::of);
    }

    private static Optional<Sample> later(Optional<Sample> before, Optional<Sample> next) {
        boolean late = before.isPresent()
                && next.orElseThrow().at().isBefore(before.get().at());
        return late ? before : next;
    }

    @Override
    public Optional<Sample> latest() {
        Optional<Sample> last = heard.get();
        Uptime until = last.map(Sample::at).orElse(begun).plus(maxAge);
        Uptime now = clock.read();
        if (!now.isAfter(until)) return last;
        long missed = now.since(until).dividedBy(interval());
        return Optional.of(new Failed(until.plus(interval().multipliedBy(missed)), Fault.NO_ANSWER));
    }
}
