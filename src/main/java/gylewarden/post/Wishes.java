package gylewarden.post;

import gylewarden.control.Condition.Priority;
import gylewarden.journal.Scale;
import java.util.Optional;

/**
 * What a person wants of one channel.
 *
 * @param channel its name in the config
 * @param from the least priority that it hears of
 * @param turn when it hears of what nobody has seen
 * @param quiet hours in which only what is high comes through
 * @param summary whether many at once come as one
 * @param scale in which its temperatures are
 */
public record Wishes(
        String channel, Priority from, Turn turn, Optional<QuietHours> quiet, boolean summary, Scale scale) {
    public static Wishes standard(String channel) {
        return new Wishes(channel, Priority.MIDDLE, Turn.FIRST, Optional.empty(), true, Scale.CELSIUS);
    }

    /** For as long as nobody vouches for the time: hours of a wrong clock would hold back what is told by day. */
    public Wishes withoutQuiet() {
        return new Wishes(channel, from, turn, Optional.empty(), summary, scale);
    }

    public boolean wants(Priority priority) {
        return priority.compareTo(from) <= 0;
    }
}
