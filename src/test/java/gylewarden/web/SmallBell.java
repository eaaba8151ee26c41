package gylewarden.web;

import gylewarden.alarm.Alarm;
import gylewarden.alarm.Alarms;
import gylewarden.alarm.Finding;
import gylewarden.alarm.Key;
import gylewarden.alarm.Moment;
import gylewarden.alarm.Rule;
import gylewarden.chamber.Answer;
import gylewarden.journal.AlarmAdvice;
import gylewarden.post.Wishes;
import gylewarden.store.Outbox.Went;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Supplier;

/** Alarms of a small house, with their real life, and one channel. */
final class SmallBell implements Bell {
    private static final Answer DONE = new Answer.Done(Optional.empty(), Optional.empty());

    private final Supplier<Moment> clock;
    private final AtomicLong ids = new AtomicLong();
    private Alarms alarms = Alarms.none(() -> new UUID(0x5000, 0x8000_0000_0000_0000L + ids.incrementAndGet()));
    private Wishes wishes = Wishes.standard("phone");
    private Optional<Instant> away = Optional.empty();
    private final Set<OutOfService> outOfService = new LinkedHashSet<>();
    final List<String> tests = new ArrayList<>();

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
        alarms = alarms.after(clock.get(), List.of(atOnce)).alarms();
        return alarms.open().get(0);
    }

    @Override
    public synchronized List<Alarm> open() {
        return alarms.open();
    }

    @Override
    public List<Alarm> all(Optional<Alarm> before, int most) {
        return before.isPresent() ? List.of() : open();
    }

    @Override
    public synchronized Optional<Alarm> find(UUID alarm) {
        return alarms.find(alarm);
    }

    @Override
    public List<Went> letters(UUID alarm) {
        return List.of();
    }

    @Override
    public Advice advice(Alarm alarm) {
        return new Advice(
                AlarmAdvice.name(alarm.key().rule()),
                AlarmAdvice.lookFirst(alarm.key().rule()),
                AlarmAdvice.neighbour(alarm.key().rule()),
                AlarmAdvice.CAUTION);
    }

    @Override
    public Answer acknowledge(UUID alarm, String actor) {
        return step(alarm, alarms.acknowledge(alarm, actor, clock.get()));
    }

    @Override
    public Answer quiet(UUID alarm, Duration span, String actor) {
        if (span.compareTo(Alarms.SHORTEST_QUIET) < 0 || span.compareTo(Alarms.LONGEST_QUIET) > 0)
            return Answer.Refused.of(Answer.Why.NOT_ALLOWED, "duration", "1 min to 7 days");
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
        alarms = step.alarms();
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
        return List.of(new Line(wishes, "webhook", 0, Optional.empty(), Optional.empty(), Optional.empty()));
    }

    @Override
    public Answer wish(Wishes wanted, String actor) {
        wishes = wanted;
        return DONE;
    }

    @Override
    public Answer test(String channel, String actor) {
        tests.add(channel);
        return DONE;
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
