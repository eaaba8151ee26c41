package gylewarden.app.demo;

import gylewarden.batch.Batch;
import gylewarden.batch.Change;
import gylewarden.batch.Change.Listed;
import gylewarden.batch.Mandate;
import gylewarden.chamber.BatchDesk;
import gylewarden.chamber.Book;
import gylewarden.chamber.Chamber;
import gylewarden.chamber.Clerk;
import gylewarden.chamber.CompressorQueue;
import gylewarden.chamber.Desk;
import gylewarden.chamber.StatusBoard;
import gylewarden.journal.ChamberStatus;
import gylewarden.journal.Event;
import gylewarden.journal.EventWords;
import gylewarden.journal.Minute;
import gylewarden.journal.Minutes;
import gylewarden.journal.Scale;
import gylewarden.simulation.VirtualChamber;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** The demo's house with a board and a book that keep everything in memory. */
final class Days implements StatusBoard, Book {
    static final Instant BEGINNING = Instant.parse("2031-10-03T08:00:00Z");

    /** @param at seconds after the beginning */
    record Told(String chamber, long at, Event event) {
        String words() {
            return new EventWords(Scale.CELSIUS).of(event);
        }
    }

    final List<Told> told = new ArrayList<>();
    final List<Change> changes = new ArrayList<>();
    final Map<String, List<Minute>> minutes = new HashMap<>();
    final DemoHouse house;
    private final Map<String, Minutes> tallies = new HashMap<>();
    private final Map<UUID, Listed> listed = new LinkedHashMap<>();
    private long ids;

    Days() {
        var site = new VirtualChamber.Site(BEGINNING, "days", new CompressorQueue(), false);
        List<VirtualChamber> chambers = DemoChamber.all().stream()
                .map(each -> new VirtualChamber(
                        each.plant(),
                        each.disturbances(),
                        Chamber.Plan.fresh(each.id(), each.rules(), Mandate.nothing()),
                        site,
                        this,
                        each.seed()))
                .toList();
        var clerk = new Clerk(
                chambers.stream().map(VirtualChamber::chamber).toList(),
                this,
                this,
                chambers.get(0).clocks());
        house = new DemoHouse(chambers, new Desk(clerk), new BatchDesk(clerk, () -> new UUID(5, ++ids)));
    }

    @Override
    public void publish(ChamberStatus status) {
        String id = status.chamber();
        Minutes.Told next = tallies.getOrDefault(id, Minutes.none()).after(status);
        tallies.put(id, next.minutes());
        minutes.computeIfAbsent(id, none -> new ArrayList<>()).addAll(next.ended());
    }

    @Override
    public void happened(String chamber, Event event) {
        told.add(new Told(chamber, event.at().nanos() / 1_000_000_000L, event));
    }

    @Override
    public Optional<String> keep(Change change) {
        changes.add(change);
        for (Listed each : change.batches()) listed.put(each.batch().id(), each);
        return Optional.empty();
    }

    @Override
    public List<Listed> running() {
        return listed.values().stream()
                .filter(each -> each.batch().stage() != Batch.Stage.ENDED)
                .toList();
    }

    @Override
    public Optional<Listed> batch(UUID id) {
        return Optional.ofNullable(listed.get(id));
    }
}
