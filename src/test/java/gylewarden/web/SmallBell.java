package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarms;
import gylewarden.alarm.Change;
import gylewarden.alarm.Finding;
import gylewarden.alarm.Key;
import gylewarden.alarm.Moment;
import gylewarden.alarm.Rule;
import gylewarden.chamber.Answer;
import gylewarden.post.Wishes;
import gylewarden.store.Outbox.Went;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.function.Supplier;

/** Alarms of a small house, with their real life; a phone, a lamp and a heartbeat. */
final class SmallBell implements Bell {
    private static final Answer DONE = new Answer.Done(Optional.empty(), Optional.empty());

    private final Supplier<Moment> clock;
    private final AtomicLong ids = new AtomicLong();
    private Alarms alarms = Alarms.none(() -> new UUID(0x5000, 0x8000_0000_0000_0000L + ids.incrementAndGet()));
    private Wishes wishes = Wishes.standard("phone");
    private Wishes lampWishes = Wishes.standard("lamp");
    private Optional<Instant> lampTested = Optional.empty();
    private Optional<Instant> beat = Optional.empty();
    private Optional<Instant> away = Optional.empty();
    private final Set<OutOfService> outOfService = new LinkedHashSet<>();
    final List<String> tests = new ArrayList<>();
    private final Map<UUID, Alarm> known = new LinkedHashMap<>();
    private final Map<UUID, List<Went>> letters = new LinkedHashMap<>();
    private Optional<Failing> failing = Optional.empty();
    private Optional<Instant> tested = Optional.empty();
    private Optional<String> unsaved = Optional.empty();
    private Consumer<Alarm> told = alarm -> {};

    SmallBell(Supplier<Moment> clock) {
        this.clock = clock;
    }

    /** An alarm rings from now on, whatever its delay. */
    synchronized Alarm ring(Rule rule, String chamber, String sentence) {
        Finding finding = Finding.active(Key.of(rule, chamber), sentence);
        Finding atOnce = new Finding(
                finding.key(),
                finding.standing(),
                finding.priority(),
                Duration.ZERO,
                finding.off(),
                finding.sentence());
        take(alarms.after(clock.get(), List.of(atOnce)));
        return alarms.open().stream()
                .filter(alarm -> alarm.key().equals(finding.key()))
                .findFirst()
                .orElseThrow();
    }

    /** What there was to find is gone, for longer than any rule waits. */
    synchronized void calm() {
        Moment now = clock.get();
        take(alarms.after(now, List.of()));
        for (int i = 1; i <= 300; i++)
            take(alarms.after(new Moment(now.at().plus(Duration.ofMinutes(2L * i)), now.wall()), List.of()));
    }

    private void take(Alarms.Step step) {
        alarms = step.alarms();
        for (Change change : step.changes()) {
            known.put(change.alarm().id(), change.alarm());
            told.accept(change.alarm());
        }
    }

    synchronized void tell(Consumer<Alarm> listener) {
        told = listener;
    }

    synchronized void wrote(Alarm alarm, Went went) {
        letters.computeIfAbsent(alarm.id(), id -> new ArrayList<>()).add(went);
    }

    /** What is sent by the channel from now on does not arrive. */
    synchronized void fail(Failing how) {
        failing = Optional.of(how);
    }

    @Override
    public synchronized List<Alarm> open() {
        return alarms.open();
    }

    @Override
    public List<Alarm> all(Optional<Alarm> before, int most) {
        synchronized (this) {
            List<Alarm> all = new ArrayList<>(known.values());
            Collections.reverse(all);
            int begin =
                    before.map(last -> all.indexOf(known.get(last.id())) + 1).orElse(0);
            return all.stream().skip(begin).limit(most).toList();
        }
    }

    @Override
    public synchronized Optional<Alarm> find(UUID alarm) {
        return Optional.ofNullable(known.get(alarm));
    }

    @Override
    public synchronized List<Went> letters(UUID alarm) {
        return List.copyOf(letters.getOrDefault(alarm, List.of()));
    }

    @Override
    public Answer acknowledge(UUID alarm, String actor) {
        return step(alarm, alarms.acknowledge(alarm, actor, clock.get()));
    }

    @Override
    public Answer quiet(UUID alarm, Duration span, String actor) {
        if (span.compareTo(Alarms.SHORTEST_QUIET) < 0 || span.compareTo(Alarms.LONGEST_QUIET) > 0)
            return Answer.Refused.of(
                    Answer.Why.NOT_ALLOWED, "duration", "is " + span + "; it can be quiet for 1 min to 7 days");
        return step(alarm, alarms.shelve(alarm, span, clock.get()));
    }

    @Override
    public Answer loud(UUID alarm, String actor) {
        return step(alarm, alarms.unshelve(alarm, clock.get()));
    }

    @Override
    public Answer mended(UUID alarm, String actor) {
        return step(alarm, alarms.reset(alarm, actor, clock.get()));
    }

    private synchronized Answer step(UUID alarm, Alarms.Step step) {
        if (alarms.find(alarm).isEmpty())
            return Answer.Refused.of(Answer.Why.NOT_FOUND, "", "There is no such alarm open.");
        take(step);
        return DONE;
    }

    @Override
    public List<OutOfService> outOfService() {
        return List.copyOf(outOfService);
    }

    @Override
    public Answer service(OutOfService where, boolean inService, String actor) {
        if (inService) outOfService.remove(where);
        else outOfService.add(where);
        return DONE;
    }

    @Override
    public List<Line> channels() {
        return List.of(
                new Line("phone", "webhook", Optional.of(wishes), 0, tested, failing, tested, Optional.empty()),
                new Line(
                        "lamp",
                        "relay",
                        Optional.of(lampWishes),
                        0,
                        Optional.empty(),
                        Optional.empty(),
                        lampTested,
                        Optional.of(lampTested.isPresent())),
                new Line("alive", "heartbeat", Optional.empty(), 0, beat, Optional.empty(), beat, Optional.empty()));
    }

    @Override
    public Answer wish(Wishes wanted, String actor) {
        if (wanted.channel().equals("lamp")) lampWishes = wanted;
        else wishes = wanted;
        return DONE;
    }

    /** From now on nothing is on the disk. */
    void saveNothing(String why) {
        unsaved = Optional.of(why);
    }

    @Override
    public Answer test(String channel, String actor) {
        tests.add(channel);
        Optional<Instant> now = Optional.of(clock.get().wall());
        switch (channel) {
            case "lamp" -> lampTested = now;
            case "alive" -> beat = now;
            default -> tested = failing.isEmpty() ? now : tested;
        }
        return new Answer.Done(Optional.empty(), unsaved);
    }

    @Override
    public ZoneId zone() {
        return ZoneOffset.UTC;
    }

    @Override
    public Optional<Instant> awayUntil() {
        return away;
    }

    @Override
    public List<String> beforeGoing(Instant until) {
        return List.of("The channel phone was not tested in the last 30 days.");
    }

    @Override
    public Answer away(Optional<Instant> until, String actor) {
        away = until;
        return DONE;
    }
}
