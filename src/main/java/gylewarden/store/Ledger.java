package gylewarden.store;

import gylewarden.batch.Batch;
import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Standing;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * What people asked, and what happened: kept in the database, and in memory as long as it could not be written there. Any thread.
 * What has not been stored yet is found as if it had been.
 */
public final class Ledger {
    private static final Comparator<Listed> ELDEST_FIRST = Comparator.<Listed, Instant>comparing(
                    each -> each.batch().dates().created())
            .thenComparing(each -> each.batch().id().toString());

    private final RecordWriter writer;
    private final Database database;
    private final Lookup lookup;

    public Ledger(RecordWriter writer, Database database) {
        this.writer = writer;
        this.database = database;
        this.lookup = new Lookup(database);
    }

    /** What became of something asked, and the event that tells of it. */
    public record Kept(KeptEvent event, Outcome outcome) {}

    /** Whose events. */
    public sealed interface About {
        record Everything() implements About {}

        record Chamber(String id) implements About {}

        record OfBatch(UUID id) implements About {}
    }

    /**
     * Keeps it, whole or not at all. Returns once it is on the disk itself or known not to be, after {@link
     * RecordWriter#SAVED_WITHIN} at the latest; what could not be saved waits, and is saved when that is possible.
     */
    public Kept keep(Change change) {
        return writer.keep(change);
    }

    /** As above. */
    public Outcome keep(Setting setting) {
        return writer.keep(setting);
    }

    /** Whether the last word about this chamber is in memory only. */
    public boolean isUnsaved(String chamber) {
        return writer.recorder().waiting().standings().containsKey(chamber);
    }

    /** What was asked of a chamber last, with the progress of that moment; the chamber's small file is younger. */
    public Found<Optional<Standing>> standing(String chamber) {
        return inMemory(known -> Optional.ofNullable(known.standings().get(chamber)));
    }

    /** Batches that have not ended, the eldest first. */
    public Found<List<Listed>> running() {
        return inMemory(
                known -> known.batches().values().stream().sorted(ELDEST_FIRST).toList());
    }

    public Found<Optional<Setting>> setting(String name) {
        return inMemory(known -> Optional.ofNullable(known.settings().get(name)));
    }

    private <T> Found<T> inMemory(Function<Known, T> look) {
        Recorder recorder = writer.recorder();
        boolean loaded = recorder.isLoaded();
        Optional<Trouble> missing =
                loaded ? Optional.empty() : recorder.trouble().or(() -> Optional.of(Trouble.closed(database.path())));
        return new Found<>(look.apply(recorder.known()), missing);
    }

    /** Any batch, ended or not. */
    public Found<Optional<Listed>> batch(UUID id) {
        Recorder recorder = writer.recorder();
        Optional<Listed> here = Optional.ofNullable(recorder.waiting().batches().get(id))
                .or(() -> Optional.ofNullable(recorder.known().batches().get(id)));
        if (here.isPresent()) return new Found<>(here, Optional.empty());
        return lookup.readable(handle -> handle.createQuery("SELECT * FROM batch WHERE id = ?")
                        .bind(0, id.toString())
                        .map(LedgerTable.batch())
                        .list())
                .map(rows -> rows.stream().findFirst());
    }

    /**
     * All batches, the youngest first.
     *
     * @param after the last one of the page before
     */
    public Found<List<Listed>> batches(Optional<Batch> after, int limit) {
        Predicate<Listed> follows =
                each -> after.isEmpty() || ELDEST_FIRST.compare(each, new Listed(after.get(), false)) < 0;
        Map<UUID, Listed> found = new LinkedHashMap<>();
        Recorder recorder = writer.recorder();
        Map<UUID, Listed> here = new LinkedHashMap<>(recorder.known().batches());
        here.putAll(recorder.waiting().batches());
        here.values().stream()
                .filter(follows)
                .forEach(each -> found.put(each.batch().id(), each));
        long before = after.map(batch -> batch.dates().created().toEpochMilli()).orElse(Long.MAX_VALUE);
        String beforeId = after.map(batch -> batch.id().toString()).orElse("");
        Found<List<Listed>> stored = lookup.readable(handle -> handle.createQuery(
                        "SELECT * FROM batch WHERE (created_at, id) < (?, ?) ORDER BY created_at DESC, id DESC LIMIT ?")
                .bind(0, before)
                .bind(1, beforeId)
                .bind(2, limit)
                .map(LedgerTable.batch())
                .list());
        return stored.map(rows -> {
            for (Listed each : rows) found.putIfAbsent(each.batch().id(), each);
            return found.values().stream()
                    .sorted(ELDEST_FIRST.reversed())
                    .limit(limit)
                    .toList();
        });
    }

