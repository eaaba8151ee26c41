package gylewarden.alarm;

import gylewarden.alarm.Change.What;
import gylewarden.journal.AlarmMatters;
import gylewarden.journal.Scale;
import gylewarden.units.Uptime;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

/** Looks once a second at what a test makes up, and remembers what changed. */
final class AlarmLife {
    static final Instant BEGINNING = Instant.parse("2030-01-01T00:00:00Z");
    static final String WHO = "browser 3f2a9c";

    private long seconds = 5_000;
    private long nextId;
    private Findings findings = Findings.none();
    Alarms alarms = Alarms.none(this::id);
    final List<Change> changes = new ArrayList<>();

    private UUID id() {
        return new UUID(4, ++nextId);
    }

    Uptime now() {
        return Uptime.ofSeconds(seconds);
    }

    Moment moment() {
        return new Moment(now(), BEGINNING.plusSeconds(seconds));
    }

    /** All is well, for long enough that the beer has arrived. */
    AlarmLife afterAnHour() {
        return see(Seen.well(), Duration.ofHours(1));
    }

    /** Looks at it each second of the span, the first look a second from now. */
    AlarmLife see(Seen seen, Duration span) {
        return see(List.of(seen), span);
    }

    AlarmLife see(List<Seen> several, Duration span) {
        for (long i = span.toSeconds(); i > 0; i--) {
            seconds++;
            Findings.Found found = findings.of(
                    several.stream().map(Seen::sight).toList(),
                    several.get(0).board(),
                    new AlarmMatters(Scale.NEUTRAL),
                    now());
            findings = found.next();
            take(alarms.after(moment(), found.findings()));
        }
        return this;
    }

    /** The daemon is restarted: only what is open is kept. */
    AlarmLife restart() {
        findings = Findings.none();
        alarms = Alarms.restored(alarms.open(), moment(), this::id);
        return this;
    }

    private void take(Alarms.Step step) {
        alarms = step.alarms();
        changes.addAll(step.changes());
    }

    Alarm only() {
        if (alarms.open().size() != 1) throw new AssertionError("not one alarm: " + alarms.open());
        return alarms.open().get(0);
    }

    AlarmLife acknowledge() {
        take(alarms.acknowledge(only().id(), WHO, moment()));
        return this;
    }

    AlarmLife shelve(Duration span) {
        take(alarms.shelve(only().id(), span, moment()));
        return this;
    }

    AlarmLife unshelve() {
        take(alarms.unshelve(only().id(), moment()));
        return this;
    }

    AlarmLife reset() {
        take(alarms.reset(only().id(), WHO, moment()));
        return this;
    }

    List<What> whats() {
        return changes.stream().map(Change::what).toList();
    }

    List<Rule> open() {
        return alarms.open().stream().map(alarm -> alarm.key().rule()).toList();
    }
}
