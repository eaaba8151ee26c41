package gylewarden.web;

import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.chamber.Book;
import gylewarden.journal.EventWords.Loudness;
import gylewarden.journal.Minute.Spread;
import gylewarden.schedule.Schedule;
import gylewarden.store.RecordFailed;
import gylewarden.store.Thinned;
import gylewarden.store.Thinned.Bucket;
import gylewarden.store.Trouble;
import gylewarden.units.Temperature;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.Predicate;

/** A record that forgets everything when the test ends. */
final class MemoryRecord implements Book, Chronicle {
    /** Each span that was read, as "chamber from to". */
    final List<String> readingsAsked = new java.util.concurrent.CopyOnWriteArrayList<>();

    private final Map<UUID, Listed> batches = new LinkedHashMap<>();
    private final List<Told> events = new ArrayList<>();
    private final Map<UUID, List<Revision>> revisions = new LinkedHashMap<>();
    private Optional<String> trouble = Optional.empty();
    private Consumer<Told> told = event -> {};

    /** From now on nothing can be saved. */
    synchronized void breakDown(String why) {
        trouble = Optional.of(why);
    }

    synchronized void repair() {
        trouble = Optional.empty();
    }

    synchronized boolean isSaved() {
        return trouble.isEmpty();
    }

    synchronized void tell(Consumer<Told> listener) {
        told = listener;
    }

    synchronized void happened(Instant at, String chamber, String kind, Loudness loudness, String sentence) {
        add(new Told(
                events.size() + 1L,
                at,
                true,
                Optional.of(chamber),
                Optional.empty(),
                kind,
                loudness,
                sentence,
                Optional.empty()));
    }

    private void add(Told event) {
        events.add(event);
        told.accept(event);
    }

    @Override
    public synchronized Optional<String> keep(Change change) {
        for (Listed listed : change.batches()) batches.put(listed.batch().id(), listed);
        Change.Said said = change.said();
        add(new Told(
                events.size() + 1L,
                said.at().wall(),
                said.at().trusted(),
                Optional.of(said.chamber()),
                said.batch(),
                said.kind(),
                Loudness.INFO,
                said.sentence(),
                Optional.of(said.actor())));
        change.newSchedule().ifPresent(id -> {
            var batch = batches.get(id).batch();
            Schedule schedule = batch.schedule();
            revisions
                    .computeIfAbsent(id, none -> new ArrayList<>())
                    .add(0, new Revision(batch.revision(), said.at().wall(), said.actor(), schedule));
        });
        return trouble;
    }

    @Override
    public synchronized List<Listed> running() {
        return batches.values().stream()
                .filter(listed -> listed.batch().dates().ended().isEmpty())
                .toList();
    }

    @Override
    public synchronized Optional<Listed> batch(UUID id) {
        return Optional.ofNullable(batches.get(id));
    }

    @Override
    public synchronized List<Listed> batches() {
        List<Listed> youngestFirst = new ArrayList<>(batches.values());
        java.util.Collections.reverse(youngestFirst);
        return youngestFirst;
    }

    @Override
    public synchronized List<Revision> revisions(UUID batch) {
        return List.copyOf(revisions.getOrDefault(batch, List.of()));
    }

    @Override
    public synchronized List<Told> ofChamber(String chamber, Optional<Long> before, int most) throws RecordFailed {
        if (trouble.isPresent()) throw new RecordFailed(new Trouble(Trouble.Kind.DISK_FULL, trouble.get()));
        return latest(event -> event.chamber().filter(chamber::equals).isPresent(), before, most);
    }

    @Override
    public List<Told> ofBatch(UUID batch, Optional<Long> before, int most) {
        return latest(event -> event.batch().equals(Optional.of(batch)), before, most);
    }

    @Override
    public List<Told> notes(UUID batch) {
        return latest(
                event ->
                        event.batch().equals(Optional.of(batch)) && event.kind().equals("Note"),
                Optional.empty(),
                1000);
    }

    @Override
    public List<Left> left(UUID batch) {
        List<Told> told = latest(
                event ->
                        event.batch().equals(Optional.of(batch)) && event.kind().equals("BatchLeft"),
                Optional.empty(),
                1000);
        List<Left> firstFirst = new ArrayList<>();
        told.forEach(event -> firstFirst.add(0, new Left(event.chamber().orElseThrow(), event.at())));
        return firstFirst;
    }

    private synchronized List<Told> latest(Predicate<Told> which, Optional<Long> before, int most) {
        return events.stream()
                .filter(which)
                .filter(event -> before.isEmpty() || event.id() < before.get())
                .sorted(Comparator.comparing(Told::id).reversed())
                .limit(most)
                .toList();
    }

    /** An hour a bucket; the beer doubted in the second of them. */
    @Override
    public Thinned readings(String chamber, Instant from, Instant to, int points) {
        readingsAsked.add(chamber + " " + from + " " + to);
        List<Bucket> buckets = new ArrayList<>();
        Duration hour = Duration.ofHours(1);
        for (Instant at = from; at.isBefore(to) && buckets.size() < points; at = at.plus(hour)) {
            Spread beer = new Spread(new Temperature(18.812), new Temperature(18.9375), new Temperature(19));
            buckets.add(new Bucket(
                    at,
                    hour,
                    Optional.of(new Temperature(19)),
                    buckets.size() == 1 ? Optional.empty() : Optional.of(beer),
                    Optional.empty(),
                    Optional.of(beer),
                    Optional.empty(),
                    Duration.ofMinutes(15),
                    Duration.ZERO));
        }
        return new Thinned(hour, buckets);
    }

    @Override
    public Pieces table(UUID batch) {
        Deque<String> pieces = new ArrayDeque<>(List.of("at,beer_celsius\n", "2026-11-25T14:00:00Z,18.94\n"));
        return () -> Optional.ofNullable(pieces.poll());
    }

    @Override
    public synchronized State state() {
        return new State(
                trouble.map(why -> Instant.parse("2026-11-25T13:00:00Z")),
                trouble.orElse("All is on the disk."),
                0,
                0,
                trouble.isEmpty() ? Optional.of(1) : Optional.empty());
    }
}