    /** The schedules that a batch has had, the first one first. */
    public Found<List<Revision>> revisions(UUID batch) {
        List<Revision> waiting = writer.recorder().waiting().revisions().values().stream()
                .filter(each -> each.batch().equals(batch))
                .toList();
        Found<List<Revision>> stored = lookup.readable(handle -> LedgerTable.revisions(handle, batch));
        return stored.map(rows -> {
            Map<Integer, Revision> found = new TreeMap<>();
            for (Revision each : rows) found.put(each.revision(), each);
            for (Revision each : waiting) found.put(each.revision(), each);
            return List.copyOf(found.values());
        });
    }

    /**
     * What happened, the latest first.
     *
     * @param before events with smaller numbers only; empty: from the latest
     * @param kind of one kind only; empty: of all
     */
    public Found<List<KeptEvent>> events(About about, Optional<String> kind, Optional<Long> before, int limit) {
        long end = before.orElse(Long.MAX_VALUE);
        // Memory first: what leaves it meanwhile is in the database then, and found twice rather than never.
        List<KeptEvent> waiting = writer.recorder().waiting().events().stream()
                .filter(event -> event.id() < end && matches(about, event.row()))
                .filter(event -> kind.isEmpty() || kind.get().equals(event.row().kind()))
                .toList();
        Found<List<KeptEvent>> stored = lookup.read(List.of(), handle -> {
            var query = handle.createQuery(LedgerTable.EVENT + "WHERE event.id < :before AND " + where(about)
                            + kind.map(one -> " AND event.kind = :kind").orElse("")
                            + " ORDER BY event.id DESC LIMIT :limit")
                    .bind("before", end)
                    .bind("limit", limit);
            kind.ifPresent(one -> query.bind("kind", one));
            if (about instanceof About.Chamber chamber) query.bind("about", chamber.id());
            if (about instanceof About.OfBatch batch)
                query.bind("about", batch.id().toString());
            return query.map(LedgerTable.event()).list();
        });
        return stored.map(rows ->
                merged(waiting, rows, Comparator.comparing(KeptEvent::id).reversed(), limit));
    }

    /** What happened since an event that somebody has seen, in order; for a connection that was lost. */
    public Found<List<KeptEvent>> eventsAfter(long id, int limit) {
        List<KeptEvent> waiting = writer.recorder().waiting().events().stream()
                .filter(event -> event.id() > id)
                .toList();
        Found<List<KeptEvent>> stored = lookup.read(
                List.of(),
                handle -> handle.createQuery(LedgerTable.EVENT + "WHERE event.id > ? ORDER BY event.id LIMIT ?")
                        .bind(0, id)
                        .bind(1, limit)
                        .map(LedgerTable.event())
                        .list());
        return stored.map(rows -> merged(waiting, rows, Comparator.comparing(KeptEvent::id), limit));
    }

    private static List<KeptEvent> merged(
            List<KeptEvent> waiting, List<KeptEvent> stored, Comparator<KeptEvent> order, int limit) {
        Set<Long> ids = new HashSet<>();
        List<KeptEvent> all = new ArrayList<>();
        for (List<KeptEvent> some : List.of(waiting, stored))
            for (KeptEvent each : some) if (ids.add(each.id())) all.add(each);
        return all.stream().sorted(order).limit(limit).toList();
    }

    private static boolean matches(About about, EventRow row) {
        if (about instanceof About.Chamber chamber)
            return row.chamber().filter(chamber.id()::equals).isPresent();
        if (about instanceof About.OfBatch batch)
            return row.batch().filter(batch.id()::equals).isPresent();
        return true;
    }

    private static String where(About about) {
        String key = "(SELECT key FROM name WHERE text = :about)";
        if (about instanceof About.Chamber) return "event.chamber = " + key;
        if (about instanceof About.OfBatch) return "event.batch = " + key;
        return "TRUE";
    }
}
