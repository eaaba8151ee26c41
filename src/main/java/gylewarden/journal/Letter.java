package gylewarden.journal;

import gylewarden.control.Condition.Priority;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * One message to one channel, from when it is made until it has arrived or is given up. The id stays the same when it is sent
 * again, so that whoever receives it twice can tell.
 *
 * @param alarm that it is about; those of one alarm reach a channel in the order in which they were made
 * @param channel its name in the config
 * @param subject one line; temperatures as {@link Scale#NEUTRAL} writes them, as in {@code text}
 * @param notBefore it waits for the end of quiet hours, or to be escalated
 * @param giveUp when it is no longer worth sending
 */
public record Letter(
        UUID id,
        Optional<UUID> alarm,
        String channel,
        Kind kind,
        Priority priority,
        String subject,
        String text,
        Instant made,
        Instant notBefore,
        Instant giveUp) {
    public enum Kind {
        /** An alarm is raised, or worse, or true again. */
        ALARM,
        /** An alarm is over. */
        OVER,
        /** Nobody has seen an alarm: again, or to the next. */
        REMINDER,
        /** Whoever was called because nobody had seen it hears that somebody has. */
        SEEN,
        /** Many at once, in one. */
        SUMMARY,
        /** The daily line while somebody is away, and the list before that. */
        ALL_IS_WELL,
        /** Somebody wants to know whether it arrives. */
        TEST
    }
}
