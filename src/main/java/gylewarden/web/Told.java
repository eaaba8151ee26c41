package gylewarden.web;

import gylewarden.journal.EventWords.Loudness;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/**
 * Something that happened, as the record holds it.
 *
 * @param id counts up
 * @param trusted whether the clock could be trusted that gave {@code at}
 * @param chamber absent for what concerns the daemon itself
 * @param kind in one word
 * @param sentence temperatures as {@code journal.Scale.NEUTRAL} writes them
 * @param actor the person's browser; absent for what the daemon did by itself
 */
public record Told(
        long id,
        Instant at,
        boolean trusted,
        Optional<String> chamber,
        Optional<UUID> batch,
        String kind,
        Loudness loudness,
        String sentence,
        Optional<String> actor) {}
