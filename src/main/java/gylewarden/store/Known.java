package gylewarden.store;

import gylewarden.batch.Batch.Stage;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;

/**
 * What still matters: what people asked of every chamber, every batch that has not ended, every setting, alarms that are not
 * over, and letters that have not gone out. Held in memory beside the database, so that it can be read while that is broken
 * and goes into a new one when the old had to be set aside.
 */
record Known(
        Map<String, Standing> standings,
        Map<UUID, Listed> batches,
        Map<Revision.Key, Revision> revisions,
        Map<String, Setting> settings,
        Mail mail) {
    Known {
        standings = Map.copyOf(standings);
        batches = Map.copyOf(batches);
        revisions = Map.copyOf(revisions);
        settings = Map.copyOf(settings);
    }

    static Known nothing() {
        return new Known(Map.of(), Map.of(), Map.of(), Map.of(), Mail.NOTHING);
    }

    /** With what has been asked since this was known. */
    Known with(Waiting asked) {
        Map<UUID, Listed> active = both(batches, asked.batches());
        active.values().removeIf(each -> each.batch().stage() == Stage.ENDED);
        Map<Revision.Key, Revision> theirs = both(revisions, asked.revisions());
        theirs.keySet().removeIf(key -> !active.containsKey(key.batch()));
        return new Known(
                both(standings, asked.standings()),
                active,
                theirs,
                both(settings, asked.settings()),
                mail.with(asked.mail()).open());
    }

    /** With alarms and letters that have changed. */
    Known with(Mail changed) {
        return new Known(
                standings, batches, revisions, settings, mail.with(changed).open());
    }

    /** The clock is believed. */
    Known with(Redating dating) {
        return new Known(standings, batches, revisions, settings, mail.dated(dating));
    }

    private static <K, V> Map<K, V> both(Map<K, V> older, Map<K, V> newer) {
        Map<K, V> all = new LinkedHashMap<>(older);
        all.putAll(newer);
        return all;
    }
}
