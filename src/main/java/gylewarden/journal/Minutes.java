package gylewarden.journal;

import gylewarden.batch.Batch;
import gylewarden.schedule.ClockReading;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/**
 * Sums up one chamber's seconds into minutes of the wall clock. A status stands for its moment as to the probes, and for the
 * time since the status before as to the relays, which may reach over the end of a minute and is then parted there.
 *
 * <p>A minute ends early where the wall clock is stepped, where it begins or ceases to be believed, where another batch
 * decides, and where nobody looked.
 */
public record Minutes(Optional<Last> last, Optional<MinuteTally> open) {
    /** Longer without a status is a gap, and what happened in it is not known: as long as a relay's lease. */
    static final Duration LONGEST_SPAN = Duration.ofSeconds(15);
    /**
     * By so much the wall clock may move against the monotonic one within a minute. A time service slews by 30 ms in a
     * minute at most (500 parts in a million); with less than half a second, a whole minute still rounds to 60 s.
     */
    static final Duration STEPPED = Duration.ofMillis(400);

    /** The status before: when it was, on both clocks. */
    record Last(Uptime at, ClockReading clock) {}

    /** What has been summed up so far, and the minutes that ended meanwhile, oldest first. */
    public record Told(Minutes minutes, List<Minute> ended) {}

    public static Minutes none() {
        return new Minutes(Optional.empty(), Optional.empty());
    }

    /** The minute under way, as far as it has been seen. */
    public Optional<Minute> soFar() {
        return open.map(MinuteTally::minuteSoFar);
    }

    /** One status more of the same chamber. */
    public Told after(ChamberStatus status) {
        ClockReading clock = status.clock();
        Optional<UUID> batch = status.mandate().batch().map(Batch::id);
        var now = new Last(status.at(), clock);
        var ended = new ArrayList<Minute>();
        Optional<MinuteTally> tally = open;
        if (last.isPresent() && tally.isPresent()) {
            boolean seen = seenSince(last.get(), now);
            boolean stepped = stepped(tally.get().began(), clock);
            if (seen) tally = Optional.of(span(tally.get(), status, stepped ? last.get() : now, ended));
            boolean same = seen
                    && !stepped
                    && tally.get().batch().equals(batch)
                    && tally.get().began().wallIsBelieved() == clock.wallIsBelieved();
            long minute = Minute.unixMinute(clock);
            if (!same || minute > tally.get().minute()) {
                ended.add(tally.get().minuteSoFar());
                tally = Optional.empty();
            }
        }
        MinuteTally going =
                tally.orElseGet(() -> MinuteTally.begin(status.chamber(), clock, Minute.unixMinute(clock), batch));
        return new Told(new Minutes(Optional.of(now), Optional.of(going.with(status))), List.copyOf(ended));
    }

    /** The minute under way ends here: nothing follows. */
    public Optional<Minute> end() {
        return open.map(MinuteTally::minuteSoFar);
    }

    /** Adds the time since the last status, parted at the ends of the minutes as the clock {@code by} tells them. */
    private MinuteTally span(MinuteTally tally, ChamberStatus status, Last by, List<Minute> ended) {
        MinuteTally going = tally;
        Uptime from = last.orElseThrow().at();
        while (from.isBefore(status.at())) {
            Instant next = Instant.ofEpochSecond((going.minute() + 1) * 60);
            Uptime minuteEnds = by.at().plus(Duration.between(by.clock().wall(), next));
            if (!minuteEnds.isBefore(status.at())) return going.spanning(from, status.at(), status);
            // A clock slewed forward may find the end a moment before the last status.
            Uptime to = minuteEnds.orLater(from);
            ended.add(going.spanning(from, to, status).minuteSoFar());
            going = MinuteTally.begin(going.chamber(), shifted(by, to), going.minute() + 1, going.batch());
            from = to;
        }
        return going;
    }

    /** What the clocks of {@code by} told or will tell at another moment. */
    private static ClockReading shifted(Last by, Uptime moment) {
        Duration later = moment.since(by.at());
        ClockReading clock = by.clock();
        Duration sinceBoot = clock.sinceBoot().plus(later);
        return new ClockReading(
                clock.boot(),
                sinceBoot.isNegative() ? Duration.ZERO : sinceBoot,
                clock.wall().plus(later),
                clock.trusted());
    }

    private static boolean seenSince(Last earlier, Last now) {
        Duration span = now.at().since(earlier.at());
        return !span.isNegative() && span.compareTo(LONGEST_SPAN) <= 0;
    }

    private static boolean stepped(ClockReading began, ClockReading now) {
        Duration wall = Duration.between(began.wall(), now.wall());
        return wall.minus(now.sinceBoot().minus(began.sinceBoot())).abs().compareTo(STEPPED) > 0;
    }
}
