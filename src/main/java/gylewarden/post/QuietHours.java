package gylewarden.post;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Optional;

/**
 * The hours of each day in which only what is urgent rings, by the clock on the wall of whoever sleeps: a night in which the clock is
 * put forward is shorter, one in which it is put back is longer.
 *
 * @param from local time; of a time that comes twice in a night the first
 * @param to local time, on the next day if it is not after {@code from}; of a time that comes twice the second
 */
public record QuietHours(LocalTime from, LocalTime to, ZoneId zone) {
    /** When it ends, if it is quiet now. */
    public Optional<Instant> end(Instant now) {
        LocalDate today = now.atZone(zone).toLocalDate();
        return endOf(today.minusDays(1), now).or(() -> endOf(today, now));
    }

    private Optional<Instant> endOf(LocalDate evening, Instant now) {
        LocalDate morning = to.isAfter(from) ? evening : evening.plusDays(1);
        Instant begins =
                evening.atTime(from).atZone(zone).withEarlierOffsetAtOverlap().toInstant();
        Instant ends =
                morning.atTime(to).atZone(zone).withLaterOffsetAtOverlap().toInstant();
        return !now.isBefore(begins) && now.isBefore(ends) ? Optional.of(ends) : Optional.empty();
    }
}
